"""How an answer is written into the recipe, what it leaves alone, and what is told with it."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, additive, fruit, project, white
from tests.plan.test_solve import SHARP, amount, applied, juice, reads
from winebench.model.log import Action
from winebench.model.recipe import Kitchen, Targets, WaterLine
from winebench.plan.balance import balanced
from winebench.plan.solve import Ask, solve, usual_hold, usual_values
from winebench.plan.written_like import mass_like, volume_like
from winebench.units import Amount, Gravity, Volume


def test_amounts_are_written_as_the_line_was():
    made = project(
        fruit("plum", "3 lb"), white("1 1/4 lb"), additive("tartaric-acid", "1 tsp"),
        WaterLine(id="poured", amount=Volume("2 qt")), basis="1 gal US",
    )  # fmt: skip
    asked = Ask({"gravity": 1.090, "acidity": 8.0, "volume": 3.9}, ("sugar", "acid", "water"))
    found = solve(made, asked)
    units = {
        what: {part.unit for part in Amount(amount(found, what).becomes).parts}
        for what in ("sugar", "acid", "water")
    }
    assert units["sugar"] <= {"lb", "oz"}
    assert units["acid"] <= {"tsp", "tbsp", "g"}  # grams where no spoon is near enough
    assert units["water"] <= {"qt", "cup", "fl oz"}
    assert amount(found, "volume").becomes == "1.03 gal US"
    after = applied(made, found)
    assert reads(after)["acidity"] == pytest.approx(8.0, abs=0.05)


@settings(deadline=None)
@given(st.floats(0.5, 6.0), st.floats(6.0, 9.0), st.sampled_from([0.125, 0.25]))
def test_spoons_are_those_of_the_kitchen_or_it_is_weighed(spoons, acidity, smallest):
    made = project(
        juice(acid=6.0), white("500 g"), additive("tartaric-acid", f"{spoons:.3f} tsp"), WATER,
        basis="5 L", kitchen=Kitchen(smallest_teaspoon=smallest),
    )  # fmt: skip
    found = solve(made, Ask({"acidity": acidity}, ("acid",)))
    assert reads(applied(made, found))["acidity"] == pytest.approx(acidity, abs=0.045)
    each = amount(found, "acid")
    if each.was == each.becomes:
        return
    acid = Amount(each.becomes)
    if acid.dimension == "volume":
        teaspoons = acid.litres(None) / Amount("1 tsp").litres(None)
        assert teaspoons / smallest == pytest.approx(round(teaspoons / smallest), abs=1e-6)
    else:
        assert acid.parts[0].unit == "g"


@pytest.mark.parametrize(
    ("litres", "like", "country", "said"),
    [
        (11.356, "3 gal", "US", "3 gal"),
        (22.68, "5 gal US", None, "6 gal US"),
        (5.38, "2 pt imperial", None, "1 gal 1 pt 9 fl oz imperial"),
        (2.1, "2 L", None, "2.1 L"),
    ],
)
def test_volumes_are_what_jugs_measure(litres, like, country, said):
    assert volume_like(litres, Amount(like), country) == said
    # The pint is 473.18 or 568.26 mL (NIST Handbook 44, appendix C; Weights and Measures Act 1985)
    assert Amount(said).litres(country) == pytest.approx(litres, rel=0.003)


def test_a_kilogram_and_more_is_told_in_kilograms():
    assert mass_like(8230.0, Amount("500 g")) == "8.23 kg"
    assert mass_like(999.0, Amount("500 g")) == "999 g"


def test_a_cup_that_no_cup_measures_is_weighed():
    made = project(fruit("plum", "3 lb"), white("2 cups"), WATER, basis="1 gal US")
    each = amount(solve(made, Ask({"gravity": 1.0903}, ("sugar",))), "sugar")
    assert {part.unit for part in Amount(each.becomes).parts} <= {"lb", "oz"}  # as the fruit is


def test_a_new_sugar_is_written_as_the_fruit_is():
    found = solve(project(fruit("plum", "3 lb"), WATER), Ask({"gravity": 1.085}, ("sugar",)))
    assert amount(found, "sugar").becomes.startswith("1 lb")
    after = applied(project(fruit("plum", "3 lb"), WATER), found)
    assert after.recipe.lines[-1].sugar == "white-sugar"


def test_sugar_fed_later_counts_in_the_gravity():
    made = project(juice(acid=8.0), white("600 g", when="feed"), WATER, basis="6 L")
    found = solve(made, Ask({"gravity": 1.095}, ("sugar",)))
    after = applied(made, found)
    assert reads(after)["gravity"] == pytest.approx(1.095, abs=0.0005)
    assert balanced(after).sg < 1.06


def test_as_few_amounts_change_as_are_needed():
    found = solve(SHARP, Ask({"gravity": 1.090}, ("sugar", "acid", "fruit")))
    assert {each.what for each in found.changes if each.was != each.becomes} <= {"sugar", "water"}


def test_a_recipe_that_meets_it_is_left_alone():
    found = solve(SHARP, Ask({"gravity": 1.090}, ("sugar",)))
    again = solve(applied(SHARP, found), Ask({"gravity": 1.090}, ("sugar",)))
    assert again.edit is None
    assert "nothing is to be changed" in again.notes[0]


def test_what_is_held_besides_is_met_or_it_is_not_an_answer():
    # Acidity is already 9.6 in 5 L: holding it there asks for nothing.
    found = solve(SHARP, Ask({"gravity": 1.090, "acidity": 9.6}, ("sugar",)))
    assert found.met
    assert {each.what for each in found.changes if each.was != each.becomes} <= {"sugar", "water"}


def test_the_range_of_the_fruit_is_told_and_narrowed_by_measuring():
    damsons = project(fruit("damson", "1.5 kg"), white("500 g"), WATER, basis="5 L")
    found = solve(damsons, Ask({"gravity": 1.090}, ("sugar",)))
    each = amount(found, "sugar")
    low, high = Amount(each.low).grams(), Amount(each.high).grams()
    assert low < each.exact < high
    assert amount(solve(SHARP, Ask({"gravity": 1.090}, ("sugar",))), "sugar").low == ""
    poorest = solve(project(juice(brix="7 brix"), WATER, basis="5 L"),
                    Ask({"gravity": 1.090}, ("sugar",)))  # fmt: skip
    assert amount(poorest, "sugar").exact > 0


def test_what_is_held_has_no_range():
    damsons = project(fruit("damson", "1.5 kg"), white("500 g"), WATER, basis="5 L")
    asked = Ask({"gravity": 1.090, "volume": 6.0}, ("sugar", "water"))
    assert amount(solve(damsons, asked), "volume").low == ""
    sharp = solve(damsons, Ask({"acidity": 7.0}, ("volume",)))
    assert Volume(amount(sharp, "volume").low).litres(None) < amount(sharp, "volume").exact


def test_the_edit_is_one_step_and_leaves_the_rest():
    found = solve(SHARP, Ask({"gravity": 1.090}, ("sugar",)))
    after = applied(SHARP, found)
    assert found.edit.label == "reach the targets"
    assert after.recipe.lines[0] == SHARP.recipe.lines[0]
    assert after.recipe.basis == SHARP.recipe.basis


def test_a_must_that_is_made_up_is_not_changed_by_its_recipe(damson_log):
    found = solve(damson_log, Ask({"gravity": 1.090}, ("sugar",)))
    assert any("not what is in the pail" in note for note in found.notes)


@pytest.fixture
def damson_log():
    from tests.plan.damson import at, damson

    return damson(Action(id="x", at=at("2026-10-01T18:00"), step="sugar-water"))


def test_the_maker_s_own_targets_are_the_usual_values():
    own = Targets(gravity_low=Gravity("1.080"), gravity_high=Gravity("1.084"),
                  acid_low_g_per_l=6.0, acid_high_g_per_l=7.0)  # fmt: skip
    made = project(juice(acid=12.0), white("500 g"), WATER, basis="5 L", targets=own)
    usual = usual_values(made)
    assert usual["gravity"] == pytest.approx(1.082)
    assert usual["acidity"] == 7.0  # 9.6 now: the nearest end
    assert usual["volume"] == 5.0
    assert usual_hold(made, ("sugar",)) == ("gravity",)
    assert usual_hold(made, ("acid",)) == ("acidity",)
    assert usual_hold(made, ("sugar", "fruit")) == ("gravity", "acidity")


@pytest.mark.bench
def test_it_is_worked_out_at_once():
    made = project(fruit("damson", "1.5 kg"), white("500 g"), WATER, basis="5 L")
    asked = Ask({"gravity": 1.090, "acidity": 3.0}, ("sugar", "acid"))
    solve(made, asked)
    took = []
    for _ in range(10):
        begun = time.perf_counter()
        solve(made, asked)
        took.append(time.perf_counter() - begun)
    assert min(took) < 0.010


@pytest.mark.parametrize(
    ("litres", "like", "text"),
    [
        (0.06317, "50 mL", "63 mL"), (0.00517, "5 mL", "5.2 mL"), (0.6317, "1 L", "0.632 L"),
        (4.3333, "5 L", "4.33 L"), (19.123, "20 L", "19.12 L"),
    ],
)  # fmt: skip
def test_a_volume_has_the_digits_that_a_kitchen_can_measure(litres, like, text):
    assert volume_like(litres, Amount(like), None) == text
