"""Days as a maker writes them: "6 Oct", "Oct 6", "6 October 2026", "2026-10-06"."""

from __future__ import annotations

import re
from datetime import date

from winebench.plan.days import MONTHS
from winebench.units import UnitsError

_NAMED = re.compile(
    r"(?:(?P<day>\d{1,2})(?:st|nd|rd|th|\.)?\s*(?P<month>[a-z]{3})[a-z]*\.?"
    r"|(?P<first_month>[a-z]{3})[a-z]*\.?\s*(?P<then_day>\d{1,2})(?:st|nd|rd|th)?)"
    r"(?:,?\s+(?P<year>\d{4}))?",
    re.IGNORECASE | re.ASCII,
)
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)


def read_day(text: str, near: date) -> date:
    """Return the day meant; a day without a year is the one nearest to `near`.

    Raises:
        UnitsError: the text is no day.

    """
    plain = text.strip()
    problem = UnitsError(f'"{plain}" is not a day; write one such as 6 Oct or 2026-10-06.')
    iso, named = _ISO.fullmatch(plain), _NAMED.fullmatch(plain)
    try:
        if iso is not None:
            return date(int(iso[1]), int(iso[2]), int(iso[3]))
        if named is None:
            raise problem
        name = (named["month"] or named["first_month"]).lower()
        month = [each[:3].lower() for each in MONTHS].index(name) + 1
        day = int(named["day"] or named["then_day"])
        if named["year"]:
            return date(int(named["year"]), month, day)
        years = (near.year - 1, near.year, near.year + 1)
        days = [date(year, month, day) for year in years]
    except ValueError:
        raise problem from None
    return min(days, key=lambda day: abs(day - near))


def day_text(day: date) -> str:
    """Return the day as a field shows it: "6 Oct 2026"."""
    return f"{day.day} {MONTHS[day.month - 1][:3]} {day.year}"
