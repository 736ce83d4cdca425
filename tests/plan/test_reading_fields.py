"""What is typed into the fields of a reading: times, temperatures, gravities and their slips."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest

from winebench.plan.typed.fields import Slip, read_gravity, read_moment, read_temperature
from winebench.plan.typed.readings import Question, TypedReading, reading_from
from winebench.units import Temperature

NOW = datetime(2026, 10, 6, 18, 30, tzinfo=timezone(timedelta(hours=2)))


def test_a_ph_of_345_is_asked_about():
    answer = reading_from(TypedReading(gravity="1.02", ph="34"), "x", NOW, "C")
    assert answer == Question("ph", 'No must has a pH of 34. Did you mean "3.4"?', "3.4")


@pytest.mark.parametrize(
    ("typed", "day", "hour", "minute"),
    [
        ("", 6, 18, 30),
        ("now", 6, 18, 30),
        ("7:05", 6, 7, 5),
        ("23:50", 5, 23, 50),  # still to come today, so it was yesterday's
        ("yesterday 21:15", 5, 21, 15),
        ("3 Oct 8:00", 3, 8, 0),
        ("2026-10-02 18:00", 2, 18, 0),
    ],
)
def test_a_time_is_read_as_people_write_it(typed, day, hour, minute):
    expected = datetime(2026, 10, day, hour, minute, tzinfo=NOW.tzinfo)
    assert read_moment(typed, NOW) == expected


@pytest.mark.parametrize(
    "typed", ["soon", "25:00", "31 Feb 10:00", "2026-10-09 10:00", "6 Oct 19:00"]
)
def test_a_time_that_is_none_or_to_come_is_refused(typed):
    answer = read_moment(typed, NOW)
    assert isinstance(answer, Slip)
    assert typed in answer.sentence


def test_a_day_without_its_year_is_never_in_the_future():
    assert read_moment("28 Dec 10:00", NOW) == datetime(2025, 12, 28, 10, tzinfo=NOW.tzinfo)


@pytest.mark.parametrize(
    ("typed", "scale", "meant"),
    [("86", "C", "86 °F"), ("20", "F", "20 °C"), ("120 F", "C", ""), ("150", "C", "")],
)
def test_a_temperature_no_must_has_is_asked_about(typed, scale, meant):
    answer = read_temperature(typed, scale)
    assert isinstance(answer, Slip)
    assert answer.meant == meant


@pytest.mark.parametrize("typed", ["68 F", "68 °F", "68 degF", "20 C", "20", "20,0 °C"])
def test_temperatures_read_alike_however_they_are_written(typed):
    temperature = read_temperature(typed, "C")
    assert isinstance(temperature, Temperature)
    assert temperature.celsius == pytest.approx(20.0)


def test_a_gravity_is_kept_as_typed():
    assert read_gravity("1,0900").text == "1,0900"
