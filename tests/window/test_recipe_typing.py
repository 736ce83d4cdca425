"""The recipe pane by its keys: what is typed is kept, read at once and undone in one step."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from tests.window.recipe_keys import add, gravity, row_of, type_over
from winebench.model.edits import DropLine
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine
from winebench.units import Amount

# The platform without a screen says so when the list of names opens.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def test_more_sugar_typed_raises_the_gravity_at_once(damson):
    before, row = gravity(damson), row_of(damson, SugarLine)
    type_over(row.written, "2 1/4 lb")
    assert gravity(damson) > before + 0.005
    assert damson.recipe.must.bars["gravity"].want.actual.text == f"{gravity(damson):.3f}"


def test_one_undo_takes_a_whole_typed_amount_back_and_redo_brings_it_again(damson):
    row = row_of(damson, SugarLine)
    before = row.written.text()
    type_over(row.written, "2 1/4 lb")
    QTest.keySequence(row.written, "Ctrl+Z")
    assert row.written.text() == before
    assert damson.document.project.line(row.line.id).amount == Amount(before)
    QTest.keySequence(row.written, "Ctrl+Y")
    assert row.written.text() == "2 1/4 lb"


def test_two_visits_of_a_field_are_two_steps_of_undo(damson):
    size, others = damson.recipe.make.size_field, damson.recipe.make.basis
    before = size.text()
    type_over(size, "3 gal")
    others.setFocus()
    size.setFocus()
    size.end(False)
    QTest.keyClick(size, Qt.Key.Key_Backspace)
    assert size.text() == "3 ga"
    QTest.keyClicks(size, "l")
    type_over(size, "4 gal")
    assert damson.document.project.make.size.text == "4 gal"
    damson.document.undo()
    assert size.text() == "3 gal"
    damson.document.undo()
    assert damson.document.project.make.size.text == before


@pytest.mark.parametrize("text", ["2,5 kg", "1½ lb", "1 lb 4 oz", "  3 lb"])
def test_an_amount_stays_as_it_was_typed(damson, text):
    row = row_of(damson, FruitLine)
    type_over(row.written, text)
    damson.document.work_out()
    assert row.written.text() == text
    assert damson.document.project.line(row.line.id).amount.text == text.strip()


def test_text_that_cannot_be_read_is_kept_with_its_reason_and_changes_nothing(damson):
    row, before = row_of(damson, SugarLine), gravity(damson)
    amount = row.line.amount
    type_over(row.written, "2 furlongs")
    assert row.refusal.isVisible()
    assert '"furlongs"' in row.refusal.text()
    assert "lb, oz, kg" in row.refusal.text()
    assert damson.document.project.line(row.line.id).amount.text in ("2 f", amount.text)
    assert gravity(damson) == before
    drafts = damson.document.project.drafts
    assert [(d.place, d.text) for d in drafts] == [(f"line:{row.line.id}:amount", "2 furlongs")]


def test_a_draft_is_shown_again_when_the_project_is_opened_again(damson, open_window):
    row = row_of(damson, SugarLine)
    type_over(row.written, "2 furlongs")
    again = open_window(damson.document.project, damson.document.now())
    shown = again.recipe.table.rows[row.line.id]
    assert shown.written.text() == "2 furlongs"
    assert "furlongs" in shown.refusal.text()


def test_reading_the_text_again_forgets_the_draft_and_its_reason(damson):
    row = row_of(damson, SugarLine)
    type_over(row.written, "2 furlongs")
    type_over(row.written, "2 lb")
    assert damson.document.project.drafts == ()
    assert not row.refusal.isVisible()


def test_a_field_left_empty_takes_back_what_it_held(damson):
    row = row_of(damson, SugarLine)
    before = row.written.text()
    type_over(row.written, "2 lb")
    QTest.keyClick(row.written, Qt.Key.Key_Return)
    row.written.setFocus()
    row.written.selectAll()
    QTest.keyClick(row.written, Qt.Key.Key_Delete)
    row_of(damson, FruitLine).written.setFocus()
    assert row.written.text() in (before, "2 lb")
    assert damson.document.project.line(row.line.id).amount.text == "2 lb"


def test_enter_goes_down_the_rows_and_ends_where_a_line_is_added(damson):
    rows = list(damson.recipe.table.rows.values())
    rows[0].written.setFocus()
    for row in rows[1:]:
        QTest.keyClick(damson.focusWidget(), Qt.Key.Key_Return)
        assert row.written.hasFocus()
    QTest.keyClick(damson.focusWidget(), Qt.Key.Key_Return)
    assert damson.recipe.new_line.field.hasFocus()


def test_tab_goes_from_amount_to_amount(damson):
    rows = list(damson.recipe.table.rows.values())
    rows[0].written.setFocus()
    QTest.keyClick(rows[0].written, Qt.Key.Key_Tab)
    assert rows[1].written.hasFocus()


def test_water_without_an_amount_fills_to_the_mark(damson):
    row = row_of(damson, WaterLine)
    type_over(row.written, "1 L")
    assert damson.document.project.line(row.line.id).amount.text == "1 L"
    row.written.selectAll()
    QTest.keyClick(row.written, Qt.Key.Key_Delete)
    assert damson.document.project.line(row.line.id).amount is None
    assert row.written.placeholderText() == "to the mark"


def test_the_missing_sugar_is_said_under_its_line_and_its_verb_mends_it(damson):
    row = row_of(damson, SugarLine)
    (card,) = row.cautions.cards.values()
    assert "will read" in card.caution.sentence
    before = gravity(damson)
    QTest.keyClick(card.repairs[0], Qt.Key.Key_Space)
    assert gravity(damson) > before
    targets = damson.document.project.recipe.targets
    assert targets.gravity_low.value <= round(gravity(damson), 3) <= targets.gravity_high.value
    assert not row.cautions.isVisible()
    damson.document.undo()
    assert gravity(damson) == before
    assert row.cautions.isVisible()


def test_measured_juice_typed_into_the_details_narrows_the_gravity(damson):
    row = row_of(damson, FruitLine)
    before = damson.document.outlook.must.gravity
    row.written.setFocus()
    QTest.keyClick(row.written, Qt.Key.Key_F4)
    assert row.details.isVisible()
    type_over(row.details.fields["juice"], "14 brix")
    after = damson.document.outlook.must.gravity
    assert after.high - after.low < before.high - before.low
    QTest.keyClick(row.details.fields["juice"], Qt.Key.Key_Escape)
    assert not row.details.isVisible()
    assert row.written.hasFocus()


def test_a_dose_too_small_to_pour_or_spoon_shows_no_error_of_the_measure(empty):
    add(empty, "0.2 mL oak drops")
    QTest.mouseClick(empty.recipe.new_line.as_additive, Qt.MouseButton.LeftButton)
    add(empty, "0.2 g oak dust")
    QTest.mouseClick(empty.recipe.new_line.as_additive, Qt.MouseButton.LeftButton)
    drops, dust = empty.recipe.table.rows.values()
    assert drops.measure.words == "too little to pour"
    assert dust.measure.words.startswith("weigh ")
    assert "%" not in dust.measure.words


def test_the_missing_enzyme_is_added_by_one_click_and_taken_back_by_one_undo(damson):
    enzyme = next(
        one for one in damson.document.project.recipe.lines
        if isinstance(one, AdditiveLine) and one.additive == "pectic-enzyme"
    )  # fmt: skip
    damson.document.edit(DropLine(label="remove", id=enzyme.id))
    before = damson.document.project
    press = next(b for b in damson.recipe.findChildren(QPushButton) if b.text() == "Add the enzyme")
    press.click()
    added = damson.document.project.recipe.lines[-1]
    assert isinstance(added, AdditiveLine)
    assert added.additive == "pectic-enzyme"
    damson.document.undo()
    assert damson.document.project == before


def test_a_poison_is_said_and_not_added_whatever_it_could_be(damson):
    window = damson
    before = window.document.project.recipe.lines
    add(window, "2 lb yew berries")
    new_line = window.recipe.new_line
    assert new_line.said.text().startswith("Yew: a poison that must never go in")
    assert new_line.field.text() == "2 lb yew berries"
    assert not new_line._answers.isVisible()
    assert window.document.project.recipe.lines == before
