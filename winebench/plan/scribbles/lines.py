"""Scribbled lines, each read by itself: its time, its figures, its words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime

from winebench.plan.days import settled
from winebench.plan.scribbles.body import Body, read_body, take_because
from winebench.plan.scribbles.masked import Masked
from winebench.plan.scribbles.when import When, read_when
from winebench.plan.typed.when import DayOrder, day_name

_NOTE = re.compile(r"\bnote\s*:\s*", re.ASCII)


@dataclass(frozen=True, slots=True)
class Line:
    """A line as read by itself."""

    number: int
    text: str
    masked: Masked
    when: When
    body: Body
    note: str | None
    """What follows "note:", kept word for word."""

    @property
    def when_words(self) -> str:
        """Return like "Mon 2 Nov 2026 08:00", or "" where no day could be read."""
        at = self.when.at
        return f"{day_name(at.date())} {at:%H:%M}" if at is not None else ""

    def entry_id(self, count: int) -> str:
        """Return what an entry of this line is called until it is logged."""
        return f"scribble-{self.number}-{count}"


def read_lines(rows: list[str], now: datetime, pitched: date | None, order: DayOrder) -> list[Line]:
    """Return the lines that have words; one without a day has that of the lines above."""
    found = []
    above: date | None = None
    for number, row in enumerate(rows, 1):
        if row.strip():
            line = _line(number, row, now, above, pitched, order)
            above = line.when.day
            found.append(line)
    return found


def _line(
    number: int,
    row: str,
    now: datetime,
    above: date | None,
    pitched: date | None,
    order: DayOrder,
) -> Line:
    masked = Masked(row)
    note = None
    if mark := _NOTE.search(masked.left):
        note = row[mark.end() :].strip()
        masked.cover(mark.start(), len(row))
        if not masked.left.strip() and above is None:
            when = When(at=settled(now))
            return Line(number, row, masked, when, Body(), note)
    why = take_because(masked)
    when = read_when(masked, now, above, pitched, order)
    body = read_body(masked)
    body.why = why
    return Line(number, row, masked, when, body, note)
