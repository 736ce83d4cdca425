"""Words and arithmetic of dates, by hand on a calendar."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from winebench.plan.days import Clock, day_words, days_words, hour_words, moment_words

NOW = datetime.fromisoformat("2026-10-06T18:00+02:00")


def day(text: str) -> datetime:
    return datetime.fromisoformat(f"{text}+02:00")


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ("2026-10-06T20:00", "this evening"),
        ("2026-10-07T12:00", "tomorrow noon"),
        ("2026-10-07T08:00", "tomorrow morning"),
        ("2026-10-09T19:00", "Friday 9 October, evening"),
        ("2026-10-09T03:00", "Friday 9 October, early hours"),
        ("2026-11-03T19:00", "Tuesday 3 November"),
        ("2027-04-03T19:00", "3 April 2027"),
    ],
)
def test_a_moment_is_said_as_people_say_it(at: str, words: str) -> None:
    assert moment_words(day(at), NOW) == words


def test_hours_keep_their_minutes() -> None:
    assert hour_words(day("2026-10-06T18:05"), NOW) == "today at 18:05"
    assert day_words(day("2026-10-05T18:05"), NOW) == "yesterday"


def test_days_keep_the_wall_clock_and_hours_the_true_time() -> None:
    # Berlin goes back from +02:00 to +01:00 on 25 October 2026.
    clock = Clock(datetime(2026, 10, 24, 18, 0, tzinfo=ZoneInfo("Europe/Berlin")))
    assert clock.days_after(clock.now, 1) == datetime.fromisoformat("2026-10-25T18:00+01:00")
    assert clock.hours_after(clock.now, 24) == datetime.fromisoformat("2026-10-25T17:00+01:00")


def test_an_hour_that_the_clock_skips_becomes_one_that_exists() -> None:
    # New York has no 02:30 on 8 March 2026.
    clock = Clock(datetime(2026, 3, 7, 2, 30, tzinfo=ZoneInfo("America/New_York")))
    assert clock.days_after(clock.now, 1) == datetime.fromisoformat("2026-03-08T03:30-04:00")


def test_months_end_on_their_last_day() -> None:
    clock = Clock(datetime.fromisoformat("2026-11-30T11:00+01:00"))
    assert clock.months_after(clock.now, 3) == datetime.fromisoformat("2027-02-28T11:00+01:00")


def test_the_night_is_slept_through_and_never_shortened() -> None:
    clock = Clock(NOW)
    assert clock.waking(day("2026-10-07T03:00")) == day("2026-10-07T08:00")
    assert clock.waking(day("2026-10-07T23:00")) == day("2026-10-08T08:00")
    assert clock.waking(day("2026-10-07T12:00")) == day("2026-10-07T12:00")


def test_days_in_a_row_are_told_as_runs() -> None:
    days = [date(2026, 11, 29), date(2026, 11, 30), date(2026, 12, 1), date(2026, 12, 4)]
    assert days_words(days) == "29 November–1 December, 4 December"
    assert days_words(days[2:3]) == "1 December"
