"""The grammar of an amount as typed: numbers, each with its unit, as in "3 lb 4 oz"."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from winebench.units.names import (
    COUNTED,
    COUNTRY_UNITS,
    COUNTRY_WORDS,
    DIMENSIONS,
    SPELLINGS,
    GallonCountry,
)
from winebench.units.numbers import NUMBER, UnitsError, parse_number, plain_text

# A point followed by a digit starts the next number: "3 lb .5 oz".
_PART = re.compile(
    rf"(?P<number>{NUMBER})\s*(?P<words>(?:[^\d+.,]|[.,](?!\d))*)(?:\+\s*(?=[\d.]))?", re.ASCII
)

_WITH_THOUSANDS = ("g", "mg", "mL", "cL")
_GROUPED = re.compile(r"[1-9]\d{0,2},\d{3}", re.ASCII)


class Part(NamedTuple):
    """One number with its unit, as in the "4 oz" of "3 lb 4 oz"."""

    number: float
    unit: str
    country: GallonCountry | None


@lru_cache(maxsize=4096)
def parse(text: str) -> tuple[Part, ...]:
    """Return the parts of an amount as typed; together they are one quantity.

    Raises:
        UnitsError: the text is no amount; the message says why.

    """
    plain = plain_text(text)
    if not plain:
        raise UnitsError("Nothing is written here; write an amount such as 3 lb or 1.5 L.")
    if re.match(r"[-−]\s*[\d.,]", plain):
        told = plain.lstrip("-− ")
        raise UnitsError(f'"{text.strip()}" is less than nothing; write {told}.')
    if re.search(r"\([^)]*\d", plain):  # "3 lb (1.4 kg)" is not the sum of both
        raise UnitsError(f'"{text.strip()}" gives an amount twice; write one of them.')
    parts: list[Part] = []
    position = 0
    while position < len(plain):
        found = _PART.match(plain, position)
        if found is None or (parts and plain[position] == ","):  # "3 lb ,5 oz": 5 or 0.5?
            raise UnitsError(f'"{text.strip()}" is not an amount; write one such as 3/4 lb.')
        parts.append(_part(found, text))
        position = found.end()
    if len({DIMENSIONS[part.unit] for part in parts}) > 1:
        raise UnitsError(f'"{text.strip()}" adds weight to volume; write one or the other.')
    if len({part.unit for part in parts if part.unit in COUNTED}) > 1:
        raise UnitsError(f'"{text.strip()}" counts two kinds of thing; write one of them.')
    return _with_country(tuple(parts))


def _part(found: re.Match[str], text: str) -> Part:
    written = found["words"].lower().replace("(", " ").replace(")", " ")
    more = found.end() < len(found.string)
    words = (re.sub(r"(?:\band|&)\s*$", "", written) if more else written).split()
    countries = {COUNTRY_WORDS[w] for w in map(_undotted, words) if w in COUNTRY_WORDS}
    name = _undotted(" ".join(w for w in words if _undotted(w) not in COUNTRY_WORDS))
    unit = SPELLINGS.get(name)
    if not name and more:
        raise UnitsError(f'"{text.strip()}" is not an amount; write one such as 3/4 lb.')
    if not name:
        raise UnitsError(f'"{text.strip()}" has no unit; write one such as lb, kg, L, gal or tsp.')
    if unit is None:
        raise UnitsError(
            f'"{name}" in "{text.strip()}" is not a unit known here; '
            "use lb, oz, kg, g, L, mL, gal, qt, pt, cup, fl oz, tbsp or tsp, or packets, tablets, "
            "bottles."
        )
    if len(countries) > 1:
        raise UnitsError(f'"{text.strip()}" names two countries; say US or imperial.')
    country = next(iter(countries), None)
    number = parse_number(without_thousands(found["number"], unit))
    return Part(number, unit, country if unit in COUNTRY_UNITS else None)


def without_thousands(number: str, unit: str) -> str:
    """Return "1,200" of a small metric unit as "1200"; any other number as it is.

    1,200 g and 6,500 mL are thousands: no kitchen weighs thousandths of them. With a kilogram or
    litre it is decimal: 2,250 kg are 2 1/4 kg. A point is decimal everywhere, as the program itself
    writes it; who types 1.000 g is asked (`plan.typed.thousands`).
    """
    grouped = unit in _WITH_THOUSANDS and _GROUPED.fullmatch(number) is not None
    return number.replace(",", "") if grouped else number


def _undotted(word: str) -> str:
    return word.rstrip(".,;")


def _with_country(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Let the one country named in "1 gal 2 qt US" hold for all of it."""
    named = {part.country for part in parts if part.country}
    if len(named) != 1:
        return parts
    country = named.pop()
    return tuple(p._replace(country=country) if p.unit in COUNTRY_UNITS else p for p in parts)
