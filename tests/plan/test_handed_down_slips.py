"""Slips of hand and eye on a card, amounts in words, and words of other kitchens."""

import time

import pytest

from winebench.model.recipe import AdditiveLine, FruitLine
from winebench.plan.handed_down.into_project import card_lines
from winebench.plan.handed_down.read_card import read_card

CARD = "Card\nmakes 5 gallons US\n"


def last(text):
    return read_card(CARD + text, gallon="US").rows[-1]


def lines(text):
    return card_lines(read_card(CARD + text, gallon="US"))


def ways(row):
    return [way.text for remark in row.remarks for way in remark.ways]


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("l packet yeast", "1 packet yeast"),
        ("I packet yeast", "1 packet yeast"),
        ("l tsp tannin", "1 tsp tannin"),
        ("l0 lb plums", "10 lb plums"),
        ("l gallon water", "1 gallon water"),
    ],
)
def test_a_letter_in_place_of_a_number_is_asked_about_with_what_it_looks_like(text, meant):
    row = last(text)
    assert (row.state, row.line) == ("asked", None)
    assert ways(row) == [meant]
    assert last(meant).line is not None


# Net weights: K-State Research and Extension, table of can sizes (Lawrence Journal-World, 26
# August 2009): No. 10 6 lb to 7 lb 5 oz (96 to 117 oz), No. 2 1/2 26 to 30 oz, No. 303 1 lb.
CANS = [
    ("1 No. 10 can peaches", ["1 x 96 oz can peaches", "1 x 117 oz can peaches"]),
    ("No. 10 can of peaches", ["1 x 96 oz can peaches", "1 x 117 oz can peaches"]),
    ("1 #10 can peaches", ["1 x 96 oz can peaches", "1 x 117 oz can peaches"]),
    ("peaches, 1 No. 10 can", ["1 x 96 oz can peaches", "1 x 117 oz can peaches"]),
    ("2 No. 2 1/2 cans of apricots", ["2 x 26 oz can apricots", "2 x 30 oz can apricots"]),
    ("1 can (No. 303) pears", ["1 x 16 oz can pears"]),
]


@pytest.mark.parametrize(("text", "offered"), CANS)
def test_a_tin_by_its_old_number_is_asked_about_with_what_such_a_tin_holds(text, offered):
    row = last(text)
    assert (row.state, ways(row)) == ("asked", offered)
    assert "label" in row.remarks[0].sentence


def test_a_tin_by_its_number_becomes_the_tinned_fruit_once_its_weight_is_chosen():
    line = last("2 x 26 oz can apricots").line
    assert isinstance(line, FruitLine)
    assert (line.fruit, line.form) == ("apricot", "canned")
    assert line.amount.grams() == pytest.approx(52 * 28.349523125)  # NIST Handbook 44: an ounce


@pytest.mark.parametrize(
    "text",
    [
        "1 tsp each: acid blend, nutrient",
        "1 tsp each of acid blend and nutrient",
        "1 tsp each acid blend & nutrient",
        "acid blend and nutrient, 1 tsp each",
        "acid blend, nutrient (1 tsp each)",
        "1 tsp acid blend and nutrient each",
    ],
)
def test_one_amount_of_each_of_several_things_is_a_line_of_each(text):
    found = lines(text)
    assert all(isinstance(line, AdditiveLine) for line in found)
    assert [(line.additive, line.amount.text) for line in found] == [
        ("acid-blend", "1 tsp"), ("yeast-nutrient", "1 tsp"),
    ]  # fmt: skip


def test_each_by_the_gallon_is_for_all_the_gallons_of_each():
    found = lines("1 tsp each per gallon of acid blend and nutrient")
    assert [line.amount.text for line in found] == ["5 tsp", "5 tsp"]


def test_each_of_three_fruits_keeps_what_is_said_of_each():
    found = lines("2 lb each of plums, damsons, stoned, and apples")
    assert [(line.fruit, line.prepared) for line in found] == [
        ("plum", False), ("damson", True), ("apple", False),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "juice"),
    [
        # 45 mL to a lemon, 80 mL to an orange: common practice, as the program says beside it.
        ("half a dozen lemons", "270 mL lemon juice"),
        ("a dozen lemons", "540 mL lemon juice"),
        ("two dozen oranges", "1920 mL orange juice"),
        ("juice of half a dozen oranges", "480 mL orange juice"),
    ],
)
def test_dozens_are_counted_and_their_juice_is_asked_about(text, juice):
    row = last(text)
    assert (row.state, ways(row)) == ("asked", [juice])


@pytest.mark.parametrize("text", ["half a dozen cloves", "a dozen plums", "a pinch of salt"])
def test_what_has_no_weight_is_asked_about(text):
    assert (last(text).state, last(text).line) == ("asked", None)


@pytest.mark.parametrize("dash", ["-", "–", "−", " to "])
def test_a_range_keeps_its_dash_among_pictures(dash):
    row = last(f"🍇 2{dash}3 lb plums 🍷")
    assert (row.line.amount.text, ways(row)) == ("2 1/2 lb", ["2 lb plums", "3 lb plums"])


def test_a_pinch_of_a_known_powder_is_asked_about_with_the_usual_one():
    assert ways(last("a pinch of tannin")) == ["1/16 tsp tannin"]


@pytest.mark.parametrize(
    ("text", "key", "amount"),
    [
        ("1 kg Zucker", "white-sugar", "1 kg"),
        ("3 kg Pflaumen", "plum", "3 kg"),
        ("2 TL Zitronensäure", "citric-acid", "2 tsp"),
        ("1 EL Weinsäure", "tartaric-acid", "1 tbsp"),
        ("1 Päckchen Hefe", "yeast", "1 packet"),
        ("4 l Wasser", "water", "4 l"),
        # A Pfund is half a kilogram in today's German kitchens (common usage).
        ("2 Pfund Zucker", "white-sugar", "1 kg"),
        ("ein Pfund Honig", "honey", "500 g"),
        ("Rosinen 250 g", "raisin", "250 g"),
        ("1 kilo de sucre", "white-sugar", "1 kilo"),
        ("3 litres d'eau", "water", "3 litres"),
        ("2 cuillères à café d'acide citrique", "citric-acid", "2 tsp"),
        ("1 c. à soupe acide tartrique", "tartaric-acid", "1 tbsp"),
        ("un sachet de levure", "yeast", "1 sachet"),
        ("1 kg de raisins secs", "raisin", "1 kg"),
    ],
)
def test_common_words_of_german_and_french_cards_are_read(text, key, amount):
    line = last(text).line
    named = getattr(line, line.__struct_config__.tag, line.__struct_config__.tag)
    assert (named, line.amount.text) == (key, amount)


@pytest.mark.parametrize(
    "text", ["Wasser auf 10 Liter", "mit Wasser auf 10 Liter auffüllen", "eau pour faire 10 litres"]
)
def test_how_far_the_water_goes_is_read_in_german_and_french(text):
    reading = read_card(f"Card\n1 kg sugar\n{text}")
    assert reading.basis.litres(None) == pytest.approx(10.0)


def test_what_a_metric_pound_is_taken_for_is_said():
    assert "500 g" in last("2 Pfund Zucker").remarks[0].sentence


@pytest.mark.parametrize("text", ["3 kg Mirabellen", "2 kg Kirschen", "500 g Pruneaux"])
def test_a_foreign_word_that_could_mean_several_things_is_asked_about(text):
    assert (last(text).kind, last(text).state) == ("question", "asked")


@pytest.mark.parametrize("text", ["1" * 290, "1 lb " * 58, "2 lb sugar" + " per gallon" * 25])
def test_a_heap_of_digits_or_amounts_is_read_as_fast_as_it_is_typed(text):
    started = time.process_time()
    read_card(CARD + text, gallon="US")
    assert time.process_time() - started < 1.0
