"""A table of readings, as CSV text, to a forecast; and a forecast to plain JSON values.

Columns: `time` (ISO 8601, or from the pitch: "30 h", "1.5 d"), `gravity` (specific gravity at the
hydrometer's own temperature), and, if wanted, `temperature` (of the must), `room` and `event`.
"""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from statistics import median
from typing import Any

from winebench.forecast.api import Event, Evidence, Forecast, Observation, Setup
from winebench.forecast.cells import TableError, celsius, event, gravity, moment
from winebench.forecast.finished_ferment import NotFinishedError, finished
from winebench.forecast.forecaster import cached_forecast
from winebench.forecast.learned import Finished, Learned

__all__ = ["TableError", "as_json", "evidence_from_csv", "finished_from_csv", "forecast_from_csv"]

COLUMNS = ("time", "gravity", "temperature", "room", "event")
OG_UNTIL_H = 12.0
EARLY_UNTIL_H = 36.0
EARLY_OG_SD = 0.010
MOST_HOURS = 2 * 366 * 24.0
USUAL_ROOM_C = 20.0


@dataclass(frozen=True)
class _Row:
    line: int
    when: float | datetime
    cells: dict[str, str]


def forecast_from_csv(
    text: str,
    name: str,
    *,
    og: float | None = None,
    room_celsius: float | None = None,
    below: tuple[float, ...] = (1.030, 1.000),
    learned: Learned | None = None,
) -> Forecast:
    """Return the forecast of the readings in `text`; `name` is what errors call the table.

    Raises TableError.
    """
    evidence = evidence_from_csv(text, name, og=og, room_celsius=room_celsius)
    return cached_forecast(evidence, below, learned)


def finished_from_csv(text: str, name: str) -> Finished:
    """Return what the finished ferment in `text` teaches. Raises TableError."""
    try:
        return finished(evidence_from_csv(text, name))
    except NotFinishedError as problem:
        raise TableError(f"{name} cannot be learned from: {problem}") from None


def evidence_from_csv(
    text: str, name: str, *, og: float | None = None, room_celsius: float | None = None
) -> Evidence:
    """Return the readings and events in `text`. Raises TableError."""
    rows = _rows(text, name)
    observations: list[Observation] = []
    events: list[Event] = []
    rooms: list[tuple[float, float]] = []
    pitch = _pitch(rows, name)
    for row in rows:
        hours = _hours(row, pitch, name)
        try:
            if row.cells["gravity"]:
                warm = row.cells["temperature"]
                must = celsius(warm, "temperature") if warm else None
                observations.append(Observation(hours, gravity(row.cells["gravity"]), must))
            if row.cells["room"]:
                rooms.append((hours, celsius(row.cells["room"], "room")))
            happened = event(row.cells["event"], hours) if row.cells["event"] else None
        except TableError as problem:
            raise TableError(f"{name}, line {row.line}: {problem}") from None
        events += [happened] if happened else []
    rooms.sort()
    setup = _setup(observations, rooms, og, room_celsius, name)
    events += _moves(rooms, setup.room_celsius)
    return Evidence(setup, tuple(observations), tuple(events))


def as_json(file: str, forecast: Forecast) -> dict[str, Any]:
    """Return plain values for JSON; a time that may never come is None."""
    return {
        "file": file,
        "crossings": [
            {
                "below": c.below,
                "q10_h": _finite(c.q10_h),
                "q50_h": _finite(c.q50_h),
                "q90_h": _finite(c.q90_h),
            }
            for c in forecast.crossings
        ],
        "not_finishing": forecast.not_finishing,
        "state": forecast.state,
        "next_reading_h": forecast.next_reading_h,
        "curve": {
            "h": list(forecast.curve.h),
            "q10": list(forecast.curve.q10),
            "q50": list(forecast.curve.q50),
            "q90": list(forecast.curve.q90),
        },
    }


def _finite(hours: float) -> float | None:
    return hours if math.isfinite(hours) else None


def _rows(text: str, name: str) -> list[_Row]:
    lines = text.lstrip("\ufeff")
    head = lines.lstrip().partition("\n")[0]
    mark = next((m for m in (";", "\t") if m in head), ",")
    reader = csv.reader(io.StringIO(lines), delimiter=mark)
    try:
        table = [(reader.line_num, cells) for cells in reader if any(c.strip() for c in cells)]
    except csv.Error as problem:
        raise TableError(f"{name}: not a CSV table ({problem}); save it as CSV") from None
    if not table:
        raise TableError(f'{name} is empty; give it a first line "time,gravity" and readings')
    names = [cell.strip().lower() for cell in table[0][1]]
    missing = [column for column in ("time", "gravity") if column not in names]
    if missing:
        raise TableError(
            f'{name}, line {table[0][0]}: no column "{missing[0]}"; name the columns '
            f"{', '.join(COLUMNS)} (the last three if wanted)"
        )
    return [_row(line, cells, names, name) for line, cells in table[1:]]


def _row(line: int, cells: list[str], names: list[str], name: str) -> _Row:
    if len(cells) > len(names) and any(c.strip() for c in cells[len(names) :]):
        raise TableError(
            f"{name}, line {line}: more cells than columns; if a comma stands for the decimal "
            "point, part the columns with semicolons"
        )
    found = dict.fromkeys(COLUMNS, "")
    found.update({n: c.strip() for n, c in zip(names, cells, strict=False)})
    try:
        if not found["time"]:
            raise TableError('no time; write one such as 2026-10-06T18:30 or "30 h"')
        return _Row(line, moment(found["time"]), found)
    except TableError as problem:
        raise TableError(f"{name}, line {line}: {problem}") from None


def _pitch(rows: Iterable[_Row], name: str) -> datetime | None:
    """Return the moment of the pitch: the event so named, else the earliest moment."""
    moments = [(row, row.when) for row in rows if isinstance(row.when, datetime)]
    if not moments:
        return None
    offsets = {when.tzinfo is None for _, when in moments}
    if len(offsets) > 1:
        raise TableError(
            f"{name}: some times have an offset from UTC and some do not; write all of them alike"
        )
    pitched = [when for row, when in moments if row.cells["event"].lower() == "pitch"]
    return min(pitched) if pitched else min(when for _, when in moments)


def _hours(row: _Row, pitch: datetime | None, name: str) -> float:
    hours = row.when if isinstance(row.when, float) else _since(pitch, row.when)
    if abs(hours) > MOST_HOURS:
        raise TableError(
            f"{name}, line {row.line}: {hours / 24:.0f} days from the pitch is no ferment; "
            "check the time"
        )
    return hours


def _since(start: datetime | None, when: datetime) -> float:
    assert start is not None  # the row's own moment is one that the pitch was sought in
    if when.tzinfo is not None:
        when, start = when.astimezone(UTC), start.astimezone(UTC)
    return (when - start).total_seconds() / 3600


def _setup(
    observations: list[Observation],
    rooms: list[tuple[float, float]],
    og: float | None,
    room_celsius: float | None,
    name: str,
) -> Setup:
    room = room_celsius
    if room is None and rooms:
        room = rooms[0][1]
    musts = [o.celsius for o in observations if o.celsius is not None]
    if room is None:
        room = median(musts) if musts else USUAL_ROOM_C
    if og is not None:
        return Setup(og, room_celsius=room)
    first = min(observations, key=lambda o: (o.hours, -o.sg), default=None)
    if first is None:
        raise TableError(
            f"{name} has no gravity; add a reading at the pitch, or give the original "
            "gravity with --og"
        )
    if first.hours > EARLY_UNTIL_H:
        raise TableError(
            f"{name}: the first reading is {first.hours:.0f} h after the pitch; add one at the "
            "pitch, or give the original gravity with --og"
        )
    if first.hours > OG_UNTIL_H:
        return Setup(first.sg, EARLY_OG_SD, room)
    return Setup(first.sg, room_celsius=room)


def _moves(rooms: list[tuple[float, float]], room: float) -> list[Event]:
    """Return a temperature event wherever the room changed."""
    events = []
    for hours, degrees in rooms:
        if abs(degrees - room) >= 0.5:
            events.append(Event(hours, "temperature", degrees))
            room = degrees
    return events
