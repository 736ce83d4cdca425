"""The command that keeps a picture with an entry of the log."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.entries import entry_meant
from winebench.cli.projects import read, write
from winebench.model.edits import PutEntry, changed
from winebench.output.pictures import check_picture
from winebench.store.errors import StoreError
from winebench.store.pictures import add_picture, picture_path


def picture(arguments: argparse.Namespace) -> int:
    """Copy the picture beside the project and note it with the entry."""
    project = read(arguments.file)
    entry = entry_meant(project, arguments.entry)
    try:
        check_picture(arguments.picture)
        name = add_picture(arguments.file, arguments.picture)
    except StoreError as problem:
        raise CommandError(str(problem)) from problem
    after = PutEntry(
        label="add a picture", entry=changed(entry, pictures=(*entry.pictures, name))
    ).apply(project)
    try:
        write(arguments.file, after)
    except CommandError:
        picture_path(arguments.file, name).unlink(missing_ok=True)
        raise
    print(f'Kept as "{name}" with the entry of {entry.at:%Y-%m-%d %H:%M}.')
    return 0
