"""Where a command may write: never over a project that it was not asked to change."""

from __future__ import annotations

from pathlib import Path

from winebench.cli.arguments import CommandError
from winebench.store.project_file import SUFFIX


def page_file(path: Path) -> Path:
    """Return the path of a page; the name of a project is refused, there or not."""
    if path.suffix.lower() == SUFFIX:
        raise CommandError(f'"{path}" is the name of a project; write to another, such as page.pdf')
    return path


def other_project(path: Path, own: Path) -> Path:
    """Return the path of a changed project: the project's own file, or one that is not there."""
    if path.exists() and not (own.exists() and path.samefile(own)):
        raise CommandError(f'"{path}" exists already; choose another name')
    return path
