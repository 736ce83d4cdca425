"""The command that logs a sensor's table of readings."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

from winebench.cli.arguments import CommandError
from winebench.cli.projects import now, plan, read, write
from winebench.cli.show import print_json, wrapped
from winebench.model.log import Reading
from winebench.plan.days import settled
from winebench.plan.sensor.table import (
    LARGEST,
    LeftOut,
    SensorTable,
    TableError,
    sensor_table,
    table_text,
)
from winebench.plan.sensor.words import counted, ends, reading_words, said_of

_SHOWN = 20
"""Rows left out that are named one by one; with --json all are."""


def readings(arguments: argparse.Namespace) -> int:
    """Show what the table holds; with --write, log it. Ends with 1 where a row cannot be read."""
    project = read(arguments.file)
    at = arguments.at or now()
    if settled(at) > now() + timedelta(hours=1):
        raise CommandError(f"{at:%Y-%m-%d %H:%M} is still to come; check --at")
    try:
        found = sensor_table(project, table_text(_data(arguments.table)), at)
    except TableError as problem:
        raise CommandError(f'"{arguments.table}": {problem}') from problem
    writes = bool(arguments.write and found.readings)
    if writes:
        after = found.edit(project).apply(project)
        plan(after, settled(at))
        write(arguments.file, after)
    if arguments.json:
        print_json(_as_json(found, writes=writes))
    else:
        print("\n".join(_preview(found)))
        print(_outcome(found, arguments.file, writes=writes))
    return 1 if found.unread else 0


def _data(path: Path) -> bytes:
    try:
        if path.is_file() and path.stat().st_size > LARGEST:
            raise CommandError(f'"{path}" is far too large for a table of readings; part it')
        return path.read_bytes()
    except OSError as problem:
        raise CommandError(f'"{path}" cannot be read: {problem.strerror}') from problem


def _as_json(found: SensorTable, *, writes: bool) -> dict[str, object]:
    first, last = ends(found)
    return {
        "written": writes,
        "rows": found.rows,
        "new": len(found.readings),
        "known": found.known,
        "first": first,
        "last": last,
        "unread": found.unread,
        "outside": found.outside,
        "ignored_columns": found.ignored,
    }


def _preview(found: SensorTable) -> Iterator[str]:
    first, last = ends(found)
    yield from map(_line, first)
    if len(found.readings) > len(first) + len(last):
        yield f"  … {len(found.readings) - len(first) - len(last):,} more …"
    yield from map(_line, last)
    for title, rows in (
        ("Cannot be read:", found.unread),
        ("Outside this batch:", found.outside),
    ):
        yield from _left_out(title, rows)
    for sentence in said_of(found):
        yield from wrapped("", sentence)


def _line(reading: Reading) -> str:
    when, what, note = reading_words(reading)
    return f"  {when}  {what}  {note}".rstrip()


def _left_out(title: str, rows: tuple[LeftOut, ...]) -> Iterator[str]:
    if rows:
        yield title
    for left in rows[:_SHOWN]:
        yield from wrapped(f"  row {left.row}: ", f"{left.sentence}  [{left.text}]")
    if len(rows) > _SHOWN:
        yield f"  … and {counted(len(rows) - _SHOWN, 'more row', 'more rows')}"


def _outcome(found: SensorTable, file: Path, *, writes: bool) -> str:
    new = counted(len(found.readings), "reading", "readings")
    if writes:
        return f'Logged {new} in "{file}".'
    if not found.readings:
        return "Nothing was written: there is nothing new to log."
    return f"Nothing was written; --write logs {new}."
