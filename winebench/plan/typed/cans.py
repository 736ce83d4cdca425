"""Tins by their old numbers, "1 No. 10 can peaches": what such a tin holds is asked."""

from __future__ import annotations

import re

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.remarks import Asked, written
from winebench.units import NUMBER, parse_number

CANS_OZ: dict[str, tuple[float, float]] = {
    "1": (10.5, 12.0),
    "300": (14.0, 16.0),
    "303": (16.0, 16.0),
    "2": (20.0, 20.0),
    "2 1/2": (26.0, 30.0),
    "3": (51.0, 51.0),
    "5": (64.0, 72.0),
    "10": (96.0, 117.0),
}
"""Net weight in ounces by the can's number, lowest and highest: K-State Research and Extension,
table of can sizes, 2009 (No. 1 as picnic, No. 3 as cylinder, No. 5 as squat)."""
_NAMED = re.compile(
    rf"(?:(?P<before>[^\d#]*?[a-z])[\s,:]+)?(?:(?P<number>{NUMBER})\s*[x×]?\s*)??\(?"
    r"(?:(?:tins?|cans?)[\s,(]+)?(?:size\s+)?(?:no\.?|number|nr\.?|#)\s*"
    r"(?P<size>10|2\s*1/2|2[.,]5|303|300|[1235])\s*\)?(?:\s+size)?[\s-]*(?:sized?\s+)?(?:tins?|cans?)?\)?\s*"
    r"(?:of\s+)?(?P<after>[^\d]*)",
    re.IGNORECASE | re.ASCII,
)


def _found(text: str) -> re.Match[str] | None:
    named = re.search(r"(?i)\b(?:tin|can)s?\b", text)
    return _NAMED.fullmatch(digits(text).strip(" .")) if named else None


def is_numbered_can(text: str) -> bool:
    """Return whether the words are such a tin without its name: "1 No. 10 can"."""
    found = _found(text)
    return found is not None and not found["before"] and not found["after"].strip()


def refuse_numbered_can(text: str) -> None:
    """Raise where the words count tins by their old numbers.

    Raises:
        Asked: they do; what such tins hold by the table are the ways out.

    """
    found = _found(text)
    if found is None or is_numbered_can(text):
        return
    name = f"{found['before'] or ''} {found['after']}".strip()
    size = re.sub(r"2\s*(?:1/2|[.,]5)", "2 1/2", found["size"])
    number = parse_number(found["number"]) if found["number"] else 1.0
    low, high = CANS_OZ[size]
    held = f"{low:g} oz" if low == high else f"{low:g} to {high:g} oz"
    ways = [
        written(f"{fraction_text(number)} x {each:g} oz can {name}")
        for each in dict.fromkeys((low, high))
    ]
    raise Asked(
        f'"{text.strip()}": a No. {size} can holds about {held} (K-State Research and Extension); '
        "the label says how much is in yours.",
        *ways,
    )
