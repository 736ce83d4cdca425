"""Where the time axis has its marks, and how moments are written on it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import NamedTuple

from winebench.window.timeline.axis import DAY, HOUR, TimeAxis

# Fixed words: strftime follows the process's locale, the outlook's sentences do not.
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_STEPS = (6 * HOUR, 12 * HOUR, DAY, 2 * DAY, 4 * DAY, 7 * DAY, 14 * DAY)
_MONTH_STEPS = (1, 2, 3, 6, 12)
_ROOM_PX = 64.0


class Tick(NamedTuple):
    """One mark of the axis."""

    seconds: float
    label: str


def ticks(axis: TimeAxis) -> tuple[Tick, ...]:
    """Return the marks in view, at least 64 px apart, on whole hours, days or months."""
    least = axis.span * _ROOM_PX / (axis.right - axis.left)
    step = next((step for step in _STEPS if step >= least), None)
    moments = _months(axis, least) if step is None else _even(axis, step)
    return tuple(Tick(at.timestamp(), _label(at, step)) for at in moments)


def _even(axis: TimeAxis, step: float) -> Iterator[datetime]:
    first = axis.moment(axis.start).replace(hour=0, minute=0, second=0, microsecond=0)
    if step > DAY:  # counted from a fixed day, so that marks stay put while panning
        first -= timedelta(days=first.toordinal() % round(step / DAY))
    count = 0
    while True:
        # Wall time is stepped, not seconds: a clock change keeps marks on midnight.
        at = first + timedelta(seconds=step * count)
        count += 1
        if at.timestamp() > axis.end:
            return
        if at.timestamp() >= axis.start:
            yield at


def _months(axis: TimeAxis, least: float) -> Iterator[datetime]:
    each = next((m for m in _MONTH_STEPS if m * 28 * DAY >= least), _MONTH_STEPS[-1])
    first = axis.moment(axis.start)
    month = (first.year * 12 + first.month - 1) // each * each
    while True:
        at = datetime(month // 12, month % 12 + 1, 1, tzinfo=axis.zone)
        month += each
        if at.timestamp() > axis.end:
            return
        if at.timestamp() >= axis.start:
            yield at


def _label(at: datetime, step: float | None) -> str:
    if step is None:
        return f"{MONTHS[at.month - 1]} {at.year}" if at.month == 1 else MONTHS[at.month - 1]
    if step < DAY and at.hour:
        return f"{at.hour}:00"
    if step <= 2 * DAY:
        return f"{WEEKDAYS[at.weekday()]} {at.day}"
    return short_day(at)


def short_day(at: datetime, now: datetime | None = None) -> str:
    """Return a day such as "3 Nov", with its year where that is not the year of `now`."""
    year = "" if now is None or now.year == at.year else f" {at.year}"
    return f"{at.day} {MONTHS[at.month - 1]}{year}"


def long_moment(at: datetime, now: datetime | None = None) -> str:
    """Return a moment such as "Fri 9 Oct 2026 18:30"; the year of `now` goes without saying."""
    year = "" if now is not None and now.year == at.year else f" {at.year}"
    return f"{WEEKDAYS[at.weekday()]} {short_day(at)}{year} {at.hour:02d}:{at.minute:02d}"
