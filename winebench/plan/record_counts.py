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
    r"(?i)(?P<count>.*?)\bdoz(?:en|\.)?(?P<half> and an? half)?"
    r"(?: (?:of )?(?:full )?bottles?)?"
)


def days_written(text: str) -> float | None:
    """Return what "14", "2 weeks", "a year" or "2 weeks and 3 days" comes to in days, or None."""
    try:
        return parse_number(text)
    except UnitsError:
        spans = spans_written(text)
    return None if spans is None else sum(count * DAYS_IN[unit] for count, unit in spans)


def spans_written(text: str) -> list[tuple[float, str]] | None:
    """Return each count with the first letter of its unit, "a year and a half" as 1.5 and "y"."""
    rest, spans = " ".join(text.split()), []  # long gaps would cost the pattern seconds
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
        spans.append((count + (0.5 if found["half"] else 0.0), found["unit"][0].lower()))
        rest = rest[found.end() :]
    return spans


def dozens_written(text: str) -> float | None:
    """Return what "half a dozen", "2 1/2 dozen" or "five dozen bottles" comes to, or None."""
    found = _DOZEN.fullmatch(" ".join(text.split()))  # of many spaces a pattern makes much work
    if found is None:
        return None
    said = found["count"].lower().strip()
    count = _COUNTS.get(said) if said else 1.0
    if count is None:
        try:
            count = parse_number(digits(f"{said} bottles").removesuffix(" bottles"))
        except UnitsError:
            return None
    return 12.0 * (count + (0.5 if found["half"] else 0.0))
