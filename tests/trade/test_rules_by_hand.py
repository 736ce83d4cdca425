"""Rules of the trade that no published table covers, each pinned by arithmetic done by hand.

Molar masses are sums of the standard atomic weights (IUPAC, abridged: H 1.008, C 12.011, N 14.007,
O 15.999, Na 22.990, P 30.974, S 32.06, K 39.098).
"""

import pytest

from winebench.trade.acid import acid_after_malolactic
from winebench.trade.alcohol import abv_after_addition
from winebench.trade.blending import spirit_l
from winebench.trade.bottling import full_weight_kg
from winebench.trade.fining import vessel_stock_ml
from winebench.trade.kitchen import celsius_from_fahrenheit, fahrenheit_from_celsius
from winebench.trade.nutrient import staged_nitrogen_g
from winebench.trade.ranges import NotKnown
from winebench.trade.sulfite_running import old_powder_g, so2_from_tablets_mg_per_l
from winebench.trade.sweetener import sugar_equivalent_kg


def test_a_kilogram_of_white_sugar_is_1_1_kg_of_dextrose_with_its_crystal_water() -> None:
    # C6H12O6 is 180.156, with one H2O (18.015) 198.171: 90.91 % sugar; 1 / 0.9091 = 1.100 kg.
    assert sugar_equivalent_kg(1.0, 90.91) == pytest.approx(1.100, abs=0.0005)
    # Honey with 82 % sugars (USDA SR28, food 19296: 82.12): 2 / 0.82 = 2.439 kg.
    assert sugar_equivalent_kg(2.0, 82.0) == pytest.approx(2.439, abs=0.0005)
    assert sugar_equivalent_kg(2.5, 100.0) == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"), [(0.0, 32.0), (20.0, 68.0), (37.0, 98.6), (100.0, 212.0)]
)
def test_fahrenheit_has_its_fixed_points(celsius: float, fahrenheit: float) -> None:
    # Water freezes at 32 °F and boils at 212 °F (the scale's definition): 180 degrees for 100.
    assert fahrenheit_from_celsius(celsius) == pytest.approx(fahrenheit)
    assert celsius_from_fahrenheit(fahrenheit) == pytest.approx(celsius)


def test_malic_acid_turned_to_lactic_loses_one_of_two_acid_groups() -> None:
    # Malic acid C4H6O5 is 134.087, 67.04 a group; lactic C3H6O3 90.078; tartaric 75.04 a group.
    # 3 g/L of malic are 3 x 75.04 / 67.04 = 3.358 g/L as tartaric. They make 3 x 90.078 / 134.087
    # = 2.015 g/L of lactic, which is 2.015 x 75.04 / 90.078 = 1.679 as tartaric: 8 - 3.358 + 1.679.
    assert acid_after_malolactic(8.0, 3.0) == pytest.approx(6.321, abs=0.001)
    # Nothing but malic acid: 3.358 g/L as tartaric become half of it.
    assert acid_after_malolactic(3.358, 3.0) == pytest.approx(1.679, abs=0.001)
    with pytest.raises(NotKnown):
        acid_after_malolactic(3.3, 3.0)


def test_water_or_syrup_thins_the_strength() -> None:
    # 12.5 % of 19 L is 2.375 L of alcohol; in 19.6 L that is 12.117 %.
    assert abv_after_addition(12.5, 19.0, 0.6) == pytest.approx(12.117, abs=0.001)
    assert abv_after_addition(10.0, 5.0, 5.0) == pytest.approx(5.0)


def test_spirit_by_the_square() -> None:
    # The square (common practice): 40 - 18 = 22 parts of wine to 18 - 12 = 6 of spirit, so that
    # 4 L take 4 x 6 / 22 = 1.0909 L. Proof: 0.480 + 0.436 = 0.916 L of alcohol in 5.091 L, 18.0 %.
    assert spirit_l(4.0, 12.0, 40.0, 18.0) == pytest.approx(1.0909, abs=0.0001)
    assert spirit_l(4.0, 12.0, 40.0, 12.0) == 0.0
    for impossible in (11.0, 40.0, 45.0):
        with pytest.raises(NotKnown):
            spirit_l(4.0, 12.0, 40.0, impossible)


def test_nutrient_in_two_halves() -> None:
    # (NH4)2HPO4 is 132.056, two N 28.014: 21.21 % nitrogen. 225 - 110 = 115 mg/L in 19 L are
    # 2.185 g N, 2.185 / 0.2121 = 10.30 g; half and half (common practice).
    assert staged_nitrogen_g(225.0, 110.0, 19.0) == pytest.approx((5.150, 5.150), abs=0.002)
    assert staged_nitrogen_g(200.0, 240.0, 19.0) == (0.0, 0.0)


def test_so2_of_crushed_tablets() -> None:
    # K2S2O5 is 222.31, two SO2 128.12: 57.63 %. 5 x 0.44 g = 2.2 g bring 1.2679 g; / 19 L.
    assert so2_from_tablets_mg_per_l(5.0, 0.44, 19.0) == pytest.approx(66.7, abs=0.05)
    # Na2S2O5 is 190.10: 67.40 %. 2.2 g bring 1.4827 g; / 19 L.
    assert so2_from_tablets_mg_per_l(5.0, 0.44, 19.0, "sodium") == pytest.approx(78.0, abs=0.05)


def test_powder_that_lost_a_tenth_of_its_strength() -> None:
    # 1.65 / 0.90 = 1.833 g; at half its strength twice as much.
    assert old_powder_g(1.65, 90.0) == pytest.approx(1.833, abs=0.0005)
    assert old_powder_g(1.65, 50.0) == pytest.approx(3.3)
    with pytest.raises(NotKnown):
        old_powder_g(1.65, 49.0)


def test_from_the_trial_glass_to_the_jug() -> None:
    # 19 L are 190 glasses of 100 mL; 1.5 mL in each are 285 mL.
    assert vessel_stock_ml(100.0, 1.5, 19.0) == pytest.approx(285.0)
    # Of a glass of 50 mL: 380 glasses, 570 mL.
    assert vessel_stock_ml(50.0, 1.5, 19.0) == pytest.approx(570.0)


def test_a_full_jug_weighs_its_must_and_its_glass() -> None:
    # Water at 20 °C is 0.9982 kg/L (CRC Handbook): 19 x 1.090 x 0.9982 = 20.673 kg, and 6 kg.
    assert full_weight_kg(19.0, 1.090, 6.0) == pytest.approx(26.673, abs=0.002)
    assert full_weight_kg(0.0, 1.0, 6.0) == pytest.approx(6.0)
