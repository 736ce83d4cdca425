"""The must by mass, against balances worked by hand, published tables and its own laws."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, additive, fruit, project, sugar, water, white
from winebench.model.edits import changed
from winebench.model.recipe import Measured, Targets
from winebench.plan.balance import balanced, sugar_to_target_kg, water_to_target_l
from winebench.plan.compose import compose
from winebench.plan.must import strength
from winebench.units import Amount, Gravity

# SG 20/20 of sucrose solutions at 12, 21 and 22 °Brix: worked out from the ICUMSA SPS-4 formula,
# the program's own source; tests/plan/test_must_by_mass.py checks it against the CRC Handbook.
SG_AT = {12.0: 1.048327, 21.0: 1.087389, 22.0: 1.091887}
PER_BRIX = SG_AT[22.0] - SG_AT[21.0]
WATER_KG = 0.9982036
"""Water at 20 °C, kg/L: CIPM."""


def test_a_kilogram_of_sugar_in_three_and_a_half_litres_of_water():
    # 3.5 x 0.9982 = 3.4937 kg water; + 1 kg = 4.4937 kg; 1 / 4.4937 = 22.25 °Brix
    must = balanced(project(white("1 kg"), water("3.5 L")))
    assert must.brix == pytest.approx(22.25, abs=0.01)
    assert must.sg == pytest.approx(SG_AT[22.0] + 0.25 * PER_BRIX, abs=1e-4)
    # 27 CFR 24.181 counts 13.5 lb of sugar as one US gallon: 3.7854 L / 6.1235 kg = 0.618 L/kg
    assert must.litres == pytest.approx(3.5 + 3.785411784 / (13.5 * 0.45359237), abs=0.01)


def test_juice_of_known_brix_with_the_sugar_that_brings_it_to_1_090():
    # 4 L x 1.0483 x 0.9982 = 4.1858 kg at 12 °Brix; 1.090 lies at 21.58 °Brix (the table's line)
    # kg = 4.1858 x (21.58 - 12) / (100 - 21.58) = 0.5113
    target = 21.0 + (1.090 - SG_AT[21.0]) / PER_BRIX
    mass = 4.0 * SG_AT[12.0] * WATER_KG
    by_hand = mass * (target - 12.0) / (100.0 - target)
    juice = project(fruit("apple-juice-unsweetened", "4 L", "12 brix"))
    kilos = sugar_to_target_kg(juice, 1.090)
    assert kilos == pytest.approx(by_hand, abs=0.002)
    assert by_hand == pytest.approx(0.5113, abs=0.0005)


@pytest.mark.parametrize(
    ("line", "solids"),
    [
        # USDA SR28 food 19296: honey holds 17.1 g water in 100 g, the rest is dissolved.
        (sugar("honey", "1 kg"), 0.829),
        # Dextrose monohydrate: 180.16 / 198.17 of it is sugar, by molar masses.
        (sugar("dextrose", "1 kg"), 180.16 / 198.17),
        (sugar("syrup", "1 kg", solids_percent=61.0), 0.61),
        # USDA SR28 food 19335: granulated sugar, 0.02 g water in 100 g; 200 g in a cup.
        (sugar("white-sugar", "5 cup US"), 0.9998),
        # USDA SR28 food 19296: honey, 339 g in a cup.
        (sugar("honey", f"{1000 / 339:.5f} cup US"), 0.829),
    ],
)
def test_what_a_kilogram_of_each_sugar_dissolves(line, solids):
    must = balanced(project(line, water("3 L")))
    assert must.solids_kg == pytest.approx(solids, abs=0.006)
    assert must.water_kg == pytest.approx(3.0 * WATER_KG + 1.0 - solids, abs=0.006)


@pytest.mark.parametrize(
    ("key", "usda_sugars", "form"),
    [
        # Total sugars, g in 100 g edible: USDA SR28 foods 09042, 09302, 09279, 09298, 09291.
        ("blackberry", 4.88, "frozen"),
        ("raspberry", 4.42, "frozen"),
        ("plum", 9.92, "frozen"),
        ("raisin", 59.19, "dried"),
        ("prune", 38.13, "dried"),
    ],
)
def test_the_sugar_of_a_kilogram_spans_what_usda_found(key, usda_sugars, form):
    made = project(fruit(key, "1 kg", prepared=True, form=form))
    poor, rich = (balanced(made, at).sugar_kg * 100.0 for at in (-1, 1))
    assert poor <= usda_sugars <= rich


def test_dried_apricots_are_not_counted_as_fresh():
    # USDA SR28: dried apricots (food 09032, from memory) hold 53.4 g sugars in 100 g; fresh
    # ones (09021) 9.24 g.
    dried = balanced(project(fruit("apricot", "1 kg", form="dried")))
    assert dried.sugar_kg == pytest.approx(0.534, rel=0.15)


def test_acid_and_sulfite_by_molar_masses():
    made = project(
        white("800 g"), water("4 L"), additive("malic-acid", "10 g"),
        additive("potassium-metabisulfite", "1 g"), additive("diammonium-phosphate", "2 g"),
    )  # fmt: skip
    must = balanced(made)
    assert must.acid_g == pytest.approx(10 * (150.087 / 2) / (134.087 / 2), rel=1e-3)
    assert must.so2_mg == pytest.approx(1000 * 2 * 64.064 / 222.32, rel=1e-3)
    assert must.nitrogen_mg == pytest.approx(2000 * 2 * 14.007 / 132.056, rel=1e-3)


def test_only_sulfite_tablets_are_taken_for_sulfite_tablets():
    made = project(white("1 kg"), additive("sulfite-tablet", "1 tablet"), basis="1 gal US")
    # 0.44 g x 57.6 % in one US gallon is 67 mg/L (common practice, checked by hand)
    tablet = balanced(changed(made, recipe=changed(made.recipe, lines=(WATER, *made.recipe.lines))))
    assert tablet.so2_mg / tablet.litres == pytest.approx(67, abs=0.5)
    packets = project(white("1 kg"), WATER, additive("yeast-nutrient", "2 packets"))
    assert balanced(packets).nitrogen_mg == 0


def test_a_pure_sugar_must_keeps_within_the_strength_of_a_mass_balance():
    # Balling: 2.0665 g extract make 1 g alcohol. 22.25 °Brix all gone: 12.16 % by mass; at SG
    # 0.984 and ethanol 0.7892 kg/L that is 15.2 % vol at the most. EU: 16.83 g hexose a percent.
    must = balanced(project(white("1 kg"), water("3.5 L")))
    hexose = 1000 / must.litres * 2 * 180.156 / 342.297
    assert strength(must) == pytest.approx(hexose / 16.83, rel=1e-3)
    assert strength(must) < 15.2


def test_a_dry_fruit_wine_is_told_to_end_where_dry_wines_do():
    # Dry wines read 0.990 to 0.996 and those of much extract more (common practice).
    made = project(fruit("damson", "1.4 kg", form="frozen"), white("500 g"), WATER)
    assert 0.988 <= compose(made).must.dry_gravity.value <= 0.998


def test_measuring_the_juice_narrows_the_range():
    lines = (white("500 g"), WATER)
    guessed = compose(project(fruit("damson", "1.4 kg"), *lines)).must
    known = Measured(juice=Gravity("15 brix"), acid_g_per_l=22.0, liquid_percent=90.0)
    measured = compose(project(fruit("damson", "1.4 kg", measured=known), *lines)).must
    assert not guessed.measured
    assert measured.measured
    for name in ("gravity", "acidity", "strength"):
        wide, narrow = getattr(guessed, name), getattr(measured, name)
        assert narrow.high - narrow.low < wide.high - wide.low


def test_thawed_fruit_gives_up_more_at_once_so_day_0_reads_nearer_the_end():
    def gap(form):
        must = balanced(project(fruit("damson", "1.4 kg", form=form), white("600 g"), WATER))
        return abs(must.sg_day_0 - must.sg)

    assert 0 < gap("frozen") < gap("fresh")
    assert gap("puree") == pytest.approx(0, abs=1e-9)


def test_pressed_fruit_leaves_its_acid_behind_with_its_juice():
    # Pressing leaves acid in the same strength in what is not pressed out.
    made = balanced(project(fruit("apple", "10 kg", prepared=True)))
    juice = balanced(project(fruit("apple", "5 kg", form="juice")))
    assert made.acid_g_per_l == pytest.approx(juice.acid_g_per_l, rel=0.01)


def test_bought_juice_has_the_acid_of_its_table():
    # Belitz, Food Chemistry, table 18.3: apple 0.6 g malic acid in 100 g; x 1.119 as tartaric
    juice = balanced(project(fruit("apple-juice-unsweetened", "1 kg")))
    assert juice.acid_g == pytest.approx(6.0 * 1.119, rel=0.005)


def test_water_to_the_mark_fills_the_liquid_to_the_mark():
    must = balanced(project(fruit("damson", "1.4 kg"), white("600 g"), WATER))
    assert must.litres == pytest.approx(3.785411784, abs=1e-4)
    assert must.pulp_l > 0


def test_sugar_fed_later_counts_for_the_strength_and_not_for_the_first_gravity():
    start, feed = white("600 g"), sugar("dextrose", "300 g", when="feed")
    must = compose(project(start, feed, WATER)).must
    without = compose(project(start, WATER)).must
    assert must.gravity.value == without.gravity.value
    assert must.strength.value > without.strength.value + 2
    assert next(w for w in must.wants if w.key == "gravity").actual.value > must.gravity.value


def test_a_wanted_strength_is_reached_by_the_sugar_that_is_told():
    targets = Targets(strength_percent=12.0)
    made = project(fruit("damson", "1.4 kg"), white("300 g"), WATER, targets=targets)
    grams = compose(made).must.sugar_to_target.value
    more = project(fruit("damson", "1.4 kg"), white(f"{300 + grams:.2f} g"), WATER, targets=targets)
    assert compose(more).must.strength.value == pytest.approx(12.0, abs=0.05)


GRAMS = st.floats(0.0, 2000.0)
LITRES = st.floats(0.5, 6.0)


@settings(max_examples=40, deadline=None)
@given(GRAMS, GRAMS, LITRES)
def test_mass_is_conserved(sugar_g, fruit_g, litres):
    made = project(
        white(f"{sugar_g:.3f} g"), fruit("damson", f"{fruit_g:.3f} g", prepared=True),
        water(f"{litres:.3f} L"),
    )  # fmt: skip
    must = balanced(made)
    pulp_kg = must.pulp_l * 1.05
    put_in = (round(sugar_g, 3) + round(fruit_g, 3)) / 1000.0 + round(litres, 3) * WATER_KG
    assert must.water_kg + must.solids_kg + pulp_kg == pytest.approx(put_in, abs=1e-4)
    assert must.litres * SG(must) == pytest.approx(must.water_kg + must.solids_kg, rel=1e-6)


def SG(must):
    return must.sg * WATER_KG


@settings(max_examples=40, deadline=None)
@given(GRAMS, st.floats(1.0, 500.0), LITRES, st.booleans())
def test_more_sugar_never_lowers_the_gravity_and_more_water_never_raises_it(
    sugar_g, more, litres, mark
):
    def sg(grams, poured):
        lines = [white(f"{grams:.3f} g"), fruit("apricot", "500 g"), water(f"{poured:.3f} L")]
        return balanced(project(*lines, *([WATER] if mark else []))).sg

    assert sg(sugar_g + more, litres) >= sg(sugar_g, litres)
    assert sg(sugar_g, litres + more / 100.0) <= sg(sugar_g, litres) + 1e-9


@settings(max_examples=60, deadline=None)
@given(
    sugar_g=st.floats(0.0, 1200.0),
    fruit_g=st.floats(0.0, 2500.0),
    feed_g=st.sampled_from([0.0, 150.0]),
    mark=st.booleans(),
    target=st.floats(1.070, 1.120),
    key=st.sampled_from(["white-sugar", "honey"]),
)
def test_adding_the_sugar_that_is_told_gives_the_target(
    sugar_g, fruit_g, feed_g, mark, target, key
):
    last = WATER if mark else water("2.5 L")
    lines = [fruit("damson", f"{fruit_g:.1f} g"), last]
    lines += [sugar("dextrose", f"{feed_g} g", when="feed")] if feed_g else []
    first = f"{sugar_g:.4f} g"
    made = project(sugar(key, first), *lines)
    percent = 100.0 if key == "white-sugar" else 82.4
    kilos = sugar_to_target_kg(made, target, percent)
    assert kilos is not None
    grams = Amount(first).grams() + kilos * 1000.0
    if grams < 0:
        return
    after = project(sugar(key, f"{grams:.4f} g"), *lines)
    assert balanced(after, fed=True).sg == pytest.approx(target, abs=2e-4)


@settings(max_examples=40, deadline=None)
@given(st.floats(300.0, 1500.0), st.floats(1.060, 1.120))
def test_pouring_the_water_that_is_told_gives_the_target(sugar_g, target):
    made = project(white(f"{sugar_g:.3f} g"), fruit("damson", "500 g"), water("3 L"))
    litres = water_to_target_l(made, target)
    if litres is None:  # fruit and sugar alone are thinner than that
        return
    after = project(
        white(f"{sugar_g:.3f} g"), fruit("damson", "500 g"), water(f"{3.0 + litres:.5f} L")
    )
    assert balanced(after).sg == pytest.approx(target, abs=2e-4)


def test_no_sugar_reaches_less_than_water_and_no_water_reaches_more_than_the_sugar():
    plain = project(white("500 g"), water("3 L"))
    assert sugar_to_target_kg(plain, 0.995) is None
    assert water_to_target_l(project(water("3 L")), 1.090) is None
    pressed = project(fruit("apple", "4 L", "12 brix", form="juice"))
    assert water_to_target_l(pressed, 1.090) is None


EXTREMES = {
    "nothing": (),
    "only sugar": (white("1 kg"),),
    "only water": (WATER,),
    "only lemons": (fruit("lemon", "9 kg"),),
    "a lorry of sugar": (white("9999999 kg"), WATER),
    "a lake": (white("1 g"), water("9999999 L")),
    "no sugar at all": (white("0 kg"), water("0 L")),
    "counted sugar": (white("3 packets"), WATER),
    "counted fruit": (fruit("apple", "3 bottles"), WATER),
    "own things": (sugar("moonbeam", "1 lb"), additive("oak", "2 packets"),
                   additive("oak chips", "1 cup"), fruit("quandong", "1 lb"), WATER),
    "thin juice": (fruit("apple", "3 L", "0.995", form="juice"), WATER),
    "thick juice": (fruit("apple", "3 L", "50 brix", form="juice"),),
    "dates": (fruit("date-deglet-noor", "5 kg"),),
    "odd label": (sugar("syrup", "1 kg", solids_percent=150.0), WATER),
    "much liquid": (fruit("plum", "1 kg", measured=Measured(liquid_percent=180.0)), WATER),
}  # fmt: skip


@pytest.mark.parametrize("lines", EXTREMES.values(), ids=EXTREMES)
@pytest.mark.parametrize("size", ["1 gal", "9999999 gal", "1 bottle"])
def test_no_recipe_is_too_odd_to_be_worked_out(lines, size):
    made = compose(project(*lines, make=size))
    assert len(made.lines) == len(lines)
    assert made.must.gravity.text


@pytest.mark.parametrize("low", ["0.980", "1.000", "1.200", "50 brix"])
def test_no_target_is_too_odd_to_be_worked_out(low):
    targets = Targets(gravity_low=Gravity(low), acid_low_g_per_l=90.0)
    assert compose(project(white("500 g"), WATER, targets=targets)).must.wants
