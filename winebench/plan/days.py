"""Dates and hours as people say them, and arithmetic that a clock change cannot fool.

Hours are counted in absolute time: a 24 h wait stays 24 h in the night when clocks change.
Days are counted on the wall clock: a week after Sunday 18:00 is Sunday 18:00.
Names of days are spelled here because the system's depend on its language.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta, timezone, tzinfo
from functools import lru_cache

from winebench.model import rough_day

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = rough_day.MONTHS
DAYS_IN = {"h": 1 / 24, "d": 1, "w": 7, "f": 14, "m": 30, "y": 365}
"""By the first letter of the unit, of hours, days, weeks, fortnights, months and years; a month is
rough."""
FIRST_WAKING_HOUR = 8
LAST_WAKING_HOUR = 22
NOON = 12
_PARTS = ((6, "early hours"), (11, "morning"), (14, "noon"), (18, "afternoon"), (24, "evening"))


def settled(at: datetime) -> datetime:
    """Return the same wall time with a plain offset.

    Python compares and subtracts two times of one named zone by their wall clocks, which
    shortens a night by an hour in spring; with plain offsets it counts true time.

    Raises:
        ValueError: `at` has no offset.

    """
    if type(at.tzinfo) is timezone:
        return at
    offset = at.utcoffset()
    if offset is None:
        raise ValueError("A time without an offset cannot be planned with; add one, like +01:00.")
    return at.replace(tzinfo=timezone(offset))


class Clock:
    """The moment of planning, and where its wall clock stands on other days."""

    __slots__ = ("_changes", "_known", "_zone", "now")

    def __init__(self, now: datetime) -> None:
        self.now = settled(now)
        self._zone: tzinfo = now.tzinfo or self.now.tzinfo or UTC
        self._changes = not isinstance(self._zone, timezone)
        self._known: dict[datetime, datetime] = {}

    def local(self, at: datetime) -> datetime:
        """Return that instant on this household's wall clock.

        Without a named zone, a past time keeps the offset it was written with and a coming
        one takes that of now.
        """
        at = settled(at)
        if self._changes:  # one instant is asked for many times, and a zone is slow to answer
            known = self._known.get(at)
            # Equal instants of other offsets are equal keys, and the answer is the same.
            return known or self._known.setdefault(at, settled(at.astimezone(self._zone)))
        if at < self.now or at.tzinfo == self.now.tzinfo:
            return at
        return at.astimezone(self.now.tzinfo)

    def hours_after(self, at: datetime, hours: float) -> datetime:
        """Return the instant that many true hours later."""
        return self.local(at + timedelta(hours=hours))

    def days_after(self, at: datetime, days: float) -> datetime:
        """Return the same wall time that many days later (before, where negative)."""
        return self._at_wall(self.local(at).replace(tzinfo=None) + timedelta(days=days), at)

    def months_after(self, at: datetime, months: int) -> datetime:
        """Return the same wall time that many calendar months later; 31 becomes the last day."""
        wall = self.local(at).replace(tzinfo=None)
        year, month = divmod(wall.year * 12 + wall.month - 1 + months, 12)
        day = min(wall.day, monthrange(year, month + 1)[1])
        return self._at_wall(wall.replace(year=year, month=month + 1, day=day), at)

    def at_hour(self, at: datetime, hour: int) -> datetime:
        """Return that hour of the same day."""
        wall = self.local(at).replace(tzinfo=None, hour=hour, minute=0, second=0, microsecond=0)
        return self._at_wall(wall, at)

    def waking(self, at: datetime) -> datetime:
        """Return the same time, or the next morning where it falls in the night; never earlier."""
        here = self.local(at)
        if here.hour < FIRST_WAKING_HOUR:
            return self.at_hour(here, FIRST_WAKING_HOUR)
        if here.hour >= LAST_WAKING_HOUR:
            return self.at_hour(self.days_after(here, 1), FIRST_WAKING_HOUR)
        return here

    def same_day(self, one: datetime, other: datetime) -> bool:
        """Return whether both fall on one calendar day here."""
        return self.local(one).date() == self.local(other).date()

    def _at_wall(self, wall: datetime, base: datetime) -> datetime:
        if self._changes:
            # There and back through UTC, so that an hour that does not exist becomes one.
            return self.local(wall.replace(tzinfo=self._zone).astimezone(UTC))
        coming = wall.replace(tzinfo=self.now.tzinfo)
        return coming if coming >= self.now else wall.replace(tzinfo=settled(base).tzinfo)


def evening(clock: Clock, at: datetime) -> datetime:
    """Return the end of that day, as late as anybody works; never before `at`."""
    return max(clock.at_hour(at, LAST_WAKING_HOUR), clock.local(at))


def later(*times: datetime | None) -> datetime | None:
    """Return the latest of the times that are known, or None."""
    known = [time for time in times if time is not None]
    return max(known) if known else None


@lru_cache(maxsize=2048)
def day_words(at: datetime, now: datetime) -> str:
    """Return like "today", "tomorrow", "Friday 9 October", "3 April 2027"."""
    apart = (at.date() - now.date()).days
    near = {-1: "yesterday", 0: "today", 1: "tomorrow"}.get(apart)
    if near:
        return near
    date = f"{at.day} {MONTHS[at.month - 1]}"
    if abs(apart) > 60:
        return f"{date} {at.year}" if at.year != now.year else date
    return f"{WEEKDAYS[at.weekday()]} {date}"


def weekday(at: datetime) -> str:
    """Return like "Friday"."""
    return WEEKDAYS[at.weekday()]


def short_date(at: datetime) -> str:
    """Return like "Friday 9 October"."""
    return f"{WEEKDAYS[at.weekday()]} {at.day} {MONTHS[at.month - 1]}"


def full_day(at: datetime) -> str:
    """Return like "9 October 2026"."""
    return f"{at.day} {MONTHS[at.month - 1]} {at.year}"


def part_of_day(at: datetime) -> str:
    """Return early hours, morning, noon, afternoon or evening."""
    return next(name for before, name in _PARTS if at.hour < before)


def moment_words(at: datetime, now: datetime) -> str:
    """Return like "Friday 9 October, evening"; without the part of day beyond two weeks."""
    if abs((at.date() - now.date()).days) > 14:
        return day_words(at, now)
    part, day = part_of_day(at), day_words(at, now)
    if part == "early hours":
        return f"{day}, early hours"
    if day == "today":
        if part != "noon":
            return f"this {part}"
        return "today about noon" if now.hour < NOON and at.hour <= NOON else _today_at(at)
    return f"{day} {part}" if day == "tomorrow" else f"{day}, {part}"


def _today_at(at: datetime) -> str:
    """Return like "today at 13:40"; noon itself has passed, or is not meant."""
    return f"today at {at:%H:%M}"


def hour_words(at: datetime, now: datetime) -> str:
    """Return like "today at 18:00" or "Friday 9 October at 08:00"."""
    return f"{day_words(at, now)} at {at.hour:02}:{at.minute:02}"


def rough_words(at: datetime) -> str:
    """Return like "Friday evening", for times within a week or so."""
    part = part_of_day(at)
    return f"early {weekday(at)}" if part == "early hours" else f"{weekday(at)} {part}"


def span_words(span: timedelta) -> str:
    """Return like "3 h", "2 days" or "6 weeks" for a length of time."""
    hours = span.total_seconds() / 3600
    if hours < 1:
        return "less than an hour"
    if hours < 36:
        return f"{hours:.0f} h"
    days = round(hours / 24)
    return f"{days} days" if days < 21 else f"{round(days / 7)} weeks"


def days_words(days: Sequence[date]) -> str:
    """Return like "5–8 December" or "30 November, 2 December" for days in order."""
    runs: list[list[date]] = []
    for day in sorted(set(days)):
        if runs and day - runs[-1][-1] == timedelta(days=1):
            runs[-1].append(day)
        else:
            runs.append([day])
    return ", ".join(_run_words(run[0], run[-1]) for run in runs)


def _run_words(first: date, last: date) -> str:
    end = f"{last.day} {MONTHS[last.month - 1]}"
    if first == last:
        return end
    begin = (
        str(first.day) if first.month == last.month else f"{first.day} {MONTHS[first.month - 1]}"
    )
    return f"{begin}–{end}"
