"""Lines and vessels typed in words, without a window."""

import pytest

from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine, YeastLine
from winebench.plan.offers import offers
from winebench.plan.typed_line import Unknown, amount_part, read_line
from winebench.units import UnitsError
from winebench.window.recipe.vessels_text import read_vessels, vessels_text


@pytest.mark.parametrize(
    ("text", "kind", "key", "amount"),
    [
        ("4 lb damsons", FruitLine, "damson", "4 lb"),
        ("4lb damson", FruitLine, "damson", "4 lb"),
        ("3 lb 4 oz of frozen raspberries", FruitLine, "raspberry", "3 lb 4 oz"),
        ("1½ lb white sugar", SugarLine, "white-sugar", "1½ lb"),
        ("1 1/2 lb sugar", SugarLine, "white-sugar", "1 1/2 lb"),
        ("2 lb honey", SugarLine, "honey", "2 lb"),
        ("1 tsp pectic enzyme", AdditiveLine, "pectic-enzyme", "1 tsp"),
        ("1 tsp tartaric acid", AdditiveLine, "tartaric-acid", "1 tsp"),
        ("1 packet yeast", YeastLine, None, "1 packet"),
        ("2 qt water", WaterLine, None, "2 qt"),
    ],
)
def test_a_line_is_read_as_a_cook_would_write_it(text, kind, key, amount):
    line = read_line(text, offers())
    assert isinstance(line, kind)
    assert line.amount.text == amount
    if key is not None:
        name = {FruitLine: "fruit", SugarLine: "sugar", AdditiveLine: "additive"}[kind]
        assert getattr(line, name) == key


@pytest.mark.parametrize(
    "text",
    ["water", "water to the mark", "to the mark", "Water up to the mark", "water to 1 gallon",
     "water, to 4.5 L", "to 1 gal"],
)  # fmt: skip
def test_water_to_the_mark_is_read_in_its_usual_words(text):
    line = read_line(text, offers())
    assert isinstance(line, WaterLine)
    assert line.amount is None


def test_form_and_preparation_are_read_from_the_words():
    line = read_line("4 lb frozen, stoned damsons", offers())
    assert (line.form, line.prepared) == ("frozen", True)


def test_every_catalog_name_is_found_by_its_own_name():
    for offer in offers():
        line = read_line(f"1 lb {offer.name}" if offer.kind != "water" else "water", offers())
        assert not isinstance(line, Unknown), offer.name


def test_what_the_catalog_lacks_keeps_its_name_and_form():
    unknown = read_line("3 lb frozen moonberries", offers())
    assert isinstance(unknown, Unknown)
    fruit = unknown.as_fruit()
    assert (fruit.fruit, fruit.form, fruit.amount.text) == ("moonberries", "frozen", "3 lb")


@pytest.mark.parametrize("text", ["damsons", "4 lb", "2 furlongs of sugar", "4 damsons"])
def test_a_line_without_amount_or_name_says_so(text):
    with pytest.raises(UnitsError):
        read_line(text, offers())


@pytest.mark.parametrize(
    ("text", "amount"),
    [("4 lb dam", "4 lb "), ("3 lb 4 oz ras", "3 lb 4 oz "), ("4 l", ""), ("dam", ""), ("", "")],
)
def test_names_are_offered_after_a_whole_amount(text, amount):
    assert amount_part(text) == amount


def test_vessels_are_read_with_their_roles():
    pail, jug, other = read_vessels("26 L pail, 19 L glass jug; 3,8 L demijohn", (), "US")
    assert (pail.role, jug.role, other.role) == ("primary", "secondary", "secondary")
    assert (pail.glass, jug.glass, other.glass) == (False, True, True)
    assert other.holds.litres(None) == pytest.approx(3.8)


def test_vessels_written_out_are_read_back_the_same():
    vessels = read_vessels("6 gal pail, 2 3/4 gal glass jug", (), "US")
    assert read_vessels(vessels_text(vessels), vessels, "US") == vessels


@pytest.mark.parametrize("text", ["pail", "0 L pail", "3 lb pail", "2 furlongs pail"])
def test_a_vessel_without_a_volume_is_refused(text):
    with pytest.raises(UnitsError):
        read_vessels(text, (), "US")
