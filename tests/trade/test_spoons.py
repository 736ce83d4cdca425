"""What a spoon and a cup hold: the catalog against the published tables."""

import pytest

from tests.trade.published import n, rows
from winebench.catalog.additives import additives
from winebench.catalog.sugars import sugars

SPOONS = {
    "citric acid": "citric-acid",
    "malic acid": "malic-acid",
    "tartaric acid": "tartaric-acid",
    "diammonium phosphate": "diammonium-phosphate",
    "bentonite, agglomerated": "bentonite",
    "potassium metabisulfite": "potassium-metabisulfite",
    "sodium metabisulfite": "sodium-metabisulfite",
    "potassium sorbate, granular": "potassium-sorbate",
    "pectic enzyme, powder": "pectic-enzyme",
    "yeast nutrient, generic": "yeast-nutrient",
}
NOT_SPOONED = {"granulated sucrose", "calcium carbonate", "ascorbic acid", "dry yeast"}
"""Sugar goes by the cup, yeast by the packet; the other two are not in the catalog."""


def test_a_spoon_holds_what_the_tables_say_with_their_spread():
    checked = [row for _, row in rows() if row["quantity"] == "grams_per_US_teaspoon"]
    assert {row["input1"] for row in checked} == set(SPOONS) | NOT_SPOONED
    for row in checked:
        if row["input1"] in SPOONS:
            spoon = additives()[SPOONS[row["input1"]]].g_per_teaspoon
            low, high = (float(end) for end in row["tolerance"].split("-"))
            assert spoon == (low, n(row["expected"]), high), row


def test_a_cup_holds_what_the_food_tables_say():
    # USDA SR28, foods 19335 and 19296.
    checked = {row["input1"]: row for _, row in rows() if row["quantity"] == "grams_per_measure"}
    assert sugars()["white-sugar"].g_per_cup == n(
        checked["granulated sucrose, per cup"]["expected"]
    )
    assert sugars()["honey"].g_per_cup == n(checked["honey, per cup"]["expected"])
    tablespoon = checked["honey, per tablespoon"]
    assert sugars()["honey"].g_per_cup / 16 == pytest.approx(n(tablespoon["expected"]), abs=0.5)
