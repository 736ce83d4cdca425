"""The log as lines with their ids, and which entry somebody means."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.projects import now, read
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.plan.picture_words import picture_words
from winebench.plan.scribbles.gates import entry_words
from winebench.plan.typed.fields import Slip, read_moment


def entries(arguments: argparse.Namespace) -> int:
    """Print the log, newest last: when, what, and the id by which other commands name it."""
    project = read(arguments.file)
    if arguments.json:
        from winebench.cli.show import print_json

        print_json([_fields(entry, project) for entry in project.entries])
        return 0
    if not project.entries:
        print("Nothing is logged yet.")
    for entry in project.entries:
        print(_line(entry, project))
    return 0


def _line(entry: Entry, project: Project) -> str:
    said = " · ".join(filter(None, (_words(entry, project), picture_words(entry))))
    return f"{entry.at:%Y-%m-%d %H:%M}  {said}  [{entry.id}]"


def _words(entry: Entry, project: Project) -> str:
    return " ".join(entry_words(entry, project).split())


def _fields(entry: Entry, project: Project) -> dict[str, object]:
    return {
        "id": entry.id,
        "at": entry.at.isoformat(),
        "says": _words(entry, project),
        "pictures": list(entry.pictures),
    }


def entry_meant(project: Project, text: str) -> Entry:
    """Return the entry of that id, the "last" one, or the one of that time, as it is listed.

    Raises:
        CommandError: there is none, or several; one sentence.

    """
    found = next((entry for entry in project.log if entry.id == text), None)
    if found is not None:
        return found
    if text == "last" and project.entries:
        return project.entries[-1]
    at = read_moment(text.replace("T", " "), now())
    if isinstance(at, Slip):
        raise CommandError(
            f'no entry of the log has the id "{text}"; `winebench log FILE list` shows them, '
            'or write "last" or its time, such as "2026-10-06 18:30"'
        )
    minute = f"{at:%Y-%m-%d %H:%M}"
    there = [entry for entry in project.entries if f"{entry.at:%Y-%m-%d %H:%M}" == minute]
    if len(there) == 1:
        return there[0]
    if not there:
        raise CommandError(
            f"nothing is logged at {minute}; `winebench log FILE list` shows what is"
        )
    ids = ", ".join(f"{entry.id} ({_words(entry, project)})" for entry in there)
    raise CommandError(f"{minute} has {len(there)} entries; name one by its id: {ids}")
