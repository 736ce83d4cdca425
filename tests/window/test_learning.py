"""The batches that the forecast learns from: listed, taken in and out by keys, each undone."""

import re
from datetime import datetime, timedelta, timezone

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QPushButton

from tests.window.test_reachable import cut_off, nameless
from winebench.model.edits import changed
from winebench.plan.learning.learn_from import learn_from
from winebench.plan.learning.own_ferments import NOTHING_LEARNED
from winebench.plan.learning.own_losses import NO_LOSSES
from winebench.store import recent
from winebench.store.project_file import write
from winebench.store.samples import load_sample
from winebench.window.batch.learning import LearningDialog
from winebench.window.timeline.table import rows_of

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
ELDER, PEAR = "Lane hedge elder and blackberry", "South wall pear"
AT = datetime(2027, 9, 20, 10, 0, tzinfo=timezone(timedelta(hours=1)))
BATCH, LEARNED, WENT = range(3)


@pytest.fixture
def damson(open_window):
    """Return a window on a batch that is still a design, after the others were finished."""
    return open_window("damson-design", AT)


@pytest.fixture
def kept(tmp_path):
    """Return two finished batches and one that has only begun, opened lately in that order."""
    files = {}
    for short, name in (
        ("begun", "raspberry-day-3"),
        ("pear", "pear-under-airlock"),
        ("elder", "elder-blackberry-bottled"),
    ):
        files[short] = tmp_path / f"{short}.winebench"
        write(files[short], changed(load_sample(name), id=short))
        recent.remember_file(files[short])
    return files


def opened(qtbot, window):
    action = next(each for menu in window.menuBar().actions() for each in menu.menu().actions()
                  if "finished batches" in each.text())  # fmt: skip
    action.trigger()
    (dialog,) = (each for each in window.findChildren(LearningDialog) if each.isVisible())
    done(qtbot, dialog)
    return dialog


def done(qtbot, dialog):
    qtbot.waitUntil(lambda: not dialog.busy, timeout=20_000)


def rows(dialog):
    table = dialog.list
    return [tuple(table.item(row, column).text() for column in range(3))
            for row in range(table.rowCount())]  # fmt: skip


def names(window):
    return [one.name for one in window.document.project.own_ferments]


def go_to(dialog, name):
    """Go with the arrow keys to the batch of that name."""
    dialog.list.setFocus()
    QTest.keyClick(dialog.list, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
    for _ in range(dialog.list.rowCount()):
        if dialog.chosen.name == name:
            return
        QTest.keyClick(dialog.list, Qt.Key.Key_Down)
    raise AssertionError(f"{name} is not listed")


def forecast(qtbot, window):
    qtbot.waitUntil(lambda: not window.document.forecasts.busy, timeout=20_000)
    return window.document.outlook.forecast


def test_recent_batches_are_listed_with_what_each_says_or_why_it_says_nothing(qtbot, damson, kept):
    dialog = opened(qtbot, damson)
    found = {row[BATCH]: row for row in rows(dialog)}
    assert found[ELDER][LEARNED] == "no"
    ran, lost = found[ELDER][WENT].split("; ")
    assert re.fullmatch(r"ran about 5\d % slower than the usual( and started .* sooner)?", ran)
    assert lost == "lost 0.7 L in 2 rackings of 10.0 L, about 0.7 times the usual"
    assert found["Row's end raspberry"][LEARNED] == "no"
    assert "it takes 4 to learn from" in found["Row's end raspberry"][WENT]
    assert dialog.going_by.text() == NOTHING_LEARNED
    assert nameless(dialog) == []
    assert cut_off(dialog) == []
    go_to(dialog, "Row's end raspberry")
    assert not dialog.take.isEnabled()
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert names(damson) == []
    assert dialog.isVisible()
    dialog.reject()


def test_enter_learns_and_enter_again_takes_out_and_the_forecast_follows(qtbot, damson, kept):
    before, usual = damson.document.project, forecast(qtbot, damson)
    dialog = opened(qtbot, damson)
    go_to(dialog, ELDER)
    assert dialog.take.text() == "Learn from it"
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert names(damson) == [ELDER]
    assert dialog.going_by.text().startswith("Going by 1 finished batch, your ferments run about")
    assert rows(dialog)[0][:2] == (ELDER, "yes")
    assert dialog.losing_by.text() == (
        "Going by 2 rackings of 1 batch, yours leave about 0.9 times the usual behind."
    )
    assert [one.name for one in damson.document.project.own_losses] == [ELDER]
    source = damson.document.outlook.bottles.finished.workings.source
    assert "losses by your 2 rackings of 1 batch: about 0.9 times the usual" in source
    assert (dialog.chosen.name, dialog.take.text()) == (ELDER, "Take out")
    seen = forecast(qtbot, damson)
    assert seen.learned == dialog.going_by.text()
    assert seen.crossings[-1].likely > usual.crossings[-1].likely
    assert "by your 1 batch, about " in damson.timeline.curve.accessibleDescription()
    assert damson.timeline.curve.data.course_said()[0] == seen.going_by
    said = [row.cells for row in rows_of(damson.document.outlook) if row.cells[1] == "learned"]
    assert [cells[-1] for cells in said] == [seen.learned]
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert damson.document.project == before
    assert dialog.going_by.text() == NOTHING_LEARNED
    assert dialog.losing_by.text() == NO_LOSSES
    assert forecast(qtbot, damson) == usual
    assert (dialog.chosen.name, dialog.take.text()) == (ELDER, "Learn from it")
    dialog.reject()


def test_each_change_is_one_step_of_undo_with_its_name(qtbot, damson, kept):
    dialog = opened(qtbot, damson)
    for name in (ELDER, PEAR):
        go_to(dialog, name)
        QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert names(damson) == [ELDER, PEAR]
    go_to(dialog, ELDER)
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert damson.document.session.undo_label == f"learn no more from {ELDER}"
    for left in ([ELDER, PEAR], [ELDER], []):
        QTest.keyClick(dialog.list, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        assert names(damson) == left
        assert [row[BATCH] for row in rows(dialog) if row[LEARNED] == "yes"] == left
    QTest.keyClick(dialog.list, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
    assert damson.document.session.undo_label == f"learn from {ELDER}"
    assert names(damson) == [ELDER]
    dialog.reject()


def test_other_files_are_chosen_and_learned_from_and_what_fails_is_said(qtbot, damson, tmp_path):
    good, broken = tmp_path / "old pear.winebench", tmp_path / "broken.winebench"
    write(good, load_sample("pear-under-airlock"))
    broken.write_text("{", "utf-8")
    dialog = opened(qtbot, damson)
    assert "choose a file" in dialog.said.text()
    assert dialog.another.hasFocus()
    QTest.keyClick(dialog.another, Qt.Key.Key_Space)
    asked = dialog.findChild(QFileDialog)
    assert asked.fileMode() == QFileDialog.FileMode.ExistingFiles
    asked.filesSelected.emit([str(good), str(broken)])
    asked.reject()
    qtbot.waitUntil(lambda: dialog.list.rowCount() == 2, timeout=20_000)
    done(qtbot, dialog)
    assert names(damson) == [PEAR]
    assert "truncated" in rows(dialog)[1][WENT]
    assert dialog.chosen.name == "broken"
    assert "truncated" in dialog.said.text()
    dialog.reject()


def test_a_file_chosen_twice_is_listed_and_learned_from_once(qtbot, damson, kept):
    dialog = opened(qtbot, damson)
    count = dialog.list.rowCount()
    for _ in range(2):
        dialog.learn_from(kept["pear"])
        done(qtbot, dialog)
    assert names(damson) == [PEAR]
    assert dialog.list.rowCount() == count
    assert dialog.chosen.name == PEAR
    dialog.reject()


def test_a_batch_learned_from_and_read_on_since_can_be_learned_from_as_it_is_now(
    qtbot, damson, kept
):
    elder = load_sample("elder-blackberry-bottled")
    fewer = tuple(entry for entry in elder.log if entry != elder.readings[2])
    write(kept["elder"], changed(elder, id="elder", log=fewer))
    dialog = opened(qtbot, damson)
    dialog.learn_from(kept["elder"])
    done(qtbot, dialog)
    dialog.reject()
    first = damson.document.project.own_ferments
    write(kept["elder"], changed(elder, id="elder"))
    dialog = opened(qtbot, damson)
    found = [row[:2] for row in rows(dialog) if row[BATCH] == ELDER]
    assert found == [(ELDER, "yes"), (ELDER, "not as it is now")]
    for _ in range(2):
        QTest.keyClick(dialog.list, Qt.Key.Key_Down)
        if rows(dialog)[dialog.list.currentRow()][LEARNED] == "not as it is now":
            break
    QTest.keyClick(dialog.list, Qt.Key.Key_Return)
    assert names(damson) == [ELDER]
    assert damson.document.project.own_ferments != first
    assert [row[:2] for row in rows(dialog) if row[BATCH] == ELDER] == [(ELDER, "yes")]
    dialog.reject()


def test_made_again_it_learns_from_the_batch_only_when_asked_to(open_window):
    window = open_window("elder-blackberry-bottled")
    window.menus._variants.make_again()
    assert window.document.project.own_ferments == ()
    assert window.document.project.own_losses == ()
    assert "does not learn from the batch that it was made from" in window.banner.sentence
    learn = next(b for b in window.banner.findChildren(QPushButton) if b.text() == "Learn from it")
    learn.click()
    sentence = window.banner.sentence
    assert re.search(r"The forecast learns from it: its ferment ran about 5\d % slower", sentence)
    assert "Expected losses learn from it: it lost 0.7 L in 2 rackings of 10.0 L" in sentence
    assert names(window) == [ELDER]
    window.document.undo()
    assert window.document.project.own_ferments == ()


def test_made_again_it_learns_where_the_batch_itself_let_another_teach(open_window):
    elder = load_sample("elder-blackberry-bottled")
    taught = learn_from(elder, changed(elder, id="other", name="Other"), AT).apply(elder)
    window = open_window(taught, AT)
    window.menus._variants.make_again()
    assert set(names(window)) == {"Other", ELDER}
    assert "The forecast learns from it" in window.banner.sentence
