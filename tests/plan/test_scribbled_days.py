"""The day and the hour of a scribbled line: read as its writer meant it, or asked about."""

from __future__ import annotations

from datetime import date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, at, damson
from tests.plan.scribbling import NOW, one, reading
from winebench.plan.scribbles import scribbles

ZONES = (timezone(timedelta(hours=2)), ZoneInfo("Europe/Berlin"), ZoneInfo("America/New_York"))
MONTH_NAMES = ("Jan", "February", "mar", "Apr", "May", "june", "Jul", "AUG", "Sept", "Oct", "Nov",
               "December")  # fmt: skip

instants = st.datetimes(datetime(2020, 1, 1), datetime(2040, 12, 31)).flatmap(
    lambda wall: st.sampled_from(ZONES).map(lambda zone: wall.replace(tzinfo=zone, fold=0))
)


@given(instants, st.integers(0, 6), st.booleans())
@settings(max_examples=150)
def test_a_weekday_is_the_latest_such_day_not_after_now(now, back, short):
    day = now.date() - timedelta(days=back)  # the oracle: walk back and let strftime name it
    name = day.strftime("%a" if short else "%A")
    line = scribbles(damson(), f"{name} windy", now).lines[0]
    assert line.trouble == ""
    assert line.at.date() == day
    assert line.at <= now


@given(instants, st.integers(1, 360), st.booleans())
@settings(max_examples=150)
def test_a_day_and_a_month_are_the_latest_such_day_not_after_now(now, back, month_before):
    day = now.date() - timedelta(days=back)
    month = MONTH_NAMES[day.month - 1]
    text = f"{month} {day.day}" if month_before else f"{day.day} {month}"
    assert scribbles(damson(), f"{text}: windy", now).lines[0].at.date() == day


@given(instants, st.integers(0, 400))
@settings(max_examples=150)
def test_two_orders_of_day_and_month_are_asked_about_never_guessed(now, back):
    day = now.date() - timedelta(days=back)
    line = scribbles(damson(), f"{day.day}/{day.month}/{day.year} windy", now).lines[0]
    if day.day == day.month or day.day > 12:
        assert line.trouble == ""
        assert line.at.date() == day
    else:
        assert "which is it?" in line.trouble
        assert line.entries == ()
        assert len(line.offers) == 3


@pytest.mark.parametrize(
    ("order", "day"), [("day-first", (2026, 10, 3)), ("month-first", (2026, 3, 10))]
)
def test_whoever_says_which_comes_first_is_not_asked(order, day):
    assert one("3/10 windy", order=order).at.date() == date(*day)


def test_each_offer_of_an_unclear_day_is_a_line_that_can_be_read():
    asked = one("3/10 8am stirred")
    assert [offer.label for offer in asked.offers[:2]] == ["3 Oct 2026", "10 Mar 2026"]
    assert one(asked.offers[0].line).entries[0].at == at("2026-10-03T08:00")


def test_a_weekday_beside_it_settles_an_unclear_day():
    # 3 October 2026 is a Saturday, 10 March 2026 a Tuesday (any calendar).
    assert one("Sat 3/10 windy").at.date() == date(2026, 10, 3)
    assert one("Tue 3/10 windy").at.date() == date(2026, 3, 10)
    assert "does not fit together" in one("Sun 3/10 windy").trouble


def test_lines_without_a_day_have_that_of_the_line_above():
    found = scribbles(damson(*PITCHED), "Mon\n8am 1.066\n 18:00 1.064\nTue 1.060", NOW)
    assert [line.heading for line in found.lines] == [True, False, False, False]
    assert [entry.at for entry in found.entries] == [
        at("2026-10-05T08:00"),
        at("2026-10-05T18:00"),
        at("2026-10-06T12:00"),
    ]


def test_a_line_without_any_day_is_asked_about():
    asked = one("1.064 22C")
    assert asked.trouble.startswith("It names no day")
    assert reading(asked.offers[0].line).at == NOW - timedelta(hours=8)


def test_an_unclear_day_is_not_handed_on_to_the_lines_below():
    found = scribbles(damson(*PITCHED), "5/10 1.06\n1.05", NOW)
    assert len(found.open) == 2
    assert found.order_asked


@pytest.mark.parametrize(
    ("text", "hour"),
    [("Tue 8am", 8), ("Tue 8 pm", 20), ("Tue 12am", 0), ("Tue 12pm", 12), ("Tue morning", 8),
     ("Tue in the evening", 18), ("Tue 18:00", 18), ("Tue at 18h00", 18), ("Tue", 12)],
)  # fmt: skip
def test_hours_are_read_as_people_write_them(text, hour):
    assert reading(f"{text} 1.060").at == at(f"2026-10-06T{hour:02}:00")


@pytest.mark.parametrize(
    ("text", "moment"),
    [("last night 1.05", "2026-10-08T21:00"), ("this morning 1.05", "2026-10-09T08:00"),
     ("1.05 this morning", "2026-10-09T08:00"), ("2 days ago 1.05", "2026-10-07T12:00"),
     ("1.061 22C Tue", "2026-10-06T12:00"), ("last Fri 21:00 1.09", "2026-10-02T21:00"),
     ("Fri 21:00 1.09", "2026-10-02T21:00"), ("Oct 5th, 6pm: 1.066", "2026-10-05T18:00"),
     ("5.10. 1,066", "2026-10-05T12:00")],
)  # fmt: skip
def test_days_are_read_as_people_write_them(text, moment):
    assert one(text).at == at(moment)


@pytest.mark.parametrize(
    ("text", "says"),
    [("31 Feb 1.05", "is no day"), ("today 23:00 1.05", "still to come"),
     ("2027-01-05 1.05", "still to come"), ("Tue 25:00 1.05", "no such hour"),
     ("Mno 1.05", 'Did you mean "Mon"?'), ("5 Otc 1.062", "names no day")],
)  # fmt: skip
def test_a_day_that_is_none_is_said(text, says):
    line = one(text)
    assert says in line.trouble
    assert line.entries == ()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("tomorrow 0.995", "Tomorrow is still to come; log it then."),
        ("today tomorrow 0.995", "Tomorrow is still to come; log it then."),
        ("today 0.995 tomorrow", "Tomorrow is still to come; log it then."),
        ("Mon\ntomorrow 0.995", "Tomorrow is still to come; log it then."),
        ("next week 0.995", "Next week is still to come; log it then."),
        ("next Friday 0.995", "Next Friday is still to come; log it then."),
        ("today in two days 0.995", "In two days is still to come; log it then."),
    ],
)
def test_what_is_still_to_come_is_no_reading_of_today(text, says):
    line = scribbles(damson(*PITCHED), text, NOW).lines[-1]
    assert (line.trouble, line.entries) == (says, ())


def test_on_a_weekday_may_be_still_to_come():
    line = one("on Monday 0.995")
    assert "may be still to come" in line.trouble
    assert reading(line.offers[0].line).at == at("2026-10-05T12:00")


def test_now_is_today_at_this_minute():
    assert reading("now 1.042").at == NOW
    found = scribbles(damson(*PITCHED), "Mon 1.066\nnow 1.042", NOW)
    assert [entry.at for entry in found.entries] == [at("2026-10-05T12:00"), NOW]


def test_a_spring_night_without_its_hour_still_has_a_time():
    # Germany skipped 2:00 to 3:00 on 29 March 2026 (EU summer time).
    now = datetime(2026, 3, 30, 12, tzinfo=ZoneInfo("Europe/Berlin"))
    line = scribbles(damson(), "29 Mar 2:30 windy", now).lines[0]
    assert line.at.date() == date(2026, 3, 29)
    assert scribbles(damson(), "28 Mar 2:30 windy", now).lines[0].at.utcoffset() == timedelta(
        hours=1
    )
