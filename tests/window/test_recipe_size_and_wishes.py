"""The recipe pane by its keys: how much to make, in which vessels, and what is wanted of it."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import row_of, type_over
from winebench.model.recipe import SugarLine
from winebench.plan.typed.vessels import vessels_text
from winebench.window.parts.words import Elided


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
    QTest.keyClick(fields["drink"], Qt.Key.Key_Return)
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
    assert bars["tannin"].accessibleName().startswith("Tannin g/L: 0.28, want 0.25–0.85, as wanted")
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
    assert damson.document.project.make.size.text == "3 gal"
    assert size.text() == "9 lb fruit"


@pytest.mark.parametrize("size", ["1 gallon", "5 gallons", "12.5 gallons", "20 L", "7 kg"])
def test_the_head_of_the_made_column_is_never_cut(damson, size):
    type_over(damson.recipe.make.size_field, size)
    heads = [one for one in damson.recipe.table.findChildren(Elided)
             if one.accessibleName() == f"for {damson.document.outlook.make_text}"]  # fmt: skip
    assert len(heads) == 1
    assert heads[0].sizeHint().width() <= heads[0].width()
