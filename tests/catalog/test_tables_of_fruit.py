"""The catalog against the published figures it is said to come from, typed in here once more."""

import pytest

from winebench.catalog.additives import additives
from winebench.catalog.fruits import fruits


@pytest.mark.parametrize(
    ("key", "brix"),
    [
        # 21 CFR 101.30(h)(1), Brix of 100 % single-strength juice.
        ("apple", 11.5), ("pear", 12.0), ("blackberry", 10.0), ("raspberry", 9.2),
        ("strawberry", 8.0), ("blueberry", 10.0), ("elderberry", 11.0), ("gooseberry", 8.3),
        ("red-currant", 10.5), ("black-currant", 11.0), ("cranberry", 7.5), ("cherry-sour", 14.0),
        ("plum", 14.3), ("peach", 10.5), ("apricot", 11.7), ("rhubarb", 5.7),
    ],
)  # fmt: skip
def test_juice_reads_what_the_food_law_counts_as_single_strength(key, brix):
    assert fruits()[key].brix.figure == brix


@pytest.mark.parametrize(
    ("key", "percent", "what"),
    [
        # USDA SR28, "refuse": share of the fruit as bought.
        ("cherry-sour", 10.0, "Pits and stems"), ("damson", 6.0, "Pits"), ("banana", 36.0, "Skin"),
        ("apple", 10.0, "Core and stem"), ("raspberry", 4.0, "Caps"), ("elderberry", 0.0, ""),
    ],
)  # fmt: skip
def test_refuse_is_what_usda_throws_away(key, percent, what):
    assert fruits()[key].refuse_percent == percent
    assert fruits()[key].refuse_is.startswith(what)


def test_acid_as_tartaric_spans_what_its_sources_say():
    # Citric acid of strawberries, g/100 g: 0.93 (Blyth), 1.1 (Belitz table 18.3), 1.6 (McGee).
    # As tartaric: x 75.04 / 64.04 = 1.1717, both masses per acid group.
    acid = fruits()["strawberry"].acid_g_per_kg
    for published in (9.3, 11.0, 16.0):
        assert acid.low <= published * 1.1717 <= acid.high
    # Malic, x 75.04 / 67.04 = 1.1193: sour cherries 1.8 g/100 g (Belitz).
    assert fruits()["cherry-sour"].acid_g_per_kg.figure == pytest.approx(18.0 * 1.1193, rel=1e-3)


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [
        # Grams in a level US teaspoon: the ends of what published tables and suppliers' sheets
        # say; metabisulfite, sorbate, enzyme and nutrient from memory of common practice.
        ("citric-acid", 3.6, 5.0), ("malic-acid", 4.0, 4.7), ("tartaric-acid", 4.0, 5.3),
        ("diammonium-phosphate", 4.0, 5.0), ("bentonite", 3.4, 4.5),
        ("potassium-metabisulfite", 5.0, 6.5), ("potassium-sorbate", 2.2, 3.6),
        ("pectic-enzyme", 2.6, 4.0), ("yeast-nutrient", 3.5, 5.2),
    ],
)  # fmt: skip
def test_a_teaspoon_holds_what_the_tables_say(key, low, high):
    spoon = additives()[key].g_per_teaspoon
    assert (spoon.low, spoon.high) == (low, high)


def test_a_quarter_spoon_of_metabisulfite_in_a_gallon_is_the_rule_it_was_taken_from():
    # Rule: 1/4 teaspoon gives 225 mg/L in one US gallon (3.785 L); 225 x 3.785 / 576 = 1.48 g.
    grams = additives()["potassium-metabisulfite"].g_per_teaspoon.figure / 4.0
    assert grams * 576.3 / 3.7854 == pytest.approx(225.0, rel=0.01)
