"""Fruit by the piece: a number of lemons says no weight, so the person is asked."""

from __future__ import annotations

import re
from collections.abc import Iterable

from winebench.plan.typed.names import Offer, exact
from winebench.plan.typed.number_words import COUNTS, digits
from winebench.plan.typed.remarks import Asked, written
from winebench.units import NUMBER, parse_number

JUICE_ML = {"lemon": 45.0, "orange": 80.0}
"""What one gives, mL: three tablespoons, a third of a cup (common practice). Only ever proposed."""
_PARTS_OF = r"(?:juice|zest|peel|rind|saft|jus|schale|zeste)"
_PART = (
    r"(?:(?:finely\s+|thinly\s+)?(?:grated\s+|pared\s+)?"
    rf"(?P<part>{_PARTS_OF}(?:\s*(?:and|,|\+|&|und|et)\s*{_PARTS_OF})*)\s+"
    r"(?:(?:of|from|von|de|d['’])\s*)?)?"
)
_PIECES = re.compile(
    rf"(?:(?:the|le|den)\s+)?{_PART}(?P<number>{NUMBER}|an?|einer|une?)(?:\s*[x×])?\s+(?P<name>[^\d]+)",
    re.IGNORECASE | re.ASCII,
)
_COUNT = re.compile(rf"\b(?:{'|'.join(COUNTS)})\b(?=\s+[a-z])", re.IGNORECASE)
_NUMBER_LAST = re.compile(rf"^([^\d:,]+)\s*(?:[:=–]|\s[x×])\s*({NUMBER})$", re.ASCII)
"""Lemons: 2."""
_SIZES = re.compile(r"(?i)\b(?:large|small|medium|whole|ripe|fresh|unwaxed|juicy|of|the)\b")
_PARTS = re.compile(
    r"(?i)[\s,]*\b(?:(?:and|only|the|of|its|their|juice|juiced|zest|peel|rind)\b[\s,&]*)+$"
)


def refuse_pieces(text: str, offers: Iterable[Offer]) -> None:
    """Raise where the words count fruit, as in "juice of 2 lemons" or "4 damsons".

    Raises:
        Asked: they do; where a usual yield is known, it is the way out.

    """
    plain = re.sub(r"[()]", " ", digits(text)).strip(" .")
    plain = _NUMBER_LAST.sub(r"\2 \1", re.sub(r"(?i)\bhalf\s+an?\s+", "1/2 ", plain))
    plain = _COUNT.sub(lambda word: COUNTS[word[0].lower()], plain)
    found = _PIECES.fullmatch(plain)
    if found is None:
        return
    tail = _PARTS.search(found["name"])
    bare = found["name"][: tail.start()] if tail else found["name"]
    bare = re.split(r",|\s+for\s", bare)[0]
    fruit = exact(" ".join(_SIZES.sub(" ", bare).split()), offers)
    if fruit is None or fruit.kind != "fruit":
        return
    number = 1.0 if found["number"].isalpha() else parse_number(found["number"])
    part = (found["part"] or (tail[0] if tail else "")).lower()
    raise _asked(" ".join(text.split()), fruit, number, part)


def _asked(text: str, fruit: Offer, number: float, part: str) -> Asked:
    name = fruit.name.lower()
    one = JUICE_ML.get(fruit.key)
    if part and re.search("juice|saft|jus", part) is None:
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
