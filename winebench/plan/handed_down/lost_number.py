"""An amount whose number cannot be read: "l lb sugar", "? kg plums", "some lb plums"."""

from __future__ import annotations

import re

from winebench.plan.handed_down.reads import line_of
from winebench.plan.typed.lines import NoAmount
from winebench.plan.typed.number_words import UNIT
from winebench.plan.typed.remarks import Remark, Way, written
from winebench.units import UnitsError, parse_number

_MOST_BEFORE = 3
"""So many words may stand before the unit, as in "a good few lb plums"."""
_LIKE_DIGITS = str.maketrans({"l": "1", "I": "1", "|": "1", "O": "0", "o": "0"})
"""Letters that a copy of a card has for digits."""
_OG = re.compile(r"(?i)o\.?g\b")
"""Of a gravity, and no gram with a misread number."""
_MARK = re.compile(r"[lIOo|?xX_.,/…-]{1,4}")
"""What stands where the number should: a misread digit, or a sign that it is not known."""
_WITH_UNIT = re.compile(
    rf"(?P<number>[lIOo|?.,/]*)(?P<unit>(?i:{UNIT}))\.?(?:\s+(?i:of)\b)?\s+(?P<name>.+)", re.ASCII
)


def lost_number(text: str) -> Remark | None:
    """Return the question how much, where a unit stands with a name and without a number.

    Behind a mark in the number's place any name will do, else it must be a known one.
    """
    if _OG.match(text):
        return None
    starts = [0, *(space.end() for space in re.finditer(r"\s+", text))]
    known: Remark | None = None
    for start in starts[: _MOST_BEFORE + 1]:
        found = _WITH_UNIT.fullmatch(text, start)
        if found is None:
            continue
        number = text[:start].strip() + found["number"]
        if _MARK.fullmatch(number):
            return _asked(number, found)
        if known is None and _is_known(found["name"]):  # the "l" of "l packet yeast" is no litre
            known = _asked(number, found)
    return known


def _asked(number: str, found: re.Match[str]) -> Remark:
    unit, name = found["unit"], found["name"]
    lead = f"{number} {unit}".strip()
    said = f'"{lead}" has no number that can be read. How much {name}? Write it in front.'
    return Remark(sentence=said, ways=_ways(number, f"{unit} {name}"))


def _ways(number: str, rest: str) -> tuple[Way, ...]:
    """Return the number that its letters look like, where they look like one."""
    meant = number.translate(_LIKE_DIGITS)
    try:
        return (written(f"{meant} {rest}"),) if parse_number(meant) > 0 else ()
    except UnitsError:
        return ()


def _is_known(name: str) -> bool:
    """Return whether the words are a known thing: water, or a name that only lacks its amount."""
    try:
        line_of(name)
    except NoAmount as problem:
        return problem.found is not None
    except UnitsError:
        return False
    return True
