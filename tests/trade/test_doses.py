"""Doses by table and by volume, and the measures that they are weighed in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.trade.published import n, rows
from winebench.catalog.rules import (
    fruit_acid_g_per_kg,
    fruit_brix,
    grams_of_teaspoons,
    teaspoons_of_powder,
)
from winebench.trade import (
    alcohol,
    fining,
    finings,
    hydrometer,
    kitchen,
    sorbate,
    sulfite,
    sulfite_running,
)
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import work


@pytest.mark.parametrize(
    ("abv", "ph", "ml"),
    [(10.0, 3.1, 5.5), (10.0, 3.5, 9.0), (12.0, 3.3, 4.0), (14.0, 3.2, 2.2), (11.0, 3.4, 7.0)],
)
def test_sorbate_by_strength_and_ph_is_that_of_the_table(abv, ph, ml):
    # Underhill, Making Better Wines: mL of 30 g/L potassium sorbate for a litre of wine.
    dose = sorbate.sorbic_acid_dose_by_ph_mg_per_l(abv, ph)
    # 9 mL bring 201.5 mg/L; OIV II.3.4.5 and Reg (EU) 2019/934 allow 200 of sorbic acid.
    assert dose.figure == pytest.approx(min(200.0, ml * 30.0 * 112.13 / 150.22))
    assert dose.low <= sorbate.sorbic_acid_dose_mg_per_l(abv) <= dose.high


@given(st.floats(10.0, 14.0), st.floats(3.1, 3.4), st.floats(0.0, 0.1))
def test_less_acid_asks_for_more_sorbate(abv, ph, higher):
    first = sorbate.sorbic_acid_dose_by_ph_mg_per_l(abv, ph).figure
    assert sorbate.sorbic_acid_dose_by_ph_mg_per_l(abv, ph + higher).figure >= first - 1e-9


def test_the_table_follows_the_undissociated_share():
    # Sorbic acid works undissociated; pKa 4.76 (CRC Handbook). From pH 3.1 to 3.5 the share falls
    # by 3 %, while the table's dose rises by half: it is experience, not this equilibrium alone.
    shares = [1.0 / (1.0 + 10.0 ** (ph - 4.76)) for ph in (3.1, 3.5)]
    doses = [sorbate.sorbic_acid_dose_by_ph_mg_per_l(12.0, ph).figure for ph in (3.1, 3.5)]
    assert doses[1] / doses[0] > shares[0] / shares[1] > 1.0


def test_a_limit_of_sorbic_acid_is_counted_down():
    left = [sorbate.sorbic_left_mg_per_l(150.0, limit) for limit in ("OIV", "EU", "US")]
    assert left == [50.0, 50.0, 150.0]
    with pytest.raises(NotKnown, match="OIV, EU, US"):
        sorbate.sorbic_left_mg_per_l(150.0, "moon")


@given(st.floats(10.0, 14.0), st.floats(3.1, 3.5))
def test_no_dose_of_sorbate_passes_the_limit_that_its_words_name(abv, ph):
    # OIV II.3.4.5, Reg (EU) 2019/934: 200 mg/L of sorbic acid.
    found = work("sorbic-dose-by-ph", abv=abv, ph=ph)
    assert max(found.high) <= 200.0
    assert "200, the limit of OIV and EU (US: 300)" in found.words


@pytest.mark.parametrize(
    ("dose", "expected"),
    [
        (finings.gelatine_g, (1.5, 15.0)),
        (finings.isinglass_g, (1.0, 3.0)),
        (finings.caseinate_g, (10.0, 30.0)),
    ],
)
def test_a_fining_by_the_hectolitre(dose, expected):
    # g/hL: Natural Food Additives, Ingredients and Flavourings, table 16.18; Marchal & Jeandet.
    found = dose(100.0)
    assert (found.low, found.high) == pytest.approx(expected)
    assert found.low < found.figure < found.high
    assert dose(19.0).figure == pytest.approx(found.figure * 0.19)


def test_egg_whites_by_the_barrel():
    # The same table: 3 to 8 egg whites for 225 L.
    found = finings.egg_whites(225.0)
    assert (found.low, found.high) == pytest.approx((3.0, 8.0))


def test_silica_and_tannin_by_common_practice():
    # Common practice: 0.5 to 1 mL of sol a US gallon at least; no tannin to half a teaspoon.
    sol = finings.silica_sol_ml(fining.US_GALLON_L)
    assert sol.low <= 0.5 < sol.figure <= 1.0 < sol.high
    assert fining.tannin_tsp(fining.US_GALLON_L) == pytest.approx((0.25, 0.0, 0.5))


def test_the_two_conventions_of_pk_are_both_shown():
    # The published rows: 35 mg/L free at pH 3.3 and 12 % vol, 20 °C: 1.814 by OIV's table.
    seen = sulfite.molecular_so2_by_convention(35.0, 3.3, 12.0, 20.0)
    assert seen.figure == sulfite.molecular_so2(35.0, 3.3) == seen.low
    assert seen.high == pytest.approx(1.814, abs=0.03)
    asked = sulfite.free_so2_by_convention(seen.figure, 3.3, 12.0, 20.0)
    assert asked.figure == pytest.approx(35.0)
    assert sulfite.molecular_so2(asked.low, 3.3, 2.0378) == pytest.approx(seen.figure, rel=0.01)


def test_a_total_of_sulfite_is_bounded_alike_where_it_is_made_and_where_it_is_spent():
    # 5.9 g of the potassium salt, 57.6 % SO2, bring 3400 mg/L to a litre: a slip of the pen.
    with pytest.raises(NotKnown, match=r"so found of 3450.* 0 to 1000"):
        sulfite_running.total_so2_after_mg_per_l(50.0, 1.0, 5.9)
    passed = sulfite_running.total_so2_after_mg_per_l(50.0, 3.785, 4.0)
    assert passed == pytest.approx(50.0 + 4000.0 * 0.5763 / 3.785, rel=1e-3)
    # The least limit, 150 for dry red grape wine, is passed by all that is over it.
    left = sulfite_running.so2_left_mg_per_l(passed, "EU-grape-wine-red-dry")
    assert left == pytest.approx(150.0 - passed)
    assert sulfite_running.so2_left_mg_per_l(1000.0) == -800.0


def test_a_running_total_of_sulfite():
    # 0.44 g of the potassium salt bring 67 mg/L to a US gallon (molar masses).
    total = sulfite_running.total_so2_after_mg_per_l(50.0, 3.785, 0.44)
    assert total == pytest.approx(117.0, abs=0.5)
    free = sulfite_running.free_so2_after_mg_per_l(10.0, 30.0)
    assert free == pytest.approx((28.0, 25.0, 31.0))
    needed = sulfite_running.so2_to_add_mg_per_l(10.0, free.figure)
    assert needed.figure == pytest.approx(30.0)


@pytest.mark.parametrize("read", [1.02, 1.09])
def test_without_the_glass_the_whole_of_its_term_is_gone(read):
    # 25e-6 per °C (OIML R 44), ten degrees: 0.00025 of the gravity.
    with_glass = hydrometer.true_sg(read, 30.0)
    without = hydrometer.true_sg(read, 30.0, glass="no")
    assert without - with_glass == pytest.approx(read * 25e-6 * 10.0, abs=1e-5)
    with pytest.raises(NotKnown, match="glass"):
        hydrometer.true_sg(read, 30.0, glass="steel")


def test_balling_is_the_formula_that_beer_is_taxed_by():
    # German beer tax: original = 100 (real + 2.0665 alcohol) / (100 + 1.0665 alcohol), % by mass
    # (alcohol-encyclopedia.eu, Stammwürze). Really gone is 0.81 of what seems to be (MEBAK
    # B-590.80.530): from 12 to 3 degrees real extract is 12 - 0.81 x 9 = 4.71. SG by the CRC
    # Handbook's sucrose table: 12 % 1.0465, 3 % 1.0099 g/mL, / 0.9982 = 1.0484 and 1.0117.
    alcohol_percent = alcohol.abv_balling(1.0484, 1.0117) * 0.78924 / (1.0117 * 0.9982)
    original = 100.0 * (4.71 + 2.0665 * alcohol_percent) / (100.0 + 1.0665 * alcohol_percent)
    assert original == pytest.approx(12.0, abs=0.05)


def test_the_third_scale_of_a_hydrometer():
    # Duncan & Acton's table (from memory): a fall from 1.090 to 1.000 makes 12.1 % vol.
    scale = alcohol.potential_alcohol_on_scale(1.090)
    assert scale.low <= 12.1 <= scale.high
    assert alcohol.potential_alcohol_on_scale(1.0) == (0.0, 0.0, 0.0)


def test_a_volume_in_the_measures_of_both_countries():
    sizes = {row["quantity"]: n(row["expected"]) for _, row in rows() if row["unit"] == "mL"}
    found = kitchen.volume_in_measures(4.54609)
    assert found.imperial_gallons == pytest.approx(1.0)
    assert found.us_gallons == pytest.approx(4546.09 / sizes["US_gallon"])
    assert found.us_fluid_ounces == pytest.approx(4546.09 / sizes["US_fluid_ounce"])
    assert found.us_quarts == pytest.approx(4546.09 / sizes["US_quart"])
    assert found.imperial_pints == pytest.approx(4546.09 / sizes["imperial_pint"])
    assert found.imperial_fluid_ounces == pytest.approx(4546.09 / sizes["imperial_fluid_ounce"])
    assert kitchen.mass_in_measures(453.59237) == pytest.approx((453.59237, 16.0, 1.0))


@given(st.floats(1.0, 20.0), st.floats(1.0, 6.0), st.floats(0.1, 50.0))
def test_a_spoon_of_ones_own_is_calibrated_by_weighing(spoons, each, grams):
    own = kitchen.grams_per_teaspoon(spoons, spoons * each)
    assert own == pytest.approx(each)
    assert kitchen.teaspoons(grams, own) == pytest.approx(grams / each)


@given(st.floats(0.1, 50.0))
def test_the_usual_spoon_has_a_spread_and_leads_back(grams):
    spoons = teaspoons_of_powder(grams, "potassium-sorbate")
    assert spoons.low < spoons.figure < spoons.high
    assert grams_of_teaspoons(spoons.figure, "potassium-sorbate").figure == pytest.approx(grams)
    assert grams_of_teaspoons(spoons.low, "potassium-sorbate").high == pytest.approx(grams)


def test_an_unknown_powder_names_the_known_ones():
    with pytest.raises(NotKnown, match="potassium-sorbate"):
        teaspoons_of_powder(2.0, "cocoa")


@pytest.mark.parametrize(
    ("fruit", "juice_brix"), [("apple", 11.5), ("blackberry", 10.0), ("pear", 12.0)]
)
def test_a_fruit_has_the_brix_that_the_law_counts_its_juice_by_and_a_spread(fruit, juice_brix):
    # 21 CFR 101.30: °Brix of single-strength juice.
    found = fruit_brix(fruit)
    assert found.figure == juice_brix
    assert found.low < found.figure < found.high


def test_a_fruit_has_the_acid_of_the_tables_and_a_spread():
    # Belitz table 18.3, McGee, Blyth: apples 0.6 to 0.84 g of malic acid in 100 g.
    found = fruit_acid_g_per_kg("apple")
    assert found.low <= 6.0 * 75.04 / 67.04
    assert found.high >= 8.4 * 75.04 / 67.04
    with pytest.raises(NotKnown, match="there are apple"):
        fruit_acid_g_per_kg("appel")
