"""Doses by the gallon or litre on a card, for as much as the card makes."""

import pytest

from winebench.plan.handed_down.into_project import card_lines
from winebench.plan.handed_down.read_card import read_card

# 2 lb for each of 5 gallons are 10 lb; 1 tsp for each are 5 tsp.
BY_THE_GALLON = [
    ("2 lb sugar per gallon", "10 lb"),
    ("sugar, 2 lb to the gallon", "10 lb"),
    ("2 lb to the gallon of sugar", "10 lb"),
    ("2 lb per gallon sugar", "10 lb"),
    ("Sugar: 2 lb/gal", "10 lb"),
    ("2 lb plums/gal", "10 lb"),
    ("sugar @ 2 lb per gallon", "10 lb"),
    ("sugar (2 lb per gallon)", "10 lb"),
    ("2 lb of sugar for every gallon of must", "10 lb"),
    ("per gallon 2 lb sugar", "10 lb"),
    ("for every gallon, 2 lb sugar", "10 lb"),
    ("2 lb 4 oz sugar per gallon", "11 1/4 lb"),  # 5 x 36 oz = 180 oz
    ("1 tsp acid blend per gallon", "5 tsp"),
    ("1 tsp acid blend per US gallon", "5 tsp"),
    ("1 Campden tablet per gallon", "5 tablets"),
    ("1 tsp nutrient for each 5 gallons", "1 tsp"),
    ("1/4 tsp nutrient per 15 gallons", "1/12 tsp"),  # eighths would be half as much again
    # An imperial gallon is 4.54609 L, five US ones 18.927 L (NIST Handbook 44, appendix C): 4.163
    # times 3 lb are 12.49 lb, to the eighth of a pound.
    ("3 lb plums per imperial gallon", "12 1/2 lb"),
]
BY_THE_LITRE = [
    ("200 g/L sugar", "4600 g"),  # 23 x 200
    ("200 g sugar per litre", "4600 g"),
    ("1 kg sugar per 5L", "4.6 kg"),
    ("sugar 200 g/L", "4600 g"),
    ("200 g sugar je Liter", "4600 g"),
    ("200 g sugar par litre", "4600 g"),
    ("20 g tannin per 100 L", "4.6 g"),  # 23 hundredths of 20
    ("20 g/hL tannin", "4.6 g"),
    ("400 g tannin per 10 hL", "9.2 g"),  # 400 g in 1000 L
]


def one_line(text, makes, gallon="US"):
    (line,) = card_lines(read_card(f"Card\nmakes {makes}\n{text}", gallon=gallon))
    return line


@pytest.mark.parametrize(("text", "whole"), BY_THE_GALLON)
def test_a_dose_by_the_gallon_is_for_all_the_gallons_of_the_card(text, whole):
    assert one_line(text, "5 gallons US").amount.text == whole


@pytest.mark.parametrize(("text", "whole"), BY_THE_LITRE)
def test_a_dose_by_the_litre_is_for_all_its_litres(text, whole):
    assert one_line(text, "23 L").amount.text == whole


@pytest.mark.parametrize(
    "text",
    [
        "2 lb sugar per gallon, in three stages",
        "sugar 2 lb per gallon, added in three stages",
        "sugar, 2 lb to the gallon, fed later",
    ],
)
def test_sugar_by_the_gallon_in_stages_is_fed_later_all_of_it(text):
    line = one_line(text, "5 gallons US")
    assert (line.amount.text, line.when) == ("10 lb", "feed")


def test_the_first_of_three_stages_is_offered_for_the_start():
    card = "Card\nmakes 3 gallons US\n3 lb sugar per gallon, in three stages"
    row = read_card(card, gallon="US").rows[-1]
    ways = [way.text for remark in row.remarks for way in remark.ways]
    one = "1 lb sugar per gallon"
    assert ways == ["\n".join((one, f"{one}, second portion", f"{one}, third portion"))]
    rewritten = card.replace("3 lb sugar per gallon, in three stages", ways[0])
    lines = card_lines(read_card(rewritten, gallon="US"))
    # A third of 9 lb at the start, the other two later, each on a line of its own.
    assert [(line.amount.text, line.when) for line in lines] == [
        ("3 lb", "start"),
        ("3 lb", "feed"),
        ("3 lb", "feed"),
    ]


@pytest.mark.parametrize(
    "text", [text for text, _ in (*BY_THE_GALLON, *BY_THE_LITRE)] + ["1 g/L tartaric acid"]
)
def test_where_nobody_says_how_much_it_makes_a_dose_by_volume_is_asked_about(text):
    row = read_card(f"Card\n3 lb plums\n{text}", gallon="US").rows[-1]
    assert row.state == "asked"
    assert "how much must" in row.remarks[0].sentence


def test_a_dose_by_the_gallon_of_juice_is_asked_about_since_there_is_less_of_it():
    row = read_card("Card\nmakes 5 gallons US\n2 lb sugar to each gallon of juice").rows[-1]
    assert row.state == "asked"
    assert "how much juice" in row.remarks[0].sentence


@pytest.mark.parametrize("text", ["2-3 lb sugar per gallon", "1 heaped tsp tannin per gallon"])
def test_what_is_offered_instead_of_a_dose_is_by_the_gallon_too(text):
    row = read_card(f"Card\nmakes 5 gallons US\n{text}").rows[-1]
    ways = [way for remark in row.remarks for way in remark.ways]
    assert ways
    assert all(way.text.endswith("per gallon") for way in ways)


def test_yeast_by_the_gallon_is_not_multiplied_and_says_so():
    row = read_card("Card\nmakes 5 gallons US\n1 packet yeast per gallon").rows[-1]
    assert row.line.amount.text == "1 packet"
    assert "grows" in row.remarks[0].sentence


@pytest.mark.parametrize("text", ["1 lb sugar in each gallon jar", "acidity 6 g/L", "TA 7 g/L"])
def test_other_words_with_a_gallon_or_a_litre_are_no_dose(text):
    row = read_card(f"Card\nmakes 5 gallons US\n{text}", gallon="US").rows[-1]
    assert "altogether" not in " ".join(remark.sentence for remark in row.remarks)


def test_lines_under_a_gallon_of_their_own_line_do_not_hold_for_the_next_line():
    lines = card_lines(read_card("Card\nmakes 5 gallons US\nper gallon 2 lb sugar\n3 lb plums"))
    assert [line.amount.text for line in lines] == ["10 lb", "3 lb"]
