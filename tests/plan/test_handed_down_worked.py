"""Cards worked out by hand: what is written on a line counts as it was meant.

Densities of sucrose solutions at 20 °C, kg/L, from the CRC Handbook (Concentrative Properties of
Aqueous Solutions); litres and grams of gallon, ounce and pound from NIST Handbook 44; the liquid
that a fruit gives from resources/catalog/groups.csv (common practice).
"""

from itertools import pairwise

import pytest

from winebench.plan.handed_down.into_project import card_basis, card_project
from winebench.plan.handed_down.judge import judged
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.work_out import recipe_outlook

GALLON_L, POUND_G, OUNCE_G, FL_OZ_L = 3.785411784, 453.59237, 28.349523125, 0.0295735295625
WATER = 0.99823  # kg/L at 20 °C, CRC
CRC = ((14.0, 1.0549), (16.0, 1.0635), (20.0, 1.0810), (22.0, 1.0899), (24.0, 1.0990),
       (26.0, 1.1082), (44.0, 1.1972), (46.0, 1.2079))  # fmt: skip
STONE_FRUIT = 0.92
"""Share of its mass that stoned fruit gives as liquid (common practice)."""


def read(card):
    return judged(read_card(card, gallon="US"))


def must(card):
    reading = read(card)
    assert not reading.is_open
    return recipe_outlook(card_project(reading)).must


def density(percent):
    """Return kg/L between two rows of the table."""
    below, above = next(p for p in pairwise(CRC) if p[0][0] <= percent <= p[1][0])
    share = (percent - below[0]) / (above[0] - below[0])
    return below[1] + share * (above[1] - below[1])


def sg(kg_per_l):
    """Return the SG 20/20 of so much sugar in a litre."""
    percent = 20.0
    for _ in range(40):
        percent = 100.0 * kg_per_l / density(percent)
    return density(percent) / WATER


def said(reading, text):
    row = next(each for each in reading.rows if each.item.text == text)
    return " ".join(remark.sentence for remark in row.remarks)


def ways(reading, text):
    row = next(each for each in reading.rows if each.item.text == text)
    return [way.text for remark in row.remarks for way in remark.ways]


def test_what_was_measured_on_the_fruit_is_the_fruits_and_no_target():
    card = "D\n15 lb damsons, stoned, 15.5 Brix, TA 18 g/L\n10 lb sugar\nwater to 5 gallons\nyeast"
    reading = read(card)
    assert reading.field("gravity") is None
    assert reading.field("acidity") is None
    liquid_kg = 15 * POUND_G / 1000 * STONE_FRUIT
    solids = liquid_kg * 0.155 + 10 * POUND_G / 1000
    made = must(card)
    assert made.gravity.value == pytest.approx(sg(solids / (5 * GALLON_L)), abs=0.001)
    acid = liquid_kg / density(15.5) * 18 / (5 * GALLON_L)
    assert made.acidity.value == pytest.approx(acid, abs=0.05)


def test_a_concentrate_brings_the_sugar_of_its_label():
    kg = 24 * FL_OZ_L * density(45.0) * 0.45 + POUND_G / 1000
    made = must("24 fl oz apple concentrate, 45 Brix\n1 lb sugar\nwater to 1 US gal\nyeast")
    assert made.gravity.value == pytest.approx(sg(kg / GALLON_L), abs=0.001)


def test_the_syrup_in_a_tin_counts():
    kg = 58 * OUNCE_G / 1000 * STONE_FRUIT * 0.20 + 1.5 * POUND_G / 1000
    card = "2 x 29 oz cans peaches in heavy syrup\n1 1/2 lb sugar\nwater to 1 US gal\nyeast"
    assert must(card).gravity.value == pytest.approx(sg(kg / GALLON_L), abs=0.001)


def test_a_label_in_grams_per_hundred_millilitres_is_no_brix():
    # 110 g/L is 10.55 % of 1.0422 kg/L (CRC: 10 % 1.0381, 11 % 1.0422): SG 1.042.
    (row,) = read("3 L apple juice, 11 g sugar/100 ml").rows
    assert row.line.measured.juice.value == pytest.approx(1.0422, abs=0.0008)


def test_a_syrup_brings_the_percentage_of_its_label():
    # 3 kg apricots with 7 % stones (USDA SR28 food 09021), 12.5 °Brix, and 1.5 kg of 67 %.
    kg = 3 * 0.93 * STONE_FRUIT * 0.125 + 1.5 * 0.67
    card = "3 kg apricots, 12,5 Brix, 14 g/L acid\n1,5 kg sugar syrup 67 %\nwater to 8 L\nyeast"
    # 165 g/L is 15.5 % of 1.0614 kg/L.
    assert kg / 8 == pytest.approx(0.155 * density(15.5), abs=0.002)
    assert must(card).gravity.value == pytest.approx(density(15.5) / WATER, abs=0.002)


@pytest.mark.parametrize(
    "later", ["to feed", "for feeding", "in stages", "(day 4)", ", fed later", "later, when slow",
              "second addition", "when the gravity is 1.020"]
)  # fmt: skip
def test_sugar_that_is_fed_later_is_not_in_the_first_gravity(later):
    fed = must(f"3 lb blackberries\n1 lb sugar\n8 oz sugar {later}\nwater to 1 gallon\nyeast")
    plain = must("3 lb blackberries\n1 lb sugar\nwater to 1 gallon\nyeast")
    assert fed.gravity.value == pytest.approx(plain.gravity.value, abs=0.0005)
    assert fed.strength.value > plain.strength.value + 1.5


@pytest.mark.parametrize(
    ("card", "litres"),
    [
        # a gallon of juice, and 300 g of sugar that take up 0.62 L a kilogram (27 CFR 24.181)
        ("1 US gallon apple juice\n1 1/2 cups sugar\nyeast", GALLON_L + 0.3 * 0.62),
        # 90 % of the apples is no core (USDA SR28), of which 68 % runs (common practice), at
        # 11.5 °Brix 1.044 kg/L, and 2 lb of sugar
        ("20 lb apples, pressed\n2 lb sugar\nyeast", 9.0718 * 0.9 * 0.68 / 1.044 + 0.907 * 0.62),
    ],
)
def test_lines_without_water_make_their_own_volume(card, litres):
    made = card_basis(read(card))
    assert made.litres("US") == pytest.approx(litres, abs=0.06)


def test_fruit_and_sugar_alone_are_told_that_their_water_is_lacking():
    reading = read("3 lb plums\n2 lb sugar\n1 packet yeast")
    assert [w.text for remark in reading.remarks for w in remark.ways] == [
        "makes 1 gal US", "water to 1 gal US",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("card", "offered"),
    # One packet for each six gallons begun, twice that above 1.100: common practice.
    [
        ("3 lb plums\n1 lb sugar\nwater to 1 gallon\nyeast", []),
        ("15 lb damsons\n10 lb sugar\nwater to 5 gallons\nyeast", ["2 packets yeast"]),
        ("30 lb damsons\n14 lb sugar\nwater to 10 gallons\nyeast", ["2 packets yeast"]),
        ("30 lb damsons\n20 lb sugar\nwater to 10 gallons\nwine yeast", ["4 packets wine yeast"]),
    ],
)  # fmt: skip
def test_a_bare_yeast_is_offered_the_packets_that_must_and_size_want(card, offered):
    reading = read(card)
    row = reading.rows[-1]
    assert [w.text for r in row.remarks for w in r.ways] == offered
    assert row.line.amount.text == "1 packet"


def test_sugar_that_only_the_method_feeds_is_not_missed():
    method = "Method\nAdd 1/2 lb more sugar on day 5.\nThen the rest of the sugar."
    reading = read(f"3 lb plums\n2 lb sugar\nmakes 5 L\nwater to 5 L\nyeast\n{method}")
    assert ways(reading, "Add 1/2 lb more sugar on day 5.") == [
        "1/2 lb sugar, fed later", "1/2 lb sugar",
    ]  # fmt: skip
    assert "goes in later by this" in said(reading, "Then the rest of the sugar.")
