"""Sugar in stages: what is counted in how much, which sugar changes, what a thin start is told."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, fruit, project, white
from tests.plan.test_solve import applied, juice, reads
from winebench.model.edits import changed
from winebench.model.recipe import SugarLine, Targets
from winebench.plan.balance import both_musts
from winebench.plan.compose import compose
from winebench.plan.measured import as_measured
from winebench.plan.solve import Ask, solve, usual_values
from winebench.plan.solve.choices import choices, usual
from winebench.plan.wanted import LEAST_SG, MOST_SG
from winebench.units import Amount, Gravity

L_PER_KG = 0.62
"""What a kilogram of sugar adds to the volume: 27 CFR 24.181, 0.0743 US gallons to the pound."""


def early(amount: str) -> SugarLine:
    return changed(white(amount), id="early")


def feed(amount: str, **fields) -> SugarLine:
    return SugarLine(id="feed", sugar="white-sugar", amount=Amount(amount), when="feed", **fields)


def staged(start: str, later: str, **fields):
    """Return 4 L of juice at 12 °Brix and 8 g/L, filled to 6 L: SG 1.032 before any sugar."""
    return project(juice(acid=8.0), early(start), feed(later), WATER, basis="6 L", **fields)


def grams(made, line_id):
    return made.line(line_id).amount.grams()


def thin():
    """Return three pounds of blackberries in a gallon, most of the sugar kept back."""
    berries = fruit("blackberry", "3 lb")
    return project(berries, early("1 lb"), feed("1 1/2 lb"), WATER, basis="1 gal US")


# --- what is counted in how much ---------------------------------------------------------


def test_acid_is_spread_through_all_of_it_once_the_feed_is_in() -> None:
    made = staged("300 g", "600 g")
    must = compose(made).must
    # 32 g of acid in the 6 L made up are 5.33 g/L; 600 g of sugar make 6.37 L of it: 5.02 g/L.
    assert must.acidity.value == pytest.approx(32.0 / (6.0 + 0.6 * L_PER_KG), abs=0.01)
    assert must.acidity.workings is not None
    assert "liquid, once all sugar is fed" in [one.name for one in must.acidity.workings.inputs]
    whole_need = must.acid_to_target.value
    assert whole_need == pytest.approx((5.5 - 5.023) * 6.372, abs=0.1)
    plain = compose(project(juice(acid=8.0), white("300 g"), WATER, basis="6 L")).must
    assert plain.acidity.value == pytest.approx(32.0 / 6.0, abs=0.01)
    assert "liquid" in [one.name for one in plain.acidity.workings.inputs]


def test_the_gravity_that_is_shown_has_its_own_figure() -> None:
    found = compose(staged("300 g", "600 g")).must
    shown = next(want for want in found.wants if want.key == "gravity")
    assert shown.name == "Gravity, all fed"
    assert shown.actual == found.gravity_whole
    start, whole = both_musts(staged("300 g", "600 g"))
    assert (found.gravity.value, found.gravity_whole.value) == (start.sg, whole.sg)
    unfed = compose(project(juice(), white("300 g"), WATER, basis="6 L")).must
    assert unfed.gravity_whole == unfed.gravity
    assert unfed.wants[0].name == "Gravity"


# --- which sugar changes -----------------------------------------------------------------


def test_too_much_in_all_is_taken_from_what_is_fed() -> None:
    made = staged("800 g", "600 g")
    found = solve(made, Ask({"gravity": 1.095}, ("sugar",)))
    after = applied(made, found)
    assert grams(after, "early") == 800.0
    assert grams(after, "feed") < 600.0
    assert reads(after)["gravity"] == pytest.approx(1.095, abs=0.0005)


def test_too_little_in_all_is_put_in_at_the_start() -> None:
    made = staged("700 g", "100 g")
    after = applied(made, solve(made, Ask({"gravity": 1.105}, ("sugar",))))
    assert (grams(after, "early") > 700.0, grams(after, "feed")) == (True, 100.0)
    # A start that would then be likely to stick: the feed instead.
    strong = staged("1100 g", "100 g")
    after = applied(strong, solve(strong, Ask({"gravity": 1.125}, ("sugar",))))
    assert (grams(after, "early"), grams(after, "feed") > 100.0) == (1100.0, True)


def test_a_thin_start_gets_some_of_what_would_be_fed() -> None:
    found = solve(thin(), Ask({"gravity": 1.085}, ("sugar",)))
    after = applied(thin(), found)
    start, whole = both_musts(as_measured(after))
    assert whole.sg == pytest.approx(1.085, abs=0.0005)
    assert LEAST_SG <= start.sg < LEAST_SG + 0.002
    assert [each.name for each in found.changes if each.was != each.becomes][:2] == [
        "White sugar", "White sugar, fed later",
    ]  # fmt: skip
    assert not [note for note in found.notes if "too thin" in note]


def test_a_sugar_that_is_named_is_the_one_that_changes_and_a_thin_start_is_told() -> None:
    found = solve(thin(), Ask({"gravity": 1.085}, ("feed",)))
    after = applied(thin(), found)
    assert grams(after, "early") == grams(thin(), "early")
    assert [note for note in found.notes if "1.058" in note and "too thin to keep" in note]


def test_where_all_of_it_belongs_in_at_the_start_none_is_fed() -> None:
    # Neither alone will do: the 824 g to be fed are too much, and so is the start by a hair.
    found = solve(staged("720 g", "824 g"), Ask({"gravity": 1.078}, ("sugar",)))
    after = applied(staged("720 g", "824 g"), found)
    assert after.line("feed") is None
    assert reads(after)["gravity"] == pytest.approx(1.078, abs=0.0005)
    gone = next(each for each in found.changes if each.name == "White sugar, fed later")
    assert (gone.was, gone.becomes) == ("824 g", "none")


@settings(deadline=None)
@given(st.integers(0, 1400), st.integers(20, 1200), st.floats(1.075, 1.130))
def test_what_suits_is_met_and_starts_within_bounds_wherever_it_can(first, later, sg) -> None:
    made = staged(f"{first} g", f"{later} g")
    found = solve(made, Ask({"gravity": sg}, ("sugar",)))
    after = applied(made, found)
    start, whole = both_musts(after)
    assert whole.sg == pytest.approx(sg, abs=0.0005)
    assert LEAST_SG <= round(start.sg, 3) <= MOST_SG  # as it is shown


def test_what_suits_is_what_is_ticked_first() -> None:
    found = choices(staged("300 g", "600 g"))
    assert [each.words for each in found[:3]] == [
        "Sugar, at the start or fed later, as suits",
        "White sugar, 300 g",
        "White sugar, 600 g, fed later",
    ]
    assert "sugar" in usual(staged("300 g", "600 g")).change
    # The acidity offered is that of all of it, as the figure has it.
    assert usual_values(staged("300 g", "600 g"))["acidity"] == 5.5


# --- the outlook's own ways out ----------------------------------------------------------

ABOUT_GRAVITY = ("gravity-out-of-range", "contradicts-target")


def about(made):
    found = {one.key: one for one in compose(made).cautions}
    return [found[key] for key in ABOUT_GRAVITY if key in found]


def test_the_two_cautions_of_a_thin_start_agree() -> None:
    range_, target = about(thin())
    assert "of the sugar to be fed in at the start: it then reads 1.080" in range_.detail
    assert "Leave out" in target.detail
    assert "of the white sugar to be fed" in target.detail
    assert "Add sugar" not in range_.detail
    assert "water" not in target.detail  # the start is thin as it is


@pytest.mark.parametrize("first", [0, 1])
def test_their_repairs_do_in_either_order(first) -> None:
    made = about(thin())[first].repairs[0].edit.apply(thin())
    while about(made):
        repaired = about(made)[0].repairs[0].edit.apply(made)
        assert repaired != made
        made = repaired
    start, whole = both_musts(made)
    assert start.sg == pytest.approx(1.080, abs=0.001)
    assert 1.086 <= whole.sg <= 1.096


def test_sugar_moves_to_the_start_also_where_none_is_there_yet() -> None:
    made = project(juice(acid=8.0), feed("900 g"), WATER, basis="6 L")
    moved = about(made)[0].repairs[0].edit.apply(made)
    assert both_musts(moved)[0].sg == pytest.approx(1.080, abs=0.0005)
    lines = [line for line in moved.recipe.lines if isinstance(line, SugarLine)]
    assert sum(line.amount.grams() for line in lines) == pytest.approx(900.0, abs=1.0)
    assert {line.when for line in lines} == {"start", "feed"}


def test_a_target_that_is_too_thin_itself_is_not_answered_by_more_sugar() -> None:
    low = Targets(gravity_low=Gravity("1.050"), gravity_high=Gravity("1.050"))
    range_, target = about(project(juice(), white("450 g"), WATER, basis="6 L", targets=low))
    assert range_.detail == "Want at least 1.070, then add sugar or fruit."
    assert target.detail.startswith("Leave out")
    high = Targets(gravity_low=Gravity("1.140"), gravity_high=Gravity("1.140"))
    range_, target = about(project(juice(), white("1.5 kg"), WATER, basis="6 L", targets=high))
    assert range_.detail == "Feed part of the sugar later."
    assert target.detail.startswith("Add")
