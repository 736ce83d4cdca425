"""Items that leave open which or how much: "1 lb raisins or 1 lb dates", "a pinch of salt"."""

from __future__ import annotations

import re

from winebench.plan.typed.amounts import stated
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.remarks import Asked, written
from winebench.units import UnitsError

_OR = re.compile(r"\s*,?\s+or\s+(?:else\s+)?(?=\d)")
_LOOSE = re.compile(
    r"(?:an?|some|\d+(?:\s*-\s*\d+)?|a\s+(?:few|good|large|small))?\s*"
    r"(?:pinch|handful|dash|knob|drop|sprig|slice|piece|bunch|stick|clove|leaf|leave|squeeze|splash)"
    r"(?:s|es)?\s+(?:of\s+)?\w.*",
    re.IGNORECASE,
)


def refuse_choice(text: str) -> None:
    """Raise where the words leave a choice, or measure by the handful.

    Raises:
        Asked: they do; each of the choices is a way out.

    """
    plain = digits(text)
    choices = _OR.split(plain)
    if len(choices) > 1 and all(_is_line(choice) for choice in choices):
        raise Asked("The card leaves a choice: which one goes in?", *map(written, choices))
    if _LOOSE.fullmatch(plain):
        raise Asked(f'"{text}" is no measure: write how much, or keep it as a note.')


def _is_line(text: str) -> bool:
    try:
        found = stated(text)
    except UnitsError:
        return False
    return found is not None and bool(found.words)
