"""When the must is (to be) made up, as typed: "6 Oct 18:30"."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime

from winebench.units import UnitsError
from winebench.window.batch.days import day_text, read_day

_TIMED = re.compile(r"(?P<day>.*?)[\s,]+(?P<hour>\d{1,2}):(?P<minute>\d{2})", re.ASCII)
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
        found = _TIMED.fullmatch(text.strip())
        day = read_day(found["day"] if found else text, now().date())
        hour, minute = (int(found["hour"]), int(found["minute"])) if found else (_HOUR, 0)
        if hour > 23 or minute > 59:
            raise UnitsError(f'"{text.strip()}" has no such time; write one such as 18:30.')
        if now().tzinfo is None or _is_fixed(now()):
            return datetime(day.year, day.month, day.day, hour, minute, tzinfo=now().tzinfo)
        return datetime(day.year, day.month, day.day, hour, minute).astimezone()

    return read


def _is_fixed(moment: datetime) -> bool:
    """Return whether the moment's offset is other than this computer's at that time."""
    return moment.utcoffset() != moment.replace(tzinfo=None).astimezone().utcoffset()
