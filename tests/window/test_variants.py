"""Again, as a variant, side by side and the recipes of one's own, by menu and keys."""

from datetime import datetime, timedelta, timezone

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from tests.window.test_reachable import cut_off, nameless
from winebench.model.edits import Change, changed
from winebench.model.log import Record
from winebench.model.recipe import Measured
from winebench.store import recent
from winebench.store.own_recipes import keep_recipe, own_recipes, recipes_folder
from winebench.store.project_file import read, write
from winebench.store.samples import load_sample
from winebench.window.variants.compare_dialog import CompareDialog
from winebench.window.variants.recipes_dialog import RecipesDialog

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
AT = datetime(2027, 3, 1, 10, 0, tzinfo=timezone(timedelta(hours=1)))


def with_records(project, step, **records):
    """Return the project with what was written down at that step."""
    made = tuple(Record(name=name, value=value) for name, value in records.items())
    log = tuple(
        changed(entry, records=made) if getattr(entry, "step", "") == step else entry
        for entry in project.log
    )
    return changed(project, log=log)


@pytest.fixture
def bottled(open_window):
    """Return a window on a finished batch whose log has more sugar than its recipe."""
    project = load_sample("elder-blackberry-bottled")
    return open_window(with_records(project, "sugar-water", sugar="2150"), AT)


def press(window, key):
    """Take the Project menu's action of that letter."""
    menu = window.menuBar().actions()[0].menu()
    menu.popup(QPoint(0, 0))
    QTest.keyClick(menu, key)


def other_file(tmp_path, name="pear-under-airlock"):
    path = tmp_path / f"{name}.winebench"
    write(path, load_sample(name))
    recent.remember_file(path)
    return path


def cells(table, row):
    return [table.item(row, column).text() for column in range(table.columnCount())]


def row_of(table, what):
    return next(row for row in range(table.rowCount()) if table.item(row, 0).text() == what)


# --- again and variants -----------------------------------------------------------------------


def test_making_it_again_opens_an_unsaved_batch_and_says_what_the_log_changed(bottled):
    old = bottled.document.project
    press(bottled, Qt.Key.Key_G)
    new = bottled.document.project
    assert new.name == "Lane hedge elder and blackberry, again"
    assert (new.log, bottled.document.session.path) == ((), None)
    assert new.line("sugar").amount.text == "1.075 kg"
    assert "White sugar: 2.15 kg went in, not 2.00 kg." in bottled.banner.sentence
    assert not bottled.banner.passing
    assert old.line("sugar").amount.text == "1 kg"


def test_a_batch_made_again_is_kept_without_a_key_being_pressed(bottled):
    press(bottled, Qt.Key.Key_G)
    assert bottled.document.session.dirty
    assert bottled.keeper.keep()
    bottled.files.open_sample("damson-design")
    assert "Lane hedge elder and blackberry, again" in [
        words for words, _take in bottled.files.kept_work()
    ]


def test_it_asks_for_this_years_fruit_in_the_banner_and_beside_the_line(open_window):
    window = open_window("pear-under-airlock")
    press(window, Qt.Key.Key_G)
    asked = "last time: 11.8 °Brix, 3.2 g/L acid, pH 3.7; measure this year's"
    assert asked in window.banner.sentence
    assert window.document.project.fruits[0].measured == Measured()
    beside = next(line for line in window.document.outlook.lines if line.id == "pears")
    assert any(asked in caution.sentence for caution in beside.cautions)


def test_the_batch_left_behind_keeps_its_work(bottled):
    bottled.document.edit(Change(label="name", fields={"name": "Third hedge"}))
    press(bottled, Qt.Key.Key_G)
    assert "Third hedge" in [words for words, _take in bottled.files.kept_work()]


def test_a_variant_has_the_recipe_as_written_and_another_name(bottled):
    old = bottled.document.project
    press(bottled, Qt.Key.Key_V)
    new = bottled.document.project
    assert (new.recipe, new.name) == (old.recipe, f"{old.name}, variant")
    assert (new.log, bottled.document.session.path) == ((), None)
    assert new.id != old.id
    assert "variant" in bottled.banner.sentence


# --- side by side -----------------------------------------------------------------------------


def compared(window):
    press(window, Qt.Key.Key_C)
    dialog = window.findChild(CompareDialog)
    assert dialog.isVisible()
    return dialog


def test_the_last_file_is_compared_at_once_and_down_takes_the_next(bottled, tmp_path):
    other_file(tmp_path, "damson-design")
    other_file(tmp_path, "pear-under-airlock")
    dialog = compared(bottled)
    assert "That: South wall pear" in dialog.said.text()
    row = row_of(dialog.table, "White sugar")
    assert cells(dialog.table, row)[:3] == ["White sugar", "215 g/L", "100 g/L"]
    assert "(Reg. (EU)" in dialog.table.item(row, 3).text()
    assert dialog.focusWidget() is dialog.choice
    QTest.keyClick(dialog.choice, Qt.Key.Key_Down)
    assert "That: Hedge damson" in dialog.said.text()
    dialog.reject()


def test_every_row_is_one_sentence_for_a_screen_reader(bottled, tmp_path):
    other_file(tmp_path)
    dialog = compared(bottled)
    item = dialog.table.item(row_of(dialog.table, "Grape tannin"), 0)
    spoken = item.data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("Grape tannin: this none; that 0.062 g/L. Softer")
    assert nameless(dialog) == []
    assert cut_off(dialog) == []
    assert dialog.height() <= 700
    titles = [row for row in range(dialog.table.rowCount()) if not dialog.table.item(row, 1)]
    assert dialog.table.item(titles[0], 0).text() == "The recipe as it was made, a litre of must"
    assert not dialog.table.item(titles[0], 0).flags() & Qt.ItemFlag.ItemIsSelectable
    dialog.reject()


def test_the_keyboard_reaches_the_table_and_the_close_button(bottled, tmp_path):
    other_file(tmp_path)
    dialog = compared(bottled)
    reached = []
    for _ in range(3):
        QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_Tab)
        reached.append(dialog.focusWidget())
    assert reached == [dialog.another, dialog.table, dialog.leave]
    first = dialog.table.currentRow()
    dialog.table.setFocus()
    QTest.keyClick(dialog.table, Qt.Key.Key_Down)
    assert dialog.table.currentRow() > first
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_without_other_batches_a_file_is_asked_for(bottled, tmp_path):
    dialog = compared(bottled)
    assert not dialog.choice.isEnabled()
    assert dialog.focusWidget() is dialog.another
    QTest.keyClick(dialog.another, Qt.Key.Key_Space)
    asked = dialog.findChild(QFileDialog)
    path = tmp_path / "pear.winebench"
    write(path, load_sample("pear-under-airlock"))
    asked.filesSelected.emit([str(path)])
    asked.reject()
    assert "That: South wall pear" in dialog.said.text()
    assert dialog.choice.isEnabled()
    dialog.reject()


def test_a_file_that_cannot_be_read_is_told_and_the_next_choice_works(bottled, tmp_path):
    other_file(tmp_path)
    broken = tmp_path / "broken.winebench"
    broken.write_text("{", "utf-8")
    dialog = compared(bottled)
    dialog.compare_with(broken)
    assert "broken.winebench" in dialog.said.text()
    assert dialog.table.rowCount() == 0
    dialog.choice.setFocus()
    QTest.keyClick(dialog.choice, Qt.Key.Key_Up)
    assert dialog.table.rowCount() > 4
    dialog.reject()


def test_a_batch_made_again_can_be_set_beside_the_unsaved_one_that_it_came_from(bottled):
    bottled.document.edit(Change(label="name", fields={"name": "Third hedge"}))
    press(bottled, Qt.Key.Key_G)
    dialog = compared(bottled)
    assert "Third hedge (not in a file)" in dialog.choice.currentText()
    assert "Nothing differs" in dialog.alike.text()
    assert dialog.table.rowCount() == 0
    dialog.reject()


# --- recipes of one's own ---------------------------------------------------------------------


def shown(qtbot, window):
    press(window, Qt.Key.Key_I)
    dialog = window.findChild(RecipesDialog)
    qtbot.waitUntil(lambda: not dialog.busy, timeout=10_000)
    return dialog


def test_a_recipe_is_kept_as_written_without_its_log_and_a_second_gets_a_number(bottled):
    press(bottled, Qt.Key.Key_F)
    press(bottled, Qt.Key.Key_F)
    assert "kept as Lane hedge elder and blackberry 2 as there is a" in bottled.banner.sentence
    first, second = own_recipes()
    written = bottled.document.project.recipe.lines
    assert [changed(line, note="") for line in first.project.recipe.lines] == [
        changed(line, note="") for line in written
    ]
    assert "of all the fruit together; measure this year's" in first.project.fruits[0].note
    assert (first.project.log, first.project.start, first.project.drafts) == ((), None, ())
    assert second.path.name == "Lane hedge elder and blackberry 2.winebench"
    assert bottled.document.project.log


def test_recipes_are_listed_with_style_size_and_gravity_and_enter_starts_one(qtbot, bottled):
    keep_recipe(load_sample("damson-design"))
    press(bottled, Qt.Key.Key_F)
    dialog = shown(qtbot, bottled)
    assert cells(dialog.list, 0)[:3] == [
        "Hedge damson, second try", "dark fruit, dry, keep a year", "5 gal US"]  # fmt: skip
    assert cells(dialog.list, 0)[3].startswith("1.0")
    assert dialog.focusWidget() is dialog.list
    assert nameless(dialog) == []
    assert cut_off(dialog) == []
    QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert not dialog.isVisible()
    project = bottled.document.project
    kept = [each.project for each in own_recipes()]
    assert project.recipe == kept[1].recipe
    assert (project.log, bottled.document.session.path) == ((), None)
    assert project.id not in {each.id for each in kept}
    assert len(bottled.files.kept_work()) == 0


def test_what_cannot_be_read_stands_in_the_list_with_the_reason_and_starts_nothing(qtbot, bottled):
    recipes_folder().mkdir(parents=True)
    (recipes_folder() / "Broken.winebench").write_text("{", "utf-8")
    before = bottled.document.project
    dialog = shown(qtbot, bottled)
    assert dialog.list.item(0, 0).text() == "Broken"
    assert "truncated" in dialog.list.item(0, 1).text()
    assert not dialog.take.isEnabled()
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert bottled.document.project == before
    dialog.reject()


def test_an_empty_list_says_how_to_fill_it(qtbot, bottled):
    dialog = shown(qtbot, bottled)
    assert "Keep as a recipe of mine" in dialog.said.text()
    assert not dialog.take.isEnabled()
    dialog.reject()


def test_a_folder_that_cannot_be_used_is_told(qtbot, bottled, own_state):
    (own_state / "recipes").write_text("in the way", "utf-8")
    press(bottled, Qt.Key.Key_F)
    assert "cannot be kept" in bottled.banner.sentence
    assert [way.text() for way in bottled.banner.ways] == ["Save as…"]
    dialog = shown(qtbot, bottled)
    assert "cannot be looked into" in dialog.said.text()
    dialog.reject()


def test_changing_a_batch_of_a_recipe_leaves_the_recipe_alone(qtbot, bottled):
    press(bottled, Qt.Key.Key_F)
    before = next(own_recipes()).path.read_bytes()
    dialog = shown(qtbot, bottled)
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    bottled.document.edit(Change(label="name", fields={"name": "Mine now"}))
    bottled.keeper.keep()
    assert next(own_recipes()).path.read_bytes() == before
    assert read(next(own_recipes()).path).name == "Lane hedge elder and blackberry"
