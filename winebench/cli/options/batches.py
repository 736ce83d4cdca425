"""The arguments of the commands that set batches beside each other."""

from __future__ import annotations

import argparse
from pathlib import Path

from winebench.cli.arguments import Command, at_option, json_option


def add(command: Command) -> None:
    """Add them."""
    again = command("again", "again", "again", "a new batch of one that was made, as it was made")
    again.add_argument("file", type=Path)
    again.add_argument("-o", "--output", type=Path, required=True, help="the new project's file")
    at_option(again)

    compare = command("compare", "compare", "compare", "what differs between two batches")
    compare.add_argument("file", type=Path)
    compare.add_argument("other", type=Path)
    at_option(compare)
    json_option(compare)

    _learn(command("learn", "learn", "learn", "let forecast and losses learn from batches"))


def _learn(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path)
    parser.add_argument("batches", nargs="*", type=Path, metavar="FROM", help="finished batches")
    less = parser.add_mutually_exclusive_group()
    one = "learn no more from that one"
    less.add_argument("--forget", action="append", default=[], metavar="NAME", help=one)
    less.add_argument("--forget-all", action="store_true", help="learn from none, as at first")
    at_option(parser)
