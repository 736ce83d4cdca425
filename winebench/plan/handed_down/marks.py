"""Marks of plain-text writing that say nothing of wine: emphasis, headings, tables."""

from __future__ import annotations

import re
from functools import lru_cache

IN_FRONT = re.compile(
    r"(?:\s|[-–—•·*‣◦▪▫●○■□☐☑✓✔>|~`]|#+(?=\s|\w)|_{1,3}(?=\w)|\[[ xX]?\])*"
    r"(?:\(?\d{1,2}[.)]\s+(?=\S)(?:\s|[-–—•·*_]|\[[ xX]?\])*)?"
)
"""What stands in front of an item: bullets, boxes, numbering, marks of a heading."""
BEHIND = " \t\u00a0,;|:*_`~"
"""What may stand behind one."""
_INSIDE = re.compile(r"\*\*|__|~~|`|\*(?!\s*\d)|\s*\|\s*")
_LEADERS = re.compile(r"\s*(?:\.{3,}|…+|·{3,}|_{3,}|-{3,})\s*(?=\S)")
"""Dots that lead the eye from a name to its amount."""


@lru_cache(maxsize=4096)
def unmarked(text: str) -> str:
    """Return the words without marks inside them: "**3 lb** plums" is 3 lb plums."""
    plain = _INSIDE.sub(" ", text) if _INSIDE.search(text) else text
    plain = _LEADERS.sub(": ", plain).replace("[", "(").replace("]", ")")
    plain = re.sub(r"\s+#+$", "", plain)
    whole = re.fullmatch(r"\s*\(([^()]*)\)\s*", plain)
    return " ".join((whole[1] if whole else plain).split())
