"""The command that reads a handed-down recipe card, line by line, with its questions."""

from __future__ import annotations

import argparse
import textwrap
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from winebench.cli.arguments import CommandError
from winebench.cli.plain_text import plain_text
from winebench.cli.projects import now, write
from winebench.model.edits import new_id
from winebench.model.project import Project
from winebench.plan.handed_down.into_project import card_edit
from winebench.plan.handed_down.judge import judged
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.handed_down.shapes import ANSWERS, Answer, CardReading, Row
from winebench.plan.typed.remarks import Remark

WIDTH = 80
_MARKS = {"read": " ", "look": "!", "asked": "?", "wrong": "x"}


def read(arguments: argparse.Namespace) -> int:
    """Print how the card is read; write the project unless something is open.

    Ends with 0 where nothing is open (or it is kept), 1 with open questions.
    """
    if arguments.output and arguments.output.exists():
        raise CommandError(f'"{arguments.output}" exists already; choose another name')
    text, answers = plain_text(str(arguments.file), "a recipe card"), _answers(arguments.answers)
    reading = judged(read_card(text, answers, arguments.gallon))
    _refuse_idle(answers, reading)
    if not reading.rows:
        raise CommandError(f'"{arguments.file}" has no words; write the card into it, a line each')
    keep = not reading.is_open or arguments.keep_questions
    wrote = bool(arguments.output and keep)
    if wrote:
        write(arguments.output, _project(reading, arguments.output))
    if arguments.json:
        _print_json(reading, wrote=wrote)
    else:
        print("\n".join((*as_text(reading), *_ending(reading, arguments, wrote=wrote))))
    return 1 if reading.is_open and not (arguments.keep_questions and wrote) else 0


def _answers(pairs: list[str]) -> Mapping[str, Answer]:
    answers: dict[str, Answer] = {}
    for pair in pairs:
        name, sign, what = pair.rpartition("=")
        if not sign or not name.strip() or what not in ANSWERS:
            raise CommandError(f'"--is {pair}": write NAME=WHAT with one of {", ".join(ANSWERS)}')
        answers[" ".join(name.lower().split())] = what
    return answers


def _refuse_idle(answers: Mapping[str, Answer], reading: CardReading) -> None:
    """Raise where an answer is to nothing that the card asks."""
    asked = {row.asks: row.options for row in reading.rows if row.asks}
    for name, answer in answers.items():
        if name not in asked:
            names = ", ".join(f'"{each}"' for each in asked) or "nothing"
            raise CommandError(f'"--is {name}={answer}": the card asks about {names}')
        if answer not in asked[name]:
            kinds = ", ".join(asked[name])
            raise CommandError(f'"--is {name}={answer}": that can only be kept as {kinds}')


def _project(reading: CardReading, path: Path) -> Project:
    empty = Project(id=new_id(), name=path.stem, gallon=reading.gallon)
    return card_edit(reading, empty, now()).apply(empty)


# --- as text and as JSON ---------------------------------------------------------------------


def as_text(reading: CardReading) -> Iterator[str]:
    """Give the reading line by line, at most 80 columns wide: mark, as typed, as read."""
    for row in reading.rows:
        typed = textwrap.shorten(row.item.text, 36, placeholder=" …")
        yield from _wrapped(f"{_MARKS[row.state]} {typed:36}  ", row.read_as, 40)
        yield from _remarks(row.remarks)
        yield from _question(row)
    if reading.remarks:
        yield "The card as a whole:"
        yield from _remarks(reading.remarks)


def _remarks(remarks: tuple[Remark, ...]) -> Iterator[str]:
    for remark in remarks:
        yield from _wrapped("    ", remark.sentence, 4)
        for way in remark.ways:
            first, *more = way.text.splitlines() or [""]
            yield from _wrapped("    > ", f'write "{first}"' if first else "take it out", 6)
            for line in more:
                yield from _wrapped("      ", f'and on a line below it "{line}"', 6)


def _question(row: Row) -> Iterator[str]:
    if row.is_open and row.options:
        name = row.asks.replace('"', "'")
        yield from _wrapped("    > ", f'or say --is "{name}={"|".join(row.options)}"', 6)


def _wrapped(lead: str, text: str, indent: int) -> list[str]:
    plain = "".join(each if each.isprintable() else " " for each in lead + text)
    lead, text = plain[: len(lead)], plain[len(lead) :]
    return textwrap.wrap(
        " ".join(text.split()), WIDTH, initial_indent=lead, subsequent_indent=" " * indent
    ) or [lead.rstrip()]


def _ending(reading: CardReading, arguments: argparse.Namespace, *, wrote: bool) -> Iterator[str]:
    yield ""
    count = sum(row.is_open for row in reading.rows)
    if wrote:
        kept = f"; {count} open, kept as a note" if count else ""
        yield f'Wrote "{arguments.output}"{kept}.'
    elif count:
        yield f"{count} to settle first; nothing was written."
        if reading.asks_gallon and reading.gallon is None:
            yield "Whose gallon is it? Say --gallon us or --gallon imperial."
    else:
        yield "Nothing is open; -o FILE writes the project."


def _print_json(reading: CardReading, *, wrote: bool) -> None:
    from winebench.cli.show import print_json

    rows: list[dict[str, Any]] = [
        {
            "text": row.item.text,
            "start": row.item.start,
            "end": row.item.end,
            "kind": row.kind,
            "state": row.state,
            "read_as": row.read_as,
            "remarks": row.remarks,
            "line": row.line,
            "field": row.field,
            "asks": row.asks,
            "options": row.options,
        }
        for row in reading.rows
    ]
    print_json(
        {
            "title": reading.title,
            "makes": reading.basis,
            "gallon": reading.gallon,
            "open": reading.is_open,
            "wrote": wrote,
            "rows": rows,
            "remarks": reading.remarks,
        }
    )
