"""The commands; what each does is imported only when it runs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from winebench import __version__
from winebench.cli.arguments import Parser, later, sample_option
from winebench.cli.options import batches, household, log, pages, projects, reckoning

COMMANDS = (
    "new", "check", "outlook", "scale", "log", "card", "labels", "calendar", "forecast", "work",
    "samples", "start-days", "read-card", "stand-in", "clashes", "shopping",
    "again", "compare", "solve", "learn",
)  # fmt: skip
_SUBJECTS = (projects, log, pages, household, batches, reckoning)


def parsed(argv: Sequence[str]) -> argparse.Namespace:
    """Return the arguments with `.run` set to the command."""
    if argv and argv[0] in COMMANDS:
        return _commands().parse_args(argv)
    if argv and argv[0] in ("-h", "--help"):
        return _commands().parse_args(argv)
    return _window().parse_args(argv)


def _window() -> argparse.ArgumentParser:
    parser = Parser(prog="winebench", description="Open the window.")
    parser.add_argument("file", nargs="?", type=Path)
    sample_option(parser)
    parser.add_argument("--version", action="version", version=f"winebench {__version__}")
    parser.set_defaults(run=later("open_window", "open_window"))
    return parser


def _commands() -> argparse.ArgumentParser:
    parser = Parser(
        prog="winebench",
        description="A planner for fruit wine. Without a command it opens the window "
        "(winebench [FILE] or winebench --like SAMPLE).",
    )
    parser.add_argument("--version", action="version", version=f"winebench {__version__}")
    sub = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    def command(name: str, module: str, function: str, about: str) -> argparse.ArgumentParser:
        made: argparse.ArgumentParser = sub.add_parser(name, help=about, description=about)
        made.set_defaults(run=later(module, function))
        return made

    for subject in _SUBJECTS:
        subject.add(command)
    return parser
