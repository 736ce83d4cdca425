"""Marks of plain-text writing that say nothing of wine: emphasis, headings, tables."""

from __future__ import annotations

import re
from functools import lru_cache

PICTURES = "\u2190-\u21ff\u2300-\u23ff\u2500-\u2bff\u3030\ufe0e\ufe0f\u200d\U0001f000-\U0001faff"
"""Arrows, signs and emoji, as a class of a pattern: they say nothing that is read."""
IN_FRONT = re.compile(
    rf"(?:\s|[{PICTURES}-–—•·*‣◦▪▫●○■□☐☑✓✔>|~`]|#+(?=\s|\w)|_{{1,3}}(?=\w)|\[[ xX]?\])*"
    r"(?:\(?\d{1,2}[.)]\s+(?=\S)(?:\s|[-–—•·*_]|\[[ xX]?\])*)?"
)
"""What stands in front of an item: bullets, boxes, numbering, marks of a heading."""
BEHIND = " \t\u00a0,;|:*_`~–—"
"""What may stand behind one."""
_INSIDE = re.compile(r"\*\*|(?<![^\W_])_|_(?![^\W_])|__|~~|`|\*(?!\s*\d)|\s*\|\s*")
_YIELDS = re.compile(r"\s*(?:→|->|=>)\s*([^(),;]*\d[^(),;]*)(?=$|[,;])")
_PICTURES = re.compile(f"[{PICTURES}]+")
_LEADERS = re.compile(r"\s*(?:\.{3,}|…+|·{3,}|_{3,}|-{3,})\s*(?=\S)")
"""Dots that lead the eye from a name to its amount."""


@lru_cache(maxsize=4096)
def unmarked(text: str) -> str:
    """Return the words without marks inside them: "**3 lb** plums" is 3 lb plums."""
    plain = _INSIDE.sub(" ", text) if _INSIDE.search(text) else text
    plain = _YIELDS.sub(r" (yields \1)", plain)
    plain = re.sub(r"(?i)\bh2o\b", "water", plain)
    plain = _PICTURES.sub(" ", plain)
    plain = _LEADERS.sub(": ", plain).replace("[", "(").replace("]", ")")
    plain = re.sub(r"\s+#+$", "", plain)
    whole = re.fullmatch(r"\s*\(([^()]*)\)\s*", plain)
    return " ".join((whole[1] if whole else plain).split())
