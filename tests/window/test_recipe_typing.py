"""The recipe pane by its keys: what is typed is kept, read at once and undone in one step."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from tests.window.recipe_keys import add, gravity, row_of, type_over
from winebench.model.edits import DropLine
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine
from winebench.plan.typed.vessels import vessels_text
from winebench.units import Amount
from winebench.window.parts.words import Elided

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


def test_the_size_to_make_is_typed_as_volume_or_bottles(damson):
    size = damson.recipe.make.size_field
    type_over(size, "1 gal")
    assert damson.document.outlook.make_text == "1 gal US"
    type_over(size, "24 bottles")
    make = damson.document.project.make
    assert (make.size.text, make.by) == ("24 bottles", "bottles")


def test_the_vessels_of_an_opened_project_are_shown(damson, raspberry):
    assert damson.recipe.make.vessels.text() == "26 L pail, 19 L glass jug"
    assert raspberry.recipe.make.vessels.text() == "6 gal pail, 2 3/4 gal glass jug"


def test_the_vessels_are_typed_as_a_list(damson):
    ids = [vessel.id for vessel in damson.document.project.make.vessels]
    type_over(damson.recipe.make.vessels, "30 L pail, 19 L glass jug, 1 gal jug")
    pail, jug, small = damson.document.project.make.vessels
    assert [pail.id, jug.id] == ids
    assert (pail.holds.text, small.role, small.glass) == ("30 L", "secondary", True)
    assert len(damson.recipe.must.vessels) == 3


@pytest.mark.parametrize(
    "text", ["7 gal pail, 5 gal jug", "26 L pail, 19 L glass jug", "7 gal, 5 gal and 1 gal"]
)
@pytest.mark.parametrize("sample", ["damson", "empty"])
def test_vessels_stay_as_typed_at_every_key(request, sample, text):
    window = request.getfixturevalue(sample)
    field = window.recipe.make.vessels
    before = window.document.project.make.vessels
    field.setFocus()
    field.clear()
    for end, key in enumerate(text, start=1):
        QTest.keyClicks(field, key)
        assert field.text() == text[:end]
        window.document.work_out()
        assert field.text() == text[:end]
    after = window.document.project.make.vessels
    assert [vessel.holds.text for vessel in after][:1] == [" ".join(text.split()[:2]).strip(",")]
    assert len(after) == text.count(",") + text.count(" and ") + 1
    window.document.undo()
    assert window.document.project.make.vessels == before
    assert field.text() == vessels_text(before)


def test_targets_and_style_are_changed_in_place(damson):
    damson.recipe.toggle_targets()
    fields = damson.recipe.targets.fields
    type_over(fields["gravity"], "1.080-1.085")
    assert damson.document.outlook.must.wants[0].want_text == "want 1.080–1.085"
    type_over(fields["acidity"], "5,0 to 6,5")
    targets = damson.document.project.recipe.targets
    assert (targets.acid_low_g_per_l, targets.acid_high_g_per_l) == (5.0, 6.5)
    assert fields["acidity"].text() == "5,0 to 6,5"
    damson.recipe.heading.style_choice.setFocus()
    QTest.keyClick(damson.recipe.heading.style_choice, Qt.Key.Key_Down)
    assert damson.document.project.recipe.style == "dark-medium"
    # Common practice: ready at half of the best age, which the style table has at 18 months.
    assert wanted(damson, "drink").want_text == "want by 9 months"
    assert damson.recipe.targets.drink_from.isVisible()
    shown = wanted(damson, "drink").actual.text
    assert damson.recipe.targets.drink_from.words == f"{shown} months"


def test_tannin_and_the_time_to_drink_are_targets_of_their_own(damson):
    damson.recipe.toggle_targets()
    fields = damson.recipe.targets.fields
    type_over(fields["tannin"], "0,2-0.4")
    assert wanted(damson, "tannin").want_text == "want 0.2–0.4"
    type_over(fields["drink"], "4")
    assert damson.document.project.recipe.targets.drink_months == 4.0
    assert wanted(damson, "drink").want_text == "want by 4 months"
    said = next(c for c in damson.document.outlook.cautions if c.key == "ready-late")
    assert said.sentence.startswith("You want to drink from 4 months")
    bar = damson.recipe.must.bars["drink"]
    assert bar.accessibleName().endswith("want by 4 months, above what is wanted")
    type_over(fields["drink"], "soon")  # nothing typed is lost
    assert fields["drink"].text() == "soon"
    assert damson.document.project.recipe.targets.drink_months == 4.0
    fields["drink"].selectAll()
    QTest.keyClick(fields["drink"], Qt.Key.Key_Delete)
    assert damson.document.project.recipe.targets.drink_months is None
    assert wanted(damson, "drink").want_text == "want by 12 months"


def test_each_of_sugar_acid_tannin_and_strength_is_drawn_against_its_style(qtbot, damson):
    bars = damson.recipe.must.bars
    assert list(bars) == ["gravity", "acidity", "tannin", "strength", "nitrogen", "drink"]
    assert bars["tannin"].accessibleName().startswith("Tannin g/L: 0.31, want 0.25–0.85, as wanted")
    # Six bars are as high as four once were, so that lines and vessels stay in view.
    assert sum(bar.height() for bar in bars.values()) <= 4 * 27


def wanted(window, key):
    return next(each for each in window.document.outlook.must.wants if each.key == key)


def test_a_bare_gallon_where_no_country_is_known_is_refused_beside_its_field(open_window, empty):
    from winebench.model.edits import changed

    project = changed(empty.document.project, gallon=None)
    window = open_window(project, empty.document.now())
    type_over(window.recipe.make.size_field, "5 gal")
    assert "US or imperial" in window.recipe.make.refusal.text()
    assert window.document.project.make.size == project.make.size


def test_where_sugar_and_acid_come_from_is_drawn_and_said(damson):
    must = damson.recipe.must
    shares = {each.name: each.share for each in must.sugar_from.shares}
    assert sum(shares.values()) == pytest.approx(1.0, abs=0.03)
    sugar = row_of(damson, SugarLine)
    outlook = next(line for line in damson.document.outlook.lines if line.id == sugar.line.id)
    assert shares["White sugar"] == outlook.share_of_sugar
    assert must.sugar_from.accessibleName().startswith("Sugar from: White sugar ")
    assert must.acid_from.accessibleName() == "Acid from: Damsons 100 %"


def test_the_fruit_on_hand_sets_the_size(damson):
    size = damson.recipe.make.size_field
    type_over(size, "9 lb fruit")
    # 3 lb of damsons make 1 gal US: 9 lb make 3, 11.356 L, rounded down to what they allow.
    assert damson.document.project.make.size.text == "11.35 L"
    assert size.text() == "9 lb fruit"


@pytest.mark.parametrize("size", ["1 gallon", "5 gallons", "12.5 gallons", "20 L", "7 kg"])
def test_the_head_of_the_made_column_is_never_cut(damson, size):
    type_over(damson.recipe.make.size_field, size)
    heads = [one for one in damson.recipe.table.findChildren(Elided)
             if one.accessibleName() == f"for {damson.document.outlook.make_text}"]  # fmt: skip
    assert len(heads) == 1
    assert heads[0].sizeHint().width() <= heads[0].width()


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
