"""How fields read their text: one comma or point is the decimal sign under every locale."""

from __future__ import annotations

import re
from collections.abc import Callable

from winebench.units import Gravity, UnitsError, parse_number


def number(least: float, most: float, unit: str = "") -> Callable[[str], float]:
    """Return a reader of numbers from `least` to `most`; a trailing unit may be typed."""

    def read(text: str) -> float:
        plain = text.strip()
        if unit and plain.lower().endswith(unit.lower()):
            plain = plain[: -len(unit)].strip()
        value = parse_number(plain.removesuffix("%").strip())
        if not least <= value <= most:
            raise UnitsError(
                f'"{text.strip()}" is outside {least:g} to {most:g}{" " + unit if unit else ""}; '
                "read it again."
            )
        return value

    return read


_SPAN = re.compile(
    r"(?:(?P<half>half\s+an?)|(?P<one>an?|one)|(?P<count>\d[\d\s.,/½¼¾]*?))\s*"
    r"(?P<unit>days?|weeks?|wks?|months?|years?|yrs?)",
    re.IGNORECASE,
)
_MONTHS_IN = {"d": 12 / 365, "w": 12 / 52, "m": 1.0, "y": 12.0}
"""By the first letter of the unit."""


def months(least: float, most: float) -> Callable[[str], float]:
    """Return a reader of months, a bare number or in words: "18", "a year", "6 weeks"."""
    bare = number(least, most, "months")

    def read(text: str) -> float:
        found = _SPAN.fullmatch(" ".join(text.split()))
        if found is None:
            return bare(text)
        count = 0.5 if found["half"] else parse_number(found["count"]) if found["count"] else 1.0
        return bare(f"{count * _MONTHS_IN[found['unit'][0].lower()]:.4g}")

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


def number_pair(least: float, most: float) -> Callable[[str], tuple[float, float]]:
    """Return a reader of "5.5-7.5" with both ends in the range."""
    one = number(least, most)

    def read(text: str) -> tuple[float, float]:
        low, high = (one(end) for end in pair(text))
        if low > high:
            raise UnitsError(f'"{text.strip()}" starts above where it ends.')
        return low, high

    return read


def gravity_pair(text: str) -> tuple[Gravity, Gravity]:
    """Return both ends of "1.088-1.094"; a slip such as "1088" is asked about."""
    low, high = (Gravity(end) for end in pair(text))
    if low.scale != high.scale:
        raise UnitsError(f'"{text.strip()}" mixes SG and °Brix; write both ends in one.')
    if low.value > high.value:
        raise UnitsError(f'"{text.strip()}" starts above where it ends.')
    return low, high
