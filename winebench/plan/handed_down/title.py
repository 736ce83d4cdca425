"""The title of a card: its first words, with how much it makes where they say so."""

from __future__ import annotations

import re

from msgspec.structs import replace

from winebench.catalog.poisons import poison_in
from winebench.model.recipe import FruitLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.dangers import with_dangers
from winebench.plan.handed_down.fields import basis_of
from winebench.plan.handed_down.lost_number import lost_number
from winebench.plan.handed_down.sense import is_named
from winebench.plan.handed_down.shapes import Field, Row
from winebench.plan.handed_down.unknowns import DRINKS
from winebench.plan.handed_down.without_amount import AMOUNT
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.names import stems
from winebench.plan.typed.number_words import digits
from winebench.units import GallonCountry, UnitsError, Volume

_LONGEST = 80
_YEAR = re.compile(r"(?:19|20)\d\d\b")


def titled(rows: list[Row], gallon: GallonCountry | None) -> tuple[Row, ...]:
    """Return the rows with the card's first words as its title, where they are no ingredient."""
    if any(row.kind == "title" for row in rows):
        return tuple(rows)
    for place, row in enumerate(rows):
        if row.kind == "heading":
            continue
        title = _title(row, rows[place + 1 :], gallon)
        if title is not None:
            rows[place] = with_dangers(title)
        break
    return tuple(rows)


def _title(row: Row, others: list[Row], gallon: GallonCountry | None) -> Row | None:
    text = row.item.words
    if row.item.hint != "any" or row.answer is not None or len(text) > _LONGEST:
        return None
    if row.kind == "method" and (row.state == "read" or poison_in(text)):
        return replace(row, kind="title", read_as="Title")
    if not any(other.line is not None for other in others):
        return None
    if isinstance(row.line, FruitLine):  # "Peach, five gallons" above its peaches
        volume = _volume(text)
        named_first = not digits(text)[:1].isdigit()
        same = any(_fruit(other) == row.line.fruit for other in others)
        if volume is None or not (same or (named_first and any(map(_fruit, others)))):
            return None
        return _with_volume(row, volume, gallon)
    if row.kind != "question" or lost_number(text) is not None:
        return None
    if (
        text.split()[-1].lower().strip(".!") in DRINKS
    ):  # "A gallon of plum wine", "Three fruit wine"
        volume = _volume(text)
        return _plain(row) if volume is None else _with_volume(row, volume, gallon)
    if row.state == "wrong" and not text[:1].isdigit():  # "Two pails of pear"
        return _plain(row)
    volume, numbered = _volume(text), text[:1].isdigit()
    if volume is not None and not numbered and "fruit" in row.options:  # "Pear, my way: 20 L"
        return _with_volume(row, volume, gallon)
    fruit_later = any(_fruit(other) or _names(text, other) for other in others)
    words_alone = not numbered and volume is None and not is_named(text) and not _amounts(text)
    if _YEAR.search(text) or words_alone or (is_named(text) and fruit_later):
        return _plain(row)
    return None


def _amounts(text: str) -> bool:
    """Return whether there is an amount in the words."""
    return AMOUNT.search(digits(text)) is not None


def _names(text: str, row: Row) -> bool:
    """Return whether a row with an amount or a number names the same: "6 large grapefruit"."""
    words = row.item.words
    return any(map(str.isdigit, words)) and stems(text) <= stems(words)


def _fruit(row: Row) -> str:
    """Return which fruit the row is of, or may be of; "" for none."""
    if isinstance(row.line, FruitLine):
        return row.line.fruit
    return row.asks if row.kind == "question" and "fruit" in row.options else ""


def _volume(text: str) -> Volume | None:
    try:
        found = stated(text)
        return basis_of(found.amount.text) if found is not None else None
    except UnitsError:
        return None


def _plain(row: Row) -> Row:
    return Row(item=row.item, kind="title", state="read", read_as="Title")


def _with_volume(row: Row, volume: Volume, gallon: GallonCountry | None) -> Row:
    asked = row.remarks if volume.needs_country and gallon is None else ()
    return Row(
        item=row.item,
        kind="title",
        state="asked" if asked else "read",
        read_as=f"Title. Makes {with_country(volume, gallon)}",
        remarks=asked,
        field=Field(name="basis", basis=volume),
    )
