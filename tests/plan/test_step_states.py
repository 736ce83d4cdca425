"""Held, expected, passed or not needed: each for what it is."""

import pytest

from tests.plan.damson import (
    IN_GLASS,
    LINES,
    PITCHED,
    damson,
    planned,
    read,
    seen,
    step,
    ticked,
    waiting,
)
from winebench.model.edits import changed
from winebench.model.recipe import Recipe, SugarLine
from winebench.units import Mass, Volume

TOO_SWEET = Recipe(
    lines=(*(x for x in LINES if x.id != "sugar"),
           SugarLine(id="sugar", sugar="white-sugar", amount=Mass("9 kg"))),
    basis=Volume("5 gal US"),
)  # fmt: skip


def test_a_gate_that_no_waiting_opens_holds_the_yeast_whatever_comes_before_it() -> None:
    # A week before the start, with every step before it still open.
    found = seen(damson(recipe=TOO_SWEET), "2026-09-24T10:00")
    pitch = step(found, "pitch")
    assert pitch.state == "held"
    assert waiting(pitch)[0].endswith("yeast goes in between 1.070 and 1.110.")
    assert step(found, "enzyme").state == "expected"
    assert planned(damson(), "2026-09-24T10:00", "pitch").state == "expected"
    held = next(item for item in seen(damson(recipe=TOO_SWEET), "2026-09-29T10:00").today
                if item.step == "pitch")  # fmt: skip
    assert held.kind == "held"
    assert "waits for" not in held.detail
    assert "yeast goes in between 1.070 and 1.110 · from " in held.detail


@pytest.mark.parametrize(
    ("reading", "says"),
    [(read("1.125", "2026-10-02T17:00"), "read: 1.125"),
     (read("1.092", "2026-10-02T17:00", "12 °C"), "read: 12 °C")],
)  # fmt: skip
def test_a_must_read_out_of_range_holds_the_yeast_with_the_enzyme_still_open(reading, says) -> None:
    log = (*PITCHED[:3], reading)
    pitch = planned(damson(*log), "2026-10-02T18:10", "pitch")
    assert pitch.state == "held"
    assert says in waiting(pitch)[0]


def test_a_step_whose_time_has_come_is_held_by_what_is_missing_of_its_own() -> None:
    # Started on the 1st at 18:00 without sulfite or enzyme; nothing is ticked, nothing read.
    bare = damson(drop=("enzyme", "sulfite"))
    pitch = planned(bare, "2026-10-03T12:00", "pitch")
    assert pitch.state == "held"
    assert any("not read yet" in text for text in waiting(pitch))


def test_what_only_waits_for_the_step_before_it_is_expected_and_not_held() -> None:
    found = seen(damson(*IN_GLASS), "2026-10-10T10:00")
    assert step(found, "stabilise").state == "expected"
    water = planned(damson(), "2026-10-01T19:00", "sugar-water")
    assert (water.state, waiting(water)) == (
        "expected",
        ["the fruit looked over: sound, off its stalk"],
    )


def test_a_step_that_was_not_ticked_in_its_time_is_passed_and_one_not_needed_is_not() -> None:
    found = seen(damson(*IN_GLASS), "2026-10-10T10:00")
    for key, reason in (
        ("first-nitrogen", "Too late"),
        ("second-nitrogen", "Too late"),
        ("stir", "no stirring was ticked"),
    ):
        one = step(found, key)
        assert (one.state, one.passed, one.when) == ("skipped", True, "not ticked; passed"), key
        assert reason in one.reason
    passed = seen(damson(ticked("pitch", "2026-10-02T18:30")), "2026-10-02T19:00")
    fruit = step(passed, "fruit-accepted")
    assert (fruit.passed, fruit.when) == (True, "not ticked; passed")
    assert fruit.reason == "Not ticked; passed by when this was done: pitch the yeast."
    dry = seen(damson(*IN_GLASS, drop=("sulfite",)), "2026-10-10T10:00")
    for key in ("sugar-feed", "cold-hold", "doubt-reading"):
        one = step(dry, key)
        assert (one.state, one.passed, one.when) == ("skipped", False, "not needed"), key


def test_what_holds_a_step_stands_first_among_what_it_waits_for() -> None:
    identity = ticked("fruit-accepted", "2026-10-01T17:00", identified="unsure")
    pitch = planned(changed(damson(identity), recipe=TOO_SWEET), "2026-10-01T18:00", "pitch")
    assert waiting(pitch)[0] == "every fruit known for certain"
    assert pitch.override == "never"
