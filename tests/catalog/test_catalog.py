"""The catalog: enough of it, in order, each figure with its source, each fruit usable."""

import csv

import pytest

from tests.plan.recipes import WATER, fruit, project, white
from winebench.catalog.additives import additives
from winebench.catalog.fruits import dried, fruits, own_fruit
from winebench.catalog.styles import style, styles
from winebench.catalog.sugars import sugars
from winebench.places import resources
from winebench.plan.compose import compose

FRUITS = sorted(fruits())


def test_there_are_at_least_forty_fruits():
    assert len(FRUITS) >= 40


@pytest.mark.parametrize("key", FRUITS)
def test_every_fruit_says_what_it_is_with_ranges_in_order_and_a_source(key):
    found = fruits()[key]
    for spread in (found.liquid, found.brix, found.fermentable, found.acid_g_per_kg,
                   found.nitrogen_mg_per_l):  # fmt: skip
        assert 0 < spread.low <= spread.figure <= spread.high
    assert found.brix.high <= 84.0
    assert found.fermentable.high < 1.0
    assert 0 <= found.refuse_percent < 60
    assert found.source
    assert found.name[0].isupper()


@pytest.mark.parametrize("form", ["fresh", "frozen", "puree", "juice", "dried", "canned"])
@pytest.mark.parametrize("key", FRUITS)
def test_every_fruit_composes_in_every_form(key, form):
    made = compose(project(fruit(key, "1 kg", form=form), white("700 g"), WATER))
    gravity, acidity = made.must.gravity, made.must.acidity
    assert 1.05 < gravity.low <= gravity.value <= gravity.high < 1.17
    assert 0 < acidity.low <= acidity.value <= acidity.high


def test_a_fruit_has_no_more_soluble_matter_than_its_water_and_fibre_leave():
    # USDA SR28 (water and fibre of the same food); a juice's standard °Brix stands for itself.
    with (resources() / "catalog" / "fruits.csv").open(encoding="utf-8", newline="") as lines:
        table = {row["usda_description"]: row for row in csv.DictReader(lines)}
    for key, start in (("blackberry-frozen", "Blackberries, frozen"), ("mulberry", "Mulberries")):
        row = next(row for name, row in table.items() if name.startswith(start))
        water, fibre = float(row["water_g"]), float(row["fibre_g"])
        room = 100.0 * (100.0 - water - fibre) / (100.0 - fibre)
        assert fruits()[key].brix.figure <= room + 1e-9


def test_grape_skins_go_into_the_must():
    # USDA SR28 food 09131 counts 34 % skin and 6 % seeds as refuse, and 2 % stems.
    assert fruits()["grape-american-type"].refuse_percent == 2.0


def test_elder_apricot_and_rhubarb_say_what_is_poisonous():
    # CDC MMWR 1984 (elder); EFSA Journal 2016;14(4):4424 (apricot kernels)
    assert "cyanogenic" in fruits()["elderberry"].safety
    assert "kernels" in fruits()["apricot"].safety
    assert "leaves are poisonous" in fruits()["rhubarb"].safety


def test_a_fruit_of_ones_own_is_wider_than_any_of_the_catalog():
    own = own_fruit("Quandongs")
    assert own.name == "Quandongs"
    assert own.safety
    assert own.brix.high / own.brix.low >= 3
    assert own.acid_g_per_kg.high / own.acid_g_per_kg.low >= 3


def test_drying_brings_a_fruit_to_the_solids_of_dried_fruit():
    # common practice: dried fruit is 65 to 75 % solids, from 4 to 6 kg fresh
    apricot = fruits()["apricot"]
    solids = dried(apricot).brix.figure / 100.0 * 0.93
    assert 0.65 <= solids <= 0.75
    assert 4.0 <= dried(apricot).acid_g_per_kg.figure / apricot.acid_g_per_kg.figure <= 6.0


def test_sugars_by_usda_and_molar_masses():
    # USDA SR28: honey 17.10 g water (food 19296), maple syrup 32.39 g (19353) in 100 g.
    honey, maple = sugars()["honey"].solids_percent, sugars()["maple-syrup"].solids_percent
    assert honey.low <= 100 - 17.10 <= honey.high
    assert maple.low <= 100 - 32.39 <= maple.high
    assert sugars()["dextrose"].solids_percent.figure == pytest.approx(100 * 180.16 / 198.17, 1e-3)
    assert all(sugar.source for sugar in sugars().values())


def test_additives_by_molar_masses_and_with_spoons_in_order():
    assert additives()["potassium-metabisulfite"].so2_share == pytest.approx(128.13 / 222.32, 1e-3)
    assert additives()["sodium-metabisulfite"].so2_share == pytest.approx(128.13 / 190.10, 1e-3)
    assert additives()["diammonium-phosphate"].nitrogen_share == pytest.approx(
        28.014 / 132.06, 1e-3
    )
    for one in additives().values():
        spoon = one.g_per_teaspoon
        assert 1.0 < spoon.low <= spoon.figure <= spoon.high < 8.0
        assert one.source
        assert one.precise == (one.kind in ("sulfite", "sorbate"))


def test_styles_are_ranges_in_order_and_an_unknown_one_is_ones_own():
    for one in styles().values():
        assert 1.070 <= one.gravity_low < one.gravity_high <= 1.110
        assert one.acid_low < one.acid_high
        assert one.months_first_taste < one.months_best
    assert style("grandmother's").name == "grandmother's"


US_GALLON_L = 3.785411784
"""NIST Handbook 44."""


@pytest.mark.parametrize(
    ("key", "teaspoons"), [("yeast-nutrient", 1.0), ("pectic-enzyme", 1.0), ("grape-tannin", 0.5)]
)
def test_the_usual_most_is_that_many_level_teaspoons_in_a_us_gallon(key, teaspoons):
    # Common practice, as the source in the row says.
    one = additives()[key]
    grams = teaspoons * one.g_per_teaspoon.figure / US_GALLON_L
    assert one.usual_most_g_per_l == pytest.approx(grams, rel=0.02)


def test_what_has_no_usual_most_has_legal_limits_and_all_name_their_source():
    for one in additives().values():
        assert one.usual_source, one.key
        assert (one.usual_most_g_per_l == 0) == (one.kind in ("sulfite", "sorbate")), one.key
