"""The arguments of the command that adds to the log."""

from __future__ import annotations

import argparse
from pathlib import Path

from winebench.cli.arguments import Command, json_option, later, moment_here, when


def add(command: Command) -> None:
    """Add it."""
    parser = command("log", "log", "log", "add a reading, an action or a note to the log")
    parser.add_argument("file", type=Path)
    kinds = parser.add_subparsers(title="what", dest="what", required=True, metavar="WHAT")
    reading = kinds.add_parser("reading", help="a gravity, temperature, pH ...")
    reading.add_argument("--sg", help="gravity as read, such as 1.042")
    reading.add_argument("--temp", help='of the sample, such as "68 degF"')
    reading.add_argument("--ph", help="pH")
    reading.add_argument("--acid", help="titratable acidity, g/L as tartaric")
    reading.add_argument("--free-so2", help="free sulfite, mg/L")
    reading.add_argument("--clear", choices=tuple("01234"), help="0 opaque ... 4 reads print")
    reading.add_argument("--degassed", action="store_true", help="the gas was shaken out")
    reading.add_argument("--refractometer", action="store_true", help="read by refractometer")
    action = kinds.add_parser("action", help="a step that was done")
    action.add_argument("step", help="its key, as `winebench outlook` shows it")
    action.add_argument(
        "--record", action="append", default=[], metavar="NAME=VALUE", help="what was written down"
    )
    action.add_argument("--because", default="", help="why a held step was done all the same")
    note = kinds.add_parser("note", help="anything worth keeping")
    note.add_argument("text")
    for kind in (reading, action, note):
        kind.add_argument("--at", type=when, help="when it happened (ISO 8601); else now")
    _scribbles(kinds.add_parser("scribbles", help="many lines, such as: Mon 8am 1.064 22C stirred"))
    _readings(kinds.add_parser("readings", help="a sensor's table: time, gravity, temperature"))
    listed = kinds.add_parser("list", help="what is logged, each entry with its id")
    listed.set_defaults(run=later("entries", "entries"))
    json_option(listed)
    picture = kinds.add_parser("picture", help="keep a picture with an entry of the log")
    picture.set_defaults(run=later("pictures", "picture"))
    picture.add_argument(
        "entry", metavar="ENTRY", help='id of the entry, its time, or "last"; `list` shows them'
    )
    picture.add_argument("picture", type=Path, metavar="PICTURE", help="the picture's file")


def _readings(parser: argparse.ArgumentParser) -> None:
    parser.set_defaults(run=later("sensor_table", "readings"))
    parser.add_argument("table", type=Path, metavar="TABLE.csv", help="the table; see the README")
    parser.add_argument("--write", action="store_true", help="log them; else they are only shown")
    parser.add_argument("--at", type=moment_here, help="what is later is left out; else now")
    json_option(parser)


def _scribbles(parser: argparse.ArgumentParser) -> None:
    parser.set_defaults(run=later("scribbles", "scribbles"))
    parser.add_argument("notes", metavar="NOTES.txt", help="your lines; - reads standard input")
    parser.add_argument("--write", action="store_true", help="log them; else they are only shown")
    parser.add_argument(
        "--keep-unread", action="store_true", help="keep lines that cannot be read as notes"
    )
    order = parser.add_mutually_exclusive_group()
    for name, of in (("day-first", "3 November"), ("month-first", "March 11")):
        order.add_argument(
            f"--{name}", dest="order", action="store_const", const=name, default="",
            help=f"3/11 is {of}",
        )  # fmt: skip
    parser.add_argument("--at", type=moment_here, help="days count back from here; else now")
    json_option(parser)
