"""Under the airlock to the bottle. Second racking at 28 days and below 1.000, three equal readings
over 14 days: common practice of home wine makers."""

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    STABLE,
    THIRD_READING,
    at,
    damson,
    planned,
    read,
    stabilised,
    ticked,
    waiting,
)
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.model.project import Project
from winebench.model.recipe import FruitLine
from winebench.plan.steps.noting import needs_reason
from winebench.units import Mass


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


def grapes(*log) -> Project:
    base = damson()
    fruit = FruitLine(id="fruit", fruit="grape-red", amount=Mass("15 kg"))
    lines = tuple(fruit if line.id == "fruit" else line for line in base.recipe.lines)
    return damson(*log, recipe=changed(base.recipe, lines=lines))


def test_grapes_are_bottled_after_their_weeks_in_the_cold() -> None:
    # Two to three weeks in the cold; the bottling comes after it where it is meant.
    made = grapes(*STABLE, stabilised("2026-11-22T10:00+01:00"))
    cold = planned(made, "2026-11-23T10:00+01:00", "cold-hold")
    assert cold.earliest == at("2026-12-05T19:00+01:00")
    ready = planned(made, "2026-11-23T10:00+01:00", "bottle")
    assert ready.override == "free"  # crystals are harmless: no gate
    assert ready.likely >= cold.likely
    for days, short in (("0", True), ("10 days", True), ("14", False), ("3 weeks", False)):
        assert needs_reason(cold, (Record(name="days", value=days),)) is short, days


def test_a_clear_wine_need_not_be_racked_a_third_time() -> None:
    # Racked no third time if clear and without lees.
    clear = read("0.993", "2026-11-21T18:00+01:00", degassed=True, clear=4)
    found = planned(damson(*STABLE[:-2], clear), "2027-02-10T10:00+01:00", "third-rack")
    assert (found.state, found.when, found.override) == ("later", "only if you want it", "free")
    assert "leave it be" in found.reason
    hazy = read("0.993", "2026-11-21T18:00+01:00", degassed=True, clear=3)
    again = planned(damson(*STABLE[:-2], hazy), "2027-01-10T10:00+01:00", "third-rack")
    assert again.likely is not None


def test_later_is_always_safe_and_never_late() -> None:
    # Bottles wait for nobody; no last day stands beside "later is safe".
    made = damson(*STABLE, stabilised("2026-11-22T10:00+01:00"))
    found = planned(made, "2027-06-01T10:00+02:00", "bottle")
    assert (found.state, found.when) == ("due", "now")
    assert not any("last safe day" in words for words in found.if_slips)
