"""Which lines of a card tell what to do: they are kept as a note."""

from __future__ import annotations

import re

from winebench.plan.typed.number_words import UNIT, digits

_VERB_WORDS = """
add allow blend boil bottle bring chop combine cover crush cut discard dissolve drain feed ferment
fit heat keep leave let lift mash mature mix pitch place pour press put rack remove repeat siphon
simmer skim soak sprinkle squeeze stand sterilise sterilize sanitise sanitize stir store strain
syphon test top transfer use wait wash check clean cool age stabilise stabilize degas enjoy serve
drink label cork seal sweeten return swirl shake attach move continue measure taste prepare start
"""
_VERBS = frozenset(_VERB_WORDS.split())
_OPENINGS = re.compile(
    r"(?:then|next|now|finally|after|when|once|until|while|if|on|in|at|every|daily|twice|do\s+not|"
    rf"don't|never|always|this|it|we|i(?!\s+{UNIT}\b)|they|tip|note|nb|n\.b\.|remember|"
    r"(?:bottling|racking|secondary|maturing|ageing|aging|fermentation)\s*[:–-]\s*\d+[\s\d–-]*(?:days?|weeks?|months?|years?)|"
    r"(?:first|second|third|next|same)\s+day|(?:step|stage)\s*\d{1,2}\b(?=\W*[a-z])|\d{1,2}(?:st|nd|rd|th)|(?:day|week|month)s?\s*\d+)\b",
    re.IGNORECASE,
)
_TIMES = re.compile(
    r"\d+(?:\s*(?:-|–|to|or)\s*\d+)?\s*(?:hours?|hrs?|days?|weeks?|wks?|months?|years?|minutes?|mins?"
    r"|°\s*[cf]?|deg(?:rees)?|[cf]\b(?!\.?\s+[^\W\d])|times|%|percent)",
    re.IGNORECASE,
)
_HALF = re.compile(r"(?i)half\s+an?\s")
_LONG = 12
"""More words than this are no ingredient."""
_LONGEST = 300
"""More letters than this are no one item."""


def tells_what_to_do(body: str) -> bool:
    """Return whether a line is method: a verb in front, a time, or a long sentence."""
    words = body.split()
    if not words:
        return False
    first = re.sub(r"[^\w']", "", words[0]).lower()
    if len(body) > _LONGEST or first in _VERBS or _OPENINGS.match(body) or _TIMES.match(body):
        return True
    if _HALF.match(body):  # "Half a lemon for the acid."
        return False
    return not any(letter.isdigit() for letter in digits(body)) and (
        len(words) > _LONG or (len(words) > 4 and body.rstrip().endswith((".", "!")))
    )
