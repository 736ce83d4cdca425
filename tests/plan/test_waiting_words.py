"""What a step waits for reads well behind "waits for", in each place that says so."""

import re

import msgspec
import pytest

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    PITCHED,
    STABLE,
    damson,
    planned,
    seen,
    ticked,
)
from winebench.output.calendar import calendar_ics
from winebench.plan.outlook import Condition
from winebench.window.timeline.step_words import refusal

# A clause with its verb, or a participle without its noun: "waits for the yeast is in".
CLAUSE = re.compile(
    r"^(?:[^:(]*\b(?:is|are|was|has|stands)\b|"
    r"(?:unmoved|stabilised|sweetened|declared|falling|still|clear|warmed|in|at|no higher)\b)"
)
MOMENTS = (
    ((), "2026-09-28T10:00"),
    ((), "2026-10-02T10:00"),
    (PITCHED, "2026-10-03T10:00"),
    (PITCHED, "2026-10-07T10:00"),
    (IN_GLASS, "2026-10-20T10:00"),
    (NEARLY_STABLE, "2026-11-16T10:00+01:00"),
    (STABLE, "2026-11-22T10:00+01:00"),
    ((*STABLE, ticked("stabilise", "2026-11-23T10:00+01:00")), "2026-11-23T18:00+01:00"),
)


def conditions():
    """Give each condition, met or not, of a batch on its way to the bottle."""
    for log, when in MOMENTS:
        for step in seen(damson(*log), when).steps:
            yield from step.conditions


def test_what_a_step_waits_for_is_a_thing_and_no_clause():
    texts = {one.text for one in conditions() if not one.is_sentence}
    assert len(texts) > 25
    assert {"the wine in glass", "the yeast in the must", "a ferment that is not stuck"} <= texts
    assert (
        sorted(text for text in texts if CLAUSE.match(re.split(r"\b(?:that|what)\b", text)[0]))
        == []
    )


def test_an_airlock_waits_for_the_wine_in_glass_in_the_calendar():
    made = damson(*PITCHED)
    ics = calendar_ics(made, seen(made, "2026-10-03T10:00")).replace(b"\r\n ", b"")
    assert b"(waits for the wine in glass)" in ics
    assert b"(waits for the wine is in glass)" not in ics


@pytest.mark.parametrize(
    ("text", "waiting"),
    [
        ("the fruit lifted", "waits for the fruit lifted"),
        ("Its sugar is too much.", "Its sugar is too much"),
    ],
)
def test_a_caution_stands_for_itself(text, waiting):
    assert Condition(text=text, met=False).waiting == waiting


def test_a_refusal_tells_a_caution_of_the_recipe_apart_from_what_it_waits_for():
    made = damson(*PITCHED)
    bottle = planned(made, "2026-10-03T10:00", "bottle")
    unmet = (
        Condition(text="the stabilising", met=False),
        Condition(text="Its sugar is too much.", met=False),
    )
    held = msgspec.structs.replace(bottle, conditions=unmet, risk="")
    assert refusal(held) == (
        "Bottle waits for the stabilising: Its sugar is too much; no reason overrides that."
    )
