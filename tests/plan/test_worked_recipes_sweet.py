"""Whole recipes worked by hand: honey and dried fruit, a concentrate, a can in syrup, a feed.

Sources, each named again where it is used: 27 CFR 24.181 (13.5 lb of sugar count as one gallon),
NIST Handbook 44 (pound, gallon), USDA SR28 (what is in 100 g of a food), the sucrose table of the
CRC Handbook (g/mL at 20 °C), and 16.83 g of sugar for one percent of strength (EU).
"""

import re

import pytest

from tests.plan.damson import at, planned, ticked
from tests.plan.recipes import WATER, YEAST, fruit, line, project, sugar, water, white
from winebench.model.edits import changed
from winebench.model.recipe import Measured
from winebench.plan.balance import balanced
from winebench.plan.compose import compose
from winebench.units import Juice

POUND, GALLON = 0.45359237, 3.785411784
LITRES_A_KG = GALLON / (13.5 * POUND)
"""27 CFR 24.181: 0.618 L for a kilogram of dissolved sugar."""
WATER_KG = 0.9982
"""Water at 20 °C, kg/L: CRC Handbook."""
SG, SUGAR = 0.002, 0.03
"""How near the program must come."""


def by_hand(solids_kg, litres):
    """Return SG of so much dissolved in so many litres of liquid, by the rule of 24.181."""
    water_kg = (litres - LITRES_A_KG * solids_kg) * WATER_KG
    return (water_kg + solids_kg) / litres / WATER_KG


def test_the_rule_by_hand_is_the_handbook_s_table():
    # CRC: 22 % sugar weighs 1.0899 g/mL, so a litre holds 239.8 g: SG 1.0899 / 0.9982 = 1.0919.
    assert by_hand(0.2398, 1.0) == pytest.approx(1.0919, abs=0.0005)


def test_honey_and_raisins_to_a_gallon():
    # 1. Honey 2 lb = 907.2 g. USDA SR28 food 19296: 17.10 g water in 100 g, so 752 g dissolved;
    #    82.12 g sugars: 745 g.
    # 2. Raisins 8 oz = 226.8 g. USDA food 09298: 15.43 g water and 3.7 g fibre, so 80.9 g else;
    #    59.19 g of it sugars, and 79.18 - 3.7 = 75.5 g all carbohydrates that are no fibre.
    #    Dissolved between 134 and 171 g: 153 g. Sugars 134 g.
    # 3. Together 905 g in 3.785 L: 239 g/L. By 24.181 water is 3.785 - 0.618 x 0.905 = 3.226 L,
    #    3.220 kg; (3.220 + 0.905) / 3.785 = 1.0898 kg/L; / 0.9982 = SG 1.0917.
    # 4. Sugars 745 + 134 = 879 g: 232 g/L; / 16.83 = 13.8 %.
    made = project(sugar("honey", "2 lb"), fruit("raisin", "8 oz", form="dried"), WATER, YEAST)
    must = compose(made).must
    assert must.gravity.value == pytest.approx(1.0917, abs=SG)
    assert must.sugar.value == pytest.approx(232, rel=SUGAR)
    assert must.strength.value == pytest.approx(13.8, rel=SUGAR)
    assert must.liquid.value == pytest.approx(GALLON, abs=0.001)


def test_a_grape_concentrate_by_its_label_and_water():
    # Label: 68 °Brix, to be made up 1 + 4; 24 g/L of acid as tartaric in the concentrate.
    # 1. A litre of 68 % weighs 1.335 kg (ICUMSA SPS-4's formula: 1.3350): solids 0.908 kg,
    #    water 0.427 kg = 0.428 L.
    # 2. With 4 L of water (3.993 kg): 5.328 kg in all, 0.908 / 5.328 = 17.0 °Brix.
    # 3. CRC: 16 % 1.0635, 18 % 1.0722, so 17.04 % is 1.0680 g/mL; SG 1.0680 / 0.9982 = 1.0699.
    # 4. 5.328 / 1.0680 = 4.989 L; acid 24 g / 4.989 = 4.8 g/L.
    label = Measured(juice=Juice("68 brix"), acid_g_per_l=24.0)
    juice = fruit("grape-juice-unsweetened", "1 L", measured=label)
    found = balanced(project(juice, water("4 L"), basis="5 L"))
    assert found.brix == pytest.approx(17.04, abs=0.1)
    assert found.sg == pytest.approx(1.0699, abs=SG)
    assert found.litres == pytest.approx(4.989, abs=0.02)
    assert found.acid_g_per_l == pytest.approx(4.8, abs=0.3)


def test_the_concentrate_s_label_is_a_gravity_of_juice_and_no_reading():
    assert Juice("68 brix").value == 68.0
    with pytest.raises(ValueError, match="outside 0-84"):
        Juice("86 brix")
    with pytest.raises(ValueError, match="Did you mean"):
        Juice("1.24")


def test_peaches_canned_in_heavy_syrup_count_the_syrup():
    # Two cans of 822 g, all of it goes in: 1.644 kg. USDA SR28 food 09241, peaches canned in
    # heavy syrup, solids and liquids (from memory; carbohydrate 19.9 on a page opened): water
    # 79.28 g, fibre 1.3, sugars 18.64.
    # 1. What dissolves: 100 - 79.28 - 1.3 = 19.4 g of 98.7 g: a refractometer reads 19.7 °Brix.
    # 2. Solids 1.644 x 0.194 = 0.319 kg; water 1.644 x 0.793 = 1.303 kg = 1.306 L.
    # 3. With 600 g of sugar and 2 L of water: 0.919 kg dissolved; litres 1.306 + 2 + 0.618 x 0.919
    #    = 3.874; SG by 24.181: (1.303 + 1.996 + 0.919) / 3.874 / 0.9982 = 1.0907.
    # 4. Sugars 1.644 x 0.1864 = 0.306 kg, and 0.600 x 1.0526 (split sucrose) = 0.632: 0.938 kg,
    #    242 g/L.
    can = fruit("peach", "1.644 kg", form="canned",
                measured=Measured(juice=Juice("19.7 brix"), liquid_percent=98.7))  # fmt: skip
    found = balanced(project(can, white("600 g"), water("2 L"), basis="4 L"))
    assert found.litres == pytest.approx(3.874, rel=0.005)
    assert found.sg == pytest.approx(1.0907, abs=SG)
    assert found.sugar_g_per_l == pytest.approx(242, rel=SUGAR)


def test_a_can_has_less_of_the_fruit_s_acid_than_so_much_fruit():
    # Fruit is about 60 % of what is in a can (drained weight, common practice).
    def acid(form):
        return balanced(project(fruit("peach", "1 kg", form=form, prepared=True), WATER)).acid_g

    assert acid("canned") == pytest.approx(0.6 * acid("fresh"), rel=0.001)


def test_sugar_in_two_stages():
    # 1. 700 g in a US gallon: 184.9 g/L. Water 3.785 - 0.618 x 0.7 = 3.353 L, 3.347 kg;
    #    (3.347 + 0.700) / 3.785 / 0.9982 = 1.0710: the first reading.
    # 2. 400 g fed on top: 1.100 kg in 3.785 + 0.618 x 0.4 = 4.033 L: 272.8 g/L, SG 1.1046.
    # 3. Strength of all of it: 272.8 x 1.0526 / 16.83 = 17.1 %: too much for a yeast to 14 %.
    feed = sugar("white-sugar", "400 g", when="feed")
    made = project(white("700 g"), feed, WATER, YEAST)
    found = compose(made)
    assert found.must.gravity.value == pytest.approx(1.0710, abs=SG)
    assert balanced(made, fed=True).sg == pytest.approx(1.1046, abs=SG)
    assert balanced(made, fed=True).litres == pytest.approx(4.033, abs=0.01)
    assert found.must.strength.value == pytest.approx(17.1, rel=SUGAR)
    assert "yeast-too-weak" in [caution.key for caution in found.cautions]


def test_the_feed_of_five_gallons_is_told_when_it_is_due():
    # 400 g a gallon at five gallons are 2000 g, to be fed below 1.020; some 40 points are two
    # portions of 20, the most that is fed at once (common practice).
    feed = sugar("white-sugar", "400 g", when="feed")
    made = project(white("700 g"), feed, WATER, YEAST, make="5 gal")
    assert line(compose(made), "white-sugar").scaled.value == pytest.approx(2000.0)
    begun = changed(made, start=at("2026-10-01T18:00"), log=(ticked("pitch", "2026-10-02T18:00"),))
    # More than 20 points at once foams over: in two, of 0.3836 x 1 / 19.5 L (24.181) = 20 points.
    reminder = planned(begun, "2026-10-03T18:00", "sugar-feed").reminder
    assert sum(map(int, re.findall(r"(\d+) g", reminder))) == 2000
    assert "20 points" in reminder
