"""A day as far as it is known: people remember the month a pack was opened, or the year."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date
from typing import ClassVar

from winebench.units import Typed, UnitsError

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
"""Spelled here because the system's names depend on its language."""


class RoughDay(Typed):
    """A day, month or year as typed: "3 Mar 2025", "March 2025", "2025-03" or "2025"."""

    __slots__ = ("first", "last")
    first: date
    """The earliest day that it can mean."""
    last: date
    _FORM: ClassVar[re.Pattern[str]] = re.compile(
        r"(?P<iso_year>\d{4})-(?P<iso_month>\d{1,2})(?:-(?P<iso_day>\d{1,2}))?"
        r"|(?:(?P<day>\d{1,2})\.?\s+)?(?P<month>[a-z]{3,9})\.?,?\s+(?P<year>\d{4})"
        r"|(?P<bare_year>\d{4})",
        re.IGNORECASE | re.ASCII,
    )

    def __init__(self, text: str) -> None:
        problem = UnitsError(
            f'"{text.strip()}" is not a day; write one such as 3 Mar 2025, March 2025 or 2025.'
        )
        found = self._FORM.fullmatch(text.strip())
        if found is None:
            raise problem
        year = int(found["iso_year"] or found["year"] or found["bare_year"])
        try:
            month = int(found["iso_month"]) if found["iso_month"] else _month(found["month"])
            day = found["iso_day"] or found["day"]
            first = date(year, 1 if month is None else month, int(day or 1))
            last = first if day else _last_of(year, month or 12)
        except ValueError:
            raise problem from None
        super().__init__(text)
        object.__setattr__(self, "first", first)
        object.__setattr__(self, "last", last)

    @property
    def exact(self) -> bool:
        """Return whether the very day is known."""
        return self.first == self.last

    @property
    def words(self) -> str:
        """Return it for people: "3 March 2025", "March 2025" or "2025"."""
        month = MONTHS[self.first.month - 1]
        if self.exact:
            return f"{self.first.day} {month} {self.first.year}"
        same = self.first.month == self.last.month
        return f"{month} {self.first.year}" if same else str(self.first.year)


def _last_of(year: int, month: int) -> date:
    return date(year, month, monthrange(year, month)[1])


def _month(name: str | None) -> int | None:
    """Return the month's number, None where none is named; ValueError for one that is none."""
    if not name:
        return None
    names = [month.lower() for month in MONTHS]
    return 1 + next(
        (number for number, full in enumerate(names) if full.startswith(name.lower())), 12
    )
