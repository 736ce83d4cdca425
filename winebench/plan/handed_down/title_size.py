"""How much a card makes, as its title says it, and the name that is left."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from winebench.plan.handed_down.fields import OfWine, read_field
from winebench.plan.handed_down.marks import unmarked
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.lines import to_the_mark
from winebench.plan.typed.number_words import digits
from winebench.units import UnitsError, Volume

_LONGEST = 80
_PLACES = re.compile(r"\s*[,;:|(]\s*|\s*[–—]\s*|\s+-\s*|\s+")
_TELLS = re.compile(
    r"(?i)(?:should\s+|will\s+)?(?:makes?|yields?|gives?|fills?|for|to\s+make|batch|size|recipe)\b"
)
"""What in front of a volume says that it is how much the card makes."""
_NO_NAME = re.compile(
    r"(?i)(?:(?:should|will|this|it|the|a|my|to|enough|sufficient|about|quantit(?:y|ies)|ingredients|makes?|"
    r"yields?|gives?|fills?|for|batch|size|recipe|volume|total|water)\W*)+"
)
_BATCH = re.compile(r"(?i)\b(?:batch|recipe|bottles?|btls?)\W*$")
_OF = re.compile(r"(?i)(?:(?:batch|recipe)\s+)?of\s+")
_VESSEL = re.compile(r"(?i)\s+(?:carboy|jug|demijohn|bucket|pail|fermenter|jar|crock)\W*$")
_HYPHEN = re.compile(
    r"(?i)(?<![\w.,/-])(\d{1,3})\s?-\s?(?=(?:gal(?:lon)?|lit(?:re|er)|L|quart|bottle)s?\b)"
)
"""3-gallon plum wine."""
_WINES = ("wine", "wines", "mead")
"""So much of it is no ingredient; cider and perry may be."""
DRINKS = (
    "wine", "wines", "mead", "cider", "perry", "melomel", "cyser", "metheglin", "hydromel",
    "pyment", "braggot",
)  # fmt: skip


class Sized(NamedTuple):
    """A title in its parts."""

    name: str
    volume: Volume | None = None
    """How much it makes; None where it says so in bottles."""
    bottles: OfWine | None = None
    """The question how much must so many bottles take."""
    is_told: bool = False
    """Whether words such as "makes" stand by the volume; else it could be an amount."""


@lru_cache(maxsize=1024)
def sized(text: str) -> Sized | None:
    """Return the title's name and how much it makes; None where it says no such.

    "Plum wine, makes 5 gallons", "Elder wine - 1 gallon", "5 gallons of plum wine".
    """
    text = _HYPHEN.sub(r"\1 ", unmarked(text))
    if len(text) > _LONGEST or to_the_mark(text) is not None:
        return None
    return _behind(text) or _in_front(text)


def _behind(text: str) -> Sized | None:
    for place in _PLACES.finditer(text):
        name, tail = text[: place.start()].strip(), text[place.end() :].strip(" ().")
        if any(map(str.isdigit, digits(name))) and _amount_in(name):
            return None
        is_name = any(map(str.isalpha, name)) and not _NO_NAME.fullmatch(name)
        found = _size(tail) if is_name else None
        if found is not None:
            told = _TELLS.match(tail) or _BATCH.search(tail)
            return found._replace(name=name, is_told=told is not None)
    return None


def _in_front(text: str) -> Sized | None:
    try:
        found = stated(text)
    except UnitsError:
        return None
    of = _OF.match(found.words) if found is not None else None
    last = text.split()[-1].lower().strip(".!") if text else ""
    if found is None or last not in (DRINKS if of is not None else _WINES):
        return None
    size, name = _size(found.amount.text), found.words[of.end() if of is not None else 0 :]
    return None if size is None else size._replace(name=f"{name[0].upper()}{name[1:]}")


def _amount_in(name: str) -> bool:
    try:
        return stated(name) is not None
    except UnitsError:
        return True


def _size(text: str) -> Sized | None:
    text = re.sub(r"(?i)^for\s+an?\s+(?=\d)", "for ", _VESSEL.sub("", text))
    try:
        field = read_field(text)
    except OfWine as problem:
        return Sized("", bottles=problem)
    except UnitsError:
        return None
    return Sized("", volume=field.basis) if field is not None and field.basis is not None else None
