"""Headings of a card: what is needed, what to do, amounts by the gallon, what is fed later."""

from __future__ import annotations

import re
from typing import NamedTuple

_NEED = (
    "ingredients?(?:\\s+list)?", "ingr\\b\\.?",
    "you(?:'ll|’ll| will)? need", "what you need", "for the must",
    "for the wine", "shopping list", "recipe", "the recipe", "what goes in",
)  # fmt: skip
_DO = (
    "method", "directions?", "instructions?", "preparation", "procedure", "process", "steps?",
    "notes?", "making it", "how to make it", "to make it", "what to do", "making", "day by day",
)  # fmt: skip
_VOLUME = (
    r"(?:(?:an?|one|\d{1,3}(?:[.,]\d+)?)\s*)?(?:(?:US|U\.S\.|imperial|imp\.?|UK)\s+)?"
    r"(?:gallon|gal|lit(?:re|er)|L)s?\b\.?(?:[\s,(]+(?:US|imperial|UK)\b\)?)?"
)
_PER = (
    r"\(?\s*(?:(?:all\s+)?(?:quantities|amounts|doses|figures)(?:\s+are)?\s+|all\s+)?"
    rf"(?:per|for\s+(?:each|every)|to\s+(?:each|every)|by\s+the|each)\s+{_VOLUME}"
    r"(?:\s+of\s+(?:must|wine))?\s*\)?"
)
_FEED = (
    r"(?:for\s+|to\s+|the\s+)?(?:later\s+)?(?:feed(?:s|ing)?|fed\s+later)|(?:for\s+|added?\s+|to\s+add\s+)?later"
    r"(?:\s+(?:on|additions?|sugar))?|(?:second|2nd)\s+(?:stage|addition)|stage\s+(?:2|two)|held\s+back"
)
_START = (
    r"(?:at|for)\s+the\s+start|to\s+start(?:\s+with)?|(?:first|1st)\s+stage|stage\s+(?:1|one)|for\s+the\s+(?:lot|whole|batch)|"
    r"in\s+all|altogether|in\s+total"
)
_KINDS = r"fruits?|sugars?|additives?|chemicals|extras|others?|the\s+rest|also|optional"
_HEADING = re.compile(
    rf"(?P<per>{_PER})|(?P<need>{'|'.join(_NEED)})|(?P<do>{'|'.join(_DO)})|(?P<feed>{_FEED})|(?P<start>{_START})"
    rf"|(?P<kind>{_KINDS})(?!\w)",
    re.IGNORECASE,
)
_FOR = re.compile(
    r"\s*\(?\s*(?:per\b|(?:for|to\s+make|makes?)\s+(?:about\s+)?(?:\d|[½¼¾]|(?:an?|one|two|three|four|five|six|"
    r"ten|half|each|every)\b))",
    re.IGNORECASE,
)


class Section(NamedTuple):
    """What a heading says of the lines under it."""

    doing: bool = False
    per: str = ""
    """As in "per gallon"; empty where amounts are for the whole."""
    fed: bool = False
    own_line: bool = False
    """Whether it is over the rest of its own line alone: "per gallon 2 lb sugar"."""


NO_SECTION = Section()


class Heading(NamedTuple):
    """A heading, and how many letters of its line it is."""

    section: Section
    length: int


def heading(body: str, *, colon: bool) -> Heading | None:
    """Return the heading that the line is, or starts with before a colon or "for 5 gallons".

    `colon` says whether one stood behind the line: "Fruit" alone could be a title.
    """
    found = _HEADING.match(body)
    if found is None:
        return None
    rest = body[found.end() :].strip(" *_")
    alone = not rest.strip(" :.-–—)")
    led = found["per"] is not None and re.match(r"(?:,\s*|add\s+|use\s+)*[\d½¼¾⅓⅔]", rest)
    if not (alone or led or rest.startswith(":") or (found["need"] and _FOR.match(rest))):
        return None
    if found["kind"] and not (alone and colon):
        return None
    per = " ".join(found["per"].strip("() ").split()) if found["per"] else ""
    section = Section(
        doing=found["do"] is not None,
        per=per,
        fed=found["feed"] is not None,
        own_line=bool(led),
    )
    return Heading(section, found.end())
