"""Ingredients that only the method of a card names: said, so that they are not missed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from winebench.catalog.sugars import sugars
from winebench.model.recipe import Line, SugarLine, WaterLine, YeastLine
from winebench.plan.handed_down.late_words import Time, time_in
from winebench.plan.handed_down.shapes import CardReading
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.forms import FORMS, SORTS
from winebench.plan.typed.names import exact
from winebench.plan.typed.not_in_wine import is_for_cleaning
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.remarks import Remark, Way
from winebench.units import Amount, UnitsError

_MOST = 8
_LONGEST_NAME = 3
_START = re.compile(r"(?<![\w.,/])\d")
_WATER = re.compile(
    r"(?i)\bwater\s+(?:up\s+)?to\s+(?:make\s+)?(?:up\s+(?:to\s+)?)?\d(?:[^,;.]|[.,]\d)*"
)
_ARTICLES = re.compile(
    r"(?i)^(?:(?:of|the|more|extra|another|further|remaining|additional|other)\s+)+"
)
_PART_OF_SUGAR = re.compile(
    r"(?i)\b(?:half|third|quarter|rest|remaining|remainder|second|other)\b[^.;,]{0,24}\b(?:sugar|honey)\b"
)
_SAME = 0.02


class _Named(NamedTuple):
    text: str
    key: str
    amount: Amount | None = None
    time: Time = "start"


def mentions(reading: CardReading) -> Iterator[tuple[int, Remark]]:
    """Give, with their row, what the method names and no line of the card is."""
    lines = [row.line for row in reading.rows if row.line is not None]
    there = {_key(line) for line in lines}
    mentioned: list[_Named] = []
    staged = any(isinstance(line, SugarLine) and line.when == "feed" for line in lines)
    for place, row in enumerate(reading.rows):
        kept = row.item.ends or row.answer is not None
        if row.kind != "method" or kept or is_for_cleaning(row.item.words):
            continue
        for named in _named(row.item.words):
            racked = named.time == "racked" or row.item.fed
            if named.time == "end" or (racked and not _sweetens(named)):
                continue  # no part of the must: the plan asks for it at its time
            if racked and (named.key not in there or _is_more(named, lines)):
                yield place, _fed(named)
            elif named.key not in there or _is_another(named, mentioned):
                there.add(named.key)
                mentioned.append(named)
                said = f'The method names "{named.text}", and no line does.'
                way = Way(label=f"Put it in: {named.text}", text=named.text, apart=True)
                yield place, Remark(sentence=said, ways=(way,))
            elif _is_more(named, lines):
                yield place, _more(named)
        if "white-sugar" in there and not staged and _PART_OF_SUGAR.search(row.item.words):
            yield (
                place,
                Remark(
                    sentence="Part of the sugar goes in later by this, and all of it is counted at "
                    'the start: write that part on its own line, such as "1 lb sugar, fed later".'
                ),
            )


def _key(line: Line) -> str:
    if isinstance(line, WaterLine):
        return "water"
    if isinstance(line, YeastLine):
        return "yeast"
    return str(getattr(line, str(line.__struct_config__.tag)))


def _is_another(named: _Named, mentioned: list[_Named]) -> bool:
    """Return whether the method named the same before, in another amount."""
    amounts = [each.amount for each in mentioned if each.key == named.key and each.amount]
    return named.amount is not None and bool(amounts) and named.amount not in amounts


def _is_more(named: _Named, lines: list[Line]) -> bool:
    """Return whether it is sugar that is none of the card's amounts of it, nor all together."""
    same = [
        line.amount for line in lines if isinstance(line, SugarLine) and _key(line) == named.key
    ]
    amount = named.amount
    if amount is None or not same or amount.dimension != "mass":
        return False
    if any(other.dimension != "mass" for other in same):
        return False
    grams = [other.grams() for other in same]
    return all(abs(amount.grams() / each - 1.0) > _SAME for each in (*grams, sum(grams)) if each)


def _sweetens(named: _Named) -> bool:
    """Return whether it is sugar, which feeds the yeast whenever it goes in."""
    return named.key in sugars()


def _fed(named: _Named) -> Remark:
    later = f"{named.text}, fed later"
    return Remark(
        sentence=f'The method names "{named.text}" at racking, and no line does.',
        ways=(Way(label=f"Put it in: {later}", text=later, apart=True),),
    )


def _more(named: _Named) -> Remark:
    later = f"{named.text}, fed later"
    return Remark(
        sentence=f'The method names "{named.text}", which is no line\'s amount: is it more, '
        "for later?",
        ways=(
            Way(label=f"Put it in: {later}", text=later, apart=True),
            Way(label=f"Put it in: {named.text}", text=named.text, apart=True),
        ),
    )


def _named(text: str) -> Iterator[_Named]:
    """Give each "2 lb sugar" of the sentence, with the key of what it is."""
    plain = digits(text[:2000])
    water = _WATER.search(plain)
    if water is not None:
        yield _Named(" ".join(water[0].split()[:6]), "water")
    for start in list(_START.finditer(plain))[:_MOST]:
        words = re.split(r"[,;:.]\s", plain[start.start() :])[0].split()[:9]
        for end in range(len(words), 1, -1):
            found = _whole(" ".join(words[:end]).rstrip(".,;:!?)"))
            if found is not None:
                yield found._replace(time=time_in(plain, start.start()))
                break


def _whole(text: str) -> _Named | None:
    """Return the words with the key of what they name, where they are amount and name alone."""
    try:
        found = stated(text)
    except UnitsError:
        return None
    if found is None or not text.startswith(found.amount.text.split()[0]):
        return None
    name = _ARTICLES.sub("", found.words)
    bare = " ".join(w for w in name.split() if w.lower() not in SORTS and w.lower() not in FORMS)
    tries = (name, bare) if 0 < len(name.split()) <= _LONGEST_NAME else ()
    offer = next(filter(None, (exact(each, known()) for each in tries)), None)
    if offer is None:
        return None
    plain = text if name == found.words or "of" in text.split() else f"{found.amount.text} {name}"
    return _Named(plain, offer.key, found.amount)
