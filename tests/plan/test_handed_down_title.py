"""A card's title: the name, and how much the card makes, where it says so itself."""

import pytest

from winebench.plan.handed_down.into_project import card_project
from winebench.plan.handed_down.read_card import read_card

PLUMS = "3 lb plums\n2 lb sugar\nwater to the mark"


@pytest.mark.parametrize(
    ("title", "name", "makes"),
    [
        ("Test wine, makes 5 gallons US", "Test wine", "5 gallons US"),
        ("Test wine makes 5 gallons", "Test wine", "5 gallons"),
        ("Elder wine - 1 gallon", "Elder wine", "1 gallon"),
        ("Elder wine – makes about 23 litres", "Elder wine", "23 litres"),
        ("Plum wine (makes 5 US gallons)", "Plum wine", "5 US gallons"),
        ("Plum (5 gallon batch)", "Plum", "5 gallon"),
        ("Plum wine for 5 gallons", "Plum wine", "5 gallons"),
        ("Plum Wine 20 L", "Plum Wine", "20 L"),
        ("5 gallons of plum wine", "Plum wine", "5 gallons"),
        ("Store-room plum, yields 23 L", "Store-room plum", "23 L"),
        ("**Plum no. 7 (10 litres)**", "Plum no. 7", "10 litres"),
    ],
)
def test_a_title_gives_the_name_and_how_much_it_makes_apart(title, name, makes):
    reading = read_card(f"{title}\n{PLUMS}", gallon="US")
    assert (reading.title, reading.basis.text) == (name, makes)
    assert (card_project(reading).name, card_project(reading).recipe.basis.text) == (name, makes)


@pytest.mark.parametrize("words", ["Yield: 1 gal.", "makes about 1 gal", "Makes: 1 gal", "1 gal"])
def test_how_much_it_makes_on_a_line_of_its_own_leaves_the_title_alone(words):
    reading = read_card(f"Elder wine\n{words}\n{PLUMS}", gallon="US")
    assert (reading.title, reading.basis.text) == ("Elder wine", "1 gal")


@pytest.mark.parametrize("title", ["Plum wine (for 6 bottles)", "Plum wine, makes 6 bottles"])
def test_a_title_in_bottles_asks_how_much_must_and_keeps_its_name(title):
    reading = read_card(f"{title}\n{PLUMS}")
    assert reading.title == "Plum wine"
    (row,) = (row for row in reading.rows if row.state == "asked")
    (way,) = row.remarks[0].ways
    mended = read_card(reading.text.replace(row.item.text, way.text))
    assert mended.title == "Plum wine"
    # Six bottles of 0.75 L are 4.5 L of wine, and some of the must stays behind in racking.
    assert 4.5 < mended.basis.litres(None) < 6.5
    assert not mended.is_open


def test_a_title_in_bottles_may_be_left_without_them():
    card = f"Plum wine (for 6 bottles)\n{PLUMS}"
    answers = {"plum wine (for 6 bottles)": "note"}
    reading = read_card(card, answers)
    assert (reading.title, reading.basis, reading.is_open) == ("Plum wine", None, False)


def test_a_title_in_bottles_gives_way_to_the_must_that_the_card_says():
    reading = read_card(f"Plum wine (6 bottles)\nmakes 6 L\n{PLUMS}")
    assert (reading.title, reading.basis.text, reading.rows[0].state) == (
        "Plum wine",
        "6 L",
        "look",
    )


def test_a_bare_gallon_in_a_title_is_asked_about():
    row = read_card(f"Test wine, makes 5 gallons\n{PLUMS}").rows[0]
    assert row.state == "asked"
    assert "US or imperial" in row.remarks[0].sentence


@pytest.mark.parametrize(
    "text",
    ["Water to 5 gallons", "3 lb plums, makes 1 gallon US", "Cold water, 7 pints US", "Makes 5 L"],
)
def test_a_first_line_that_is_an_ingredient_or_a_figure_is_no_title(text):
    assert read_card(f"{text}\n2 lb sugar", gallon="US").title == ""
