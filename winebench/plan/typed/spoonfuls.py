"""Spoonfuls that are no level ones: a heaped spoon is asked about, a dessertspoon is two level."""

from __future__ import annotations

import re

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.foreign import has_metric_pound
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.remarks import Asked, Remark, written
from winebench.units import NUMBER, parse_number

_HEAPED = re.compile(
    rf"(?P<number>{NUMBER})\s+(?P<unit>(?:tsp|tbsp|teaspoon|tablespoon)s?)\.?\s+"
    rf"(?P<how>heaped|heaping|rounded|piled)\s+(?P<name>.+)",
    re.IGNORECASE,
)
_DESSERT = re.compile(r"(?i)\b(?:dessert[\s-]?spoon(?:ful)?s?|dsp|dstspn)\b")
HEAPED_HOLDS = (1.5, 2.0)
"""Level spoons in a heaped one, from a dry powder to a clinging one (common practice)."""


def refuse_heaped(text: str) -> None:
    """Raise where the words measure by the heaped or rounded spoon.

    Raises:
        Asked: they do; what such a spoon usually holds, and the level one, are the ways out.

    """
    found = _HEAPED.search(digits(text))
    if found is None:
        return
    number, unit = parse_number(found["number"]), found["unit"]
    counts = (*(number * holds for holds in HEAPED_HOLDS), number)
    name = re.sub(r"(?i)^of\s+", "", found["name"])
    ways = [written(f"{fraction_text(count)} {_many(unit, count)} {name}") for count in counts]
    raise Asked(
        f"A {found['how'].lower()} spoon holds one and a half to two level ones (common practice): "
        "how many level ones are meant? Weigh it if you can.",
        *ways,
    )


def _many(unit: str, count: float) -> str:
    one = unit.rstrip("s")
    return f"{one}s" if count > 1 and one.lower().endswith("spoon") else one


def measures_said(text: str) -> tuple[Remark, ...]:
    """Return what is to be said where the words measure by the dessertspoon or metric pound."""
    said = []
    if _DESSERT.search(text) is not None:
        said.append(Remark(sentence="A dessertspoon is read as two teaspoons (10 mL)."))
    if has_metric_pound(text):
        said.append(Remark(sentence="A metric pound (Pfund, livre) is read as 500 g."))
    return tuple(said)
