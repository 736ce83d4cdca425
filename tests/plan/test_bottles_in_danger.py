"""Bottles that may burst are told, whatever order the log was written in.

By hand: a point of gravity is about 2.6 g/L of sugar (4 points are 1.03 °Brix, 10.3 g/L in the
table of sucrose), and 4 g/L make about 1 bar at 10 °C, a third more at 20 °C (`trade/bottling`).
"""

import msgspec
import pytest

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    PITCHED,
    STABLE,
    at,
    damson,
    read,
    seen,
    stabilised,
    step,
    ticked,
)
from tests.plan.scribbling import one
from winebench.model.log import Reading
from winebench.plan.outlook import Caution
from winebench.plan.scribbles.gates import step_at
from winebench.units import Temperature

SAFE = (*STABLE, stabilised("2026-11-22T10:00+01:00"))
BOTTLED = (*SAFE, ticked("bottle", "2026-11-30T11:00+01:00"))
FELL = read("0.989", "2026-12-28T18:00+01:00")
LATER = "2026-12-29T10:00+01:00"


def told(*log) -> tuple[Caution, ...]:
    found = seen(damson(*log), LATER)
    return tuple(one for one in found.cautions if one.key == "bottles-in-danger")


def test_bottles_of_a_wine_that_kept_still_are_not_warned_of() -> None:
    assert told(*BOTTLED) == ()
    # A point is what an eye and a hydrometer can differ by.
    assert told(*BOTTLED, read("0.992", "2026-12-28T18:00+01:00")) == ()


def test_a_fall_in_the_bottle_stops_everything_else() -> None:
    (found,) = told(*BOTTLED, FELL)
    assert found.severity == "stop"
    assert found.sentence == (
        "The wine ferments in its bottles: 0.993 when it was bottled, 0.989 on Monday 28 December."
    )
    assert "About 10 g/L of sugar fermented there" in found.detail
    bar = float(found.detail.split("makes ")[1].split(" bar")[0])
    assert bar == pytest.approx(10.3 / 4.0 * 4.0 / 3.0, abs=0.2)
    assert "wrapped in cloth" in found.detail
    today = seen(damson(*BOTTLED, FELL), LATER).today
    assert (today[0].kind, today[0].title) == ("stop", found.sentence)


def test_a_fall_within_what_two_readings_can_err_asks_for_another_reading() -> None:
    (found,) = told(*BOTTLED, read("0.9915", "2026-12-28T12:00+01:00"))
    assert found.severity == "caution"
    assert found.sentence.startswith("The wine reads 1.5 points lower since it was bottled (0.993)")
    assert "Read it again" in found.detail
    assert "open one now" in found.detail
    # Read again: as it was, or two points down.
    low = read("0.9915", "2026-12-20T12:00+01:00")
    assert told(*BOTTLED, low, read("0.993", "2026-12-28T18:00+01:00")) == ()
    (found,) = told(*BOTTLED, low, read("0.991", "2026-12-28T18:00+01:00"))
    assert found.severity == "stop"


@pytest.mark.parametrize("because", ["", "three equal readings"])
@pytest.mark.parametrize("temperature", [None, "20 °C"])
def test_a_room_set_to_the_cellar_says_nothing_against_the_bottles(because, temperature) -> None:
    log = [
        msgspec.structs.replace(one, temperature=Temperature(temperature) if temperature else None)
        if isinstance(one, Reading)
        else one
        for one in BOTTLED
    ]
    declared = next(place for place, one in enumerate(log) if one.id.startswith("declare-stable"))
    log[declared] = msgspec.structs.replace(log[declared], override=because)
    found = seen(damson(*log, room=Temperature("12 °C")), LATER)
    assert [one for one in found.cautions if one.key == "bottles-in-danger"] == []


def test_a_style_written_after_the_bottling_changes_nothing_in_the_bottles() -> None:
    assert told(*BOTTLED) == ()
    plain = damson(*BOTTLED)
    sweet = msgspec.structs.replace(
        plain, recipe=msgspec.structs.replace(plain.recipe, style="dark-medium")
    )
    found = seen(sweet, LATER)
    assert [one for one in found.cautions if one.key == "bottles-in-danger"] == []


def test_the_must_before_the_yeast_is_no_wine_that_fell_in_the_bottle() -> None:
    # 1.091 before the yeast, bottled, and 0.990 read out of a bottle: nobody read it in between.
    log = (*PITCHED, ticked("bottle", "2026-11-30T11:00+01:00"))
    (found,) = told(*log, read("0.990", "2026-12-28T18:00+01:00"))
    assert found.severity == "caution"
    assert "not shown to be safe" in found.sentence


def test_a_must_in_bottles_is_told_though_no_bottling_of_it_is_ever_accepted() -> None:
    (found,) = told(*IN_GLASS, ticked("bottle", "2026-10-10T11:00"))
    assert found.severity == "stop"
    assert found.sentence == "The bottles filled on Saturday 10 October at 1.024 may burst."
    assert "more than 20" in found.detail  # 60 g/L, where the rule ends: 60 / 4 x 4/3 = 20 bar


def test_a_reading_corrected_after_the_bottling_is_told() -> None:
    # The last of the three equal readings was 1.006 and not 0.993: it was not still.
    wrong = tuple(
        read("1.006", "2026-11-21T18:00+01:00", degassed=True, clear=3)
        if one.id == "0.993@2026-11-21T18:00+01:00"
        else one
        for one in BOTTLED
    )
    (found,) = told(*wrong)
    assert found.severity == "stop"
    assert "at 1.006 may burst" in found.sentence


def test_too_few_readings_before_the_bottling_are_told_with_what_was_missing() -> None:
    # 0.990 is its end as reckoned: no sugar is left to speak of, but nobody showed that it stood.
    log = (*NEARLY_STABLE[:-1], read("0.990", "2026-11-15T18:00+01:00"))
    (found,) = told(*log, ticked("bottle", "2026-11-16T11:00+01:00"))
    assert found.severity == "caution"
    assert "Monday 16 November" in found.sentence
    assert "three readings equal within a point over 14 days" in found.sentence


def test_a_sweetened_wine_bottled_without_sorbate_is_told() -> None:
    sugar = ticked("sweeten", "2026-11-23T10:00+01:00", grams="200")
    (found,) = told(*SAFE, sugar, read("0.998", "2026-11-23T18:00+01:00"),
                    ticked("bottle", "2026-12-01T11:00+01:00"))  # fmt: skip
    assert found.severity == "stop"


def test_a_bottling_logged_late_is_held_by_what_was_read_since() -> None:
    day = at("2026-11-25T10:00+01:00")
    assert step_at(damson(*SAFE), day, "bottle").override == "free"
    fell = read("0.989", "2026-11-28T18:00+01:00")
    then = step_at(damson(*SAFE, fell), day, "bottle")
    assert (then.state, then.override) == ("held", "never")
    assert "from 0.993 it fell to 0.989, read Saturday 28 November" in then.conditions[0].text
    late = at("2026-11-29T10:00+01:00")
    assert "no reason opens it" in one("25 Nov bottled because x", *SAFE, fell, now=late).trouble
    # What fell before that day is in the plan of that day already.
    assert step(seen(damson(*SAFE, fell), "2026-11-29T10:00+01:00"), "bottle").override == "never"
