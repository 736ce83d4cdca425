"""The must against handbook and law tables, and one sum done by hand from crush to acid."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, fruit, project, water, white
from winebench.model.recipe import Measured
from winebench.plan.balance import balanced
from winebench.plan.compose import compose
from winebench.units import Gravity

WATER_KG = 0.9982
"""Water at 20 °C, kg/L: CRC Handbook."""


@pytest.mark.parametrize(
    ("brix", "density"),
    [
        # CRC Handbook, Concentrative Properties of Aqueous Solutions: sucrose, g/cm³ at 20 °C.
        (10, 1.0381), (15, 1.0592), (18, 1.0722), (19, 1.0766), (22, 1.0899),
    ],
)  # fmt: skip
def test_sugar_in_water_reads_what_the_handbook_s_solution_weighs(brix, density):
    # b % by mass is b / (100 - b) kg of sugar to each kg of water, and that water is 1/0.9982 L;
    # granulated sugar is 99.98 % sugar (USDA SR28 food 19335).
    grams = brix / (100 - brix) * 1000 / 0.9998
    must = balanced(project(white(f"{grams:.2f} g"), water(f"{1 / WATER_KG:.5f} L")))
    assert must.sg == pytest.approx(density / WATER_KG, abs=0.0002)


def test_a_measured_raspberry_must_is_the_sum_done_by_hand():
    # 1 kg of berries giving 90 % juice of 10 °Brix, 18 g/L acid:
    #   juice 0.900 kg: solids 0.090, water 0.810; 0.900 / 1.0381 (CRC, 10 %) = 0.867 L
    #   acid 0.867 x 18 = 15.6 g; pulp 0.100 kg / 1.05 = 0.095 L
    # 3 L of water 2.9946 kg, 600 g of sugar 0.5999 kg solids:
    #   solids 0.6899 of 4.4946 kg in all = 15.35 °Brix
    #   density between 15 % 1.0592 and 16 % 1.0635 (CRC): 1.0607; SG 1.0607 / 0.9982 = 1.0626
    #   liquid 4.4946 / 1.0607 = 4.237 L; acid 15.6 / 4.237 = 3.68 g/L
    mine = Measured(juice=Gravity("10 brix"), acid_g_per_l=18.0, liquid_percent=90.0)
    berries = fruit("raspberry", "1 kg", measured=mine, prepared=True)
    must = balanced(project(berries, white("600 g"), water("3 L")))
    assert must.brix == pytest.approx(15.35, abs=0.02)
    assert must.sg == pytest.approx(1.0626, abs=0.0003)
    assert must.litres == pytest.approx(4.237, abs=0.003)
    assert must.pulp_l == pytest.approx(0.095, abs=0.001)
    assert must.acid_g_per_l == pytest.approx(3.68, abs=0.02)


def test_strength_is_the_law_s_for_150_grams_of_sugar():
    # French order of 14 Sept 2011, Annex IV: 150 g/L of sugar make 8.913 % vol.
    # Sucrose weighs 2 x 180.156 / 342.297 = 1.0526 once split: 142.5 g makes 150 g.
    must = compose(project(white("1425 g"), WATER, basis="10 L", make="10 L")).must
    assert must.sugar.value == pytest.approx(150.0, abs=0.1)
    assert must.strength.value == pytest.approx(8.913, abs=0.01)
    assert must.strength.text == "8.9"


def test_stones_are_taken_off_unless_the_fruit_was_stoned():
    # USDA SR28 food 09063: 10 % of sour cherries is pits and stems.
    whole = balanced(project(fruit("cherry-sour", "3 kg")))
    stoned = balanced(project(fruit("cherry-sour", "2.7 kg", prepared=True)))
    assert whole.solids_kg == pytest.approx(stoned.solids_kg)
    assert whole.litres == pytest.approx(stoned.litres)


def test_what_does_not_ferment_keeps_the_dry_wine_heavier():
    # A gram of solids in a litre weighs 0.0003836 of gravity: 0.618 L/kg, 27 CFR 24.181.
    # Two musts of one strength: sugar alone, and juice whose other solids stay in the wine.
    # Sour cherry juice of 15.2 % solids held 9.7 % sugar (Swisher & Poe 1935): much stays.
    juice = project(fruit("cherry-sour", "10 L", "15.2 brix", form="juice"), basis="10 L")
    cherry, left = compose(juice).must, balanced(juice).left_g_per_l
    grams = cherry.sugar.value * 342.297 / (2 * 180.156) * 10 / 0.9998
    plain = compose(project(white(f"{grams:.1f} g"), WATER, basis="10 L")).must
    assert plain.strength.value == pytest.approx(cherry.strength.value, abs=0.05)
    assert left > 20.0
    heavier = cherry.dry_gravity.value - plain.dry_gravity.value
    assert heavier == pytest.approx(left * 0.0003836, abs=0.0006)


def test_a_fruit_dried_is_no_richer_than_its_dry_matter_allows():
    # Elderberries are 79.8 % water (USDA SR28 food 09088): dried to a fifth of water they are
    # 80 / 20.2 = 4.0 times as rich; a quarter more for the fruit's own spread.
    fresh = balanced(project(fruit("elderberry", "1 kg"), WATER))
    dried = balanced(project(fruit("elderberry", "1 kg", form="dried"), WATER))
    assert 2.5 < dried.solids_kg / fresh.solids_kg < 5.0


def test_every_figure_of_the_must_shows_its_workings_and_their_source():
    must = compose(project(fruit("plum", "1 kg"), white("600 g"), WATER)).must
    for name in must.__struct_fields__:
        figure = getattr(must, name)
        if hasattr(figure, "workings"):
            assert figure.workings is not None, name
            assert figure.workings.source, name
            assert figure.workings.inputs, name


@given(
    st.sampled_from(["damson", "raspberry", "apple", "elderberry", "banana", "lemon"]),
    st.sampled_from(["fresh", "frozen", "puree", "juice", "dried", "canned"]),
    st.floats(0.05, 6.0),
    st.floats(0.0, 2.0),
)
@settings(max_examples=60, deadline=None)
def test_a_figure_lies_in_its_own_range(key, form, kilos, sweet):
    lines = (fruit(key, f"{kilos:.3f} kg", form=form), white(f"{sweet:.3f} kg"), WATER)
    must = compose(project(*lines)).must
    for name in must.__struct_fields__:
        figure = getattr(must, name)
        if getattr(figure, "low", None) is not None and figure.value is not None:
            assert figure.low <= figure.value <= figure.high, name


def test_a_fruit_dried_keeps_most_of_its_nitrogen_in_less_mass():
    # The same dry matter: fresh apricots are 13.65 % dry (USDA 09021), dried about 78 %, so a
    # kilogram dried holds 5.7 times as much, of which drying leaves half to all.
    fresh = balanced(project(fruit("apricot", "1 kg", prepared=True), WATER))
    dried = balanced(project(fruit("apricot", "1 kg", form="dried"), WATER))
    assert 0.5 * 5.0 < dried.nitrogen_mg / fresh.nitrogen_mg < 1.05 * 5.8


def test_the_gravity_of_day_0_spans_how_much_juice_is_free_whatever_the_fruit():
    made = project(fruit("damson", "4 lb"), white("2 lb"), WATER)
    shown = compose(made).must.gravity_day_0
    # By hand, from the typical fruit alone: the free juice of fresh fruit is 35 to 65 %.
    must = balanced(made)
    low, high = must.sg_day_0_ends
    assert low < must.sg_day_0 < high
    assert shown.low <= low + 0.0005
    assert shown.high >= high - 0.0005
    assert shown.high - shown.low > 0.008
