"""What the commands share: reading a project, or a sample, and writing it back."""

from __future__ import annotations

import argparse
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from winebench.cli.arguments import CommandError
from winebench.model.project import Project
from winebench.plan.outlook import Outlook
from winebench.store import project_file
from winebench.store.local_zone import LOCAL_ZONE
from winebench.store.project_file import StoreError
from winebench.units import UnitsError


def now() -> datetime:
    """Return this moment in local time; the only clock of the command line."""
    return datetime.now(LOCAL_ZONE).replace(microsecond=0)


def read(path: Path) -> Project:
    """Return the project in that file, or raise CommandError with the reason."""
    try:
        return project_file.read(path)
    except (StoreError, UnitsError) as problem:
        raise CommandError(str(problem)) from problem


def plan(project: Project, at: datetime) -> Outlook:
    """Return the outlook, or raise CommandError where the recipe cannot be worked out."""
    from winebench.plan.work_out import outlook

    try:
        return outlook(project, at)
    except UnitsError as problem:
        raise CommandError(f'"{project.name}": {problem}') from problem


class Look(NamedTuple):
    """A project as it is looked at."""

    project: Project
    """Seen from the past, without what was logged later."""
    at: datetime
    back: str
    """One sentence where something is left out so; else empty."""


def look(path: Path, at: datetime | None) -> Look:
    """Return the project in that file as known at that moment; None is now.

    What was logged later than a moment of the past does not exist yet. CommandError as in `read`.
    """
    from winebench.plan.looking_back import known_at, looking_back_words

    project, today = read(path), now()
    if at is None or at >= today:
        return Look(project, at or today, "")
    return Look(known_at(project, at), at, looking_back_words(project, at))


def write(path: Path, project: Project) -> None:
    """Write the project, or raise CommandError and leave the file as it was."""
    try:
        project_file.write(path, project)
    except StoreError as problem:
        raise CommandError(str(problem)) from problem


def chosen(arguments: argparse.Namespace) -> Look:
    """Return the project of FILE or --like, and the moment to see it at."""
    if arguments.like:
        at = arguments.at or now()
        return Look(sample(arguments.like, at), at, "")  # its days are moved to end there
    if arguments.file is None:
        raise CommandError("name a project file, or a sample with --like (see winebench samples)")
    return look(arguments.file, arguments.at)


def sample(name: str, at: datetime) -> Project:
    """Return a copy of that bundled sample with its days moved to end at `at`."""
    from winebench.store.samples import sample_names, sample_seen_at

    if name not in sample_names():
        raise CommandError(
            f'there is no sample "{name}"; the samples are {", ".join(sample_names())}'
        )
    return sample_seen_at(name, at)
