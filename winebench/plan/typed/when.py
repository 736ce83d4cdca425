"""Days and hours as people write them: "Mon", "3 Nov", "5/11", "day 3", "8am", "evening".

A day without its year (a weekday, a day and a month) is the latest such day not after today:
nothing is logged before it happened. "3/11" is two days until somebody says which.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import Literal, NamedTuple

from winebench.plan.days import MONTHS, WEEKDAYS

DayOrder = Literal["", "day-first", "month-first"]
"""What "3/11" means, where somebody said so."""

_MONTH = (
    "jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|"
    "sep(?:t(?:ember)?)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?"
)
_WEEKDAY = (
    "mon(?:day)?|tue(?:s|sday)?|wed(?:s|nesday)?|thu(?:r|rs|rsday)?|fri(?:day)?|sat(?:urday)?|"
    "sun(?:day)?"
)
_AMOUNT = r"(?!\s*(?:tsp|tbsp|teasp|tablesp|cup|lb|pound|oz|gal|pint|pt|qt|packet|tablet|kg|g|l)\b)"
DAY = re.compile(
    r"(?P<word>today|yesterday|last\s+night|tonight|this\s+(?:morning|noon|afternoon|evening))\b"
    r"|day\s*(?P<count>\d{1,3})\b"
    r"|(?P<ago>\d{1,2})\s+days?\s+ago\b"
    rf"|(?P<last>last\s+)?(?P<weekday>{_WEEKDAY})\b\.?"
    r"|(?P<iso_year>\d{4})[-/](?P<iso_month>\d{1,2})[-/](?P<iso_day>\d{1,2})\b"
    rf"|(?P<day>\d{{1,2}})(?:st|nd|rd|th|\.)?[\s-]*(?P<month>{_MONTH})\b\.?"
    r"(?:[\s,-]+(?P<year>\d{4})\b)?"
    rf"|(?P<first_month>{_MONTH})\b\.?\s*(?P<then_day>\d{{1,2}})(?:st|nd|rd|th)?\b(?![:.,]\d|[ap]m)"
    r"(?:,?\s+(?P<then_year>\d{4})\b)?"
    rf"|(?P<one>\d{{1,2}})/(?P<two>\d{{1,2}})(?:/(?P<slash_year>\d{{4}}|\d{{2}}))?(?![\d/]){_AMOUNT}"
    r"|(?P<dot_day>\d{1,2})\.(?P<dot_month>\d{1,2})\.(?P<dot_year>\d{4})?(?!\d)",
    re.ASCII,
)
"""A day at the place where it is looked for, in lower case."""
CLOCK = re.compile(
    r"(?:\b(?:at|about)\s+|@\s*)?(?<![\d.,/])(?:"
    r"(?P<hour12>\d{1,2})(?:[:.](?P<minute12>\d{2}))?\s*(?P<half>[ap])\.?m\b\.?"
    r"|(?P<hour>\d{1,2})[:h](?P<minute>\d{2})(?!\d))",
    re.ASCII,
)
PART = re.compile(
    r"(?:\b(?:in|the|this|early|late|about|at)\s+)*"
    r"\b(?P<part>morning|noon|midday|afternoon|evening|night|tonight)\b",
    re.ASCII,
)
_PART_HOURS = {"morning": 8, "noon": 12, "midday": 12, "afternoon": 15, "evening": 18,
               "tonight": 18, "night": 21}  # fmt: skip
NOON = (12, 0)
_YEARS = range(1900, 2201)
"""As in project files."""


class Hour(NamedTuple):
    """An hour of a day."""

    hour: int
    minute: int


def days_meant(
    found: re.Match[str], today: date, pitched: date | None = None, order: DayOrder = ""
) -> tuple[date, ...]:
    """Return the day that a match of `DAY` means: none for no day, two where nobody can tell.

    "day 3" counts from the day of the yeast, which is day 0; without `pitched` it is none.
    """
    if word := found["word"]:
        return (today - timedelta(days=word == "yesterday" or word.startswith("last")),)
    if found["count"]:
        return () if pitched is None else (pitched + timedelta(days=int(found["count"])),)
    if found["ago"]:
        return (today - timedelta(days=int(found["ago"])),)
    if found["weekday"]:
        return _weekday(found, today)
    if found["iso_year"]:
        return _day(found["iso_year"], found["iso_month"], found["iso_day"], today)
    if found["month"]:
        return _day(found["year"], _month_number(found["month"]), found["day"], today)
    if found["first_month"]:
        month = _month_number(found["first_month"])
        return _day(found["then_year"], month, found["then_day"], today)
    if found["dot_day"]:  # with full stops the day comes first wherever it is written so
        return _day(found["dot_year"], found["dot_month"], found["dot_day"], today)
    return _slashed(found, today, order)


def _weekday(found: re.Match[str], today: date) -> tuple[date, ...]:
    number = [name[:3].lower() for name in WEEKDAYS].index(found["weekday"][:3])
    back = (today.weekday() - number) % 7
    return (today - timedelta(days=7 if found["last"] and not back else back),)


def _slashed(found: re.Match[str], today: date, order: DayOrder) -> tuple[date, ...]:
    year, one, two = found["slash_year"], found["one"], found["two"]
    year = f"20{year}" if year and len(year) == 2 else year
    day_first, month_first = _day(year, two, one, today), _day(year, one, two, today)
    if order:
        return day_first if order == "day-first" else month_first
    return tuple(dict.fromkeys(day_first + month_first))


def _month_number(name: str) -> int:
    return [month[:3].lower() for month in MONTHS].index(name[:3]) + 1


def _day(year: str | None, month: str | int, day: str, today: date) -> tuple[date, ...]:
    """Return that day; without a year, the latest such day not after today; none if there is none.

    Nine years back there was a 29 February, whatever the year.
    """
    years = (int(year),) if year else range(today.year, today.year - 9, -1)
    if years[0] not in _YEARS:
        return ()
    for candidate in years:
        try:
            found = date(candidate, int(month), int(day))
        except ValueError:
            continue
        if year or found <= today:
            return (found,)
    return ()


def hour_meant(found: re.Match[str]) -> Hour | None:
    """Return the hour that a match of `CLOCK` means, None where a day has no such hour."""
    if found["half"]:
        hour, minute = int(found["hour12"]), int(found["minute12"] or 0)
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if found["half"] == "p" else 0)
    else:
        hour, minute = int(found["hour"]), int(found["minute"])
    return Hour(hour, minute) if hour < 24 and minute < 60 else None


def part_hour(found: re.Match[str]) -> Hour:
    """Return the hour that stands for a part of the day: common practice of diaries."""
    return Hour(_PART_HOURS[found["part"]], 0)


def day_name(day: date) -> str:
    """Return like "Tue 3 Nov 2026"."""
    return f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1][:3]} {day.year}"
