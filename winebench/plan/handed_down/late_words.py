"""Sentences of a method that are of the wine at its end: "stabilise with ... and sweeten"."""

from __future__ import annotations

import re
from typing import Literal

Time = Literal["start", "racked", "end"]
_END = re.compile(
    r"(?i)\b(?:stabili[sz]\w*|(?:back[\s-]*)?sweeten\w*|to\s+taste|sorbate|bottling|degas\w*|"
    r"(?:and|then|before\s+you|to)\s+bottle\b|"
    r"(?:when|once|after)\s+(?:it\s+(?:is\s+|has\s+)?)?clear\w*|clears\b|cleared\b|fining|"
    r"after\s+(?:the\s+)?ferment\w*|"
    r"(?:when|once)\s+(?:the\s+)?ferment\w*\s+(?:(?:is|has)\s+)?"
    r"(?:over|done|complete\w*|end\w*|finish\w*|stop\w*)|"
    r"(?:after|when|once)\s+(?:the\s+)?(?:finished\s+)?wine|finished\s+wine)"
)
_RACKED = re.compile(r"(?i)\b(?:rack(?:s|ed|ing)?|secondary)\b")
_SENTENCE = re.compile(r"[.;!]\s+(?=[A-Z])|\n")
_CLAUSE = re.compile(r"[,.;]\s|\bthen\b")


def time_in(text: str, place: int) -> Time:
    """Return when a thing that the sentence names at `place` goes in, by the words around it.

    What a sentence says of the end is of all behind it, and of what is in the same clause.
    """
    start = max((found.end() for found in _SENTENCE.finditer(text, 0, place)), default=0)
    behind = _CLAUSE.search(text, place)
    words = text[start : behind.start() if behind else len(text)]
    if _END.search(words) or re.match(r"(?i)bottle\b", words):
        return "end"
    return "racked" if _RACKED.search(words) else "start"
