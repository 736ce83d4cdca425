"""Lines typed in words: the one reader of the recipe's last row and of whole cards."""

import pytest

from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine, YeastLine
from winebench.plan.typed.lines import amount_part, typed_line
from winebench.plan.typed.offers import known, offers
from winebench.plan.typed.remarks import Unread
from winebench.plan.typed.unknown import Unknown
from winebench.units import UnitsError


def read_line(text, offers):
    return typed_line(text, offers).line


@pytest.mark.parametrize(
    ("text", "kind", "key", "amount"),
    [
        ("4 lb damsons", FruitLine, "damson", "4 lb"),
        ("4lb damson", FruitLine, "damson", "4 lb"),
        ("3 lb 4 oz of frozen raspberries", FruitLine, "raspberry", "3 lb 4 oz"),
        ("1½ lb white sugar", SugarLine, "white-sugar", "1½ lb"),
        ("1 1/2 lb sugar", SugarLine, "white-sugar", "1 1/2 lb"),
        ("2 lb granulated sugar", SugarLine, "white-sugar", "2 lb"),
        ("two pounds of sugar", SugarLine, "white-sugar", "2 pounds"),
        ("one and a half pounds honey", SugarLine, "honey", "1 1/2 pounds"),
        ("half a pound of raisins", FruitLine, "raisin", "1/2 pound"),
        ("8 oz sultanas", FruitLine, "raisin", "8 oz"),
        ("3# plums", FruitLine, "plum", "3 lb"),
        ("Plums: 3 lb", FruitLine, "plum", "3 lb"),
        ("Redcurrants 2 kg", FruitLine, "red-currant", "2 kg"),
        ("2 lb honey", SugarLine, "honey", "2 lb"),
        ("1 tsp pectic enzyme", AdditiveLine, "pectic-enzyme", "1 tsp"),
        ("a quarter teaspoon tannin", AdditiveLine, "grape-tannin", "1/4 teaspoon"),
        ("1 tsp tartaric acid", AdditiveLine, "tartaric-acid", "1 tsp"),
        ("1 sulfite tablet", AdditiveLine, "sulfite-tablet", "1 tablet"),
        ("2 sulphite tablets, crushed", AdditiveLine, "sulfite-tablet", "2 tablets"),
        ("1 packet yeast", YeastLine, None, "1 packet"),
        ("a sachet of red wine yeast", YeastLine, None, "1 sachet"),
        ("1 pkg. yeast", YeastLine, None, "1 pkg."),
        ("1 level tsp tannin", AdditiveLine, "grape-tannin", "1 tsp"),
        ("2 lb cooking apples", FruitLine, "apple", "2 lb"),
        ("2 qt water", WaterLine, None, "2 qt"),
        ("6 pints boiling water", WaterLine, None, "6 pints"),
    ],
)
def test_a_line_is_read_as_a_cook_would_write_it(text, kind, key, amount):
    line = read_line(text, known())
    assert isinstance(line, kind)
    assert line.amount.text == amount
    if key is not None:
        name = {FruitLine: "fruit", SugarLine: "sugar", AdditiveLine: "additive"}[kind]
        assert getattr(line, name) == key


@pytest.mark.parametrize(
    "text",
    ["water", "water to the mark", "to the mark", "Water up to the mark", "water to 1 gallon",
     "water, to 4.5 L", "to 1 gal", "water to one gallon"],
)  # fmt: skip
def test_water_to_the_mark_is_read_in_its_usual_words(text):
    line = read_line(text, known())
    assert isinstance(line, WaterLine)
    assert line.amount is None


def test_form_and_preparation_are_read_from_the_words_and_the_rest_is_kept():
    line = read_line("4 lb ripe frozen, stoned damsons (from Ada)", known())
    assert (line.form, line.prepared, line.note) == ("frozen", True, "ripe, from Ada")


def test_every_catalog_name_is_found_by_its_own_name():
    for offer in offers():
        line = read_line(f"1 lb {offer.name}" if offer.kind != "water" else "water", known())
        assert not isinstance(line, Unknown), offer.name
        key = getattr(line, {"fruit": "fruit", "sugar": "sugar"}.get(offer.kind, ""), offer.key)
        assert key == offer.key


def test_every_other_name_means_what_its_row_says():
    for synonym in known()[len(offers()) :]:
        amount = {"water": "1 L", "yeast": "1 packet"}.get(synonym.kind, "1 lb")
        line = read_line(f"{amount} {synonym.name}", known())
        assert getattr(line, synonym.kind, line.__struct_config__.tag) == synonym.key, synonym.name


def test_what_the_catalog_lacks_keeps_its_name_and_form():
    unknown = read_line("3 lb frozen moonberries", known())
    assert isinstance(unknown, Unknown)
    fruit = unknown.as_fruit()
    assert (fruit.fruit, fruit.form, fruit.amount.text) == ("moonberries", "frozen", "3 lb")


@pytest.mark.parametrize(
    "text", ["damsons", "4 lb", "2 furlongs of sugar", "4 damsons", "0 lb sugar", "zest of 1 lemon"]
)
def test_a_line_without_amount_or_name_says_so(text):
    with pytest.raises(UnitsError):
        read_line(text, known())


@pytest.mark.parametrize(
    ("text", "amount", "others"),
    [
        ("2-3 lb plums", "2 1/2 lb", ["2 lb plums", "3 lb plums"]),
        ("2½ – 3 lb plums", "2 3/4 lb", ["2 1/2 lb plums", "3 lb plums"]),
        ("2 to 3 kg plums", "2.5 kg", ["2 kg plums", "3 kg plums"]),
        ("1-2 packets yeast", "1 packet", ["2 packets yeast"]),
    ],
)
def test_a_range_is_read_at_its_middle_and_says_so(text, amount, others):
    found = typed_line(text, known())
    assert found.line.amount.text == amount
    assert [way.text for way in found.remarks[0].ways] == others


def test_one_and_a_half_with_a_hyphen_is_no_range():
    found = typed_line("1-1/2 lb sugar", known())
    assert found.line.amount.grams() == pytest.approx(1.5 * 453.59237)  # NIST Handbook 44
    assert found.remarks == ()


def test_the_same_amount_in_brackets_counts_once():
    assert read_line("3 lb (1.4 kg) plums", known()).amount.text == "3 lb"
    assert read_line("3 lb / 1.4 kg plums", known()).amount.text == "3 lb"
    assert read_line("plums (3 lb)", known()).amount.text == "3 lb"
    assert read_line("4 cups (2 lb) sugar", known()).amount.text == "2 lb"


@pytest.mark.parametrize(
    ("text", "country"),
    # NIST Handbook 44: 3.785 L and 4.546 L; a US pint is 0.473 L, an imperial one 0.568 L.
    [("1 gallon (3.8 L) water", "US"), ("1 gallon (4.5 L) water", "imperial"),
     ("2 pints (1.1 L) water", "imperial"), ("2 pints (950 ml) water", "US")],
)  # fmt: skip
def test_litres_beside_a_gallon_say_whose_it_is(text, country):
    assert read_line(text, known()).amount.parts[0].country == country


def test_two_amounts_that_differ_are_asked_about():
    with pytest.raises(Unread) as refused:
        read_line("3 lb (2 kg) plums", known())
    assert [way.text for way in refused.value.ways] == ["3 lb plums", "2 kg plums"]


def test_a_name_that_could_be_several_things_says_so():
    found = typed_line("3 lb cherries", known())
    assert found.line.fruit == "cherry-sweet"
    assert [way.text for way in found.remarks[0].ways] == ["3 lb sour cherries"]
    assert typed_line("3 lb sour cherries", known()).remarks == ()


def test_the_juice_of_two_lemons_is_asked_with_its_usual_yield():
    with pytest.raises(Unread) as refused:
        read_line("Juice of 2 lemons", known())
    # Three tablespoons of 15 mL a lemon: common practice.
    assert [way.text for way in refused.value.ways] == ["90 mL lemon juice"]
    assert read_line("90 mL lemon juice", known()).fruit == "lemon-juice-raw"


@pytest.mark.parametrize(
    ("text", "amount"),
    [("4 lb dam", "4 lb "), ("3 lb 4 oz ras", "3 lb 4 oz "), ("4 l", ""), ("dam", ""), ("", "")],
)
def test_names_are_offered_after_a_whole_amount(text, amount):
    assert amount_part(text) == amount
