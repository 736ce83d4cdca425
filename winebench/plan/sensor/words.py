"""A sensor's table in words, for the window and the command line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from winebench.model.log import Reading
from winebench.plan.sensor.table import SensorTable
from winebench.plan.typed.readings import measured_words
from winebench.plan.typed.when import day_name

_AT_EACH_END = 4


class Ends(NamedTuple):
    """The first and the last readings of a table, none of them twice."""

    first: tuple[Reading, ...]
    last: tuple[Reading, ...]


class ReadingWords(NamedTuple):
    """One reading of the table in words."""

    when: str
    what: str
    note: str


def ends(found: SensorTable) -> Ends:
    """Return the first and the last of what is new."""
    first = found.readings[:_AT_EACH_END]
    return Ends(first, found.readings[len(first) :][-_AT_EACH_END:])


def reading_words(reading: Reading) -> ReadingWords:
    """Return like "Mon 2 Nov 2026 08:00", "Read 1.064 at 22 °C" and its note."""
    when = f"{day_name(reading.at.date())} {reading.at:%H:%M}"
    return ReadingWords(when, measured_words(reading), reading.note)


def said_of(found: SensorTable) -> Iterator[str]:
    """Give a sentence each of how much is new, known, left out and not looked at."""
    rows = counted(found.rows, "row", "rows")
    yield f"{rows} in the table, {counted(len(found.readings), 'reading', 'readings')} to log."
    if found.known:
        noun = "is" if found.known == 1 else "are"
        yield f"{found.known:,} {noun} in the log already, or twice in the table: not added again."
    if found.unread:
        yield f"{counted(len(found.unread), 'row', 'rows')} cannot be read and will be left out."
    if found.outside:
        yield (
            f"{counted(len(found.outside), 'row', 'rows')} from before this batch or still to come "
            "will be left out."
        )
    if found.ignored:
        names = ", ".join(f'"{name}"' for name in found.ignored[:6])
        more = f" and {len(found.ignored) - 6} more" if len(found.ignored) > 6 else ""
        noun = "Column" if len(found.ignored) == 1 else "Columns"
        yield f"{noun} not used: {names}{more}."


def counted(count: int, one: str, many: str) -> str:
    """Return like "1 row" or "12,340 rows"."""
    return f"{count:,} {one if count == 1 else many}"
