"""The ends of batches, and the clock of another country, with their dates worked out by hand.

Without a forecast, as the scripted runs. The waits are common practice: a week of rest after
sweetening, begun again by a fall of more than a point; 14 days of equal readings.
"""

from datetime import datetime
from zoneinfo import ZoneInfo

from tests.plan.damson import (
    PITCHED,
    STABLE,
    at,
    damson,
    no_forecast,
    planned,
    read,
    seen,
    stabilised,
    step,
    ticked,
    waiting,
)
from winebench.model.edits import changed
from winebench.model.recipe import FruitLine, SugarLine
from winebench.plan.work_out import outlook
from winebench.units import Mass

NEW_YORK = ZoneInfo("America/New_York")
SWEET = (
    *STABLE,
    stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
    ticked("sweeten", "2026-11-23T10:00+01:00"),
    read("1.010", "2026-11-23T11:00+01:00"),
)


def test_sweetened_wine_rests_a_week_by_two_equal_readings() -> None:
    early = planned(damson(*SWEET), "2026-11-24T10:00+01:00", "bottle")
    assert early.override == "never"
    assert early.earliest == at("2026-11-30T10:00+01:00")
    equal = read("1.010", "2026-11-30T10:30+01:00")
    rested = planned(damson(*SWEET, equal), "2026-11-30T11:00+01:00", "bottle")
    assert (rested.override, waiting(rested)) == ("free", [])


def test_a_fall_after_sweetening_starts_the_week_anew_and_moves_the_safe_date() -> None:
    # Three points down on 1 December at 10:00: a week on is 8 December at 10:00.
    fallen = damson(*SWEET, read("1.007", "2026-12-01T10:00+01:00"))
    for key in ("hold", "bottle"):
        found = planned(fallen, "2026-12-01T11:00+01:00", key)
        assert found.earliest == at("2026-12-08T10:00+01:00"), key
        assert "the same gravity at both ends of those days" in waiting(found)
    bottle = planned(fallen, "2026-12-01T11:00+01:00", "bottle")
    assert bottle.override == "never"
    assert bottle.moved is not None
    assert bottle.moved.because == "the last reading is 3 points below the one before"
    assert bottle.reason.startswith("Held until: the same gravity at both ends of those days.")
    assert "bar" in bottle.reason
    # Ticked as held all the same, the rest is no shorter for it.
    told = changed(fallen, log=(*fallen.log, ticked("hold", "2026-12-01T10:30+01:00")))
    again = planned(told, "2026-12-01T11:00+01:00", "bottle")
    assert (again.override, again.earliest) == ("never", at("2026-12-08T10:00+01:00"))


def test_a_first_reading_days_after_the_sweetening_starts_the_week_itself() -> None:
    late = damson(*SWEET[:-1], read("1.010", "2026-11-28T10:00+01:00"))
    bottle = planned(late, "2026-11-30T12:00+01:00", "bottle")
    assert (bottle.override, bottle.earliest) == ("never", at("2026-12-05T10:00+01:00"))


def test_a_declared_wine_that_falls_again_is_safe_fourteen_days_after_the_fall() -> None:
    # 0.993 when declared; 0.990 on 26 November at 18:00, and 14 days on is 10 December. Stabilised
    # then, it is bottled a day later at the earliest.
    fallen = damson(*STABLE, read("0.990", "2026-11-26T18:00+01:00"))
    found = seen(fallen, "2026-11-26T19:00+01:00")
    bottle, again = step(found, "bottle"), step(found, "declare-stable")
    assert "the wine declared dry and stable" in waiting(bottle)
    assert bottle.override == "never"
    assert bottle.earliest == at("2026-12-11T18:00+01:00")
    assert (again.earliest, again.override) == (at("2026-12-10T18:00+01:00"), "reason")
    before = step(found, "declare-stable:1")
    assert (before.state, before.done_at) == ("done", at("2026-11-21T19:00+01:00"))


def test_a_fallen_wine_is_bottled_once_it_was_declared_and_stabilised_a_second_time() -> None:
    first = (*STABLE, stabilised("2026-11-22T10:00+01:00", **{"mg-per-l": "40"}))
    fell = (
        *first,
        read("0.990", "2026-11-26T18:00+01:00"),
        read("0.990", "2026-12-04T18:00+01:00"),
        read("0.990", "2026-12-10T18:00+01:00", degassed=True, clear=3),
    )
    found = seen(damson(*fell), "2026-12-10T19:00+01:00")
    assert (step(found, "declare-stable").state, step(found, "bottle").override) == ("due", "never")
    # Ticked again it is stable again, but what stabilised it before the fall counts no more.
    again = (*fell, ticked("declare-stable", "2026-12-10T19:00+01:00"))
    bottle = planned(damson(*again), "2026-12-10T20:00+01:00", "bottle")
    assert waiting(bottle) == ["the stabilising, so that the sulfite is known"]
    safe = (*again, stabilised("2026-12-11T10:00+01:00", **{"mg-per-l": "40"}))
    bottle = planned(damson(*safe), "2026-12-12T11:00+01:00", "bottle")
    assert (bottle.override, bottle.earliest) == ("free", at("2026-12-12T10:00+01:00"))


def test_a_reading_from_before_the_feed_does_not_open_the_move_to_glass() -> None:
    feed = SugarLine(id="more", sugar="white-sugar", amount=Mass("1 kg"), when="feed")
    base = damson(
        *PITCHED,
        read("1.018", "2026-10-08T18:00"),
        ticked("lift-fruit", "2026-10-08T18:30"),
        ticked("sugar-feed", "2026-10-08T19:30"),
    )
    staged = changed(base, recipe=changed(base.recipe, lines=(*base.recipe.lines, feed)))
    fed = planned(staged, "2026-10-08T20:00", "transfer")
    assert waiting(fed) == ["a reading below 1.030 since the sugar was fed"]
    assert fed.override == "reason"
    after = changed(staged, log=(*staged.log, read("1.024", "2026-10-09T18:00")))
    assert waiting(planned(after, "2026-10-09T18:30", "transfer")) == []


def test_strained_juice_is_stirred_until_glass_and_no_fruit_is_spoken_of() -> None:
    base = damson(*PITCHED)
    juice = tuple(
        changed(line, form="juice") if isinstance(line, FruitLine) else line
        for line in base.recipe.lines
    )
    project = changed(base, recipe=changed(base.recipe, lines=juice))
    assert planned(project, "2026-10-02T19:00", "lift-fruit").state == "skipped"
    stir = planned(project, "2026-10-02T19:00", "stir")
    assert (stir.earliest, stir.likely, stir.latest) == (
        at("2026-10-03T06:30"),
        at("2026-10-03T18:30"),
        at("2026-10-04T00:30"),
    )
    assert "fruit" not in stir.reason + stir.reminder
    # Straight to glass on day 4 to 10, day 6 likeliest: no fruit to wait for.
    transfer = planned(project, "2026-10-02T19:00", "transfer")
    assert waiting(transfer) == ["a reading below 1.030 on the day"]
    assert transfer.likely == at("2026-10-08T18:30")


def test_a_day_of_25_hours_in_new_york_is_24_true_hours_to_the_yeast() -> None:
    # Clocks go back on 1 November 2026 at 02:00 (US Energy Policy Act of 2005, section 110).
    # Sulfite on Saturday at 18:00 -04:00: 24 h on are Sunday 17:00 -05:00.
    project = damson(
        ticked("sugar-water", "2026-10-31T18:00-04:00"),
        ticked("sulfite-must", "2026-10-31T18:00-04:00"),
        read("1.092", "2026-11-01T12:00-05:00"),
        drop=("enzyme",),
        start=at("2026-10-31T18:00-04:00"),
    )
    for minute, met in ((59, False), (60, True)):
        now = datetime(2026, 11, 1, 16 + minute // 60, minute % 60, tzinfo=NEW_YORK)
        pitch = step(outlook(project, now, no_forecast), "pitch")
        assert pitch.earliest == at("2026-11-01T17:00-05:00")
        assert ("24 h since the sulfite" not in waiting(pitch)) == met
    stirred = damson(ticked("pitch", "2026-10-30T19:00-04:00"))
    now = datetime(2026, 10, 30, 20, 0, tzinfo=NEW_YORK)
    stir = step(outlook(stirred, now, no_forecast), "stir")
    assert [time.isoformat() for time in stir.repeat_times[:2]] == [
        "2026-10-31T19:00:00-04:00",
        "2026-11-01T19:00:00-05:00",
    ]
