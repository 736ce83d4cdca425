"""Sugar in several portions on one line: "sugar 800 g to begin, 400 g on day 5"."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from winebench.plan.typed.amounts import stated
from winebench.plan.typed.feeds import when_fed
from winebench.plan.typed.names import Offer, exact
from winebench.plan.typed.number_words import AMOUNT, digits
from winebench.plan.typed.remarks import Asked, Way
from winebench.units import UnitsError

_PART = re.compile(rf"(?:of\s+)?{AMOUNT}\s*(?P<rest>\D.*)", re.IGNORECASE | re.ASCII)
_NAME_FIRST = re.compile(r"(?P<name>[^\d,:;(]+?)\s*[,:(–-]*\s*(?P<parts>\d.*)")
_JOINS = re.compile(r"\s*(?:,(?!\d)|[;+]|\band\b|\bthen\b)\s*(?=\d)", re.IGNORECASE)
_OF = re.compile(r"(?i)^(?:of\s+)?(?:the\s+)?")


class _Portion(NamedTuple):
    amount: str
    name: str
    time: str
    """When it goes in; "" for at the start."""


def refuse_staged(text: str, offers: Iterable[Offer]) -> None:
    """Raise where the words give several portions of one sugar, each with its time.

    Raises:
        Asked: they do; a line for each portion is the way out.

    """
    plain = digits(text).strip(" .)")
    name, body = _name_and_parts(plain)
    pieces = [_portion(piece) for piece in _JOINS.split(body)]
    portions = [piece for piece in pieces if piece is not None]
    if len(pieces) < 2 or len(portions) < len(pieces):
        return
    name = name or next((portion.name for portion in portions if portion.name), "")
    sugar = exact(name, offers)
    if sugar is None or sugar.kind != "sugar":
        return
    lines = [
        f"{each.amount} {name.lower()}{f', {each.time}' if each.time else ''}" for each in portions
    ]
    raise Asked(
        f'"{text.strip()}" has portions for several times: write a line for each.',
        Way(label="A line for each", text="\n".join(lines)),
    )


def _name_and_parts(plain: str) -> tuple[str, str]:
    """Return the name in front, or that of a total in front of brackets, and the rest."""
    total, bracket, parts = plain.partition("(")
    try:
        whole = stated(total) if bracket else None
    except UnitsError:
        whole = None
    if whole is not None:
        return whole.words.strip(" ,:–-"), parts
    named = _NAME_FIRST.fullmatch(plain)
    return (named["name"], named["parts"]) if named is not None else ("", plain)


def _portion(piece: str) -> _Portion | None:
    """Return an amount with its time and the name between them, if it has one."""
    found = _PART.fullmatch(piece.strip(" ()"))
    if found is None:
        return None
    words = _OF.sub("", found["rest"].strip()).split()
    for start in range(min(len(words), 4)):
        fed = when_fed(" ".join(words[start:]))
        if fed is not None and fed.when in ("start", "feed"):
            time = "" if fed.when == "start" else fed.words
            return _Portion(found["amount"], " ".join(words[:start]), time)
    return None
