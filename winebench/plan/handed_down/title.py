"""The title of a card: its first words, with how much it makes where they say so."""

from __future__ import annotations

import re

from msgspec.structs import replace

from winebench.catalog.poisons import poison_in
from winebench.model.recipe import FruitLine, SugarLine
from winebench.plan.handed_down.dangers import with_dangers
from winebench.plan.handed_down.fields import OfWine, basis_of, read_field
from winebench.plan.handed_down.lost_number import lost_number
from winebench.plan.handed_down.rows import Known, key_of, must_counts, title_row
from winebench.plan.handed_down.sense import is_named
from winebench.plan.handed_down.shapes import Field, Row
from winebench.plan.handed_down.title_size import DRINKS, Sized, sized
from winebench.plan.handed_down.without_amount import AMOUNT
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.names import stems
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.remarks import Remark, Way
from winebench.units import UnitsError, Volume

_LONGEST = 80
_WEIGHT = re.compile(r"(?i)(?<![\w.,/])\d[\d.,/ ]*\s*(?:lbs?|pounds?|oz|kg|kilos?|g|grams?)\b")
"""A title has none: what weighs something goes in."""
_SUGAR = re.compile(r"(?i)sugar|honey|syrup|zucker|sucre|molasses|treacle|glucose|dextrose")
_YEAR = re.compile(r"(?:19|20)\d\d\b")


def titled(rows: list[Row], told: Known) -> tuple[Row, ...]:
    """Return the rows with the card's first words as its title, where they are no ingredient."""
    if not any(row.kind == "title" for row in rows):
        for place, row in enumerate(rows):
            if row.kind == "heading":
                continue
            title = _title(row, rows[place + 1 :], told)
            if title is not None:
                rows[place] = with_dangers(title)
            break
    return tuple(_named(row) if row.kind == "title" else row for row in rows)


def _named(row: Row) -> Row:
    """Return the title with its name apart from how much it makes."""
    found = sized(row.item.words)
    if found is None:
        return row
    said = row.read_as.replace("Title", f"Title: {found.name}", 1)
    return replace(row, name=found.name, read_as=said)


def _title(row: Row, others: list[Row], told: Known) -> Row | None:
    text = row.item.words
    if row.item.hint != "any" or len(text) > _LONGEST:
        return None
    if _is_in_bottles(text) or _WEIGHT.search(digits(text)):
        return None
    size = sized(text)
    if size is not None and size.bottles is not None and size.is_told and others:
        return _in_bottles(row, size, size.bottles, told)
    if row.answer is not None:
        return None
    if size is not None and size.is_told and others and row.kind in ("method", "question"):
        return _with_volume(row, size.volume, told)
    if row.kind == "method" and (row.state == "read" or poison_in(text)):
        return replace(row, kind="title", read_as="Title")
    drink = text.split()[-1].lower().strip(".!") in DRINKS
    told_later = any(_names(size.name, other) for other in others) if size is not None else False
    if not told_later and not any(
        other.line is not None or (drink and other.kind == "question") for other in others
    ):
        return None
    volume = size.volume if size is not None else _volume(text)
    numbered = text[:1].isdigit()
    if isinstance(row.line, FruitLine):  # "Peach, five gallons" above its peaches
        named_first = not digits(text)[:1].isdigit()
        name = size.name if size is not None else text
        same = any(
            _fruit(other) == row.line.fruit or (other.kind == "method" and _names(name, other))
            for other in others
        )
        if volume is None or not (same or (named_first and any(map(_fruit, others)))):
            return None
        return _with_volume(row, volume, told)
    if isinstance(row.line, SugarLine) and volume is not None:  # "White from concentrate, 23 L"
        return None if numbered or _SUGAR.search(text) else _with_volume(row, volume, told)
    if row.kind != "question" or lost_number(text) is not None:
        return None
    if drink:  # "A gallon of plum wine", "Three fruit wine"
        return _with_volume(row, volume, told)
    if row.state == "wrong" and not numbered and not _amounts(text):  # "Two pails of pear"
        return _plain(row)
    named = "fruit" in row.options or (size is not None and told_later)
    if volume is not None and not numbered and named:  # "Pear, my way: 20 L"
        return _with_volume(row, volume, told)
    fruit_later = any(_fruit(other) or _names(text, other) for other in others)
    words_alone = not numbered and volume is None and not is_named(text) and not _amounts(text)
    if _YEAR.search(text) or words_alone or (is_named(text) and fruit_later):
        return _plain(row)
    return None


def _is_in_bottles(text: str) -> bool:
    """Return whether the words are nothing but how many bottles the card makes."""
    try:
        read_field(text)
    except OfWine:
        return True
    except UnitsError:
        return False
    return False


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


def _with_volume(row: Row, volume: Volume | None, told: Known) -> Row:
    if volume is None:
        return _plain(row)
    return title_row(row.item, Field(name="basis", basis=volume), told)


def _in_bottles(row: Row, size: Sized, problem: OfWine, told: Known) -> Row:
    """Return the title, with the question how much must its bottles take."""
    title = replace(_plain(row), asks=key_of(row.item), options=("note",), answer=row.answer)
    if row.answer == "note":
        return title
    if told.basis is not None:
        return replace(_plain(row), state="look", remarks=(must_counts(told.basis, told),))
    ways = tuple(Way(label=way.label, text=f"{size.name}\n{way.text}") for way in problem.ways)
    return replace(title, state="asked", remarks=(Remark(sentence=str(problem), ways=ways),))
