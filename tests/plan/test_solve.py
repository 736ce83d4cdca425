"""Any amount can be the unknown, any target can be held; a set that cannot be says who fights."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, additive, fruit, project, sugar, water, white
from winebench.model.recipe import Measured, WaterLine
from winebench.plan.balance import balanced, both_musts
from winebench.plan.solve import Ask, SolveError, solve, usual_values
from winebench.plan.wanted import strength
from winebench.units import Gravity

WATER_KG = 0.9982
"""Water at 20 °C, kg/L: CRC Handbook."""


def amount(found, what):
    return next(each for each in found.changes if each.what == what)


def applied(made, found):
    assert found.met, found.why_not
    return found.edit.apply(made) if found.edit else made


def juice(litres="4 L", brix="12 brix", acid=None):
    measured = Measured(juice=Gravity(brix), acid_g_per_l=acid, liquid_percent=100.0)
    return fruit("apple-juice-unsweetened", litres, measured=measured)


# --- worked by hand ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("brix", "density"),
    # CRC Handbook, Concentrative Properties of Aqueous Solutions: sucrose, g/cm³ at 20 °C.
    [(10, 1.0381), (15, 1.0592), (18, 1.0722), (19, 1.0766), (22, 1.0899)],
)
def test_sugar_for_water_is_the_handbook_s_solution(brix, density):
    # b % by mass is b / (100 - b) kg of sugar to each kg of water: 3 L of water is 2.9946 kg.
    # Granulated sugar is 99.98 % sugar (USDA SR28 food 19335).
    by_hand = 3.0 * WATER_KG * brix / (100 - brix) / 0.9998 * 1000
    found = solve(project(water("3 L")), Ask({"gravity": density / WATER_KG}, ("sugar",)))
    # The table's four digits are 0.05 g/L of solids either way: 0.03 °Brix, a few grams here.
    assert amount(found, "sugar").exact == pytest.approx(by_hand, abs=4.0)


def test_sugar_and_water_for_a_volume_is_the_handbook_s_litre():
    # CRC Handbook, the same table: 20 % by mass is 1.0810 g/cm³; 5 L of it weigh 5.405 kg, of
    # which 1.0810 is sugar and 4.324 water, 4.324 / 0.9982 = 4.332 L.
    asked = Ask({"gravity": 1.0810 / WATER_KG, "volume": 5.0}, ("sugar", "water"))
    found = solve(project(white("100 g"), water("1 L"), basis="5 L"), asked)
    assert amount(found, "sugar").exact == pytest.approx(1081.0, abs=3.0)
    assert amount(found, "water").exact == pytest.approx(4.332, abs=0.004)


def test_acid_is_the_gap_times_the_litres():
    # 4 L of juice at 5.0 g/L in 5 L of must: 4.0 g/L. To 6.5: (6.5 - 4.0) x 5 L = 12.5 g tartaric;
    # the acid itself takes up next to nothing (a gram of solids is 0.6 mL).
    found = solve(project(juice(acid=5.0), WATER, basis="5 L"), Ask({"acidity": 6.5}, ("acid",)))
    assert amount(found, "acid").exact == pytest.approx(12.5, abs=0.05)
    assert (amount(found, "acid").was, amount(found, "acid").becomes) == ("none", "12.5 g")


def test_malic_acid_is_weighed_by_its_own_equivalent():
    # 12.5 g as tartaric is 12.5 x 67.04 / 75.04 = 11.17 g malic (molar masses 134.09 and 150.09).
    made = project(juice(acid=5.0), additive("malic-acid", "2 g"), WATER, basis="5 L")
    found = solve(made, Ask({"acidity": 6.5}, ("malic-acid",)))
    assert amount(found, "acid").exact == pytest.approx(11.17, abs=0.05)


def test_water_thins_the_acid_as_volumes_say():
    # 10 L at 14 g/L to 7.5: 10 x (14 / 7.5 - 1) = 8.67 L, volumes taken to add up (definition).
    found = solve(project(juice("10 L", acid=14.0)), Ask({"acidity": 7.5}, ("water",)))
    assert amount(found, "water").exact == pytest.approx(8.67, abs=0.05)


def test_water_to_a_gravity_is_a_balance_of_mass():
    # 4 L of juice at 12 °Brix (SG 1.0483) weigh 4.1858 kg and hold 0.5023 kg; at 8 °Brix (CRC:
    # 1.0299 g/cm³) that is 6.2787 kg in all: 2.0929 kg of water, 2.097 L.
    found = solve(project(juice()), Ask({"gravity": 1.0299 / WATER_KG}, ("water",)))
    assert amount(found, "water").exact == pytest.approx(2.097, abs=0.01)


def test_volume_is_what_the_fruit_and_its_acid_allow():
    # 4 L of juice at 9 g/L hold 36 g of acid: at 6 g/L they make 6 L, filled with water.
    made = project(juice(acid=9.0), white("300 g"), WATER, basis="5 L")
    found = solve(made, Ask({"acidity": 6.0}, ("volume",)))
    assert amount(found, "volume").exact == pytest.approx(6.0, abs=1e-6)
    after = applied(made, found)
    assert (after.recipe.basis.text, after.make.size.text) == ("6 L", "6 L")


def test_fruit_follows_its_rate():
    # 300 g in a litre of a 5 L must is 1.5 kg, whatever the fruit.
    made = project(
        fruit("plum", "2 kg"), fruit("damson", "1 kg"), white("800 g"), WATER, basis="5 L"
    )
    found = solve(made, Ask({"fruit": 0.3}, ("fruit",)))
    plum, damson = (each for each in found.changes if each.what == "fruit")
    assert (plum.becomes, damson.becomes) == ("1 kg", "0.5 kg")


# --- the laws ---------------------------------------------------------------------------

FRUIT = st.sampled_from(["damson", "raspberry", "apple", "elderberry", "blackberry", "peach"])


@st.composite
def recipes(draw):
    litres = draw(st.floats(4.0, 25.0))
    lines = [fruit(draw(FRUIT), f"{draw(st.floats(0.1, 0.5)) * litres:.2f} kg")]
    lines.append(white(f"{draw(st.floats(0.05, 0.25)) * litres:.3f} kg"))
    if draw(st.booleans()):
        lines.append(sugar("honey", f"{draw(st.floats(10, 40)) * litres:.0f} g"))
    if draw(st.booleans()):
        lines.append(additive("tartaric-acid", f"{draw(st.floats(0.2, 3.0)) * litres:.1f} g"))
    mark = draw(st.booleans())
    lines.append(WATER if mark else water(f"{draw(st.floats(0.5, 0.8)) * litres:.2f} L"))
    return project(*lines, basis=f"{litres:.2f} L")


QUESTIONS = st.sampled_from(
    [
        (("gravity",), ("sugar",)),
        (("gravity",), ("water",)),
        (("strength",), ("sugar",)),
        (("acidity",), ("acid",)),
        (("acidity",), ("fruit", "volume")),
        (("gravity", "acidity"), ("sugar", "acid")),
        (("gravity", "acidity"), ("sugar", "fruit")),
        (("gravity", "acidity"), ("sugar", "water")),
        (("gravity", "acidity", "volume"), ("sugar", "acid", "water", "fruit")),
        (("strength", "acidity", "fruit"), ("sugar", "acid", "fruit")),
    ]
)


def reads(made):
    start, whole = both_musts(made)
    return {
        "gravity": whole.sg,
        "strength": strength(whole),
        "acidity": whole.acid_g_per_l,
        "volume": start.litres,
    }


CLOSE = {"gravity": 0.0005, "strength": 0.05, "acidity": 0.05, "volume": 0.02}


@given(recipes(), QUESTIONS, st.floats(1.06, 1.12), st.floats(4.0, 9.0), st.floats(9.0, 15.0))
@settings(max_examples=150, deadline=None)
def test_what_is_solved_for_reads_as_held(made, question, sg, acid, percent):
    held, change = question
    values = {
        "gravity": sg, "acidity": acid, "strength": percent, "fruit": 0.3,
        "volume": made.recipe.basis.litres(None),
    }  # fmt: skip
    found = solve(made, Ask({key: values[key] for key in held}, change))
    if not found.met:
        assert found.edit is None
        assert found.why_not.endswith(".")
        return
    after = reads(applied(made, found))
    for key in held:
        if key in after:
            assert after[key] == pytest.approx(values[key], abs=CLOSE[key]), key


@given(recipes(), st.floats(0.5, 5.0), st.floats(0.1, 5.0))
@settings(max_examples=60, deadline=None)
def test_water_never_raises_the_gravity_and_thinner_takes_more_of_it(made, litres, more):
    dry = [line for line in made.recipe.lines if not isinstance(line, WaterLine)]
    wet, wetter = (project(*dry, water(f"{each:.3f} L")) for each in (litres, litres + more))
    assert balanced(wetter).sg < balanced(wet).sg
    assume(1.02 < balanced(wet).sg < 1.2)
    thick, thin = (
        solve(wet, Ask({"gravity": balanced(wet).sg - by}, ("water",))) for by in (0.001, 0.01)
    )
    assert amount(thin, "water").exact > amount(thick, "water").exact > litres


@given(recipes(), st.floats(1.06, 1.12))
@settings(max_examples=60, deadline=None)
def test_more_sugar_for_a_higher_gravity(made, sg):
    low, high = (solve(made, Ask({"gravity": each}, ("sugar",))) for each in (sg, sg + 0.005))
    assume(low.met and high.met)
    assert amount(high, "sugar").exact > amount(low, "sugar").exact


@given(recipes(), QUESTIONS)
@settings(max_examples=60, deadline=None)
def test_an_answer_asks_for_nothing_more(made, question):
    held, change = question
    usual = usual_values(made)
    asked = Ask({key: usual[key] for key in held}, change)
    found = solve(made, asked)
    assume(found.met)
    again = solve(applied(made, found), asked)
    assert again.met
    once = applied(made, found)
    for key, value in reads(applied(once, again)).items():  # what is left is kitchen rounding
        assert value == pytest.approx(reads(once)[key], abs=CLOSE[key]), key


# --- what fights ------------------------------------------------------------------------


def fight(made, held, change):
    found = solve(made, Ask(held, change))
    assert not found.met
    assert found.edit is None
    assert found.changes == ()
    return found.why_not


SHARP = project(juice(acid=12.0), white("500 g"), WATER, basis="5 L")


def test_too_sharp_a_fruit_fights_with_the_volume():
    # 4 L at 12 g/L are 48 g: 9.6 g/L in 5 L, and 7.0 in 48 / 7 = 6.86 L.
    said = fight(SHARP, {"gravity": 1.090, "acidity": 7.0}, ("sugar", "acid"))
    assert "no acid added, acidity cannot go under 9.6 g/L in 5 L, and 7.0 g/L is wanted" in said
    assert "ask for another acidity, or let the volume change" in said  # nobody holds the volume
    assert "in 6.9 L" in said
    assert "2.9 L of juice" in said  # 4 L x 35 g / 48 g, below


def test_what_it_says_would_do_does():
    lower = solve(SHARP, Ask({"gravity": 1.090, "acidity": 7.0}, ("sugar", "acid", "volume")))
    assert amount(lower, "volume").exact == pytest.approx(48 / 7, abs=0.01)
    less = solve(SHARP, Ask({"gravity": 1.090, "acidity": 7.0}, ("sugar", "acid", "fruit")))
    # 7.0 x 5 L = 35 g of the 48: 35 / 48 of the juice
    assert amount(less, "fruit").exact == pytest.approx(4192 * 35 / 48, rel=0.005)


def test_sugar_alone_does_not_move_the_acidity_of_a_filled_must():
    said = fight(SHARP, {"gravity": 1.090, "acidity": 7.0}, ("sugar",))
    assert "acidity comes to 9.6 g/L in 5 L, not the 7.0 g/L wanted" in said
    held = {"gravity": 1.090, "acidity": 7.0, "volume": 5.0}
    assert "hold the acidity or the volume, not both" in fight(SHARP, held, ("sugar",))


def test_sugar_below_nothing_is_said_with_what_the_fruit_reads():
    said = fight(project(juice()), {"gravity": 1.030}, ("sugar",))
    # juice of 12 °Brix is SG 1.048 (CRC: 1.0465 / 0.9982 = 1.0484)
    assert "no white sugar, gravity cannot go under 1.048, and 1.030 is wanted" in said
    assert "(2.5 L) of water" in said


def test_water_below_nothing():
    said = fight(project(juice(), water("1 L")), {"gravity": 1.060}, ("water",))
    assert "no water, gravity cannot go over 1.048, and 1.060 is wanted" in said
    assert "white sugar" in said


def test_fruit_past_the_mark():
    made = project(juice("6 L"), white("500 g"), WATER, basis="5 L")
    said = fight(made, {"gravity": 1.090}, ("sugar",))
    assert "volume cannot go under 6." in said
    assert "5 L is wanted" in said


def test_a_recipe_without_its_water_says_so():
    made = project(white("1 kg"), additive("tartaric-acid", "10 g"), basis="5 L")
    assert "hardly any water" in fight(made, {"gravity": 1.090}, ("sugar",))
    found = solve(made, Ask({"gravity": 1.090}, ("water",)))
    after = applied(made, found)
    assert reads(after)["gravity"] == pytest.approx(1.090, abs=0.0005)
    assert isinstance(after.recipe.lines[-1], WaterLine)


def test_more_held_than_can_be_met_names_two_of_them():
    # 4 L of juice at 12 g/L with sugar alone to change: neither acidity nor strength follows.
    made = project(juice(acid=12.0), white("500 g"), water("1 L"), basis="5 L")
    said = fight(made, {"gravity": 1.090, "acidity": 7.0, "strength": 9.0}, ("sugar",))
    assert "acidity comes to 8." in said
    assert "not the 7.0 g/L wanted: hold the acidity or the gravity, not both." in said


def test_a_rate_needs_fruit():
    with pytest.raises(SolveError, match="no fruit on the recipe"):
        solve(project(white("1 kg"), WATER), Ask({"fruit": 0.3}, ("water",)))


def test_a_syrup_thinner_than_the_must_never_gets_there():
    made = project(juice(), sugar("syrup", "100 g", solids_percent=15.0), water("1 L"))
    assert "no amount of syrup" in fight(made, {"gravity": 1.090}, ("sugar",)).lower()


def test_gravity_and_strength_fight_where_the_fruit_leaves_much():
    made = project(juice(), white("500 g"), WATER, basis="5 L")
    said = fight(made, {"gravity": 1.090, "strength": 9.0}, ("sugar",))
    assert "the strength or the" in said
    assert "gravity" in said


@pytest.mark.parametrize(
    ("held", "change", "said"),
    [
        ({}, ("sugar",), "what is to be held"),
        ({"gravity": 1.09}, (), "what may change"),
        ({"gravity": 1.09}, ("salt",), '"salt" is nothing that can change here; name sugar'),
        ({"gravity": 1.45}, ("sugar",), "1.000 to 1.200"),
        ({"acidity": 99.0}, ("acid",), "0.0 g/L to 30.0 g/L"),
        ({"volume": 5.0}, ("volume",), "both held and found"),
    ],
)
def test_a_question_that_cannot_be_put_is_one_sentence(held, change, said):
    with pytest.raises(SolveError, match=said.replace("(", r"\(")):
        solve(SHARP, Ask(held, change))


def test_one_sugar_at_a_time():
    made = project(juice(), white("300 g"), sugar("honey", "200 g"), WATER, basis="5 L")
    with pytest.raises(SolveError, match="Only one sugar"):
        solve(made, Ask({"gravity": 1.09}, ("white-sugar", "honey")))
    found = solve(made, Ask({"gravity": 1.09}, ("honey",)))
    assert [each.name for each in found.changes if each.what == "sugar"] == ["Honey"]


def test_there_must_be_something_to_solve():
    with pytest.raises(SolveError, match="nothing in the recipe"):
        solve(project(), Ask({"gravity": 1.09}, ("sugar",)))
    with pytest.raises(SolveError, match="no fruit"):
        solve(project(white("1 kg"), WATER), Ask({"gravity": 1.09}, ("fruit",)))
