"""The reader of handed-down cards, by keys and clicks."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QTextCharFormat
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.window.test_reachable import cut_off, nameless
from winebench.store.card_draft import CardDraft, load_card, save_card
from winebench.window.recipe.card_reader import CardReader

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

CARD = """\
Aunt's plum wine
3 lb plums, 1 lb 12 oz sugar
3 lb moonberries
water to 1 gallon
TA 65
1 packet yeast
Stir daily for 5 days."""
SETTLED = "Aunt's plum wine\n3 lb plums, 2 lb sugar, water to 5 L, 1 packet yeast\nStir daily."


def opened(window, qtbot):
    window.files.read_card()
    reader = window.findChild(CardReader)
    qtbot.waitUntil(reader.isVisible)
    reader.activateWindow()
    qtbot.waitUntil(reader.text.hasFocus)
    return reader


@pytest.fixture
def reader(damson, qtbot):
    return opened(damson, qtbot)


def states(reader):
    return {row.item.text: row.state for row in reader.reading.rows}


def view(reader, text):
    return next(v for v in reader.preview.rows if v.row is not None and v.row.item.text == text)


def press(key, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, modifier)


def waves(reader):
    document = reader.text.document().toPlainText()
    found = []
    for selection in reader.text.extraSelections():
        assert selection.format.underlineStyle() == QTextCharFormat.UnderlineStyle.WaveUnderline
        cursor = selection.cursor
        found.append(cursor.selectedText())
        assert cursor.selectedText() in document
    return found


def test_the_menu_has_it_and_the_text_is_read_as_it_is_typed(damson, qtbot):
    action = next(
        action
        for menu in damson.menuBar().actions()
        for action in menu.menu().actions()
        if action.text().startswith("&Read a recipe card")
    )
    action.trigger()
    reader = damson.findChild(CardReader)
    qtbot.waitUntil(reader.text.hasFocus)
    QTest.keyClicks(reader.text, "3 lb plums")
    assert [row.read_as for row in reader.reading.rows] == ["Plums: 3 lb"]
    QTest.keyClicks(reader.text, ", 2 lb mo")
    assert states(reader) == {"3 lb plums": "read", "2 lb mo": "asked"}
    assert not reader.start_new.isEnabled()


def test_what_is_open_or_doubtful_has_a_wave_under_just_its_words(reader):
    reader.text.setPlainText("🍇 wine 🍷\n" + CARD.replace("plums", "plums 🍑"))
    assert set(waves(reader)) == {
        row.item.text for row in reader.reading.rows if row.state != "read"
    }
    assert {"3 lb moonberries", "TA 65", "water to 1 gallon"} <= set(waves(reader))


def test_every_item_has_a_row_with_its_words_and_not_by_colour_alone(reader):
    reader.text.setPlainText(CARD)
    shown = [v for v in reader.preview.rows if v.isVisible()]
    assert [v.row.item.text for v in shown] == [row.item.text for row in reader.reading.rows]
    assert "Cannot be" in view(reader, "TA 65").accessibleName()
    assert "Question" in view(reader, "3 lb moonberries").accessibleName()
    assert nameless(reader) == []


def test_a_card_is_settled_by_keyboard_alone(reader, qtbot):
    reader.text.setPlainText(CARD)
    press(Qt.Key.Key_F8)  # whose gallon
    assert QApplication.focusWidget() is reader.preview.gallons["US"]
    press(Qt.Key.Key_Space)
    press(Qt.Key.Key_F8)
    answers = view(reader, "3 lb moonberries").answers
    assert QApplication.focusWidget() is answers["fruit"]
    press(Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is answers["sugar"]
    press(Qt.Key.Key_Space)
    assert states(reader)["3 lb moonberries"] != "asked"
    press(Qt.Key.Key_F8)
    repair = QApplication.focusWidget()
    assert repair.text() == "TA 6.5 g/L"
    press(Qt.Key.Key_Space)
    assert "TA 6.5 g/L" in reader.text.toPlainText()
    assert not reader.reading.is_open
    assert QApplication.focusWidget() is reader.start_new


def test_a_repair_can_be_undone_in_the_text(reader):
    reader.text.setPlainText(CARD)
    view(reader, "TA 65").ways[0].click()
    assert "TA 6.5 g/L" in reader.text.toPlainText()
    reader.text.undo()
    assert reader.text.toPlainText() == CARD


def test_what_goes_on_a_line_of_its_own_stands_before_the_ingredients(reader):
    reader.text.setPlainText("Plum wine\n3 lb plums\nmakes 5 L\nMethod\nStir in 2 lb sugar.")
    view(reader, "Stir in 2 lb sugar.").ways[0].click()
    assert reader.text.toPlainText().splitlines()[:3] == ["Plum wine", "2 lb sugar", "3 lb plums"]


def test_a_figure_given_twice_is_taken_out_with_its_line(reader):
    reader.text.setPlainText("makes 5 L\n2 lb sugar\nmakes 4 L\nyeast")
    view(reader, "makes 4 L").ways[0].click()
    assert reader.text.toPlainText() == "makes 5 L\n2 lb sugar\nyeast"


def test_staged_sugar_is_parted_onto_two_lines_by_one_press(reader):
    reader.text.setPlainText("3 lb plums\n3 lb sugar, half now and half later\nwater to 5 L\nyeast")
    view(reader, "3 lb sugar, half now and half later").ways[0].click()
    assert reader.text.toPlainText().splitlines()[1:3] == [
        "1 1/2 lb sugar", "1 1/2 lb sugar, fed later",
    ]  # fmt: skip
    assert not reader.reading.is_open


def test_what_was_measured_on_the_fruit_stands_in_its_row(reader):
    reader.text.setPlainText("15 lb damsons, stoned, 15.5 Brix, TA 18 g/L\nwater to 5 L")
    (row,) = [v for v in reader.preview.rows if v.row is not None and v.row.line.id == "card-0"]
    assert row.read_as.text() == "Damsons, prepared: 15 lb, juice 15.5 brix, acidity 18 g/L"


def test_a_note_can_be_taken_back(reader):
    reader.text.setPlainText("juice of 2 lemons")
    view(reader, "juice of 2 lemons").answers["note"].click()
    assert states(reader) == {"juice of 2 lemons": "read"}
    view(reader, "juice of 2 lemons").answers["note"].click()
    assert states(reader) == {"juice of 2 lemons": "asked"}


def test_the_caret_and_the_rows_follow_each_other(reader):
    reader.text.setPlainText(CARD)
    QTest.mouseClick(view(reader, "TA 65").typed, Qt.MouseButton.LeftButton)
    assert reader.text.hasFocus()
    assert view(reader, "TA 65").current
    reader.text.moveCursor(reader.text.textCursor().MoveOperation.Start)
    assert view(reader, "Aunt's plum wine").current
    assert not view(reader, "TA 65").current


def test_a_new_batch_is_one_step_and_the_open_work_is_kept(damson, qtbot):
    before = damson.document.project
    reader = opened(damson, qtbot)
    reader.text.setPlainText(SETTLED)
    QTest.mouseClick(reader.start_new, Qt.MouseButton.LeftButton)
    made = damson.document.project
    assert (made.name, made.recipe.basis.text) == ("Aunt's plum wine", "5 L")
    assert len(made.recipe.lines) == 4
    assert made.notes[0].text == "Stir daily."
    assert damson.document.session.dirty
    damson.document.undo()
    assert damson.document.project.recipe.lines == ()
    assert not damson.document.session.can_undo
    assert before.id != made.id


def test_adding_to_the_recipe_is_one_undoable_edit(damson, qtbot):
    before = damson.document.project
    reader = opened(damson, qtbot)
    reader.text.setPlainText("8 oz raisins, 1 tsp tannin")
    reader.add.click()
    made = damson.document.project
    assert [line.amount.text for line in made.recipe.lines[-2:]] == ["8 oz", "1 tsp"]
    damson.document.undo()
    assert damson.document.project == before


def test_escape_keeps_the_text_and_its_answers_until_the_next_time(damson, qtbot):
    before = damson.document.project
    reader = opened(damson, qtbot)
    reader.text.setPlainText(CARD)
    view(reader, "3 lb moonberries").answers["fruit"].click()
    QTest.keyClick(reader.text, Qt.Key.Key_Escape)
    assert damson.document.project == before
    qtbot.waitUntil(lambda: damson.findChild(CardReader) is None)
    again = opened(damson, qtbot)
    assert again.text.toPlainText() == CARD
    assert states(again)["3 lb moonberries"] != "asked"


def test_the_text_is_kept_while_it_is_typed(reader, qtbot):
    QTest.keyClicks(reader.text, "3 lb plums")
    qtbot.waitUntil(lambda: load_card().text == "3 lb plums", timeout=5000)


def test_a_used_card_makes_room_and_can_be_brought_back(damson, qtbot):
    reader = opened(damson, qtbot)
    assert not reader.bring_back.isVisible()
    reader.text.setPlainText(SETTLED)
    reader.add.click()
    qtbot.waitUntil(lambda: damson.findChild(CardReader) is None)
    again = opened(damson, qtbot)
    assert again.text.toPlainText() == ""
    again.bring_back.click()
    assert again.text.toPlainText() == SETTLED


def test_a_damaged_draft_is_an_empty_card(own_state):
    save_card(CardDraft(text="3 lb plums"))
    (own_state / "card.json").write_text("{", "utf-8")
    assert load_card() == CardDraft()


@pytest.mark.parametrize("size", [(1200, 660), (760, 440)])
@pytest.mark.parametrize("dark", [False, True])
def test_nothing_is_cut_off(reader, qtbot, dark, size):
    from winebench.window.theme import theme

    theme().choose(dark)
    assert reader.width() <= 1366
    assert reader.height() <= 720
    reader.resize(*size)
    reader.text.setPlainText(CARD + "\njuice of 2 lemons\n3 lb cherries\n2 furlongs honey")
    qtbot.wait(50)
    assert (reader.width(), reader.height()) == size
    assert cut_off(reader) == []


def test_f8_passes_no_question_over_after_an_answer_that_rewrites_its_line(reader):
    reader.text.setPlainText(
        "2 lb raisins\njuice of 1 lemon\n5 g tannin or 1 cup tea\n1 heaped tsp yeast nutrient"
    )
    asked = [row.item.text for row in reader.reading.rows if row.is_open]
    assert len(asked) == 3

    def current():
        focus = QApplication.focusWidget()
        return next(v.row.item.text for v in reader.preview.rows if v.isAncestorOf(focus))

    for question in asked:
        press(Qt.Key.Key_F8)
        assert current() == question
        press(Qt.Key.Key_Space)
    assert not reader.reading.is_open


def test_a_line_that_is_taken_out_does_not_hide_the_question_behind_it(qtbot, reader):
    reader.text.setPlainText("2 lb sugar\nmakes 4 L\nmakes 5 L\n3 lb pearls\n1 heaped tsp nutrient")
    view(reader, "makes 5 L").ways[0].click()
    pearls = view(reader, "3 lb pearls")
    qtbot.waitUntil(lambda: pearls.isAncestorOf(QApplication.focusWidget()))


def test_a_card_without_water_is_mended_by_buttons_and_each_triangle_is_counted(reader, qtbot):
    staged = "2 lb sugar per gallon, in three stages"
    reader.text.setPlainText(f"Test wine\nmakes 5 gallons US\n15 lb plums\n{staged}")
    shown = [v for v in reader.preview.rows if v.isVisible() and v.mark.state == "look"]
    assert len(shown) >= 3  # the size, the sugar, and the card as a whole: no yeast
    assert f"look at the {len(shown)} marked first" in reader.said.text()
    water = next(b for b in view(reader, "makes 5 gallons US").ways if "water to" in b.text())
    qtbot.mouseClick(water, Qt.MouseButton.LeftButton)
    assert "water to 5 gallons US\n" in reader.text.toPlainText()
    stage = next(b for b in view(reader, staged).ways if "first stage" in b.text())
    qtbot.mouseClick(stage, Qt.MouseButton.LeftButton)
    sugar = [row.line for row in reader.reading.rows if row.line and "sugar" in row.item.text]
    assert [line.when for line in sugar] == ["start", "feed", "feed"]
