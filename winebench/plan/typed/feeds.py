"""When sugar goes in: at the start, fed later, or after the ferment, in the words of cards."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, NamedTuple

from winebench.plan.typed.number_words import COUNTS

When = Literal["start", "feed", "half", "sweeten"]
"""half: partly now and partly later; sweeten: into the finished wine, no part of the must."""
_COUNT = r"(?:\d+|an?|one|two|three|four|five|six|seven|some|several|few|a\s+few|equal|the|next)"
_SPAN = rf"{_COUNT}(?:\s*(?:-|to|or)\s*\d+)?\s+(?:days?|weeks?|hours?)"
_SG = (
    r"(?:(?:s\.?\s?g\.?|gravity|the\s+gravity|it|brix)\s*)?"
    r"(?:is|=|of|reaches|gets\s+to|drops\s+to)?\s*1[.,]0\d*"
)
_LATER = (
    r"(?:to\s+be\s+|to\s+|for\s+|as\s+(?:an?\s+)?|then\s+)?(?:step[\s-]*)?(?:feed(?:s|ing)?|fed)\b.*",
    r"(?:to\s+be\s+|to\s+|for\s+)?(?:add(?:ed|ing)?|adding|stir(?:red)?\s+in|put\s+in|dissolved?|go(?:es|ing)?\s+in)\s+"
    rf"(?:in\s+)?(?:later|afterwards|gradually|slowly|bit\s+by\s+bit|in\s+\w+\s+(?:stages|parts|lots|goes)|in\s+stages|"
    rf"on\b|after\b|when\b|once\b|during\b|while\b|as\s+it\b|at\s+{_SG}|day\b|{_SPAN}\s+(?:later|in|after)).*",
    r"(?:for\s+|and\s+the\s+rest\s+|the\s+rest\s+|some\s+)?later\b.*",
    r"(?:at|after|before)\s+(?:(?:the|each|every|first|second|1st|2nd|last)\s+){0,2}racking\b.*",
    r"(?:added\s+|fed\s+)?(?:in|by|over)\s+(?:(?:\w+\s+)?(?:equal\s+|small\s+)?)(?:stages?|steps?|additions?|portions?|parts?|"
    r"feeds?|goes|doses?|instal+ments?|lots|batches|days)\b.*",
    r"(?:staged|stagewise|gradually|step[\s-]?wise|stepped|bit\s+by\s+bit|little\s+by\s+little)\b.*",
    r"(?:for\s+|as\s+|at\s+)?(?:the\s+|a\s+)?(?:second|2nd|third|3rd|fourth|4th|next|final|last|later|further)\s+"
    r"(?:sugar\s+)?(?:addition|feed|dose|lot|part|stage|batch|time|half|portion|instal+ment)\b.*",
    r"(?:on\s+|from\s+|at\s+|by\s+)?(?:the\s+)?days?\s*(?:[2-9]|[1-9]\d)\b.*",
    r"(?:on\s+|from\s+)?(?:the\s+)?(?:second|third|fourth|fifth|sixth|seventh|(?:[2-9]|\d\d)(?:nd|rd|th))\s+day\b.*",
    rf"after\s+(?:{_SPAN}|(?:the\s+)?(?:first|primary|initial|racking|straining|ferment)|a\s+week|straining|racking|pressing)\b.*",
    rf"{_SPAN}\s+(?:later|in|after|on)\b.*",
    r"(?:when|once|as|while|until)\b.*(?:gravity|s\.?g\b|ferment|drop|fall|slow|down|1[.,]0\d|brix|foam|lively|vigorous).*",
    rf"(?:at|by|from|below)\s+(?:about\s+)?{_SG}\b.*",
    r"(?:held|kept|saved|set|hold|keep|save|put)\s+(?:it\s+|some\s+|this\s+)?(?:back|aside|for\s+later|by)\b.*",
    r"(?:held|kept|saved|hold|keep|save)\s+(?:for|until|till)\b.*\b(?:later|feed\w*|stages?|days?|second|third|ferment\w*)\b.*",
    r"(?:held|hold|reserved?)\b",
    r"(?:mid|half[\s-]*way)[\s-]*(?:way)?[\s-]*(?:through\s*)?(?:the\s+)?(?:ferment(?:ation)?)?\b.*",
)  # fmt: skip
_START = (
    r"(?:(?:added|add|goes\s+in|go\s+in|in)\s+)?(?:at|from)\s+(?:the\s+)?(?:very\s+)?(?:start|beginning|outset|first|"
    r"pitching)\b",
    r"to\s+(?:start|begin)(?:\s+with)?\b",
    r"(?:initially|now|first|at\s+once|up[\s-]?front|straight\s+away|immediately|in\s+the\s+must|for\s+the\s+must)\b",
    r"(?:for\s+|as\s+|at\s+)?(?:the\s+)?(?:first|1st|initial)\s+(?:addition|dose|lot|part|stage|batch|portion|half)\b",
    r"(?:on\s+)?(?:the\s+)?day\s*[01]\b|(?:on\s+)?(?:the\s+)?first\s+day\b",
)  # fmt: skip
_HALF = (
    r"(?:and\s+)?(?:add(?:ing)?|stir(?:ring)?\s+in|put(?:ting)?\s+in)\s+(?:the\s+)?(?:rest|remainder|remaining)\b.*",
    r"(?:of\s+which|including|incl\.?)\s+.*",
    r"\d[\d/.]*\s+(?:at|to|on|now|in)\b.*\b(?:start|first|now|day|must)\b.*\d.*\b(?:later|after|day|feed|when|rack\w*)\b.*",
    r"(?:one\s+|a\s+)?(?:half|third|quarter|some|part)\b.*\b(?:start|first|now|day)\b.*",
    r"\d[\d\s/.,½¼¾]*(?:lbs?|kg|g|oz|pounds?)\b.*\b(?:start|first|now|later|feed|fed|held|back|day)\b.*",
    r"(?=.*\b(?:now|start|first|later|after|day|feed|fed|stages?|rest|remainder|others?|once|when)\b)"
    r"(?:one\s+|a\s+)?(?:half|third|quarter|some|part|two\s+thirds|1/2(?=\s+(?:now|at|to|first)\b))\b.*\b(?:half|1/2|rest|"
    r"remainder|other|later|after|day|feed|stages?)\b.*",
)  # fmt: skip
_SWEETEN = (
    r"(?:to|for)\s+(?:back[\s-]*)?sweeten(?:ing)?\b.*|(?:for\s+)?back[\s-]*sweetening\b.*",
    r"(?:for\s+|to\s+)?prim(?:e|ing)\b.*",
    r"(?:at|before|for|after)\s+(?:bottling|stabili[sz]ing|stabili[sz]ation)\b.*|to\s+(?:bottle|finish|stabili[sz]e)\b.*",
    r"after\s+(?:the\s+)?ferment(?:ation|ing)?(?:\s+(?:is\s+|has\s+)?(?:over|done|complete|end(?:s|ed)|finish(?:es|ed)|"
    r"stop(?:s|ped)))?",
    r"(?:when|once)\s+(?:(?:it|the\s+wine)\s+is\s+)?clear(?:ed)?",
    r"to\s+taste\b.*",
    r"(?:for|in)\s+the\s+(?:finish(?:ed\s+wine)?|end)\b.*|at\s+the\s+end\b.*",
)  # fmt: skip
_KINDS: tuple[tuple[When, tuple[str, ...]], ...] = (
    ("half", _HALF), ("sweeten", _SWEETEN), ("start", _START), ("feed", _LATER),
)  # fmt: skip
_WHOLE: tuple[tuple[When, re.Pattern[str]], ...] = tuple(
    (when, re.compile(rf"(?:and\s+|then\s+)?(?:{'|'.join(forms)})\s*[.!]?", re.IGNORECASE))
    for when, forms in _KINDS
)
_PLAIN = re.compile(r"(?i)(?:to\s+be\s+)?(?:fed|added)\s+later|to\s+feed|for\s+feeding")
_SPREAD = re.compile(
    r"(?i)stages?|steps?|additions|portions|parts|instal|lots|goes|gradually|bit by"
)
_RACKED = re.compile(r"(?i)\bracking\b")
_STAGES = {word: int(count) for word, count in COUNTS.items() if 2 <= int(count) <= 6}
_COUNTED_STAGES = re.compile(
    rf"(?i)\b(?P<count>[2-6]|{'|'.join(_STAGES)})\s+(?:equal\s+|small\s+)?"
    r"(?:stages|steps|additions|portions|parts|instal+ments|lots|goes|batches|doses)\b"
)
_LATER_SPAN = re.compile(rf"{_SPAN}|\d+(?:st|nd|rd|th)\b", re.IGNORECASE)
_WEIGHT = re.compile(r"(?i)\d\s*(?:lbs?|oz|g|kg|pounds?|ounces?|grams?|kilos?|cups?)\b|\d\s*#")
_LONGEST = 300
_PLACES = re.compile(r"[(,;–]\s*|\s+-\s+|\s+(?=[A-Za-z\d])")


class Fed(NamedTuple):
    """When a sugar goes in."""

    when: When
    words: str
    """As typed."""

    @property
    def note(self) -> str:
        """Return the words, where they say more than the line's own name does."""
        return "" if self.when != "feed" or _PLAIN.fullmatch(self.words) else self.words

    @property
    def is_past_the_must(self) -> bool:
        """Return whether it is when the wine is racked or finished."""
        racked = self.when == "feed" and _RACKED.search(self.words) is not None
        return racked or self.when == "sweeten"

    @property
    def is_spread(self) -> bool:
        """Return whether several feeds are meant, of which one may be at the start."""
        return self.when == "feed" and _SPREAD.search(self.words) is not None

    @property
    def stages(self) -> int | None:
        """Return in how many stages it is fed; None where the words give no number."""
        found = _COUNTED_STAGES.search(self.words)
        if found is None:
            return None
        count = found["count"].lower()
        return _STAGES.get(count) or int(count)


@lru_cache(maxsize=4096)
def when_fed(text: str) -> Fed | None:
    """Return when the words say that a sugar goes in; None where they say nothing else."""
    plain = " ".join(text.replace("½", "1/2").strip(" ().,;:–-").split())
    if not plain:
        return None
    for when, pattern in _WHOLE:
        if pattern.fullmatch(plain):
            part = when == "feed" and _WEIGHT.search(plain)  # "hold back 8 oz" is not all of it
            return Fed("half" if part else when, plain)
    return None


@lru_cache(maxsize=4096)
def split_off_feed(text: str) -> tuple[str, Fed | None]:
    """Return the text without the words behind the name that say when it goes in, and these."""
    if len(text) > _LONGEST:  # a line is no longer, and each of its places is looked at whole
        return text, None
    for place in _PLACES.finditer(text):
        before, tail = text[: place.start()], text[place.end() :]
        if not before.strip() or before.count("(") > before.count(")"):
            continue
        if place[0].isspace() and re.match(r"[\d½¼¾]", tail) and not _LATER_SPAN.match(tail):
            continue  # still the amount: "1 1/2 lb sugar"
        if re.match(r"[\d½¼¾]", tail) and not re.search(r"[\d½¼¾]", before):
            continue  # the amount itself: "sugar, 2 lb, fed later"
        closed = re.match(r"([^()]*)\)\s*(.*)", tail) if place[0].startswith("(") else None
        fed = when_fed(closed[1] if closed else tail)
        if fed is not None:
            after = closed[2] if closed else ""
            return f"{before.rstrip(' ,;–-')} {after}".strip(), fed
    return text, None
