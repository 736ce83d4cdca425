"""The commands and their arguments; what each does is imported only when it runs."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from winebench import __version__
from winebench.cli.arguments import Parser, at_option, day, json_option, later, when

COMMANDS = (
    "new", "check", "outlook", "scale", "log", "card", "labels", "calendar", "forecast", "work",
    "samples", "start-days", "read-card", "stand-in", "clashes", "shopping",
    "again", "compare", "solve", "learn",
)  # fmt: skip


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
    _sample(parser)
    parser.add_argument("--version", action="version", version=f"winebench {__version__}")
    parser.set_defaults(run=later("open_window", "open_window"))
    return parser


def _sample(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--like", metavar="SAMPLE", help="a copy of a bundled sample")


def _commands() -> argparse.ArgumentParser:
    parser = Parser(
        prog="winebench",
        description="A planner for fruit wine. Without a command it opens the window "
        "(winebench [FILE] or winebench --like SAMPLE).",
    )
    parser.add_argument("--version", action="version", version=f"winebench {__version__}")
    sub = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")

    def command(name: str, module: str, function: str, about: str) -> Any:
        made = sub.add_parser(name, help=about, description=about)
        made.set_defaults(run=later(module, function))
        return made

    new = command("new", "files", "new", "write a new project, or a copy of a sample")
    new.add_argument("file", type=Path)
    _sample(new)
    new.add_argument(
        "--gallon", type=_country, metavar="{US,imperial}", help="whose gallon a bare gal is"
    )
    new.add_argument("--name", help="the batch's name")

    check = command("check", "files", "check", "read, validate, report cautions")
    check.add_argument("files", nargs="+", type=Path, metavar="FILE")
    at_option(check)

    show = command("outlook", "show", "outlook", "the worked-out plan")
    show.add_argument("file", nargs="?", type=Path)
    _sample(show)
    at_option(show)
    json_option(show)

    scale = command("scale", "files", "scale", "scale the recipe to another size")
    scale.add_argument("file", type=Path)
    scale.add_argument("--to", help='"5 gal", "19 L", "24 bottles", "fill 19 L jug"')
    scale.add_argument(
        "--in",
        dest="vessels",
        metavar="VESSELS",
        help='"26 L pail, 19 L jug"; or "shelf": choose for me from the vessels on the shelf',
    )
    scale.add_argument(
        "--shelf", help='vessels to keep on the shelf first, such as "6 gal pail, 2 x 1 gal jug"'
    )  # fmt: skip
    scale.add_argument(
        "--by", choices=("must", "finished", "fruit"), default="must",
        help="what --to measures: the must, the finished wine, or the fruit there is",
    )  # fmt: skip
    scale.add_argument("--fruit", help="which fruit, with --by fruit and several in the recipe")
    scale.add_argument("-o", "--output", type=Path, help="write here instead of showing it")
    json_option(scale)

    _log(command("log", "log", "log", "add a reading, an action or a note to the log"))

    card = command("card", "pages", "card", "print the batch card to a PDF")
    labels = command("labels", "pages", "labels", "print the bottle labels to a PDF")
    calendar = command("calendar", "pages", "calendar", "steps and chores as an iCalendar file")
    helper = command("stand-in", "pages", "stand_in", "half a page for whoever stirs meanwhile")
    helper.add_argument("--from", dest="first", type=day, help="first day; else the next days away")
    helper.add_argument("--to", dest="last", type=day, help="last day (ISO 8601)")
    for page in (card, labels, calendar, helper):
        page.add_argument("file", type=Path)
        page.add_argument("-o", "--output", type=Path, required=True)
        at_option(page)
    for page in (card, helper):
        page.add_argument("--paper", choices=("A4", "Letter"), help="else the project's own")
    labels.add_argument("--sheet", help="key of the label sheet; else the project's own")
    labels.add_argument("--count", type=int, help="how many labels; else one a bottle")

    shop = command("shopping", "shopping", "shopping", "what to buy, what is in stock, the cost")
    shop.add_argument("file", type=Path)
    shop.add_argument("-o", "--output", type=Path, help="print it to this PDF")
    shop.add_argument("--paper", choices=("A4", "Letter"), help="else the project's own")
    at_option(shop)
    json_option(shop)

    start = command("start-days", "start_days", "start_days", "days to start on, round days away")
    start.add_argument("file", type=Path)
    start.add_argument("--from", dest="first", type=day, help="first day (ISO 8601); else today")
    start.add_argument("--weeks", type=int, default=6, help="how many weeks to look at")
    at_option(start)
    json_option(start)

    several = command("clashes", "clashes", "clashes", "vessels that two batches want on one day")
    several.add_argument("files", nargs="+", type=Path, metavar="FILE")
    at_option(several)
    json_option(several)

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

    _solve(command("solve", "solve", "solve", "reach the targets: what to change, what then reads"))

    forecast = command("forecast", "rules", "forecast", "readings alone to a forecast")
    forecast.add_argument("files", nargs="+", type=Path, metavar="READINGS.csv")
    forecast.add_argument("--og", help="original gravity, where the readings lack it")
    forecast.add_argument("--room", help='room temperature, such as "20 degC"')
    forecast.add_argument("--below", nargs="+", default=["1.030", "1.000"], metavar="SG")
    forecast.add_argument(
        "--learn-from", nargs="+", type=Path, default=[], metavar="OLD.csv",
        help="your own finished ferments; the forecast leans a little their way",
    )  # fmt: skip
    json_option(forecast)

    work = command("work", "rules", "work", "one trade rule by itself, with its workings")
    work.add_argument("name", nargs="?", help="the rule; without it they are listed")
    work.add_argument("pairs", nargs="*", metavar="key=value")
    json_option(work)

    _card(command("read-card", "read_card", "read", "read a recipe card as handed down"))

    command("samples", "show", "samples", "list the bundled samples")
    return parser


def _learn(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path)
    parser.add_argument("batches", nargs="*", type=Path, metavar="FROM", help="finished batches")
    less = parser.add_mutually_exclusive_group()
    one = "learn no more from that one"
    less.add_argument("--forget", action="append", default=[], metavar="NAME", help=one)
    less.add_argument("--forget-all", action="store_true", help="learn from none, as at first")
    at_option(parser)


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
        "--gallon", type=_country, metavar="{US,imperial}", help="whose gallon a bare gal is"
    )
    parser.add_argument(
        "--is", dest="answers", action="append", default=[], metavar="NAME=WHAT",
        help="what an unknown ingredient is: fruit, sugar, additive, or note",
    )  # fmt: skip
    parser.add_argument(
        "--keep-questions", action="store_true", help="write all the same; they become a note"
    )
    json_option(parser)


def _country(text: str) -> str:
    found = {"us": "US", "imperial": "imperial"}.get(text.lower())
    if found is None:
        raise argparse.ArgumentTypeError(f'"{text}" is neither US nor imperial')
    return found


def _log(parser: argparse.ArgumentParser) -> None:
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
    parser.add_argument("--at", type=when, help="what is later is left out; else now")
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
    parser.add_argument("--at", type=when, help="days are counted back from here; else now")
    json_option(parser)
