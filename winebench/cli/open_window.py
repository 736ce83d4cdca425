"""The command without a name: open the window."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.commands import COMMANDS


def open_window(arguments: argparse.Namespace) -> int:
    """Open the window on FILE, on a copy of a sample, or on the last work."""
    from winebench.cli.projects import now, sample
    from winebench.window.app import run

    if arguments.file is not None and not arguments.file.exists():
        raise CommandError(
            f'there is no file "{arguments.file}"; the commands are {", ".join(COMMANDS)}'
        )
    like = sample(arguments.like, now()) if arguments.like else None
    return run(arguments.file, like)
