"""The recipe pane by its keys: what is typed is kept, read at once and undone in one step."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from winebench.model.recipe import FruitLine, SugarLine, WaterLine, YeastLine
from winebench.units import Amount
from winebench.window.recipe.vessels_text import vessels_text

# The platform without a screen says so when the list of names opens.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def type_over(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def gravity(window):
    return window.document.outlook.must.gravity.value


def add(window, text):
    field = window.recipe.new_line.field
    type_over(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def row_of(window, kind):
    line = next(line for line in window.document.project.recipe.lines if isinstance(line, kind))
    return window.recipe.table.rows[line.id]


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


def test_a_whole_recipe_is_typed_into_an_empty_project(empty):
    assert empty.recipe.empty.isVisible()
    for text in ("4 lb frozen stoned damsons", "1 1/2 lb sugar", "water", "1 packet yeast"):
        add(empty, text)
    lines = empty.document.project.recipe.lines
    fruit, sugar, water, yeast = lines
    assert (fruit.fruit, fruit.form, fruit.prepared) == ("damson", "frozen", True)
    assert (sugar.sugar, sugar.amount.text) == ("white-sugar", "1 1/2 lb")
    assert water.amount is None
    assert isinstance(yeast, YeastLine)
    assert not empty.recipe.empty.isVisible()
    assert empty.recipe.new_line.field.text() == ""
    assert gravity(empty) > 1.03


def test_a_fruit_that_the_catalog_lacks_is_asked_about_and_kept(empty):
    add(empty, "3 lb moonberries")
    asked = empty.recipe.new_line
    assert "moonberries" in asked.said.text()
    assert empty.document.project.recipe.lines == ()
    assert asked.field.hasFocus()
    QTest.keyClick(empty.focusWidget(), Qt.Key.Key_Tab)
    assert asked.as_fruit.hasFocus()
    QTest.keyClick(asked.as_fruit, Qt.Key.Key_Space)
    (line,) = empty.document.project.recipe.lines
    assert (line.fruit, line.amount.text) == ("moonberries", "3 lb")


def test_a_space_typed_on_after_the_question_answers_nothing(empty):
    add(empty, "3 lb moonberries")
    QTest.keyClick(empty.focusWidget(), Qt.Key.Key_Space)
    assert empty.document.project.recipe.lines == ()
    assert empty.recipe.new_line.field.text() == "3 lb moonberries "


def press_in_offers(window, *keys):
    """Press the keys where they go while the list of names is open."""
    popup = window.recipe.new_line.field.completer().popup()
    assert popup.isVisible()
    for key in keys:
        QTest.keyClick(popup, key)
    assert not popup.isVisible()


def test_one_enter_adds_a_line_typed_whole_while_names_are_offered(empty):
    field = empty.recipe.new_line.field
    for text in ("3 lb plums", "4 lb damsons"):
        type_over(field, text)
        press_in_offers(empty, Qt.Key.Key_Return)
        assert field.text() == ""
        assert field.hasFocus()
    lines = empty.document.project.recipe.lines
    assert [(line.fruit, line.amount.text) for line in lines] == [
        ("plum", "3 lb"),
        ("damson", "4 lb"),
    ]


def test_one_enter_adds_the_name_chosen_from_the_list(empty):
    type_over(empty.recipe.new_line.field, "3 lb dams")
    press_in_offers(empty, Qt.Key.Key_Down, Qt.Key.Key_Return)
    (line,) = empty.document.project.recipe.lines
    assert (line.fruit, line.amount.text) == ("damson", "3 lb")
    assert empty.recipe.new_line.field.text() == ""


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("damsons", "How much?"),
        ("4 lb", "of what"),
        ("2 furlongs of sugar", '"furlongs"'),
    ],
)
def test_a_line_that_is_not_whole_says_what_is_missing(empty, text, said):
    add(empty, text)
    assert said in empty.recipe.new_line.said.text()
    assert empty.recipe.new_line.field.text() == text
    assert empty.document.project.recipe.lines == ()


def test_a_half_typed_line_is_kept_with_the_project(empty, open_window):
    type_over(empty.recipe.new_line.field, "4 lb dam")
    again = open_window(empty.document.project, empty.document.now())
    assert again.recipe.new_line.field.text() == "4 lb dam"


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


def test_a_line_is_taken_out_and_brought_back_by_keys(damson):
    row = row_of(damson, SugarLine)
    row.written.setFocus()
    QTest.keyClick(row.written, Qt.Key.Key_Delete, Qt.KeyboardModifier.ControlModifier)
    assert damson.document.project.line(row.line.id) is None
    QTest.keySequence(damson, "Ctrl+Z")
    assert damson.document.project.line(row.line.id) is not None
    assert damson.recipe.table.rows[row.line.id].isVisibleTo(damson)


def test_the_batch_menu_acts_on_the_line_that_has_the_keyboard(damson):
    row = row_of(damson, SugarLine)
    row.written.setFocus()
    batch = damson.menuBar().actions()[2].menu()
    details = next(each for each in batch.actions() if "de&tails" in each.text())
    details.trigger()
    assert row.details.isVisible()


def test_a_line_is_moved_by_keys(damson):
    ids = [line.id for line in damson.document.project.recipe.lines]
    row = damson.recipe.table.rows[ids[0]]
    row.written.setFocus()
    QTest.keyClick(row.written, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert [line.id for line in damson.document.project.recipe.lines][:2] == [ids[1], ids[0]]
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


def test_a_bare_gallon_where_no_country_is_known_is_refused_beside_its_field(open_window, empty):
    from winebench.model.edits import changed

    project = changed(empty.document.project, gallon=None)
    window = open_window(project, empty.document.now())
    type_over(window.recipe.make.size_field, "5 gal")
    assert "US or imperial" in window.recipe.make.refusal.text()
    assert window.document.project.make.size == project.make.size


def test_what_was_decided_while_reading_a_line_is_said(empty):
    field = empty.recipe.new_line.field
    QTest.keyClicks(field, "2-3 lb cherries")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert empty.document.project.recipe.lines[0].amount.text == "2 1/2 lb"
    said = empty.recipe.new_line.said.text()
    assert "2-3 lb is a range" in said
    assert "it could be sour cherries" in said
    QTest.keyClicks(field, "1")
    assert not empty.recipe.new_line.said.isVisible()


def test_a_line_is_dragged_to_its_place_and_one_undo_brings_it_back(damson):
    rows = list(damson.recipe.table.rows.values())
    order = [line.id for line in damson.document.project.recipe.lines]
    name = rows[0].name
    QTest.mousePress(name, Qt.MouseButton.LeftButton, pos=QPoint(10, 10))
    for row in rows[1:4]:
        below = name.mapFromGlobal(row.mapToGlobal(row.rect().bottomLeft()))
        QTest.mouseMove(name, QPoint(10, below.y()))
    QTest.mouseRelease(name, Qt.MouseButton.LeftButton, pos=QPoint(10, 200))
    moved = [line.id for line in damson.document.project.recipe.lines]
    assert moved == [*order[1:4], order[0], *order[4:]]
    assert damson.recipe.table.rows[order[0]].details is None
    damson.document.undo()
    assert [line.id for line in damson.document.project.recipe.lines] == order


def test_a_click_that_drags_nothing_opens_the_details(damson):
    row = next(iter(damson.recipe.table.rows.values()))
    QTest.mouseClick(row.name, Qt.MouseButton.LeftButton, pos=QPoint(10, 10))
    assert row.details.isVisible()


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
