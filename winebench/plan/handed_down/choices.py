"""Items that leave open which or how much: "1 lb raisins or 1 lb dates", "a pinch of salt"."""

from __future__ import annotations

import re

from winebench.catalog.never_food import never_food_in
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.forms import SORTS
from winebench.plan.typed.lines import typed_line
from winebench.plan.typed.names import exact
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.remarks import Asked, Way, written
from winebench.plan.typed.unknown import Unknown
from winebench.units import NUMBER, SPELLINGS, UnitsError

_OR = re.compile(r"\s*,?\s+or\s+(?:else\s+)?(?=\d)")
_LOOSE_LAST = re.compile(
    r"[a-z][\w' -]{2,40}?\s*[,:–-]\s*(?:a\s+little|some|a\s+bit|"
    r"(?:an?\s+)?(?:good\s+|big\s+|small\s+)?(?:pinch|handful|dash|knob|sprig|slice|bunch|squeeze|splash)(?:s|es)?)\W*",
    re.IGNORECASE,
)
_LOOSE = re.compile(
    r"(?:(?:take|use|get|add)\s+)?(?:an?|some|\d+(?:\s*-\s*\d+)?|an?\s+(?:few|good|big|large|small|generous|heaped|scant))?\s*"
    r"(?:pinch|handful|peck|bushel|thumb|bucketful|basketful|pailful|bagful|dash|knob|drop|sprig|slice|piece|bunch|stick|clove|leaf|leave|squeeze|splash)"
    r"(?:s|es)?\s+(?:of\s+)?\w.*",
    re.IGNORECASE,
)
_PINCH = re.compile(
    r"(?i)(?:(?:an?|1|one)\s+)?(?:good\s+|small\s+)?pinch\s+(?:of\s+)?(?P<name>\D+)"
)
_EITHER = re.compile(r"(?i)(?<=[a-z])(?:\s+or\s+|\s*/\s*)(?=[a-z])")
_COUNTED = re.compile(
    rf"(?P<number>{NUMBER})\s+(?P<name>(?:[a-z][\w'-]*\.?(?:\s+|$)){{1,4}})",
    re.IGNORECASE | re.ASCII,
)
_COUNTED_LAST = re.compile(
    r"(?P<name>[a-z][\w' -]*?)(?:\s*(?P<colon>[:=x×])\s*|\s+)(?P<number>\d{1,2})(?:,?\s+crushed)?",
    re.IGNORECASE | re.ASCII,
)
"""Cloves: 6; sulfite 1 crushed."""
_NO_PIECES = re.compile(
    r"(?i)\b(?:days?|weeks?|months?|hours?|minutes?|times|degrees?|people|parts?|and|in|on|of|at)\b"
)


def refuse_choice(text: str) -> None:
    """Raise where the words leave a choice, measure by the handful, or count pieces of no weight.

    Raises:
        Asked: they do; each of the choices is a way out.

    """
    plain = digits(text)
    choices = _OR.split(plain)
    if len(choices) > 1 and _is_line(choices[0]):
        ways = [written(choice) for choice in choices if _is_known_line(choice)]
        raise Asked("The card leaves a choice: which one goes in?", *ways)
    _refuse_names(plain)
    if never_food_in(plain) is not None:
        return  # it is refused whatever it measures by
    if _LOOSE.fullmatch(plain) or _LOOSE_LAST.fullmatch(plain):
        raise Asked(
            f'"{text}" is no measure: write how much, or keep it as a note.', *_pinch(plain)
        )
    last = _COUNTED_LAST.fullmatch(plain.strip(" ."))
    bare = last is not None and "tab" not in last["name"].lower()
    if last is not None and bare and exact(f"{last['name']} tablets", known()) is not None:
        raise Asked(
            f'"{text}": how many tablets?', written(f"{last['number']} {last['name']} tablets")
        )
    if last is not None and last["colon"] and _is_piece(last["name"].split()):
        raise Asked(f'"{text}" is counted, not weighed: write its weight, or keep it as a note.')
    counted = _COUNTED.fullmatch(plain.strip(" ."))
    said = re.split(r"\s(?:to|for)\s", counted["name"])[0] if counted else ""
    name = " ".join(w for w in said.split() if w not in SORTS)
    tablets = exact(f"{name} tablets", known()) is not None
    if counted is not None and tablets and not any(map(_unit, name.split())):
        rest = counted["name"][len(said) :].rstrip()  # "to stabilise": no part of the must
        way = written(f"{counted['number']} {name} tablets{rest}")
        raise Asked(f'"{text}": of tablets, or by the spoon?', way)
    if counted is not None and _is_piece(counted["name"].split()):
        raise Asked(f'"{text}" is counted, not weighed: write its weight, or keep it as a note.')


def _pinch(plain: str) -> tuple[Way, ...]:
    """Return a pinch of a known powder as the sixteenth of a teaspoon (common practice)."""
    found = _PINCH.fullmatch(plain)
    powder = exact(found["name"], known()) if found is not None else None
    if powder is None or powder.kind != "additive":
        return ()
    return (written(f"1/16 tsp {powder.name.lower()}"),)


def _refuse_names(plain: str) -> None:
    """Raise where one amount is of either of two known things: "3 lb plums or damsons"."""
    try:
        found = stated(plain) if _EITHER.search(plain) else None
    except UnitsError:
        return
    names = _EITHER.split(re.sub(r"(?i)^of\s+", "", found.words)) if found is not None else []
    if found is not None and len(names) > 1 and all(exact(name, known()) for name in names):
        ways = [written(f"{found.amount.text} {name}") for name in names]
        raise Asked("The card leaves a choice: which one goes in?", *ways)


def _is_piece(words: list[str]) -> bool:
    """Return whether the words are a thing that nobody knows here: no unit before a known name.

    "1 cinnamon stick" is a piece; "2 furlongs honey" has a unit that there is none of.
    """
    if _NO_PIECES.search(" ".join(words)) or any(_unit(word) for word in words):
        return False
    return not any(exact(" ".join(words[start:]), known()) for start in range(len(words)))


def _unit(word: str) -> bool:
    return word.lower().rstrip(".") in SPELLINGS or word.lower() == "fl"


def _is_known_line(text: str) -> bool:
    """Return whether it reads as a line of something that the catalog knows."""
    try:
        return not isinstance(typed_line(text, known()).line, Unknown)
    except UnitsError:
        return False


def _is_line(text: str) -> bool:
    try:
        found = stated(text)
    except UnitsError:
        return False
    return found is not None and bool(found.words)
