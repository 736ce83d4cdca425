"""The arguments of the commands that reckon or read one thing by itself."""

from __future__ import annotations

import argparse
from pathlib import Path

from winebench.cli.arguments import Command, country, json_option


def add(command: Command) -> None:
    """Add them."""
    _solve(command("solve", "solve", "solve", "reach the targets: what to change, what then reads"))

    _forecast(command("forecast", "rules", "forecast", "readings alone to a forecast"))

    work = command("work", "rules", "work", "one trade rule by itself, with its workings")
    work.add_argument("name", nargs="?", help="the rule; without it they are listed")
    work.add_argument("pairs", nargs="*", metavar="key=value")
    json_option(work)

    _card(command("read-card", "read_card", "read", "read a recipe card as handed down"))


def _forecast(forecast: argparse.ArgumentParser) -> None:
    forecast.add_argument("files", nargs="+", type=Path, metavar="READINGS.csv")
    forecast.add_argument("--og", help="original gravity, where the readings lack it")
    forecast.add_argument("--room", help='room temperature, such as "20 degC"')
    forecast.add_argument("--below", nargs="+", default=["1.030", "1.000"], metavar="SG")
    forecast.add_argument(
        "--learn-from", nargs="+", type=Path, default=[], metavar="OLD.csv",
        help="your own finished ferments; the forecast leans a little their way",
    )  # fmt: skip
    json_option(forecast)


def _solve(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path)
    change = "sugar, water, acid, fruit, volume, or a sugar or acid by its key"
    parser.add_argument("--for", dest="change", required=True, metavar="AMOUNT,...", help=change)
    hold = "gravity, acidity, strength, volume, fruit (g in a litre); else what those are for"
    parser.add_argument("--hold", default="", metavar="TARGET[=VALUE],...", help=hold)
    written = parser.add_mutually_exclusive_group()
    written.add_argument("--write", action="store_true", help="write it into the file")
    written.add_argument("-o", "--output", type=Path, help="write it to another file")
    json_option(parser)


def _card(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="CARD.txt", help="the card's text; - for stdin")
    parser.add_argument("-o", "--output", type=Path, help="write the project here")
    parser.add_argument(
        "--gallon", type=country, metavar="{US,imperial}", help="whose gallon a bare gal is"
    )
    parser.add_argument(
        "--is", dest="answers", action="append", default=[], metavar="NAME=WHAT",
        help="what an unknown ingredient is: fruit, sugar, additive, or note",
    )  # fmt: skip
    parser.add_argument(
        "--keep-questions", action="store_true", help="write all the same; they become a note"
    )
    json_option(parser)
