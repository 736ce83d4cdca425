"""What the arguments of all commands are made of, and the error of a command."""

from __future__ import annotations

import argparse
import importlib
from collections.abc import Callable
from datetime import date, datetime
from typing import NoReturn

from winebench.store.local_zone import LOCAL_ZONE

YEARS = range(1900, 2201)
"""As in project files."""
Command = Callable[[str, str, str, str], argparse.ArgumentParser]
"""Makes the parser of one command: its name, its module and function here, what it does."""


class CommandError(Exception):
    """Input that a command cannot use: one sentence for the person."""


class Parser(argparse.ArgumentParser):
    """A parser whose errors are CommandErrors."""

    def error(self, message: str) -> NoReturn:
        """Raise the message as a CommandError."""
        raise CommandError(f"{message} (see '{self.prog} --help')")


def later(module: str, function: str) -> Callable[[argparse.Namespace], int]:
    """Return a command that imports its module when run, so that `work` never loads Qt."""

    def run(arguments: argparse.Namespace) -> int:
        command = getattr(importlib.import_module(f"winebench.cli.{module}"), function)
        return int(command(arguments))

    return run


def when(text: str) -> datetime:
    """Return the moment typed as ISO 8601; without an offset it is local time."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f'"{text}" is not a time; write one such as 2026-10-06T18:30'
        ) from None
    if moment.year not in YEARS:
        raise argparse.ArgumentTypeError(f'"{text}" is in the year {moment.year}; check it')
    return moment.replace(tzinfo=LOCAL_ZONE) if moment.tzinfo is None else moment


def moment_here(text: str) -> datetime:
    """Return the moment typed as ISO 8601, on this household's wall clock with its clock changes.

    An offset says which instant is meant; the days to come keep to the clock on the wall all the
    same.
    """
    return when(text).astimezone(LOCAL_ZONE)


def day(text: str) -> date:
    """Return the day typed as ISO 8601."""
    try:
        found = date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f'"{text}" is not a day; write one such as 2026-10-06'
        ) from None
    if found.year not in YEARS:
        raise argparse.ArgumentTypeError(f'"{text}" is in the year {found.year}; check it')
    return found


def at_option(parser: argparse.ArgumentParser) -> None:
    """Add the moment to look from."""
    parser.add_argument(
        "--at", type=moment_here, help="as seen at this time (ISO 8601), past or to come; else now"
    )


def json_option(parser: argparse.ArgumentParser) -> None:
    """Add the wish for JSON."""
    parser.add_argument("--json", action="store_true", help="one JSON document, nothing else")


def sample_option(parser: argparse.ArgumentParser) -> None:
    """Add the wish for a copy of a sample."""
    parser.add_argument("--like", metavar="SAMPLE", help="a copy of a bundled sample")


def country(text: str) -> str:
    """Return whose gallon was typed."""
    found = {"us": "US", "imperial": "imperial"}.get(text.lower())
    if found is None:
        raise argparse.ArgumentTypeError(f'"{text}" is neither US nor imperial')
    return found
