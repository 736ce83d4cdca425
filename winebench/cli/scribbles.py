"""The command that turns a file of scribbled lines into entries of the log."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from datetime import timedelta

from winebench.cli.arguments import CommandError
from winebench.cli.plain_text import plain_text
from winebench.cli.projects import now, plan, read, write
from winebench.cli.show import print_json, wrapped
from winebench.plan.days import settled
from winebench.plan.scribbles import Scribble, Scribbles, keep_unread
from winebench.plan.scribbles import scribbles as read_scribbles


def scribbles(arguments: argparse.Namespace) -> int:
    """Show what each line was taken for; with --write, log it. Ends with 1 where a line is open."""
    project = read(arguments.file)
    at = arguments.at or now()
    if settled(at) > now() + timedelta(hours=1):
        raise CommandError(f"{at:%Y-%m-%d %H:%M} is still to come; check --at")
    text = plain_text(arguments.notes, "notes")
    try:
        if arguments.keep_unread:
            text = keep_unread(project, text, at, arguments.order)
        found = read_scribbles(project, text, at, arguments.order)
    except ValueError as problem:
        raise CommandError(f'"{arguments.notes}": {problem}') from problem
    after = found.edit().apply(project)
    writes = arguments.write and not found.open and bool(found.entries)
    if writes:
        plan(after, settled(at))
        write(arguments.file, after)
    if arguments.json:
        print_json({"written": writes, "lines": found.lines})
    else:
        print("\n".join(_preview(found)))
        print(_outcome(found, arguments, writes=writes))
    return 1 if found.open else 0


def _preview(found: Scribbles) -> Iterator[str]:
    for line in found.lines:
        mark = "?" if line.trouble else "=" if line.known else " "
        yield f"{mark} {line.number:3}  {line.text.strip()}"
        yield from _meaning(line)


def _meaning(line: Scribble) -> Iterator[str]:
    if line.trouble:
        yield from wrapped("        ", line.trouble)
        for offer in line.offers:
            yield f"        {offer.label}: {offer.line}"
        return
    if line.heading:
        yield f"        {line.when}: the lines below are of this day"
    for words in line.what:
        already = "  (in the log already)" if line.known else ""
        yield from wrapped("        ", f"{line.when}  {words}{already}")
    for doubt in line.doubts:
        yield from wrapped("      ~ ", doubt)


def _outcome(found: Scribbles, arguments: argparse.Namespace, *, writes: bool) -> str:
    entries = _counted(len(found.entries), "entry", "entries")
    if writes:
        return f'Logged {entries} in "{arguments.file}".'
    if found.open:
        lines = _counted(len(found.open), "line is", "lines are")
        return (
            f"Nothing was written: {lines} open (?). Write them anew, or keep them as notes with "
            "--keep-unread."
        )
    if not found.entries:
        return "Nothing was written: there is nothing new to log."
    return f"Nothing was written; --write logs {entries}."


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"
