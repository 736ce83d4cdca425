"""What home makers write in their notebooks, sentence by sentence: understood or asked about."""

from __future__ import annotations

import pytest

from tests.plan.damson import (
    IN_GLASS,
    LINES,
    PITCHED,
    STABLE,
    at,
    damson,
    read,
    stabilised,
    step,
    ticked,
)
from tests.plan.scribbling import NOW, entries, one, records
from tests.plan.stuck_batch import DOUBTED, STUCK
from winebench.model.edits import changed
from winebench.model.log import Action, Note, Reading
from winebench.model.recipe import Recipe, SugarLine
from winebench.plan.scribbles import scribbles
from winebench.plan.work_out import outlook
from winebench.units import Volume

IN_THE_JUG = at("2026-10-20T20:00")


def deed(text: str, *log, now=NOW) -> Action:
    (found,) = entries(f"yesterday {text}", *(log or PITCHED), now=now)
    assert isinstance(found, Action)
    return found


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
        ("added 1 lb sugar", "1 lb"),
        ("added 1 lb of white sugar", "1 lb"),
        ("added a pound of sugar", "1 pound"),
        ("added 4 oz sugar", "4 oz"),
        ("fed with 200 g sugar", "200 g"),
        ("fed with 1 kg sugar", "1 kg"),
        ("stirred in 1/2 lb sugar", "1/2 lb"),
    ],
)
def test_sugar_added_after_the_yeast_is_kept_with_its_weight_as_typed(text, grams):
    found = deed(text)
    assert (found.step, records(found)) == ("sugar-added", {"grams": grams})
    assert found.note == text


def test_it_is_the_feed_where_the_recipe_keeps_sugar_back():
    lines = tuple(
        changed(line, when="feed") if isinstance(line, SugarLine) else line for line in LINES
    )
    kept_back = damson(*PITCHED, recipe=Recipe(lines=lines, basis=Volume("5 gal US")))
    (line,) = scribbles(kept_back, "thu 8pm added 1 lb sugar because it is lively", NOW).lines
    assert [entry.step for entry in line.entries] == ["sugar-feed"]


def test_sugar_after_the_stabilising_is_the_sweetening():
    log = (*STABLE, stabilised("2026-11-24T10:00+01:00"))
    (found,) = entries(
        "yesterday added 4 oz sugar because we tried it", *log, now=at("2026-11-27T20:00+01:00")
    )
    assert (found.step, records(found)) == ("sweeten", {"grams": "4 oz"})


def test_sugar_outside_the_recipe_counts_and_does_not_hold_the_racking():
    added = ticked("sugar-added", "2026-10-09T12:00", grams="1 lb")
    read_low = read("1.024", "2026-10-09T18:00")
    lifted = ticked("lift-fruit", "2026-10-08T20:00")
    plain = outlook(damson(*PITCHED, lifted, read_low), at("2026-10-09T19:00"))
    sweeter = outlook(damson(*PITCHED, lifted, added, read_low), at("2026-10-09T19:00"))
    assert step(sweeter, "sugar-added").state == "done"
    assert step(sweeter, "transfer").state == step(plain, "transfer").state
    assert not any("sugar" in one.text for one in step(sweeter, "transfer").conditions)
    # 453.6 g (NIST Handbook 44) in the must; 16.83 g/L make one percent by volume (EU).
    litres = plain.must.liquid.value
    more = sweeter.strength_now.value - plain.strength_now.value
    assert more == pytest.approx(453.59237 / litres / 16.83, rel=0.12)
    before = outlook(damson(*PITCHED, lifted), at("2026-10-09T19:00")).forecast
    after = outlook(damson(*PITCHED, lifted, added), at("2026-10-09T19:00")).forecast
    assert after.middle[len(after.middle) // 2] != before.middle[len(before.middle) // 2]


def test_sugar_and_nutrient_on_one_line_are_two_deeds():
    # At 1.024 more than half of the sugar is gone: nutrient is held, so that it takes a reason.
    text = "yesterday added 1 lb of sugar and 2 tsp nutrient because it dragged"
    found = entries(text, *IN_GLASS, now=IN_THE_JUG)
    assert [entry.step for entry in found] == ["sugar-added", "first-nitrogen"]


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
    assert found.override == ""  # in glass it may always be topped up: no reason is asked
    assert "it stood low" in found.note


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


IN_THE_CELLAR = at("2026-11-23T20:00+01:00")


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("stabilised with 2 tablets and 4 g sorbate, pH 3.4", {"sulfite": "2 tablets"}),
        ("stabilised at 40 mg/l, pH 3.4", {"mg-per-l": "40 mg/l"}),
        ("stabilised with 2 g metabisulfite, pH 3.4", {"sulfite": "2 g"}),
    ],
)
def test_what_went_in_at_the_end_is_noted_as_the_bottles_ask_for_it(text, kept):
    found = entries(f"yesterday 8pm {text}", *STABLE, now=IN_THE_CELLAR)
    tick = next(entry for entry in found if isinstance(entry, Action))
    assert tick.step == "stabilise"
    assert kept.items() <= records(tick).items()
    assert records(tick).get("sorbate", "4 g") == "4 g"


@pytest.mark.parametrize(
    ("text", "kept"),
    [("added 17 g tartaric acid", {"acid": "17 g"}), ("blended with 2 L pear", {"blend": "2 L"})],
)
def test_acid_and_another_wine_at_the_end_are_no_sugar(text, kept):
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00"))
    why = " because tried in the glass"
    (found,) = entries(f"today 6pm {text}{why}", *log, now=IN_THE_CELLAR)
    assert (found.step, records(found)) == ("sweeten", kept)
    # While it ferments it is no change at the end: the line is asked about, as before.
    assert one(f"yesterday {text}", now=NOW).trouble


def test_what_cannot_be_told_is_quoted_as_it_was_typed() -> None:
    line = scribbles(damson(), "Fri 25 Sep 6pm Lifted 3 of them", at("2026-09-26T10:00")).lines[0]
    assert line.trouble == 'What the number in "Lifted 3 of them" means cannot be told.'


@pytest.mark.parametrize("text", ["lost 1/2 pint", "Spilt 0.3 L", "lost half a litre"])
def test_a_loss_alone_is_kept_in_words_and_says_that_it_is_not_counted(text) -> None:
    line = one(f"yesterday {text}", *IN_GLASS, now=IN_THE_JUG)
    (note,) = line.entries
    assert (note.text, line.trouble) == (text, "")
    assert line.doubts == (
        "What was lost is kept in words and not taken off the wine: for that, write it beside the "
        'racking or the lifted fruit, as in "racked, lost 1 pint".',
    )


def test_sulfite_alone_after_the_yeast_is_asked_about_and_never_lost() -> None:
    line = one("yesterday 1.010, Added 2 tablets of sulfite", *IN_GLASS, now=IN_THE_JUG)
    assert line.trouble == (
        '"Added 2 tablets of sulfite": after the yeast sulfite counts with the stabilising or with '
        "a racking, so write it beside that."
    )
    assert line.offers[0].line == "yesterday 1.010, stabilised with 2 tablets of sulfite"
    assert line.offers[-1].label == "Keep it as a note"
    for text in ("smelt of sulfite", "bought sulfite", "no sulfite", "add sulfite tomorrow?"):
        (note,) = entries(f"yesterday {text}", *IN_GLASS, now=IN_THE_JUG)
        assert note.text == text
    before = entries("today 7pm 2 tablets of sulfite", PITCHED[0])
    assert [entry.step for entry in before] == ["sulfite-must"]


@pytest.mark.parametrize(
    ("text", "step", "log"),
    [
        ("doubted the reading, still 1.022", "doubt-reading", STUCK),
        ("warmed it and roused it", "warm-and-rouse", DOUBTED),
    ],
)
def test_what_was_done_about_a_stuck_ferment_is_its_step(text, step, log) -> None:
    found = entries(f"today 8pm {text}", *log, now=at("2026-10-19T21:00"))
    assert [entry.step for entry in found if isinstance(entry, Action)] == [step]
