"""What a card leaves out or would never be put in: offered as a button, said, or refused."""

import pytest

from tests.plan.damson import at
from winebench.model.edits import changed
from winebench.model.log import Note
from winebench.model.new_project import new_project
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.handed_down.into_project import card_edit, card_lines, card_note, card_targets
from winebench.plan.handed_down.judge import judged
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.typed.lines import typed_line
from winebench.plan.typed.offers import known
from winebench.units import UnitsError

STAGED = "2 lb sugar per gallon, in three stages"
NO_WATER = f"Test wine, makes 5 gallons US\n15 lb plums\n{STAGED}"


def ways(row):
    return [way.text for remark in row.remarks for way in remark.ways]


def said(row):
    return " ".join(remark.sentence for remark in row.remarks)


def last(text, gallon="US", head="Card\nmakes 5 gallons US\n"):
    return read_card(head + text, gallon=gallon).rows[-1]


# --- water that nobody wrote -------------------------------------------------------------------


def test_a_card_that_says_how_much_it_makes_and_no_water_offers_the_water_up_to_that():
    row = judged(read_card("Plum\nmakes 5 gallons US\n15 lb plums\n10 lb sugar")).rows[1]
    assert "Fill it with water to the 5 gallons US" in said(row)
    assert ways(row) == ["water to 5 gallons US"]


def test_it_is_judged_as_if_that_water_were_in_it():
    card = "Plum\nmakes 5 gallons US\n15 lb plums\n6 lb sugar\n1 packet yeast"
    dry = judged(read_card(card))
    wet = judged(read_card(f"{card}\nwater to 5 gallons US"))
    assert dry.remarks == wet.remarks == ()
    # Without the water the same lines read about 1.2: "likely to stick" would be said.
    assert [row.state for row in dry.rows] == ["read", "look", "read", "read", "read"]
    assert [row.state for row in wet.rows] == ["read"] * 6


# --- whose gallon -----------------------------------------------------------------------------


@pytest.mark.parametrize("gallon", [None, "US", "imperial"])
def test_by_the_gallon_is_by_the_gallon_that_the_card_names(gallon):
    row = last("2 lb sugar per gallon", gallon)
    assert row.line.amount.text == "10 lb"


def test_a_country_in_brackets_is_the_measures_own():
    row = last("water to 2 gallons (imperial)", head="Card\n")
    assert row.field.basis.text == "2 gallons imperial"


# --- stages -----------------------------------------------------------------------------------


@pytest.mark.parametrize("gallon", ["US", "imperial"])
def test_the_first_stage_at_the_start_keeps_the_others_and_the_whole(gallon):
    first = next(row for row in read_card(NO_WATER, gallon=gallon).rows if row.item.text == STAGED)
    (way,) = ways(first)
    lines = card_lines(read_card(NO_WATER.replace(STAGED, way), gallon=gallon))[1:]
    assert [line.when for line in lines] == ["start", "feed", "feed"]
    # Three equal parts of two pounds a gallon, for five gallons: 10 lb.
    assert sum(line.amount.grams() for line in lines) == pytest.approx(10 * 453.59237, rel=1e-3)


# --- amounts that can be two things -----------------------------------------------------------


def test_crushed_fruit_by_the_gallon_is_asked_with_its_weight_of_either_gallon():
    row = last("1 gallon of crushed blackberries")
    # 3.785 and 4.546 kg at the density of water: 8.3 and 10.0 lb.
    assert ways(row) == ["8 1/4 lb blackberries", "10 lb blackberries", "1 gallon blackberries"]
    assert ways(last("4 L crushed blackberries")) == ["4 kg blackberries", "4 L blackberries"]


def test_a_dose_with_a_comma_before_three_digits_is_asked_about():
    assert ways(last("1,250 g tannin")) == ["1250 g tannin", "1.25 g tannin"]


def test_a_known_fruit_proposed_for_a_sort_keeps_what_was_measured_on_it():
    row = last("8 kg Victoria plums, stoned (12 Brix, TA 11 g/L)")
    assert ways(row) == ["8 kg plums, prepared, juice 12 brix, acidity 11 g/L"]
    mended = last(ways(row)[0]).line
    assert (mended.measured.juice.value, mended.measured.acid_g_per_l) == (12.0, 11.0)
    assert mended.prepared


def test_less_than_nothing_is_told_so():
    with pytest.raises(UnitsError, match='"-2 lb sugar" is less than nothing; write it without'):
        typed_line("-2 lb sugar", known())


# --- what is no part of the must --------------------------------------------------------------


def test_sorbate_among_the_ingredients_is_marked_and_under_later_it_is_a_note():
    row = last("1/2 tsp potassium sorbate")
    assert row.state == "look"
    assert "at Stabilise" in said(row)
    later = last("Later:\n1/2 tsp potassium sorbate")
    assert (later.state, later.line, later.options) == ("asked", None, ("note",))


def test_a_refused_thing_is_noted_with_its_refusal():
    reading = read_card("Card\nmakes 1 gallon US\n4 lb plums\na splash of bleach")
    assert card_note(reading, with_title=False) == (
        "a splash of bleach (Bleach never goes into the wine: it burns the throat, and with the "
        "acid of a must it gives off chlorine. Rinse what it cleaned until nothing of it is left.)"
    )
    made = card_edit(reading, Project(id="p", name=""), at("2026-10-01T10:00"))
    (entry,) = made.apply(Project(id="p", name="")).log
    assert isinstance(entry, Note)
    assert "never goes into the wine" in entry.text


def test_a_figure_on_a_card_is_a_target_in_more_of_its_wordings():
    reading = read_card("Card\nmakes 1 gallon US\n4 lb plums\ntarget 1.095\nPA 12%")
    targets = card_targets(reading)
    assert (targets.gravity_high.text, targets.strength_percent) == ("1.095", 12.0)


@pytest.mark.parametrize(
    "text",
    [
        "Stir in the sugar in a pail washed with soap.",
        "Put in a bucket cleaned with bleach and add the yeast.",
        "Rinse the pail with bleach, then add the juice.",
        "Stir in a bucket rinsed with sanitiser.",
    ],
)
def test_what_cleaned_the_pail_does_not_go_in_with_what_it_holds(text):
    assert "Danger" not in said(last(f"Method:\n{text}"))


@pytest.mark.parametrize(
    "text",
    [
        "Wash the pail with soap and add bleach.",
        "Add sugar, water and bleach.",
        "Stir into a pail washed with soap and add a cup of borax.",
    ],
)
def test_what_is_put_in_all_the_same_is_a_danger(text):
    assert "Danger" in said(last(f"Method:\n{text}"))


# --- what a method says of the wine at its end --------------------------------------------------

FRAME = "Plum\nmakes 5 gallons US\n15 lb plums\n10 lb sugar\nwater to 5 gallons\n1 packet yeast\n"


@pytest.mark.parametrize(
    "text",
    [
        "Stabilize with 1/2 tsp potassium sorbate per gallon and sweeten to taste.",
        "Stabilise with 1 tsp sorbate",
        "After fermentation add 1/2 tsp potassium sorbate and 1 Campden tablet.",
        "Stabilise with 5 sulfite tablets and sweeten with 1 lb sugar.",
        "Sweeten with 1 lb sugar",
        "Rack when clear. Add 1 sulfite tablet per gallon and bottle.",
        "Rack onto 1 tsp grape tannin.",
        "At bottling:\nAdd 1 tsp grape tannin.",
    ],
)
def test_what_the_finished_wine_gets_is_a_note_and_no_button_puts_it_into_the_must(text):
    row = judged(read_card(FRAME + text, gallon="US")).rows[-1]
    assert (row.kind, row.state, row.remarks) == ("method", "read", ())


def test_what_the_method_says_before_the_end_is_offered_still():
    row = judged(
        read_card(
            f"{FRAME}Add 1 tsp pectic enzyme. Ferment, rack and stabilise with sorbate.",
            gallon="US",
        )
    ).rows[-1]
    assert ways(row) == ["1 tsp pectic enzyme"]


@pytest.mark.parametrize("text", ["Rack onto 1 lb sugar.", "Secondary: add 1 lb sugar"])
def test_sugar_that_goes_in_at_racking_is_offered_as_a_feed_alone(text):
    row = judged(read_card(FRAME + text, gallon="US")).rows[-1]
    assert ways(row) == ["1 lb sugar, fed later"]


@pytest.mark.parametrize(
    ("text", "dangerous"),
    [
        ("Rack again after 3 weeks and bottle after 6 months.", False),
        ("Rack again after 3 weeks and bottle after 2 months.", True),
        ("Bottle after 1 month and drink it after 6 months.", True),
        ("Bottling: after 4 weeks", True),
        ("After 3 weeks bottle.", True),
        ("Bottling: 4-6 weeks", True),
        ("Bottling: 8 months", False),
    ],
)
def test_bottles_filled_by_the_day_are_a_danger_by_their_own_days(text, dangerous):
    assert ("Danger" in said(last(f"4 lb plums\n{text}"))) is dangerous


def test_the_ounces_on_a_can_of_concentrate_are_offered_by_volume():
    """Net contents of a liquid are in fluid ounces: 21 CFR 101.7 (a), from memory."""
    row = last("2 cans (12 oz) frozen grape juice concentrate")
    assert ways(row)[0] == "24 fl oz grape concentrate, 45 Brix"
    line = last(ways(row)[0]).line
    assert line.amount.litres("US") == pytest.approx(24 * 0.02957353, rel=1e-6)


@pytest.mark.parametrize(
    ("fruit", "style"),
    [("6 lb pears", "light-dry"), ("4 lb damsons", "dark-dry"), ("1 gal apple juice", "light-dry"),
     ("3 lb apples\n1 lb elderberries", "dark-dry")],
)  # fmt: skip
def test_a_card_is_of_the_style_of_its_fruit(fruit, style):
    reading = read_card(f"Autumn wine\n{fruit}\n2 lb sugar\nwater to 1 gal US\n1 packet yeast")
    empty = new_project("US")
    made = card_edit(reading, empty, at("2026-10-01T18:00")).apply(empty)
    assert made.recipe.style == style


def test_a_style_that_was_chosen_stays():
    reading = read_card("Autumn wine\n6 lb pears\n2 lb sugar\nwater to 1 gal US\n1 packet yeast")
    empty = new_project("US")
    chosen = changed(empty, recipe=changed(empty.recipe, style="sweet"))
    made = card_edit(reading, chosen, at("2026-10-01T18:00")).apply(chosen)
    assert made.recipe.style == "sweet"


def test_names_before_any_amount_take_none_from_behind():
    text = "acid blend and nutrient each, 1 lb sugar"
    reading = read_card(f"Card\nmakes 1 gal US\n4 lb plums\n{text}\n1 packet yeast")
    additives = [line for line in card_lines(reading) if isinstance(line, AdditiveLine)]
    assert [line.amount.text for line in additives if line.amount.text == "1 lb"] == []


@pytest.mark.parametrize(
    "text",
    [
        "Stir 500 g sugar in when the fermentation has slowed.",
        "Dissolve 1 kg sugar, stir until clear.",
        "Once the ferment starts add 1 tsp nutrient.",
    ],
)
def test_what_a_method_adds_before_the_end_is_missed_among_the_lines(text):
    reading = judged(read_card(f"Card\nmakes 1 gal US\n4 lb plums\n1 packet yeast\n1. {text}"))
    said = " ".join(remark.sentence for row in reading.rows for remark in row.remarks)
    assert "The method names" in said
