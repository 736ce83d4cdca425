"""The catalog against the published figures it is said to come from, typed in here once more."""

import pytest

from winebench.catalog.additives import additives
from winebench.catalog.fruits import fruits
from winebench.catalog.rules import fruit_tannin_g_per_kg
from winebench.trade.ranges import NotKnown


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
    ("key", "mg", "deviation"),
    [
        # Gu et al., J. Nutr. 134:613 (2004), table 1: total proanthocyanidins, mg in 100 g fresh.
        ("blueberry", 179.8, 50.8), ("cranberry", 418.8, 75.3), ("blackberry", 27.0, 17.5),
        ("raspberry", 30.2, 23.4), ("strawberry", 145.0, 24.9), ("black-currant", 147.8, 33.0),
    ],
)  # fmt: skip
def test_tannin_is_what_the_nutrient_table_found_and_spans_its_deviation(key, mg, deviation):
    tannin = fruits()[key].tannin.g_per_kg
    assert tannin.figure * 100.0 == pytest.approx(mg, abs=0.5)
    assert tannin.low * 100.0 <= mg - deviation + 0.5
    assert tannin.high * 100.0 >= mg + deviation - 0.5
    assert fruit_tannin_g_per_kg(key).figure == tannin.figure


@pytest.mark.parametrize(
    ("key", "parts", "deviations"),
    [
        # USDA Database for the Proanthocyanidin Content of Selected Foods, release 2 (2015), mg in
        # 100 g: dimers, trimers, 4-6mers, 7-10mers, polymers; below them their deviations.
        ("plum", (33.24, 20.65, 52.24, 30.26, 60.52), (16.09, 7.32, 20.99, 15.32, 24.81)),
        ("pear", (2.03, 1.54, 5.96, 4.69, 18.46), (0.94, 0.75, 1.49, 1.77, 14.97)),
        ("apricot", (9.37, 12.41, 4.9, 2.2, 0.8), (4.13, 5.51)),
        ("kiwifruit", (0.63, 0.51, 1.25, 0.17, 0.0), (0.22, 0.19, 0.91, 0.26, 0.0)),
        ("banana", (0.38, 0.42, 1.86, 0.0, 0.0), (0.30, 0.40, 1.11, 0.0, 0.0)),
        ("gooseberry", (1.72, 1.45, 4.76, 4.74, 68.88), (0.66, 0.97, 1.74, 2.81, 31.09)),
        ("date-deglet-noor", (1.84, 3.02, 5.88, 0.0, 0.0), (0.48, 0.46, 0.68, 0.0, 0.0)),
    ],
)  # fmt: skip
def test_tannin_is_what_the_flavonoid_database_adds_up_to(key, parts, deviations):
    tannin = fruits()[key].tannin.g_per_kg
    assert tannin.figure * 100.0 == pytest.approx(sum(parts), abs=0.5)
    # The deviations of the parts go together: Gu 2004 has 50.8 for the whole of blueberries, and
    # 1.8 + 1.2 + 3.4 + 2.0 + 47.3 = 55.7 for its parts.
    assert tannin.low * 100.0 == pytest.approx(sum(parts) - sum(deviations), abs=0.6)
    assert tannin.high * 100.0 == pytest.approx(sum(parts) + sum(deviations), abs=0.6)


@pytest.mark.parametrize(
    "key",
    [
        "pineapple",
        "orange",
        "grapefruit",
        "watermelon",
        "melon-cantaloupe",
        "melon-honeydew",
        "fig",
    ],
)
def test_fruit_without_tannin_is_without(key):
    # The same database: nothing found in them, in figs 0.01.
    assert fruits()[key].tannin.g_per_kg.figure == 0.0


def test_berries_of_one_laboratory_lie_within_what_it_found():
    # Wu et al., J. Agric. Food Chem. 52:7846 (2004), abstract: currants, gooseberries, chokeberry
    # and elderberry hold 23 (elderberry) to 664 mg in 100 g (chokeberry).
    assert fruits()["elderberry"].tannin.g_per_kg.figure == 0.23
    for key in ("black-currant", "red-currant", "gooseberry"):
        assert 0.23 < fruits()[key].tannin.g_per_kg.figure < 6.64


def test_peaches_span_the_sum_of_their_procyanidins():
    # Hong et al., J. Agric. Food Chem. 52:2366 (2004), peeled clingstones, monomers to octamers,
    # mg/kg: their sum is 144.5.
    parts = (19.59, 39.59, 38.81, 17.81, 12.43, 10.62, 3.94, 1.75)
    tannin = fruits()["peach"].tannin.g_per_kg
    assert tannin.low <= sum(parts) / 1000.0 <= tannin.high


def test_every_tannin_has_its_source_and_no_fruit_is_counted_without_one():
    for one in fruits().values():
        tannin = one.tannin
        assert (tannin.g_per_kg is None) == (tannin.source == "")
        assert (tannin.amount == "") == (tannin.amount_by == "")
        assert tannin.amount in ("", "little", "some", "much")
        if tannin.g_per_kg:
            assert tannin.g_per_kg.low <= tannin.g_per_kg.figure <= tannin.g_per_kg.high
    with pytest.raises(NotKnown, match="tannin of loganberries is not known here"):
        fruit_tannin_g_per_kg("loganberry")


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
