"""What a table says of a fruit, and what a spoon holds, against the tables and sums by hand."""

import pytest

import winebench.catalog.rules  # noqa: F401  # declares the rules that rest on the catalog
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import run_work, work

MALIC, CITRIC, TARTARIC = 134.087 / 2, 192.124 / 3, 150.087 / 2
"""Equivalent masses, g: IUPAC atomic weights, each acid fully neutralised."""


@pytest.mark.parametrize(
    ("fruit", "brix"),
    [
        # 21 CFR 101.30(h), Brix of single-strength juice, as the table of the rule prints it.
        ("apple", 11.5), ("blackberry", 10.0), ("raspberry", 9.2), ("strawberry", 8.0),
        ("plum", 14.3), ("lemon", 4.5), ("quince", 13.3), ("pear", 12.0), ("crabapple", 15.4),
    ],
)  # fmt: skip
def test_the_brix_of_a_juice_is_that_of_the_federal_table(fruit, brix):
    assert work("fruit-brix", fruit=fruit).values[0] == brix


def test_the_spread_of_a_brix_spans_what_other_tables_find_in_the_fruit():
    # USDA SR28 food 09042, blackberries: 88.15 g water, 5.3 g fibre in 100 g; total sugars 4.88.
    #   What dissolves can be no more than 100 - 88.15 - 5.3 = 6.55 g in the 94.7 g of juice:
    #   6.92 °Brix. Sugars alone: 4.88 / 0.947 = 5.15 °Brix at the least.
    # The juice of the federal table has 10.0; a fruit of one table lies 15 % about it (common
    # practice), so the top of the spread is at least 11.5.
    found = work("fruit-brix", fruit="blackberry")
    (low,), (high,) = found.low, found.high
    assert 5.15 <= low <= 6.93
    assert high == pytest.approx(11.5, abs=0.01)


@pytest.mark.parametrize(
    ("fruit", "low", "high", "acid"),
    [
        # g of the fruit's own acid in 100 g. Belitz, Food Chemistry, table 18.3: apple 0.6,
        # blackberry 1.7, raspberry 2.1, lemon 4.9. Blyth's list of free acid: apple 0.84,
        # blackberry 1.19, raspberry 1.38, lemon 6.0.
        ("apple", 0.6, 0.84, MALIC),
        ("raspberry", 1.38, 2.1, CITRIC),
        ("lemon", 4.9, 6.0, CITRIC),
    ],
)
def test_the_acid_of_a_fruit_spans_both_tables_as_tartaric(fruit, low, high, acid):
    # apple: 6.0 g/kg malic x 75.04 / 67.04 = 6.7 g/kg tartaric, and 8.4 are 9.4; the middle is
    # 8.06. Seasons and sorts lie 15 % about a table's figure (common practice).
    found = work("fruit-acid", fruit=fruit)
    least, most = (10 * acids * TARTARIC / acid for acids in (low, high))
    assert found.values[0] == pytest.approx((least + most) / 2, rel=0.002)
    assert found.low[0] == pytest.approx(0.85 * least, rel=0.002)
    assert found.high[0] == pytest.approx(1.15 * most, rel=0.002)


def test_a_fruit_of_no_table_is_wide_and_an_unknown_one_is_one_sentence():
    found = work("fruit-acid", fruit="crabapple")  # no source: 10 to 30 g/kg (from memory)
    assert found.high[0] - found.low[0] >= 10
    with pytest.raises(NotKnown, match="not a fruit known here"):
        work("fruit-brix", fruit="moonberry")


@pytest.mark.parametrize(
    ("powder", "spoon_g"),
    [
        # g in a level US teaspoon, as tests/trade/tables/09_measures.csv has them with sources.
        ("malic-acid", 4.5), ("citric-acid", 4.8), ("diammonium-phosphate", 4.6),
        ("potassium-metabisulfite", 5.9), ("bentonite", 4.1),
    ],
)  # fmt: skip
def test_spoons_and_grams_of_a_powder_are_each_other_s_turn(powder, spoon_g):
    # 2 1/2 spoons of malic acid are 2.5 x 4.5 = 11.25 g; 11.25 g are 11.25 / 4.5 = 2 1/2 spoons.
    assert work("grams-of-teaspoons", teaspoons=2.5, powder=powder).values[0] == pytest.approx(
        2.5 * spoon_g
    )
    spoons = work("teaspoons-of-powder", grams=2.5 * spoon_g, powder=powder)
    assert spoons.values[0] == pytest.approx(2.5)


def test_the_lighter_the_powder_the_more_spoons_of_it():
    # Sorbate holds 2.2 to 3.6 g a spoon, about 3.2: 2.4 g are 2.4 / 3.2 = 0.75 spoons, between
    # 2.4 / 3.6 = 0.667 and 2.4 / 2.2 = 1.091.
    found = work("teaspoons-of-powder", grams=2.4, powder="potassium-sorbate")
    assert (found.values[0], found.low[0], found.high[0]) == pytest.approx(
        (0.75, 0.6667, 1.0909), abs=1e-4
    )
    grams = work("grams-of-teaspoons", teaspoons=0.75, powder="potassium-sorbate")
    assert (grams.low[0], grams.high[0]) == pytest.approx((0.75 * 2.2, 0.75 * 3.6))


def test_a_quarter_teaspoon_of_metabisulfite_gives_a_gallon_225_mg_of_sulfite():
    # The opened rule behind the table: 1/4 teaspoon gives 225 mg/L of SO2 in a US gallon.
    # 5.9 g / 4 = 1.475 g, of which 57.63 % is SO2 (molar masses): 850 mg in 3.785 L = 225 mg/L.
    grams = work("grams-of-teaspoons", teaspoons=0.25, powder="potassium-metabisulfite").values[0]
    assert 1000 * grams * 2 * 64.064 / 222.32 / 3.785411784 == pytest.approx(225, abs=1)


def test_a_spoon_may_be_typed_in_spoons_and_an_unknown_powder_is_one_sentence():
    assert run_work("grams-of-teaspoons", ["teaspoons=2 1/2", "powder=malic-acid"]).result
    with pytest.raises(NotKnown, match="not a powder known here"):
        work("teaspoons-of-powder", grams=1.0, powder="stardust")
