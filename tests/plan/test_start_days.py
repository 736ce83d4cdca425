"""Days to start on: each as the outlook itself sees it, round the days away."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import LINES, PITCHED, at, damson, no_forecast, seen
from winebench.model.edits import changed
from winebench.model.log import Away
from winebench.model.recipe import Recipe
from winebench.plan.household.start_days import (
    StartDayError,
    start_day,
    start_days,
    start_edit,
)

NOW = at("2026-09-28T10:00")
TRIP = Away(first=date(2026, 10, 5), last=date(2026, 10, 9))


def days(project, **more):
    return list(start_days(project, NOW, forecaster=no_forecast, **more))


def test_without_days_away_every_day_is_free():
    found = days(damson())
    assert len(found) == 42
    assert all(day.free and day.sentence == "Free." for day in found)
    assert found[0].day == NOW.date()


def test_the_days_before_a_trip_say_what_would_fall_in_it():
    found = {
        day.day.day: day for day in days(damson(away=(TRIP,)), first=date(2026, 10, 1), weeks=2)
    }
    assert not found[2].free
    # Pitched on the evening of the 3rd (24 h after the sulfite), stirred daily from the 4th.
    assert "stir and push the fruit under (5" in found[2].sentence.lower()
    assert {missed.step for missed in found[2].missed} >= {"stir"}
    assert found[5].sentence == "You are away that day."
    assert found[10].free


@given(
    st.lists(st.tuples(st.integers(0, 40), st.integers(0, 9)), min_size=1, max_size=3),
    st.integers(0, 40),
)
@settings(max_examples=60, deadline=None)
def test_a_day_is_free_exactly_when_the_outlook_has_nothing_to_say_of_the_days_away(trips, start):
    away = tuple(
        Away(first=NOW.date() + timedelta(days=first), last=NOW.date() + timedelta(days=first + n))
        for first, n in trips
    )
    project = damson(away=away)
    found = start_day(project, NOW, NOW.date() + timedelta(days=start), no_forecast)
    moved = seen(changed(project, start=found.start), NOW.isoformat())
    told = [caution for caution in moved.cautions if caution.key.startswith("away-")]
    assert bool(told) == bool(found.missed)
    gone = any(one.first <= found.day <= one.last for one in away)
    assert found.free == (not told and not gone)


def test_frozen_fruit_stays_frozen_and_fresh_fruit_waits_on_the_tree():
    frozen = start_day(damson(), NOW, date(2026, 10, 10), no_forecast)
    assert frozen.fruit == "Keep the fruit frozen until Saturday 10 October."
    lines = (changed(LINES[0], form="fresh"), *LINES[1:])
    fresh = start_day(damson(recipe=Recipe(lines=lines)), NOW, date(2026, 10, 10), no_forecast)
    assert "freeze it until then" in fresh.fruit
    assert start_day(damson(), NOW, NOW.date(), no_forecast).fruit == ""


def test_a_day_is_started_at_the_project_s_own_hour_on_the_wall_clock():
    berlin = datetime(2026, 10, 20, 12, tzinfo=ZoneInfo("Europe/Berlin"))
    late = changed(damson(), start=at("2026-10-01T20:30"))
    # Clocks went back on 25 October 2026 (EU summer time): +02:00 before, +01:00 after.
    for day, offset in ((24, 2), (26, 1)):
        found = start_day(late, berlin, date(2026, 10, day), no_forecast)
        assert (found.start.hour, found.start.minute) == (20, 30)
        assert found.start.utcoffset() == timedelta(hours=offset)


def test_today_after_the_hour_starts_now():
    now = at("2026-09-28T22:00")
    assert start_day(damson(), now, now.date(), no_forecast).start == now


def test_starting_on_the_day_is_one_edit():
    found = start_day(damson(away=(TRIP,)), NOW, date(2026, 10, 10), no_forecast)
    assert start_edit(found).apply(damson()).start == at("2026-10-10T18:00")


@pytest.mark.parametrize("weeks", [0, 53])
def test_weeks_beyond_a_year_are_refused(weeks):
    with pytest.raises(StartDayError, match="1 to 52"):
        days(damson(), weeks=weeks)


def test_a_batch_under_way_has_no_other_start():
    with pytest.raises(StartDayError, match="made up on Thursday 1 October"):
        days(damson(*PITCHED))
