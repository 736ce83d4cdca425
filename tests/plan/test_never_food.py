"""Household chemicals on a card or in a row: never offered as an ingredient, never counted."""

import pytest

from winebench.catalog.never_food import never_food, never_food_in
from winebench.catalog.poisons import poison_in
from winebench.plan.handed_down.into_project import card_lines, card_note
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.typed.lines import typed_line
from winebench.plan.typed.not_in_wine import NotInWine
from winebench.plan.typed.offers import known

CARD = "Card\nmakes 5 gallons US\n3 lb plums\n"
# Cleaning agents and poisons of the household by the names on their labels; none is a food.
NAMES = [
    ("bleach", "bleach"),
    ("dish soap", "soap"),
    ("washing-up liquid", "soap"),
    ("washing soda", "washing-soda"),
    ("soda crystals", "washing-soda"),
    ("detergent", "detergent"),
    ("washing powder", "detergent"),
    ("oven cleaner", "lye"),
    ("drain cleaner", "lye"),
    ("caustic soda", "lye"),
    ("methylated spirits", "wood-alcohol"),
    ("denatured alcohol", "wood-alcohol"),
    ("rubbing alcohol", "wood-alcohol"),
    ("antifreeze", "antifreeze"),
    ("anti-freeze", "antifreeze"),
    ("borax", "borax"),
    ("sugar of lead", "lead-sugar"),
    ("sodium percarbonate", "cleaner"),
    ("sanitiser", "cleaner"),
    ("cider vinegar", "vinegar"),
]


@pytest.mark.parametrize(("name", "key"), NAMES)
@pytest.mark.parametrize("text", ["1 cup {}", "{}, 1 pint", "{}: 2 tbsp", "250 mL of {}"])
def test_an_amount_of_it_is_refused_and_can_only_be_kept_as_a_note(text, name, key):
    assert never_food_in(name).key == key
    row = read_card(CARD + text.format(name), gallon="US").rows[-1]
    assert (row.kind, row.state, row.options, row.line) == ("question", "asked", ("note",), None)
    assert "never goes into the wine" in row.remarks[0].sentence
    assert row.remarks[0].ways == ()


@pytest.mark.parametrize(("name", "key"), NAMES)
def test_its_name_alone_is_kept_as_a_note_that_says_so(name, key):
    reading = read_card(CARD + name, gallon="US")
    row = reading.rows[-1]
    assert (row.kind, row.state) == ("method", "look")
    assert never_food_in(name).harm in row.remarks[0].sentence
    assert name in card_note(reading, with_title=False)


def test_by_the_gallon_it_is_refused_as_well():
    row = read_card(CARD + "1 tsp borax per gallon", gallon="US").rows[-1]
    assert (row.state, row.options) == ("asked", ("note",))


@pytest.mark.parametrize("text", ["a dash of bleach", "a handful of washing soda"])
def test_a_loose_measure_of_it_is_a_note_too(text):
    row = read_card(CARD + text, gallon="US").rows[-1]
    assert (row.kind, row.state, row.line) == ("method", "look", None)


@pytest.mark.parametrize(("name", "key"), NAMES)
def test_a_row_of_the_recipe_refuses_it(name, key):
    with pytest.raises(NotInWine, match="never goes into the wine"):
        typed_line(f"1 tbsp {name}", known())


@pytest.mark.parametrize(
    "text",
    [
        "1 tbsp percarbonate for cleaning",
        "bleach to clean the bucket",
        "1 tsp sulfite for rinsing",
        "sulfite solution for rinsing",
        "2 sulfite tablets to sterilise the bottles",
        "1 oz sodium metabisulfite for the equipment",
        "1 gallon hot water for washing the bottles",
    ],
)
def test_what_cleans_the_equipment_is_a_note_and_no_line_of_the_must(text):
    reading = read_card(CARD + text, gallon="US")
    assert (reading.rows[-1].kind, reading.rows[-1].state) == ("method", "look")
    assert len(card_lines(reading)) == 1
    assert text in card_note(reading, with_title=False)


def test_a_tablet_to_sterilise_asks_whether_it_is_for_the_must():
    row = read_card(CARD + "1 sulfite tablet to sterilise", gallon="US").rows[-1]
    assert (row.state, row.line) == ("asked", None)
    (way,) = row.remarks[0].ways
    assert read_card(CARD + way.text).rows[-1].line.additive == "sulfite-tablet"


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("1 sulfite tablet to sterilise the must", "sulfite-tablet"),
        ("1 tsp sodium metabisulphite (steriliser)", "sodium-metabisulfite"),
        ("1 tsp diammonium phosphate", "diammonium-phosphate"),
    ],
)
def test_what_belongs_into_the_must_stays_its_line(text, key):
    assert read_card(CARD + text).rows[-1].line.additive == key


@pytest.mark.parametrize("text", ["1 tsp baking soda", "1 tsp bicarbonate of soda"])
def test_the_baking_soda_of_the_kitchen_is_asked_about_like_any_food(text):
    row = read_card(CARD + text).rows[-1]
    assert row.options == ("fruit", "sugar", "additive", "note")


def test_the_method_that_puts_one_in_is_a_danger_and_one_that_cleans_with_it_is_none():
    put_in = read_card(CARD + "Method:\nAdd a cup of bleach to the must.").rows[-1]
    assert put_in.state == "look"
    assert "Danger" in put_in.remarks[0].sentence
    cleaned = read_card(CARD + "Method:\nWash the bucket in bleach, add water to rinse.").rows[-1]
    assert cleaned.state == "read"


def test_each_row_of_the_table_names_its_harm_and_source_and_is_no_plant_poison_twice():
    for one in never_food():
        assert one.harm
        assert one.source
        assert poison_in(one.name) is None
    assert len({one.key for one in never_food()}) == len(never_food())
