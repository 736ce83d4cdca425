"""A handed-down card, item by item: nothing is dropped, whatever it says."""

import pytest

from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine, YeastLine
from winebench.plan.handed_down.into_project import card_lines, card_note, card_targets
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.handed_down.split import MOST_ITEMS, items

SENTENCE = "3 lb plums, 2 lb sugar, 1 tsp acid blend, water to 1 gallon, SG 1.085"
LIST = """\
Grandmother's plum wine

Ingredients:
1. 3 lb plums, stoned
2) 2,5 kg sugar
- ½ tsp tannin
• 1 1/2 tsp acid blend
[ ] two pounds honey and 1 lb raisins
1 sulfite tablet
1 packet yeast
water, to 4.5 L
TA 6.5
Method: Crush the plums.
1. Stir daily for 5 days
2. Rack, 1 gallon at a time
"""


def texts(card):
    return [item.text for item in items(card)]


def row(card, text, **told):
    return next(r for r in read_card(card, **told).rows if r.item.text == text)


def test_a_card_strung_together_by_commas_is_read_piece_by_piece():
    reading = read_card(SENTENCE, gallon="US")
    assert [each.item.text for each in reading.rows] == SENTENCE.split(", ")
    assert [type(line) for line in card_lines(reading)] == [
        FruitLine, SugarLine, AdditiveLine, WaterLine,
    ]  # fmt: skip
    assert reading.basis.litres("US") == pytest.approx(3.785411784)  # NIST Handbook 44
    assert card_targets(reading).gravity_low.value == 1.085
    assert not reading.is_open


def test_a_card_of_one_item_a_line_is_read_with_its_title_and_method():
    reading = read_card(LIST)
    assert reading.title == "Grandmother's plum wine"
    assert [type(line) for line in card_lines(reading)] == [
        FruitLine, SugarLine, AdditiveLine, AdditiveLine, SugarLine, FruitLine, AdditiveLine,
        YeastLine, WaterLine,
    ]  # fmt: skip
    assert card_lines(reading)[0].prepared
    assert reading.basis.text == "4.5 L"
    assert card_note(reading, with_title=False).splitlines() == [
        "Crush the plums.", "Stir daily for 5 days", "Rack, 1 gallon at a time",
    ]  # fmt: skip
    assert not reading.is_open


@pytest.mark.parametrize(
    ("card", "cut"),
    [
        ("3 lb plums, stoned, 2 lb sugar", ["3 lb plums, stoned", "2 lb sugar"]),
        ("2,5 kg plums; 1,2 kg sugar", ["2,5 kg plums", "1,2 kg sugar"]),
        ("3 lb 4 oz plums and 2 lb sugar", ["3 lb 4 oz plums", "2 lb sugar"]),
        ("Plums, 3 lb, sugar, 2 lb", ["Plums, 3 lb", "sugar, 2 lb"]),
        ("Plum wine: 3 lb plums", ["Plum wine", "3 lb plums"]),
        ("Plum wine, 1 gallon", ["Plum wine", "1 gallon"]),
        ("Sugar: 2 lb", ["Sugar: 2 lb"]),
        ("SG: 1.085", ["SG: 1.085"]),
        ("3 lb plums (ripe, stoned), yeast", ["3 lb plums (ripe, stoned)", "yeast"]),
        ("3 lb plums. 2 lb sugar. Yeast.", ["3 lb plums", "2 lb sugar", "Yeast."]),
        ("Stir, then rack, 1 gallon at a time", ["Stir, then rack, 1 gallon at a time"]),
        ("Juice and rind of 1 orange", ["Juice and rind of 1 orange"]),
        ("Cold water, 7 pints", ["Cold water, 7 pints"]),
        ("OG 1.090 / FG 0.995", ["OG 1.090", "FG 0.995"]),
        ("3 lb / 1.4 kg plums", ["3 lb / 1.4 kg plums"]),
        ("Blackberry & apple\n2 lb sugar", ["Blackberry & apple", "2 lb sugar"]),
        ("For 5 gallons: 9 lb sugar", ["For 5 gallons", "9 lb sugar"]),
        ("---\n***\n•", []),
    ],
)
def test_items_are_cut_where_a_reader_would_pause(card, cut):
    assert texts(card) == cut


@pytest.mark.parametrize(
    ("text", "targets"),
    [
        ("SG 1.085", {"gravity_low": 1.085, "gravity_high": 1.085}),
        ("Starting gravity: 1.085-1.090", {"gravity_low": 1.085, "gravity_high": 1.090}),
        ("1,090", {"gravity_low": 1.090, "gravity_high": 1.090}),
        ("20-22 brix", {"gravity_low": 20.0, "gravity_high": 22.0}),
        ("Specific gravity should be 1.085", {"gravity_low": 1.085, "gravity_high": 1.085}),
        ("FG 1.010", {"final_gravity": 1.010}),
        ("finish at 0.998", {"final_gravity": 0.998}),
        ("TA 6.5", {"acid_low_g_per_l": 6.5, "acid_high_g_per_l": 6.5}),
        # One percent is 1 g in 100 mL, so 10 g/L: by definition.
        ("TA .65%", {"acid_low_g_per_l": 6.5, "acid_high_g_per_l": 6.5}),
        # 1 g/L as sulfuric is 1.53 g/L as tartaric: Ribereau-Gayon, Handbook of Enology 1.
        ("acidity 4 g/L as sulfuric", {"acid_low_g_per_l": 6.12, "acid_high_g_per_l": 6.12}),
        ("12% abv", {"strength_percent": 12.0}),
    ],
)
def test_figures_of_the_recipe_are_read_in_their_usual_words(text, targets):
    field = read_card(text).rows[0].field
    found = {name: getattr(value, "value", value) for name, value in field.targets.items()}
    assert found == pytest.approx(targets, abs=0.006)


@pytest.mark.parametrize(
    ("text", "litres"),
    [("Makes 5 L", 5.0), ("for one gallon US", 3.785), ("1 gallon (4.5 L)", 4.546),
     ("Plum wine (2 litres)", 2.0),
        ("PLUM WINE (makes 2 litres)", 2.0), ("water to make up to 4.5 L", 4.5)],
)  # fmt: skip
def test_how_much_it_makes_is_read_wherever_it_stands(text, litres):
    assert read_card(text).basis.litres(None) == pytest.approx(litres, abs=0.001)


@pytest.mark.parametrize(
    ("text", "repair"),
    [
        ("SG 1850", None),
        ("SG 1085", "SG 1.085"),
        ("SG 85", "SG 1.085"),
        ("SG 0.985", "FG 0.985"),
        ("OG 1.090 to 1.085", "SG 1.085"),
        ("TA 65", "TA 6.5 g/L"),
        ("TA 0.65", "TA 6.5 g/L"),
        ("abv 45 %", None),
        ("3 lb (2 kg) plums", "3 lb plums"),
        ("0 lb sugar", None),
        ("2 furlongs honey", None),
    ],
)
def test_what_cannot_be_true_is_wrong_with_its_reason_and_repair(text, repair):
    reading = read_card(text)
    found = reading.rows[0]
    assert found.state == "wrong"
    assert found.remarks[0].sentence
    ways = [way.text for way in found.remarks[0].ways]
    assert ways[:1] == ([repair] if repair else [])
    if repair:
        assert not read_card(repair).rows[0].is_open


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("l lb sugar", ["1 lb sugar"]),
        ("I lb sugar", ["1 lb sugar"]),
        ("lO lb plums", ["10 lb plums"]),
        ("l/2 lb sugar", ["1/2 lb sugar"]),
        ("O.5 kg of sugar", ["0.5 kg sugar"]),
        ("l gallon water", ["1 gallon water"]),
        ("l lb ripe plums", ["1 lb ripe plums"]),
        ("? lb sugar", []),
        ("x kg moonberries", []),
        ("x lb sugar", []),
        ("NaN lb sugar", []),
        ("lb sugar", []),
        ("some lb plums", []),
        ("a good few lbs of plums", []),
    ],
)
@pytest.mark.parametrize("card", ["{}", "3 kg damsons\n{}\n1 packet yeast", "{}\n3 kg damsons"])
def test_an_amount_whose_number_is_lost_is_asked_about_wherever_it_stands(card, text, meant):
    (found,) = [row for row in read_card(card.format(text)).rows if row.item.text == text]
    assert (found.kind, found.state) == ("question", "asked")
    assert [way.text for way in found.remarks[0].ways] == meant
    for way in meant:
        (again,) = read_card(way, gallon="US").rows
        assert (again.kind, again.state) == ("line", "read")


@pytest.mark.parametrize(
    "text", ["Bring a pail", "Plums of the lower hedge", "I pressed the pulp", "From the pound"]
)
def test_words_without_a_unit_and_a_known_name_stay_words(text):
    rows = read_card(f"Old card\n3 kg damsons\n{text}").rows
    assert (rows[-1].kind, rows[-1].state) == ("method", "read")


@pytest.mark.parametrize(
    ("text", "ways"),
    [
        ("2l/2 lb sugar", ["2 1/2 lb sugar", "2 lb sugar"]),
        ("2 l/2 lb sugar", ["2 1/2 lb sugar", "2 lb sugar"]),
        ("2I/4 lb sugar", ["2 1/4 lb sugar", "4 lb sugar"]),
        ("21/2 lb sugar", ["2 1/2 lb sugar", "10 1/2 lb sugar"]),
        ("13/4 kg plums", ["1 3/4 kg plums", "3 1/4 kg plums"]),
    ],
)
def test_a_fraction_grown_to_its_whole_number_is_asked_about(text, ways):
    (found,) = read_card(text).rows
    assert found.state == "asked"
    assert [way.text for way in found.remarks[0].ways] == ways
    assert [read_card(way).rows[0].state for way in ways] == ["read", "read"]


@pytest.mark.parametrize("text", ["2 1/2 lb sugar", "1 cup / 200 g sugar", "5/2 lb sugar"])
def test_a_whole_fraction_and_a_second_statement_are_not(text):
    (found,) = read_card(text, gallon="US").rows
    assert (found.kind, found.state) == ("line", "read")


@pytest.mark.parametrize(
    "text",
    ["juice of 2 lemons", "4 damsons", "zest of 1 orange", "pectic enzyme", "6 bottles",
     "1 tsp pectic enzyme per gallon", "3 lb moonberries", "a pinch of salt",
     "a big handful of raisins",
     "1 lb raisins or 1 lb dates"],
)  # fmt: skip
def test_what_the_card_leaves_open_is_asked_and_can_be_kept_as_a_note(text):
    found = read_card(text).rows[0]
    assert found.state == "asked"
    answered = read_card(text, {found.asks: "note"})
    assert not answered.is_open
    assert card_note(answered, with_title=False) == text


@pytest.mark.parametrize(
    ("answer", "kind"), [("fruit", FruitLine), ("sugar", SugarLine), ("additive", AdditiveLine)]
)
def test_an_unknown_ingredient_becomes_what_the_person_says_it_is(answer, kind):
    line = row("3 lb Moonberries", "3 lb Moonberries", answers={"moonberries": answer}).line
    assert isinstance(line, kind)
    assert getattr(line, answer) == "Moonberries"


@pytest.mark.parametrize(
    ("text", "ways"),
    [
        ("1 lb raisins or 12 oz dates", ["1 lb raisins", "12 oz dates"]),
        ("3 lb Victoria plums", ["3 lb plums"]),
        ("juice and rind of 3 lemons", ["135 mL lemon juice"]),
    ],
)
def test_a_question_offers_what_was_probably_meant(text, ways):
    found = read_card(text).rows[0]
    assert found.state == "asked"
    assert [way.text for remark in found.remarks for way in remark.ways] == ways


def test_a_bare_gallon_asks_whose_it_is_and_is_shown_with_its_country():
    reading = read_card("water to 1 gallon")
    assert reading.asks_gallon
    assert reading.is_open
    assert "US or imperial?" in reading.rows[0].remarks[0].sentence
    told = read_card("water to 1 gallon", gallon="imperial")
    assert told.basis.text == "1 gallon"  # as typed
    assert told.rows[0].read_as == "Water: to the mark at 1 gallon imperial"
    assert not told.is_open


def test_a_country_named_once_holds_for_the_whole_card():
    reading = read_card("water to 1 gallon (4.5 L)\n2 pints grape juice")
    assert reading.gallon == "imperial"
    assert reading.rows[1].read_as.endswith("2 pints imperial")
    assert not reading.is_open


def test_a_dose_by_the_gallon_is_for_the_whole_must():
    reading = read_card("Makes 5 gallons\n1/2 tsp tannin per gallon", gallon="US")
    assert card_lines(reading)[0].amount.text == "2 1/2 tsp"  # half a spoon, five times


def test_yeast_without_an_amount_is_one_packet_and_says_so():
    found = row("3 lb plums, white wine yeast", "white wine yeast")
    assert found.state == "look"
    assert (found.line.amount.text, found.line.note) == ("1 packet", "white wine yeast")


def test_a_long_text_keeps_its_end_as_one_note():
    card = "\n".join(f"{n + 1} lb plums" for n in range(MOST_ITEMS + 50))
    rows = read_card(card).rows
    assert len(rows) == MOST_ITEMS + 1
    assert rows[-1].item.text.endswith(f"{MOST_ITEMS + 50} lb plums")
    assert rows[-1].kind == "method"


def test_a_sentence_of_method_behind_an_ingredient_is_its_own_item():
    text = "3 lb plums, 2 lb sugar, 1 packet yeast. Stir daily for 5 days."
    assert [item.text for item in items(text)] == [
        "3 lb plums", "2 lb sugar", "1 packet yeast", "Stir daily for 5 days.",
    ]  # fmt: skip
