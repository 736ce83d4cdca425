"""A sensor's table of readings, as CSV text, to readings for the log.

Columns: `time` (ISO 8601, local where it has no offset; or from the pitch: "30 h", "1.5 d"),
`gravity` (SG, or °Brix with its unit), and, if wanted, `temperature` and `note`. A unit may stand
in the heading: `temperature (°F)`, `gravity (°Brix)`, `time (UTC)`, `time (h)`. What a row has
that cannot be read is said of that row alone; the others are read all the same.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache

from winebench.forecast.cells import TableError, moment
from winebench.model.edits import Change
from winebench.model.log import Reading
from winebench.model.project import Project
from winebench.plan.days import Clock, settled
from winebench.plan.sensor.heading import Heading, heading
from winebench.plan.typed.fields import Scale, Slip, read_gravity, read_temperature
from winebench.plan.typed.when import day_name
from winebench.units import Gravity, Temperature

__all__ = ["LARGEST", "LeftOut", "SensorTable", "TableError", "TableReader", "sensor_table",
           "table_text"]  # fmt: skip

LARGEST = 64 * 1024 * 1024
"""A year of readings, one each minute, is about 25 MB: what is larger is no such table, B."""
BEFORE_PITCH = timedelta(days=1)
AHEAD = timedelta(hours=1)
"""A sensor's clock may run ahead by so much."""
_AT_A_TIME = 2000
"""Rows that are read in a few hundredths of a second."""
_NO_TEXT = tuple(map(chr, (*range(9), *range(14, 27))))
"""Control characters, which no table has and nearly every other file."""
_IDLE_DIGITS = re.compile(r"([.,]\d{5})\d+", re.ASCII)
"""Decimals that no instrument means: sensors print all that their arithmetic gives."""
_IDLE_DEGREES = re.compile(r"([.,]\d{2})\d+", re.ASCII)
_Key = tuple[float, float, str]


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A row that is not logged: its number in the table, its text, why, and what to do."""

    row: int
    """As a spreadsheet counts: the heading is row 1."""
    text: str
    sentence: str


@dataclass(frozen=True, slots=True)
class SensorTable:
    """What a table holds for one batch at one moment."""

    rows: int
    """Under the heading; empty ones are not counted."""
    readings: tuple[Reading, ...]
    """What is new, in order of time."""
    known: int
    """Rows that the log, or a row above, has already: same time, same gravity."""
    unread: tuple[LeftOut, ...]
    outside: tuple[LeftOut, ...]
    """Rows more than a day before the pitch or still to come."""
    ignored: tuple[str, ...]
    """Headings of the columns that are not used."""

    def edit(self, project: Project) -> Change:
        """Return one edit that adds the new readings to the project's log."""
        return Change(
            label="log readings from a table", fields={"log": project.log + self.readings}
        )


def table_text(data: bytes) -> str:
    """Return the text of a table's file: UTF-8, else UTF-16 by its mark, else Windows-1252.

    The last is what spreadsheets save where nothing else is asked of them.

    Raises:
        TableError: it is no text, but a spreadsheet's own file or a picture.

    """
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        text = data.decode("utf-16", "replace")
    else:
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = data.decode("cp1252", "replace")
    if any(sign in text for sign in _NO_TEXT):
        raise TableError("it is no text; save the table as CSV in UTF-8 and name that file")
    return text


def sensor_table(project: Project, text: str, now: datetime) -> SensorTable:
    """Return what the whole table holds; `now` carries the zone of times without an offset.

    Raises:
        TableError: it is no table of readings at all; one sentence.

    """
    reader = TableReader(project, text, now)
    while reader.read_some():
        pass
    return reader.table()


class TableReader:
    """Read a table piece by piece, so that a window can go on between the pieces."""

    def __init__(self, project: Project, text: str, now: datetime) -> None:
        """Read the heading; raises TableError where it names no readings."""
        plain = text.lstrip("\ufeff")
        self._reader = csv.reader(io.StringIO(plain, newline=""), delimiter=_separator(plain))
        self._rows = enumerate(self._reader, 1)
        self._lines = max(plain.count("\n"), 1)
        self._heading = self._read_heading()
        self._clock = Clock(now)
        self._zone = now.tzinfo
        self._scale: Scale = "F" if project.room.fahrenheit else "C"
        pitch = next((a.at for a in project.actions if a.step == "pitch"), None)
        self._pitch = settled(pitch) if pitch else None
        self._known = {
            _key(reading.at, reading.gravity) for reading in project.readings if reading.gravity
        }
        self._ids = {entry.id for entry in project.log}
        self._before: datetime | None = None
        self._found: list[Reading] = []
        self._unread: list[LeftOut] = []
        self._outside: list[LeftOut] = []
        self._count = self._twice = 0

    @property
    def share(self) -> float:
        """Return how much of the table is read, 0 to 1."""
        return min(self._reader.line_num / self._lines, 1.0)

    def table(self) -> SensorTable:
        """Return what was read so far."""
        return SensorTable(
            rows=self._count,
            readings=tuple(sorted(self._found, key=lambda reading: reading.at)),
            known=self._twice,
            unread=tuple(self._unread),
            outside=tuple(self._outside),
            ignored=self._heading.ignored,
        )

    def read_some(self, rows: int = _AT_A_TIME) -> bool:
        """Read on for so many rows; return whether there are more. Raises TableError."""
        for _ in range(rows):
            try:
                number, cells = next(self._rows)
            except StopIteration:
                return False
            except csv.Error as problem:
                raise TableError(
                    f"line {self._reader.line_num} is none of a table ({problem}); save it as CSV"
                ) from None
            if any(cell.strip() for cell in cells):
                self._count += 1
                self._read_row(number, cells)
        return True

    def _read_heading(self) -> Heading:
        try:
            for _number, cells in self._rows:
                if any(cell.strip() for cell in cells):
                    return heading(cells)
        except csv.Error as problem:
            raise TableError(f"this is no table ({problem}); save it as CSV") from None
        raise TableError('the table is empty; give it a first line "time,gravity" and readings')

    def _read_row(self, number: int, cells: list[str]) -> None:
        try:
            reading = self._reading(cells)
        except TableError as problem:
            self._unread.append(LeftOut(number, _words(cells), _sentence(str(problem))))
            return
        outside = self._where_outside(reading.at)
        if outside:
            self._outside.append(LeftOut(number, _words(cells), _sentence(outside)))
            return
        assert reading.gravity is not None
        key = _key(reading.at, reading.gravity)
        if key in self._known:
            self._twice += 1
            return
        self._known.add(key)
        self._ids.add(reading.id)
        self._found.append(reading)

    def _reading(self, cells: list[str]) -> Reading:
        time, gravity, temperature, note = self._heading.pick(cells)
        if not time:
            raise TableError('no time; write one such as 2026-10-06T18:30 or "30 h"')
        if not gravity:
            raise TableError("no gravity; write one such as 1.064, or take the row out")
        at = self._moment(time)
        return Reading(
            id=self._new_id(at),
            at=at,
            gravity=_sound_gravity(gravity),
            temperature=_sound_temperature(temperature, self._scale) if temperature else None,
            note=note,
        )

    def _moment(self, text: str) -> datetime:
        found = moment(text)
        if isinstance(found, float):
            return self._after_pitch(text, found)
        if found.tzinfo is not None:
            return settled(found)
        if self._heading.utc:
            return self._clock.local(found.replace(tzinfo=UTC))
        at = settled(found.replace(tzinfo=self._zone))
        if self._before is not None and at < self._before:
            # In the night when clocks go back an hour comes twice; rows in order tell which.
            again = settled(found.replace(tzinfo=self._zone, fold=1))
            at = again if again >= self._before else at
        self._before = at
        return at

    def _after_pitch(self, text: str, hours: float) -> datetime:
        if self._pitch is None:
            raise TableError(
                f'"{text}" counts from the pitch, and no pitch is in the log; tick off "Pitch the '
                'yeast" first, or write times such as 2026-10-06T18:30'
            )
        try:
            return self._clock.hours_after(self._pitch, hours).replace(microsecond=0)
        except OverflowError:
            raise TableError(f'"{text}" is no time of this batch; check it') from None

    def _where_outside(self, at: datetime) -> str:
        """Return why a moment is none of this batch's, and what to do; "" where it is."""
        if at > self._clock.now + AHEAD:
            return f"{_day(at)} is still to come; check the sensor's clock"
        if self._pitch is not None and at < self._pitch - BEFORE_PITCH:
            return (
                f"{_day(at)} is more than a day before the yeast went in ({_day(self._pitch)}); "
                "check the sensor's clock, or leave it out"
            )
        return ""

    def _new_id(self, at: datetime) -> str:
        """Return an id by the reading's moment: the same table always gives the same ids."""
        plain = f"{round(at.timestamp() * 1e6):x}"
        tries: Iterator[str] = (f"{plain}-{again}" for again in range(2, 1_000_000))
        return plain if plain not in self._ids else next(i for i in tries if i not in self._ids)


def _separator(text: str) -> str:
    head = text.lstrip().partition("\n")[0]
    return next((mark for mark in (";", "\t") if mark in head), ",")


def _key(at: datetime, gravity: Gravity) -> _Key:
    return at.timestamp(), gravity.value, gravity.scale


def _words(cells: list[str]) -> str:
    text = " · ".join(cell.strip() for cell in cells if cell.strip())
    return text if len(text) <= 80 else f"{text[:79]}…"


def _sentence(words: str) -> str:
    return words if words.endswith(("?", ".")) else f"{words}."


def _day(at: datetime) -> str:
    return f"{day_name(at.date())} {at:%H:%M}"


def _sound_gravity(text: str) -> Gravity:
    found = _gravity(_IDLE_DIGITS.sub(r"\1", text))
    if isinstance(found, Slip):
        raise TableError(found.sentence.rstrip("."))
    return found


def _sound_temperature(text: str, scale: Scale) -> Temperature:
    found = _temperature(_IDLE_DEGREES.sub(r"\1", text), scale)
    if isinstance(found, Slip):
        raise TableError(found.sentence.rstrip("."))
    return found


# A sensor says the same few hundred figures over and over.
_gravity = lru_cache(maxsize=4096)(read_gravity)
_temperature = lru_cache(maxsize=4096)(read_temperature)
