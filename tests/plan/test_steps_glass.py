"""Under the airlock to the bottle. Second racking at 28 days and below 1.000, three equal readings
over 14 days, a week's hold after sweetening: common practice of home wine makers."""

import pytest

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    STABLE,
    THIRD_READING,
    at,
    damson,
    planned,
    read,
    seen,
    stabilised,
    step,
    ticked,
    waiting,
)
from winebench.model.log import Entry
from winebench.model.recipe import AdditiveLine, Recipe
from winebench.plan.outlook import StepOutlook
from winebench.plan.work_out import outlook
from winebench.units import Amount


def test_second_racking_is_28_wall_days_on_over_the_clock_change() -> None:
    rack = planned(damson(*IN_GLASS), "2026-10-10T10:00", "second-rack")
    # 9 October 19:00 + 28 d = 6 November 19:00 by the wall clock.
    assert rack.earliest == at("2026-11-06T19:00")
    assert rack.latest == at("2026-12-04T19:00")


def test_second_racking_wants_both_parts_and_a_still_wine() -> None:
    dry = (read("0.996", "2026-11-04T19:00+01:00"), read("0.996", "2026-11-06T18:00+01:00"))
    early = planned(damson(*IN_GLASS, *dry), "2026-11-06T18:59+01:00", "second-rack")
    assert waiting(early) == ["28 days in glass"]
    ready = planned(damson(*IN_GLASS, *dry), "2026-11-07T19:00+01:00", "second-rack")
    assert (ready.state, ready.override) == ("due", "free")
    high = (read("1.004", "2026-11-05T19:00+01:00"), read("1.004", "2026-11-07T18:00+01:00"))
    held = planned(damson(*IN_GLASS, *high), "2026-11-07T19:00+01:00", "second-rack")
    assert held.override == "reason"
    # A week after the last reading, when it is read again (common practice).
    assert held.likely == at("2026-11-14T18:00+01:00")
    # 4 points in 2 days is 6 in three.
    moving = (read("0.999", "2026-11-05T19:00+01:00"), read("0.995", "2026-11-07T18:00+01:00"))
    falling = planned(damson(*IN_GLASS, *moving), "2026-11-07T19:00+01:00", "second-rack")
    assert waiting(falling) == ["a fall of no more than a point in three days"]


def test_stable_names_each_of_the_five_that_is_missing() -> None:
    now = "2026-11-21T19:00+01:00"
    assert waiting(planned(damson(*NEARLY_STABLE, THIRD_READING), now, "declare-stable")) == []
    short = read("0.993", "2026-11-19T18:00+01:00", degassed=True, clear=3)
    cold = read("0.993", "2026-11-21T18:00+01:00", "15 °C", degassed=True, clear=3)
    gassy = read("0.993", "2026-11-21T18:00+01:00", clear=3)
    hazy = read("0.993", "2026-11-21T18:00+01:00", degassed=True, clear=1)
    for reading, missing in (
        (short, "three readings equal"),
        (cold, "18 °C or warmer"),
        (gassy, "without gas"),
        (hazy, "clear enough"),
    ):
        found = planned(damson(*NEARLY_STABLE, reading), now, "declare-stable")
        assert len(waiting(found)) == 1
        assert missing in waiting(found)[0]
        assert found.override == "reason"


def test_a_wine_that_stopped_high_is_not_stable_however_still() -> None:
    still = tuple(
        read("1.003", f"2026-11-{day:02}T18:00+01:00", degassed=True, clear=3)
        for day in (6, 15, 21)
    )
    found = planned(damson(*IN_GLASS, *still), "2026-11-21T19:00+01:00", "declare-stable")
    assert any("should end at" in text for text in waiting(found))


def test_a_fall_of_more_than_a_point_starts_the_fourteen_days_again() -> None:
    fallen = read("0.991", "2026-11-21T18:00+01:00", degassed=True, clear=3)
    found = planned(damson(*NEARLY_STABLE, fallen), "2026-11-21T19:00+01:00", "declare-stable")
    assert any("three readings" in text for text in waiting(found))
    assert found.earliest == at("2026-12-05T18:00+01:00")


def test_bottling_is_never_to_be_had_before_stable() -> None:
    found = planned(damson(*NEARLY_STABLE), "2026-11-16T10:00+01:00", "bottle")
    assert found.override == "never"
    assert found.earliest is not None
    assert found.earliest > at("2026-11-16T10:00+01:00")


def test_a_wine_with_sugar_left_says_what_pressure_its_bottles_would_bear() -> None:
    found = planned(
        damson(*IN_GLASS, read("1.004", "2026-11-06T18:00+01:00")),
        "2026-11-06T19:00+01:00",
        "bottle",
    )
    assert "bar" in found.reason


def test_a_dry_wine_is_bottled_once_stable_and_stabilised() -> None:
    declared = damson(*STABLE)
    assert waiting(planned(declared, "2026-11-22T10:00+01:00", "bottle")) == [
        "the stabilising, so that the sulfite is known"
    ]
    done = damson(*STABLE, stabilised("2026-11-22T10:00+01:00"))
    bottle = planned(done, "2026-11-29T11:00+01:00", "bottle")
    assert (bottle.state, bottle.override) == ("due", "free")
    # A day after stabilising at the earliest, a week for comfort.
    assert bottle.earliest == at("2026-11-23T10:00+01:00")
    assert bottle.likely == at("2026-11-29T10:00+01:00")


def test_a_fall_after_the_declaration_takes_the_bottles_away_again() -> None:
    done = stabilised("2026-11-22T10:00+01:00")
    fallen = read("0.990", "2026-11-28T10:00+01:00")
    found = planned(damson(*STABLE, done, fallen), "2026-11-29T11:00+01:00", "bottle")
    assert found.override == "never"


def test_a_sweetened_wine_holds_a_week_and_wants_sorbate() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    log = (
        *STABLE,
        stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
        ticked("sweeten", "2026-11-24T10:00+01:00"),
        read("1.010", "2026-11-24T11:00+01:00"),
    )
    early = planned(damson(*log, recipe=sweet), "2026-11-28T10:00+01:00", "bottle")
    assert early.override == "never"
    # 24 November + 7 d.
    assert early.earliest == at("2026-12-01T10:00+01:00")
    quiet = (*log, read("1.010", "2026-12-01T10:00+01:00"))
    hold = planned(damson(*quiet, recipe=sweet), "2026-12-01T11:00+01:00", "hold")
    assert waiting(hold) == []
    held = ticked("hold", "2026-12-01T11:00+01:00")
    assert (
        planned(damson(*quiet, held, recipe=sweet), "2026-12-02T11:00+01:00", "bottle").override
        == "free"
    )
    unsorbated = tuple(
        stabilised("2026-11-22T10:00+01:00") if "stabilise" in e.id else e for e in quiet
    )
    assert (
        planned(damson(*unsorbated, recipe=sweet), "2026-12-02T11:00+01:00", "bottle").override
        == "never"
    )


def test_sorbate_is_locked_after_malolactic() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    soft = ticked("malolactic", "2026-10-30T10:00+01:00", choice="yes")
    found = planned(damson(*STABLE, soft, recipe=sweet), "2026-11-22T10:00+01:00", "stabilise")
    assert "no malolactic fermentation, since sorbate follows" in waiting(found)


def test_bottles_stand_three_days_then_lie_and_are_tasted_after_months() -> None:
    log = (
        *STABLE,
        stabilised("2026-11-22T10:00+01:00"),
        ticked("bottle", "2026-11-30T11:00+01:00"),
    )
    now = "2026-12-01T11:00+01:00"
    assert planned(damson(*log), now, "upright").earliest == at("2026-12-03T11:00+01:00")
    assert planned(damson(*log), now, "lie-down").earliest == at("2026-12-03T11:00+01:00")
    taste = planned(damson(*log), now, "first-taste")
    # Two, three and four calendar months; 30 February is the 28th.
    assert taste.earliest == at("2027-01-30T11:00+01:00")
    assert taste.likely == at("2027-02-28T11:00+01:00")
    assert taste.latest == at("2027-03-30T11:00+01:00")
    assert planned(damson(*log), now, "bottle").done_at == at("2026-11-30T11:00+01:00")


SWEETENED: tuple[Entry, ...] = (
    *STABLE,
    stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
    ticked("sweeten", "2026-11-24T10:00+01:00"),
    read("1.012", "2026-11-24T11:00+01:00"),
)


def sweet_bottle(log: tuple[Entry, ...], now: str) -> StepOutlook:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    return planned(damson(*log, recipe=sweet), now, "bottle")


def test_a_fall_in_the_week_after_sweetening_starts_the_week_again() -> None:
    fallen = (*SWEETENED, read("1.009", "2026-11-28T10:00+01:00"))
    soon = (*fallen, read("1.009", "2026-12-02T10:00+01:00"))
    assert sweet_bottle(soon, "2026-12-02T11:00+01:00").override == "never"
    # A week of rest from 28 November, the first reading after the fall.
    rested = (*fallen, read("1.009", "2026-12-05T10:00+01:00"))
    assert sweet_bottle(rested, "2026-12-05T11:00+01:00").override == "free"


def test_two_readings_on_the_seventh_day_are_no_week_of_rest() -> None:
    late = (
        *SWEETENED[:-1],
        read("1.012", "2026-12-01T10:00+01:00"),
        read("1.012", "2026-12-01T18:00+01:00"),
    )
    assert sweet_bottle(late, "2026-12-01T19:00+01:00").override == "never"


@pytest.mark.parametrize("written", ["0", "0 g", "0.0", "none", "No", "-", "not yet"])
def test_sorbate_that_did_not_go_in_holds_the_bottles_whatever_the_recipe_says(written) -> None:
    sorbate = AdditiveLine(id="sorbate", additive="potassium-sorbate", amount=Amount("4 g"))
    base = damson()
    recipe = Recipe(lines=(*base.recipe.lines, sorbate), basis=base.recipe.basis, style="sweet")
    quiet = (*SWEETENED, read("1.012", "2026-12-01T10:00+01:00"))
    left_out = tuple(
        stabilised("2026-11-22T10:00+01:00", sorbate=written) if "stabilise" in entry.id else entry
        for entry in quiet
    )
    now = "2026-12-02T11:00+01:00"
    assert planned(damson(*quiet, recipe=recipe), now, "bottle").override == "free"
    assert planned(damson(*left_out, recipe=recipe), now, "bottle").override == "never"


def test_a_rise_that_nobody_ticked_holds_the_bottles() -> None:
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00"))
    risen = damson(*log, read("1.008", "2026-11-28T10:00+01:00"))
    found = planned(risen, "2026-11-29T11:00+01:00", "bottle")
    assert found.override == "never"
    assert "the sweetening ticked, since the gravity has risen" in waiting(found)


@pytest.mark.parametrize(
    ("choice", "locked"),
    [
        ("yes", True),
        ("Yes, let it soften", True),
        ("y", True),
        ("no", False),
        ("No - sulfite", False),
    ],
)
def test_what_is_not_plainly_a_no_to_malolactic_locks_the_sorbate(choice, locked) -> None:
    soft = ticked("malolactic", "2026-10-30T10:00+01:00", choice=choice)
    log = (*SWEETENED, soft, read("1.012", "2026-12-01T10:00+01:00"))
    found = sweet_bottle(log, "2026-12-02T11:00+01:00")
    assert (found.override == "never") is locked


def test_after_the_second_racking_it_is_read_weekly_for_four_weeks_then_monthly() -> None:
    racked = (*IN_GLASS, ticked("second-rack", "2026-11-07T10:00+01:00"))
    soon = (*racked, read("1.004", "2026-11-10T18:00+01:00"))
    # 10 November and 7 days; from 5 December (28 days after the racking) on, 30 days.
    first = planned(damson(*soon), "2026-11-10T19:00+01:00", "read-gravity")
    assert first.likely == at("2026-11-17T18:00+01:00")
    late = (*racked, read("1.004", "2026-12-06T18:00+01:00"))
    ageing = planned(damson(*late), "2026-12-06T19:00+01:00", "read-gravity")
    assert ageing.likely == at("2027-01-05T18:00+01:00")


def test_a_wine_still_falling_below_1_000_is_racked_a_week_after_its_last_reading() -> None:
    # In glass on 9 October, so that 28 days are 6 November; three points in three days until then.
    log = (*IN_GLASS, read("0.999", "2026-11-03T18:00+01:00"),
           read("0.996", "2026-11-06T19:30+01:00"))  # fmt: skip
    found = planned(damson(*log), "2026-11-06T20:00+01:00", "second-rack")
    assert waiting(found) == ["a fall of no more than a point in three days"]
    assert found.likely is not None
    assert found.likely >= at("2026-11-13T08:00+01:00")
    clean = planned(damson(*log), "2026-11-06T20:00+01:00", "clean")
    # An hour before the racking, a week after the last reading: 13 November 19:30 - 1 h.
    assert clean.likely == at("2026-11-13T18:30+01:00")
    flat = read("0.996", "2026-11-09T19:30+01:00")
    assert planned(damson(*log, flat), "2026-11-09T20:00+01:00", "second-rack").state == "due"


def test_a_sweetened_wine_is_expected_to_stand_still_and_never_to_fall_below_1_000() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    unracked = tuple(entry for entry in STABLE if not entry.id.startswith("second-rack"))
    log = (*unracked, stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
           ticked("sweeten", "2026-11-24T10:00+01:00", gravity="1.012"))  # fmt: skip
    at_once = outlook(damson(*log, recipe=sweet), at("2026-11-24T11:00+01:00"))
    assert "I expect about 1.012" in step(at_once, "read-gravity").reminder
    log = (*log, read("1.010", "2026-11-24T12:00+01:00"))
    found = outlook(damson(*log, recipe=sweet), at("2026-11-25T11:00+01:00"))
    assert "I expect about 1.010" in step(found, "read-gravity").reminder
    assert (step(found, "second-rack").state, step(found, "second-rack").passed) == (
        "skipped",
        True,
    )


def test_a_softened_sweet_wine_is_told_of_no_sorbate_and_of_the_way_out() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    soft = ticked("malolactic", "2026-10-30T10:00+01:00", choice="yes", ph="3.4")
    found = seen(damson(*STABLE, soft, recipe=sweet), "2026-11-22T10:00+01:00")
    assert not any("sorbate" in figure.name for figure in step(found, "stabilise").figures)
    assert "goes in with it" not in step(found, "stabilise").reminder
    assert not {"Potassium sorbate", "White sugar"} & {dose.name for dose in found.later}
    for key in ("sweeten", "bottle"):
        one = step(found, key)
        assert (one.override, one.likely) == ("never", None)
        assert "choose a dry style" in one.reason
    dry = damson(*STABLE, soft, stabilised("2026-11-22T10:00+01:00"))
    assert planned(dry, "2026-11-29T11:00+01:00", "bottle").override == "free"


@pytest.mark.parametrize(("sorbate", "free"), [("0", False), ("4 g", True), ("none", False)])
def test_sugar_waits_for_sorbate_and_not_for_a_tick(sorbate, free) -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00", sorbate=sorbate))
    found = planned(damson(*log, recipe=sweet), "2026-11-24T10:00+01:00", "sweeten")
    assert (found.override != "never") is free
