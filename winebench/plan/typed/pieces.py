"""Fruit by the piece: a number of lemons says no weight, so the person is asked."""

from __future__ import annotations

import re
from collections.abc import Iterable

from winebench.plan.typed.names import Offer, exact
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.remarks import Asked, written
from winebench.units import NUMBER, parse_number

JUICE_ML = {"lemon": 45.0, "orange": 80.0}
"""What one gives, mL: three tablespoons, a third of a cup (common practice). Only ever proposed."""
_PART = r"(?:(?:finely\s+|thinly\s+)?(?:grated\s+|pared\s+)?(?P<part>(?:juice|zest|peel|rind)" \
    r"(?:\s*(?:and|,|\+|&)\s*(?:juice|zest|peel|rind))*)\s+(?:of|from)\s+)?"  # fmt: skip
_PIECES = re.compile(
    rf"(?:the\s+)?{_PART}(?P<number>{NUMBER}|an?)\s+(?P<name>[^\d]+)", re.IGNORECASE | re.ASCII
)
_SIZES = re.compile(r"(?i)\b(?:large|small|medium|whole|ripe|fresh|unwaxed|juicy|of|the)\b")
_PARTS = re.compile(
    r"(?i)[\s,]*\b(?:(?:and|only|the|of|its|their|juice|juiced|zest|peel|rind)\b[\s,&]*)+$"
)


def refuse_pieces(text: str, offers: Iterable[Offer]) -> None:
    """Raise where the words count fruit, as in "juice of 2 lemons" or "4 damsons".

    Raises:
        Asked: they do; where a usual yield is known, it is the way out.

    """
    found = _PIECES.fullmatch(re.sub(r"[()]", " ", digits(text)).strip(" ."))
    if found is None:
        return
    tail = _PARTS.search(found["name"])
    bare = found["name"][: tail.start()] if tail else found["name"]
    fruit = exact(" ".join(_SIZES.sub(" ", bare).split()), offers)
    if fruit is None or fruit.kind != "fruit":
        return
    number = 1.0 if found["number"].lower() in ("a", "an") else parse_number(found["number"])
    part = (found["part"] or (tail[0] if tail else "")).lower()
    raise _asked(" ".join(text.split()), fruit, number, part)


def _asked(text: str, fruit: Offer, number: float, part: str) -> Asked:
    name = fruit.name.lower()
    one = JUICE_ML.get(fruit.key)
    if part and "juice" not in part:
        return Asked(
            f'"{text}" is flavour, next to no sugar or acid: keep it as a note, or weigh it.'
        )
    if one is None:
        return Asked(
            f'"{text}" says how many, not how heavy: weigh them, and write such as 1 lb {name}.'
        )
    juice = written(f"{one * number:g} mL {fruit.key} juice")
    return Asked(
        f'"{text}" says no amount: measure the juice; one {fruit.key} gives about {one:g} mL '
        "(common practice).",
        juice,
    )
