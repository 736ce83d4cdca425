"""When the must is (to be) made up, as typed: "6 Oct 18:30"."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from winebench.plan.typed.when import CLOCK, Hour, hour_meant
from winebench.units import UnitsError
from winebench.window.batch.days import day_text, read_day

_HOUR = 18
"""A day without a time means the evening: most must is made after work."""


def start_text(start: datetime | None) -> str:
    """Return the start as a field shows it; nothing where it plans from now."""
    if start is None:
        return ""
    return f"{day_text(start.date())} {start.hour:02d}:{start.minute:02d}"


def read_start(now: Callable[[], datetime]) -> Callable[[str], datetime]:
    """Return a reader of the start, in the time zone of now."""

    def read(text: str) -> datetime:
        plain = text.strip().lower()
        clock = CLOCK.search(plain)
        rest = f"{plain[: clock.start()]}{plain[clock.end() :]}" if clock else plain
        day = read_day(rest.strip(" ,"), now().date())
        timed = hour_meant(clock) if clock else Hour(_HOUR, 0)
        if timed is None:
            raise UnitsError(f'"{text.strip()}" has no such time; write one such as 18:30.')
        hour, minute = timed
        if now().tzinfo is None or _is_fixed(now()):
            return datetime(day.year, day.month, day.day, hour, minute, tzinfo=now().tzinfo)
        return datetime(day.year, day.month, day.day, hour, minute).astimezone()

    return read


def _is_fixed(moment: datetime) -> bool:
    """Return whether the moment's offset is other than this computer's at that time."""
    return moment.utcoffset() != moment.replace(tzinfo=None).astimezone().utcoffset()
