"""Numbers that could be a slipped reading: they are asked about, never kept as words."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.plan.scribbles.masked import Masked
from winebench.units import HIGHEST_SG, LOWEST_SG

_MISTYPED = re.compile(r"(?<![\w.,])[01OoIl|][.,][0-9OoIlSsB|]{3,4}(?![\w.,]*\d|\w)")
"""Letters among the digits of a gravity, as in "1.05O"."""
_DIGITS = str.maketrans({"O": "0", "o": "0", "I": "1", "l": "1", "|": "1", "S": "5", "s": "5",
                         "B": "8"})  # fmt: skip
_SHORT = re.compile(
    r"(?<![\w.,/])(?P<whole>[01])[.,](?P<rest>\d{2})(?![\w/]|[.,]\d"
    r"|\s*(?:kg|g|mg|l|ml|cl|lbs?|oz|gal\w*|qts?|pts?|pints?|litres?|liters?|tsp|tbsp|cups?|%|°|a\b|c\b|f\b))"
)
"""A gravity of two decimals that stands behind words, as "1.02" in "stirred, 1.02"."""
_POINTS = re.compile(r"(?<![\w.,/])(?P<points>9[7-9]\d|1[01]\d\d)(?![\w.,/]|\s*(?:g|ml|mg|kg|l)\b)")
"""A gravity without its point, as "1045"."""
_GLUED = re.compile(
    r"(?<![\w.,/])(?P<meant>[01][.,]\d{3})(?:\d{2,}|\d?(?:\.\d+)+)(?![\w/])", re.ASCII
)
"""A gravity with more digits than a hydrometer shows, or with a second point: "1.05000001"."""


class Slipped(NamedTuple):
    """Where a number that could be a gravity stands in a line, and what it probably means."""

    start: int
    end: int
    meant: str


def mistyped(line: Masked) -> Slipped | None:
    """Return the first number with letters among its digits that would be a gravity."""
    for found in _MISTYPED.finditer(line.text):
        meant = found[0].translate(_DIGITS).replace(",", ".")
        lettered = meant != found[0].replace(",", ".")
        if lettered and LOWEST_SG <= float(meant) <= HIGHEST_SG:
            return Slipped(*found.span(), meant)
    return None


def glued(line: Masked) -> Slipped | None:
    """Return the first gravity among what is left that has other digits grown to it."""
    for found in _GLUED.finditer(line.left):
        meant = found["meant"].replace(",", ".")
        if LOWEST_SG <= float(meant) <= HIGHEST_SG:
            return Slipped(*found.span(), meant)
    return None


def left_over(line: Masked) -> Slipped | None:
    """Return the first number among the words left that could be a gravity nobody read."""
    found = _SHORT.search(line.left)
    if found is not None:
        meant = f"{found['whole']}.{found['rest']}0"
        if LOWEST_SG <= float(meant) <= HIGHEST_SG:
            return Slipped(*found.span(), meant)
    found = _POINTS.search(line.left)
    if found is not None:
        return Slipped(*found.span(), f"{int(found['points']) / 1000:.3f}")
    return None
