"""What home makers write in their notebooks, sentence by sentence: understood or asked about."""

from __future__ import annotations

import pytest

from tests.plan.damson import IN_GLASS, PITCHED, at
from tests.plan.scribbling import NOW, entries, one
from winebench.model.log import Action, Note, Reading

IN_THE_JUG = at("2026-10-20T20:00")


def deed(text: str, *log, now=NOW) -> Action:
    (found,) = entries(f"yesterday {text}", *(log or PITCHED), now=now)
    assert isinstance(found, Action)
    return found


def records(action: Action) -> dict[str, str]:
    return {record.name: record.value for record in action.records}


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("stirred", "stir"),
        ("punched down", "stir"),
        ("punched the cap down", "stir"),
        ("pushed down the cap", "stir"),
        ("took the bag out", "lift-fruit"),
        ("squeezed the bag", "lift-fruit"),
    ],
)
def test_a_sentence_of_one_deed_is_that_deed(text, step):
    assert deed(text).step == step


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        # NIST Handbook 44, appendix C: 1 lb is 453.59237 g
        ("added 1 lb sugar", "454 g"),
        ("added 1 lb of white sugar", "454 g"),
        ("added a pound of sugar", "454 g"),
        ("fed with 200 g sugar", "200 g"),
        ("fed with 1 kg sugar", "1000 g"),
        ("stirred in 1/2 lb sugar", "227 g"),
    ],
)
def test_sugar_added_after_the_yeast_is_a_feed_with_its_weight(text, grams):
    found = deed(text)
    assert (found.step, records(found)) == ("sugar-feed", {"grams": grams})
    assert found.note == text


def test_sugar_and_nutrient_on_one_line_are_two_deeds():
    found = entries("yesterday added 1 lb of sugar and 2 tsp nutrient", *IN_GLASS, now=IN_THE_JUG)
    assert [entry.step for entry in found] == ["sugar-feed", "first-nitrogen"]


@pytest.mark.parametrize(
    "text", ["airlock slow", "the air lock is slow", "airlock slow, 1 bubble a minute"]
)
def test_how_the_airlock_goes_is_a_check_of_it(text):
    found = deed(text, *IN_GLASS, now=IN_THE_JUG)
    assert found.step == "airlock-check"
    assert records(found)["moving"] == "slow"


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("smelled of eggs", "smell: eggs"),
        ("it smelled of eggs", "smell: eggs"),
        ("moved to the garage", "moved to the garage"),
        ("tasted sharp", "tasted sharp"),
        ("cleared nicely", "cleared nicely"),
        ("white film on top", "white film on top"),
        ("lost half a litre", "lost half a litre"),
        ("bubbles every 10 seconds", "bubbles every 10 seconds"),
    ],
)
def test_what_is_no_deed_is_kept_as_a_note(text, note):
    (found,) = entries(f"yesterday {text}")
    assert isinstance(found, Note)
    assert found.text == note


@pytest.mark.parametrize("text", ["moved it to the garage, 16C there", "room is 18C"])
def test_how_warm_a_place_is_is_no_reading_of_the_must(text):
    (found,) = entries(f"yesterday {text}")
    assert isinstance(found, Note)


@pytest.mark.parametrize("text", ["temp 21", "temperature was 21", "70F in the pail"])
def test_a_warmth_alone_is_a_reading(text):
    (found,) = entries(f"yesterday {text}")
    assert isinstance(found, Reading)
    assert found.temperature.celsius == pytest.approx(21, abs=0.2)  # NIST SP 811: (F-32)/1.8


@pytest.mark.parametrize(
    "text",
    ["racked, lost a pint", "racked lost a pint", "racked it and lost about a pint"],
)
def test_a_loss_in_words_goes_with_the_racking(text):
    log = (*PITCHED, *IN_GLASS[len(PITCHED) : -1])  # up to the reading that opens the racking
    (found,) = entries(f"9 Oct 19:00 {text}", *log, now=IN_THE_JUG)
    assert (found.step, records(found)) == ("transfer", {"lost": "1 pint"})


def test_topping_up_with_millilitres_asks_only_what_the_plan_asks():
    line = one("yesterday topped up with 200 ml because it stood low", *IN_GLASS, now=IN_THE_JUG)
    (found,) = line.entries
    assert (found.step, records(found)) == ("top-up", {"litres": "200 ml"})
    assert found.override == "it stood low"


def test_measuring_the_fruit_without_figures_is_ticked_and_said():
    line = one("yesterday measured the fruit")
    (found,) = line.entries
    assert (found.step, found.records) == ("measure-fruit", ())
    assert "says no figure" in line.doubts[0]


def test_figures_of_the_fruit_are_its_records_and_no_reading_of_the_must():
    found = deed("measured the fruit: 11 brix, ph 3.3, acid 9")
    assert records(found) == {"brix": "11 brix", "ph": "3.3", "acid": "9"}


def test_a_figure_that_no_fruit_has_is_asked_about():
    assert "is no fruit juice" in one("yesterday measured the fruit, 45 brix").trouble


@pytest.mark.parametrize("text", ["added 1 blue tablet", "3 punnets more raspberries added"])
def test_a_number_that_means_nothing_to_the_plan_is_asked_about_and_can_be_kept(text):
    line = one(f"yesterday {text}")
    assert "cannot be told" in line.trouble
    assert line.offers[-1].label == "Keep it as a note"
    assert line.offers[-1].line.endswith(text)


@pytest.mark.parametrize("text", ["checked sg 1.040", "SG was 1.040", "it was 1.040"])
def test_small_words_round_a_gravity_say_nothing_more(text):
    (found,) = entries(f"yesterday {text}")
    assert isinstance(found, Reading)
    assert (found.gravity.value, found.note) == (1.040, "")
