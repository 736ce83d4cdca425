"""Lengths of time and dozens of bottles as people note them."""

from __future__ import annotations

import re

from winebench.plan.days import DAYS_IN
from winebench.plan.typed.number_words import digits
from winebench.units import UnitsError, parse_number

_TIME = (
    r"(?P<count>half\s+an?|an?\s+couple\s+of|an?|[^a-z]+?)\s*"
    r"(?P<unit>hours?|hrs?|h|days?|d|weeks?|wks?|fortnights?|months?|years?|yrs?)\b\.?"
    r"(?P<half>\s+and\s+an?\s+half)?"
)
_TIMES = re.compile(rf"(?i){_TIME}(?:\s*,?\s*(?:and\s+)?(?=[\da])|$)")
_COUNTS = {"half": 0.5, "half a": 0.5, "half an": 0.5, "a": 1.0, "an": 1.0, "a couple of": 2.0}
_DOZEN = re.compile(
    r"(?i)^\s*(?P<count>.*?)\s*\bdoz(?:en|\.)?(?P<half>\s+and\s+an?\s+half)?"
    r"(?:\s+(?:of\s+)?(?:full\s+)?bottles?)?\s*$"
)


def days_written(text: str) -> float | None:
    """Return what "14", "2 weeks", "a year" or "2 weeks and 3 days" comes to in days, or None."""
    try:
        return parse_number(text)
    except UnitsError:
        rest, days = text.strip(), 0.0
    if not rest:
        return None
    while rest:
        found = _TIMES.match(rest)
        if found is None:
            return None
        said = " ".join(found["count"].lower().split())
        known = _COUNTS.get(said)
        try:
            count = parse_number(said) if known is None else known
        except UnitsError:
            return None
        days += (count + (0.5 if found["half"] else 0.0)) * DAYS_IN[found["unit"][0].lower()]
        rest = rest[found.end() :]
    return days


def dozens_written(text: str) -> float | None:
    """Return what "half a dozen", "2 1/2 dozen" or "five dozen bottles" comes to, or None."""
    found = _DOZEN.match(text)
    if found is None:
        return None
    said = " ".join(found["count"].lower().split())
    count = _COUNTS.get(said) if said else 1.0
    if count is None:
        try:
            count = parse_number(digits(f"{said} bottles").removesuffix(" bottles"))
        except UnitsError:
            return None
    return 12.0 * (count + (0.5 if found["half"] else 0.0))
