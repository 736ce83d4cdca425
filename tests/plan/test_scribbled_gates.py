"""Words that answer what a step waits for, reasons, like steps told apart, and slipped numbers."""

from __future__ import annotations

import pytest

from tests.plan.damson import IN_GLASS, PITCHED, STABLE, at, damson, read, ticked
from tests.plan.scribbling import entries, one
from winebench.model.log import Action, Note, Reading
from winebench.plan.scribbles import scribbles

IN_THE_JUG = at("2026-10-20T20:00")
FERMENTING = (*PITCHED, read("1.050", "2026-10-06T18:30"))


# --- numbers that could be a slipped reading --------------------------------------------------


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("Tue stirred 1.05O", "1.050"),
        ("Tue 1.O64", "1.064"),
        ("Tue 1.0S4 22C", "1.054"),
        ("Tue stirred l.050", "1.050"),
        ("Wed 9am stirred, 1.02", "1.020"),
        ("Wed stirred, it was 1,03", "1.030"),
        ("Wed stirred, 1045 it says", "1.045"),
        ("Tue 1.0500000001", "1.050"),
        ("Tue 1,0500000001", "1.050"),
        ("Tue SG 1.05000 22C", "1.050"),
        ("Tue stirred, 1.050.3", "1.050"),
    ],
)
def test_a_number_that_could_be_a_gravity_is_asked_about(text, meant):
    line = one(text)
    assert line.entries == ()
    assert line.trouble.endswith(f"Did you read {meant}?")
    again = one(line.offers[0].line)
    assert again.trouble == ""
    assert any(
        isinstance(e, Reading) and e.gravity and e.gravity.value == float(meant)
        for e in again.entries
    )


@pytest.mark.parametrize("figure", ["1.2.3", "sg 1.2.3", "64.5.2", "1050,0000001"])
def test_a_number_with_digits_grown_to_it_is_no_reading(figure):
    line = one(f"Tue {figure}")
    assert line.entries == ()
    assert line.trouble == f'What the number in "{figure}" means cannot be told.'


@pytest.mark.parametrize(
    "text",
    ["Tue stirred, lost 1.1 l", "Tue stirred 2 people", "Tue stirred with 1.05 kg of ice",
     "Tue stirred at 8.30am", "Tue 1.045 stirred", "Tue stirred for 1.05 litres of gas"],
)  # fmt: skip
def test_other_numbers_are_not(text):
    assert "Did you read" not in one(text).trouble


# --- like steps -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("second nutrient in", "second-nitrogen"),
        ("2nd dose of nutrient", "second-nitrogen"),
        ("added the other half of the nutrient", "second-nitrogen"),
        ("first nutrient in", "first-nitrogen"),
        ("nutrient in", "first-nitrogen"),
    ],
)
def test_a_counted_step_is_the_one_that_is_counted(text, step):
    log = (*FERMENTING, ticked("sign-of-life", "2026-10-04T12:00"))
    found = one(f"thu {text} because it was time", *log)
    assert found.trouble == ""
    assert [e.step for e in found.entries if isinstance(e, Action)] == [step]


# --- words of gates ---------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["it fizzes", "fizzing", "signs of life", "it bubbles", "foams"])
def test_that_it_works_is_the_sign_of_life_and_opens_the_nutrient(text):
    (found,) = entries(f"sun {text}", *PITCHED)
    assert found.step == "sign-of-life"
    assert {r.name: r.value for r in found.records} == {"life": text}
    line = one("sun 6pm first nutrient in", *PITCHED, found)
    assert line.trouble == ""


@pytest.mark.parametrize(
    "text", ["dry and stable", "declared dry and stable", "dry & stable", "stable and dry"]
)
def test_dry_and_stable_is_the_declaration(text):
    log = tuple(e for e in STABLE if getattr(e, "step", "") != "declare-stable")
    (found,) = entries(f"yesterday {text}", *log, now=at("2026-11-23T20:00+01:00"))
    assert found.step == "declare-stable"


@pytest.mark.parametrize(
    ("text", "clear"),
    [("clear", 3), ("it is clear now", 3), ("crystal clear", 4), ("can read print through it", 4)],
)
def test_clear_is_a_look_at_the_wine(text, clear):
    line = one(f"yesterday {text}", *IN_GLASS, now=IN_THE_JUG)
    (found,) = line.entries
    assert isinstance(found, Reading)
    assert found.clear == clear
    assert "print through it" in line.what[0]


@pytest.mark.parametrize("text", ["not clear", "nearly clear", "clear the shelf", "cleared nicely"])
def test_other_words_with_clear_stay_words(text):
    (found,) = entries(f"yesterday {text}", *IN_GLASS, now=IN_THE_JUG)
    assert isinstance(found, Note)


def test_degassed_beside_a_gravity_is_shown():
    line = one("yesterday 0.991 68F degassed", *IN_GLASS, now=IN_THE_JUG)
    (found,) = line.entries
    assert found.degassed
    assert "de-gassed" in line.what[0]


# --- reasons ----------------------------------------------------------------------------------


def test_a_number_or_a_day_in_a_reason_belongs_to_the_reason():
    text = "wed racked because the packet said 1.060 by Friday, 22C"
    line = one(text)
    assert line.trouble == ""
    (found,) = line.entries
    assert found.step == "transfer"
    assert found.override == "the packet said 1.060 by Friday, 22C"
    assert found.at.date().isoformat() == "2026-10-07"


@pytest.mark.parametrize(
    "text",
    ["it was not 1.010 any more", "never reached 1.010", "it isn't 1.010 yet", "not below 1.010"],
)
def test_a_gravity_that_was_not_is_no_reading(text):
    line = one(f"today {text}")
    assert line.entries == ()
    assert "was not 1.010" in line.trouble


def test_what_was_not_done_denies_no_gravity():
    assert entries("Tue not stirred, 1.050")[0].gravity.value == 1.050


# --- a day without hours ----------------------------------------------------------------------


@pytest.mark.parametrize("text", ["today racked\n1.024", "today\nracked\ntoday 1.024 20C"])
def test_a_reading_below_it_on_the_same_day_opens_the_racking(text):
    lifted = (*PITCHED, ticked("lift-fruit", "2026-10-08T20:00"))
    found = scribbles(damson(*lifted), text, at("2026-10-09T20:00"))
    assert found.open == ()
    steps = [entry.step for entry in found.entries if isinstance(entry, Action)]
    assert steps == ["transfer"]


def test_a_reading_of_a_later_hour_opens_nothing():
    lifted = (*PITCHED, ticked("lift-fruit", "2026-10-08T20:00"))
    found = scribbles(damson(*lifted), "today 10:00 racked\n18:00 1.024", at("2026-10-09T20:00"))
    assert "was held then" in found.open[0].trouble


# --- steps that are held -----------------------------------------------------------------------


def test_a_step_held_then_wants_a_reason_and_keeps_it():
    line = one("Wed racked")
    assert "Rack to glass was held then" in line.trouble
    (found,) = entries("Wed racked because it was below on my other hydrometer")
    assert found.override == "it was below on my other hydrometer"


def test_a_reason_that_no_gate_asked_for_is_only_a_note():
    (found,) = entries("Tue stirred because the cap was dry")
    assert (found.override, found.note) == ("", "because the cap was dry")
    assert "all the same" not in one("Tue stirred because the cap was dry").what[0]


def test_what_may_burst_is_never_ticked_by_a_scribble():
    line = one("today 19:00 bottled 24 bottles because friends came")
    assert "no reason opens it" in line.trouble
    assert line.entries == ()


def test_a_reading_on_the_line_opens_the_gate_that_waits_for_it():
    log = (*PITCHED, ticked("lift-fruit", "2026-10-08T20:00"))
    assert [type(e) for e in entries("today 18:00 1.024, racked", *log)] == [Reading, Action]


def test_brix_after_the_yeast_is_asked_about_by_its_instrument() -> None:
    line = one("thu 7 brix, stirred", *FERMENTING)
    assert line.entries == ()
    assert line.trouble.startswith('"7 brix" after the yeast: was it read by a refractometer?')
    by_eye, by_weight = (one(offer.line, *FERMENTING) for offer in line.offers[:2])
    assert [entry.instrument for entry in by_eye.entries[:1]] == ["refractometer"]
    assert [entry.instrument for entry in by_weight.entries[:1]] == ["hydrometer"]
    assert by_weight.entries[0].note == "by a hydrometer"
    assert by_weight.doubts == ()  # what was answered is not asked again
    assert by_eye.trouble == by_weight.trouble == ""
    assert one("thu 20 brix", PITCHED[0], now=at("2026-10-02T10:00")).trouble == ""


@pytest.mark.parametrize("text", ["no gas, clear", "clear, no gas in it", "0.993, no gas, clear"])
def test_no_gas_and_clear_are_both_read(text) -> None:
    (found,) = entries(f"yesterday {text}", *STABLE, now=at("2026-11-23T20:00+01:00"))
    assert isinstance(found, Reading)
    assert (found.degassed, found.clear, found.note) == (True, 3, "")


def test_a_refused_bottling_is_no_bottling_for_the_lines_below() -> None:
    text = "sun bottled 20\nmon 9am bottled 20\nmon 10am bottled 20"
    lines = scribbles(damson(*STABLE), text, at("2026-11-23T20:00+01:00")).lines
    assert len(lines) == 3
    for line in lines:
        assert "Bottle could not be done then and no reason opens it" in line.trouble or (
            line.trouble.startswith("Bottle was held then")
        )
        assert not any("in the log already" in doubt for doubt in line.doubts)


def test_sugar_at_the_end_is_called_a_sweetening_in_a_dry_wine_too() -> None:
    line = one("yesterday sweetened with 200 g sugar", *STABLE, now=at("2026-11-23T20:00+01:00"))
    assert line.trouble.startswith("Sweeten to taste was held then (the stabilising; a trial")
