"""How fields read their text: one comma or point is the decimal sign under every locale."""

from __future__ import annotations

import re
from collections.abc import Callable

from winebench.plan.record_counts import spans_written
from winebench.units import Gravity, UnitsError, gravity_meant, parse_number

_MINUS = re.compile(r"\s*[-−–]\s*[\d.,½¼¾]")


def not_below_nothing(text: str) -> None:
    """Refuse a number or an amount with a minus before it, and say that this is why.

    Raises:
        UnitsError: it is less than nothing.

    """
    if _MINUS.match(text):
        raise UnitsError(f'"{text.strip()}" is less than nothing; write it without the minus.')


def number(least: float, most: float, unit: str = "") -> Callable[[str], float]:
    """Return a reader of numbers from `least` to `most`; a trailing unit may be typed.

    A per cent sign is taken where the unit is one; of grams in a litre it is ten of them.
    """

    def read(text: str) -> float:
        if least >= 0.0:
            not_below_nothing(text)
        plain = text.strip()
        for known in (unit, "%") if unit.startswith("%") else (unit,):
            if known and plain.lower().endswith(known.lower()):
                plain = plain[: -len(known)].strip()
        if unit == "g/L" and plain.endswith("%"):
            told = f"{10.0 * parse_number(plain.removesuffix('%')):g}"
            raise UnitsError(f'"{text.strip()}": write it in g/L; {plain} is {told} g/L.')
        value = parse_number(plain)
        if not least <= value <= most:
            raise UnitsError(
                f'"{text.strip()}" is outside {least:g} to {most:g}{" " + unit if unit else ""}; '
                "read it again."
            )
        return value

    return read


_FEWEST_POINTS, _MOST_POINTS = 45, 200
"""Thousandths above water that may stand for a gravity; fewer could be °Brix."""
_MONTHS_IN = {"h": 12 / 8760, "d": 12 / 365, "w": 12 / 52, "f": 24 / 52, "m": 1.0, "y": 12.0}
"""By the first letter of the unit; 52 weeks are a year."""


def months(least: float, most: float) -> Callable[[str], float]:
    """Return a reader of months, a bare number or in words: "18", "a year", "6 weeks"."""
    bare = number(least, most, "months")

    def read(text: str) -> float:
        spans = spans_written(text)
        if not spans:
            return bare(text)
        return bare(f"{sum(count * _MONTHS_IN[unit] for count, unit in spans):.4g}")

    return read


def number_text(value: float | None) -> str:
    """Return the number as a field shows it; nothing for None."""
    return "" if value is None else f"{value:g}"


def pair(text: str) -> tuple[str, str]:
    """Return both ends of "5.5-7.5", "5,5 to 7,5" or one number twice."""
    for mark in ("–", "—", " to ", "-"):
        low, found, high = text.partition(mark)
        if found and low.strip() and high.strip():
            return low.strip(), high.strip()
    return text.strip(), text.strip()


def number_pair(least: float, most: float, unit: str = "") -> Callable[[str], tuple[float, float]]:
    """Return a reader of "5.5-7.5" with both ends in the range; a unit may be typed."""
    one = number(least, most, unit)

    def read(text: str) -> tuple[float, float]:
        low, high = (one(end) for end in pair(text))
        if low > high:
            raise UnitsError(f'"{text.strip()}" starts above where it ends.')
        return low, high

    return read


def wanted_gravity(text: str) -> Gravity:
    """Return a gravity that is wanted: nobody has read it, so nobody is sent to the hydrometer."""
    not_below_nothing(text)
    try:
        return Gravity(text)
    except UnitsError:
        plain = text.strip()
        if not plain.isdecimal() or gravity_meant(float(plain)) is not None:
            raise
    if _FEWEST_POINTS < int(plain) < _MOST_POINTS:
        raise UnitsError(f'"{plain}" is not a gravity; did you mean "1.{int(plain):03d}"?')
    raise UnitsError(f'"{plain}" is not a gravity a wine can have; write one such as 1.090.')


def gravity_pair(text: str) -> tuple[Gravity, Gravity]:
    """Return both ends of "1.088-1.094"; a slip such as "1088" is asked about."""
    low, high = (wanted_gravity(end) for end in pair(text))
    if low.scale != high.scale:
        raise UnitsError(f'"{text.strip()}" mixes SG and °Brix; write both ends in one.')
    if low.value > high.value:
        raise UnitsError(f'"{text.strip()}" starts above where it ends.')
    return low, high
