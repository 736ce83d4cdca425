"""A point or comma before three digits, as in "1.000 g": the amount without it."""

from __future__ import annotations

import re
from typing import NamedTuple

_GROUPED = re.compile(
    r"(?P<whole>[1-9]\d{0,2})(?P<mark>[.,])(?P<three>\d{3})\s*(?P<unit>(?:m?g|[mc]l)\b.*|grams?\b.*|gramm\b.*)",
    re.IGNORECASE | re.ASCII,
)


class Grouped(NamedTuple):
    """Both that such an amount can be."""

    whole: str
    """1000 g."""
    decimal: str
    """1 g."""
    mark: str
    is_round: bool
    """Whether the three digits are noughts."""


def without_point(text: str) -> str:
    """Return "10.000 mL" of must or water as "10000 mL"; any other amount as it is."""
    both = grouped(text)
    return both.whole if both is not None and both.mark == "." else text


def grouped(text: str) -> Grouped | None:
    """Return both readings of an amount of a small metric unit; None where it is no such."""
    found = _GROUPED.fullmatch(text.strip())
    if found is None:
        return None
    small = float(f"{found['whole']}.{found['three']}")
    whole = f"{found['whole']}{found['three']} {found['unit']}"
    is_round = found["three"] == "000"
    return Grouped(whole, f"{small:g} {found['unit']}", found["mark"], is_round)
