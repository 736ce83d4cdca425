"""Headings of a card: what is needed, what to do, amounts by the gallon, what is for later."""

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
_AT_THE_END = (
    r"(?:back[\s-]*)?sweeten(?:ing)?|bottl(?:e|ing)|stabili[sz](?:e|ing|ation)|finish(?:ing)?|"
    r"clear(?:ing)?|fin(?:e|ing)"
)
_END = (
    rf"(?:(?:for|to|the|at|before|when|after)\s+){{0,2}}(?:{_AT_THE_END})"
    rf"(?:\s*(?:&|/|,|and)\s*(?:to\s+|for\s+)?(?:{_AT_THE_END})){{0,2}}(?:\s+(?:(?:the\s+)?wine|time|day|stage))?\b|"
    r"(?:after|when|once)\s+(?:the\s+)?(?:ferment(?:ation|ing|ed)?|wine)(?:\s+(?:is|has|was))?"
    r"(?:\s+(?:over|done|complete|ended?|ends|finished|finishes|stopped|stops|clear))?\b|(?:at|for|in)\s+the\s+end\b"
)
"""What the finished wine gets: "At bottling", "To stabilise and sweeten"."""
_RACKED = (
    r"(?:(?:at|for|after)\s+)?(?:(?:the|each|every|first|second|1st|2nd|last)\s+){0,2}racking\b|"
    r"(?:(?:in|into|for|to|at)\s+)?(?:the\s+)?secondary(?:\s+ferment(?:er|or|ation))?\b"
)
"""What goes in when the wine leaves its pulp."""
_START = (
    r"(?:at|for)\s+the\s+start|to\s+start(?:\s+with)?|(?:first|1st)\s+stage|stage\s+(?:1|one)|for\s+the\s+(?:lot|whole|batch)|"
    r"in\s+all|altogether|in\s+total"
)
_KINDS = r"fruits?|sugars?|additives?|chemicals|extras|others?|the\s+rest|also|optional"
_HEADING = re.compile(
    rf"(?P<per>{_PER})|(?P<need>{'|'.join(_NEED)})|(?P<do>{'|'.join(_DO)})|(?P<feed>{_FEED})|(?P<racked>{_RACKED})|(?P<end>{_END})|(?P<start>{_START})"
    rf"|(?P<kind>{_KINDS})(?!\w)",
    re.IGNORECASE,
)
_FOR = re.compile(
    r"\s*\(?\s*(?:per\b|(?:for|to\s+make|makes?)\s+(?:about\s+)?(?:\d|[½¼¾]|(?:an?|one|two|three|four|five|six|"
    r"ten|half|each|every)\b))",
    re.IGNORECASE,
)


_AN_AMOUNT = re.compile(
    r"[:,–-]\s*(?!\S+\s*(?:-\s*\d+\s*)?(?:days?|weeks?|months?|years?)\b)(?![01][.,]\d{3}\b)(?:(?:add|use|about)\s+)?(?:[\d½¼¾⅓⅔⅛]|(?:an?|one|two|three|four|five|six|half)\s)",
    re.IGNORECASE,
)
"""What stands behind such a heading on its own line, to be one: "For sweetening: 1 lb sugar"."""


class Section(NamedTuple):
    """What a heading says of the lines under it."""

    doing: bool = False
    per: str = ""
    """As in "per gallon"; empty where amounts are for the whole."""
    fed: bool = False
    ends: bool = False
    """Whether it is over what the finished wine gets."""
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
    late = found["racked"] or found["end"]
    over = late and _AN_AMOUNT.match(rest)
    if late and not (alone or over):  # "Bottling: after 4 weeks"
        return None
    if not (alone or led or over or rest.startswith(":") or (found["need"] and _FOR.match(rest))):
        return None
    if found["kind"] and not (alone and colon):
        return None
    per = " ".join(found["per"].strip("() ").split()) if found["per"] else ""
    section = Section(
        doing=found["do"] is not None,
        per=per,
        fed=bool(found["feed"] or found["racked"]),
        ends=found["end"] is not None,
        own_line=bool(led or (late and not alone)),
    )
    return Heading(section, found.end())
