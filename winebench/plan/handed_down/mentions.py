"""Ingredients that only the method of a card names: said, so that they are not missed."""

from __future__ import annotations

import re
from collections.abc import Iterator

from winebench.model.recipe import Line, WaterLine, YeastLine
from winebench.plan.handed_down.shapes import CardReading
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.names import exact
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.remarks import Remark, Way
from winebench.units import UnitsError

_MOST = 8
_LONGEST_NAME = 3
_START = re.compile(r"(?<![\w.,/])\d")
_WATER = re.compile(
    r"(?i)\bwater\s+(?:up\s+)?to\s+(?:make\s+)?(?:up\s+(?:to\s+)?)?\d(?:[^,;.]|[.,]\d)*"
)


def mentions(reading: CardReading) -> Iterator[tuple[int, Remark]]:
    """Give, with their row, the amounts that the method names of what no line of the card is."""
    there = {_key(row.line) for row in reading.rows if row.line is not None}
    for place, row in enumerate(reading.rows):
        if row.kind != "method" or row.answer is not None:
            continue
        for text, key in _named(row.item.text, has_volume=reading.basis is not None):
            if key not in there:
                there.add(key)
                said = f'The method names "{text}", and no line does.'
                way = Way(label=f"Put it in: {text}", text=text, apart=True)
                yield place, Remark(sentence=said, ways=(way,))


def _key(line: Line) -> str:
    if isinstance(line, WaterLine):
        return "water"
    if isinstance(line, YeastLine):
        return "yeast"
    return str(getattr(line, str(line.__struct_config__.tag)))


def _named(text: str, *, has_volume: bool) -> Iterator[tuple[str, str]]:
    """Give each "2 lb sugar" of the sentence, with the key of what it is."""
    plain = digits(text[:2000])
    water = _WATER.search(plain)
    if water is not None and not has_volume:
        yield " ".join(water[0].split()[:6]), "water"
    for start in list(_START.finditer(plain))[:_MOST]:
        words = re.split(r"[,;:.]\s", plain[start.start() :])[0].split()[:9]
        for end in range(len(words), 1, -1):
            found = _whole(" ".join(words[:end]).rstrip(".,;:!?)"))
            if found is not None:
                yield found
                break


def _whole(text: str) -> tuple[str, str] | None:
    """Return the words with the key of what they name, where they are amount and name alone."""
    try:
        found = stated(text)
    except UnitsError:
        return None
    if found is None or not text.startswith(found.amount.text.split()[0]):
        return None
    name = re.sub(r"(?i)^of\s+(?:the\s+)?", "", found.words)
    offer = exact(name, known()) if 0 < len(name.split()) <= _LONGEST_NAME else None
    return None if offer is None else (text, offer.key)
