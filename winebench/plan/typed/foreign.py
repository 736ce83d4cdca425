"""Amounts in German or French as English ones: "2 EL" as "2 tbsp", "ein Pfund" as "500 g"."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from winebench.catalog.foreign_words import METRIC_POUND_G, Kind, foreign_words
from winebench.units import NUMBER, SPELLINGS, parse_number


class _Patterns(NamedTuple):
    number: re.Pattern[str]
    pound: re.Pattern[str]
    unit: re.Pattern[str]
    english: dict[str, str]


@cache
def _patterns() -> _Patterns:
    units = f"{_either('unit')}|{_either('metric pound')}"
    known = "|".join(sorted(map(re.escape, SPELLINGS), key=len, reverse=True))
    behind = rf"(?=\s*(?:{units}|{known})(?!\w))"
    return _Patterns(
        re.compile(rf"(?<!\w)(?:{_either('number')}){behind}", re.IGNORECASE),
        re.compile(rf"({NUMBER})\s*(?:{_either('metric pound')})(?!\w)", re.IGNORECASE),
        re.compile(rf"(?<=\d)\s*({_either('unit')})(?!\w)", re.IGNORECASE),
        {each.word.lower(): each.english for each in foreign_words()},
    )


def _either(kind: Kind) -> str:
    words = (each.word for each in foreign_words() if each.kind == kind)
    return "|".join(sorted(map(re.escape, words), key=len, reverse=True))


def in_english(text: str) -> str:
    """Return the text with the amounts of other languages in English words; the rest as it is."""
    found = _patterns()
    text = found.number.sub(lambda number: found.english[number[0].lower()], text)
    text = found.pound.sub(_grams, text)
    return found.unit.sub(lambda unit: f" {found.english[unit[1].lower()]}", text)


def has_metric_pound(text: str) -> bool:
    """Return whether a Pfund or livre stands in it."""
    found = _patterns()
    return (
        found.pound.search(found.number.sub(lambda n: found.english[n[0].lower()], text))
        is not None
    )


def _grams(found: re.Match[str]) -> str:
    grams = parse_number(found[1]) * METRIC_POUND_G
    return f"{grams / 1000:g} kg" if grams >= 1000 else f"{grams:g} g"
