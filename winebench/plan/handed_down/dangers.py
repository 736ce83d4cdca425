"""What a card tells that can hurt: poisons, hot water in glass, sealed vessels, early bottles."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec.structs import replace

from winebench.catalog.never_food import NeverFood, never_food_in
from winebench.catalog.poisons import poison_in, poisons_in
from winebench.plan.cautions.poisons import poison_of, poison_words
from winebench.plan.days import DAYS_IN
from winebench.plan.handed_down.rows import key_of
from winebench.plan.handed_down.shapes import Item, Row
from winebench.plan.typed.not_in_wine import is_for_cleaning, never_food_words
from winebench.plan.typed.number_words import COUNTS
from winebench.plan.typed.remarks import Remark

_GLASS = r"\b(?:glass|jars?|jugs?|demi-?johns?|carboys?|bottles?)\b"
_HOT = re.compile(rf"\b(?:boiling|scalding|hot|boil)\b[^.;]*{_GLASS}", re.IGNORECASE)
_COOLED = re.compile(
    r"\b(?:cool(?:ed|s)?|cold|lukewarm|pail|bucket|crock|wash|rinse)\b", re.IGNORECASE
)
_SEALED = re.compile(
    r"\bair[\s-]?tight\b|\bseal(?:ed)?\b[^.;]*\btight(?:ly)?\b|\btight(?:ly)?[\s-]+(?:sealed|closed|"
    r"corked|capped|fitting)\b|\b(?:screw|close|cap|cork|stopper)\b[^.;]*\btight(?:ly)?\b"
    r"|\bseal\s+(?:it|the)\b",
    re.IGNORECASE,
)
_LET_OUT = re.compile(r"\b(?:air\s?locks?|locks?|bottles?|bottled|corks?)\b", re.IGNORECASE)
_COUNTS = {"a": 1} | {word: int(count) for word, count in COUNTS.items()}
_SPAN = (
    rf"(?:about\s+|another\s+)?(?P<{{count}}>\d+|{'|'.join(_COUNTS)})"
    r"(?:\s*(?:-|–|to|or)\s*\w+)?\s*(?P<{unit}>days?|weeks?|months?)\b"
)
_BY_DAYS = re.compile(
    rf"\bbottl(?:e|ed|ing)\b[^.;]*?(?:\b(?:after|in|at|within)\s+|(?<=bottling)\s*[:–-]\s*)"
    rf"{_SPAN.format(count='count', unit='unit')}"
    rf"|\b(?:after|in)\s+{_SPAN.format(count='first', unit='its')}[^.;]*\bbottle\b"
    r"(?!\s+(?:\w+\s+){0,2}?(?:after|in|at|within)\s+(?:about\s+|another\s+)?(?:\d|[a-z]+\s+(?:day|week|month)))",
    re.IGNORECASE,
)
_WHEN_QUIET = re.compile(
    r"\bbottle\b[^.;]*\b(?:stops?|stopped|ceased?)\s+(?:bubbling|working|fermenting|fizzing)\b"
    r"|\b(?:stops?|stopped|ceased?)\s+(?:bubbling|working|fermenting|fizzing)\b[^.;]*\bbottle\b",
    re.IGNORECASE,
)
_AT_A_GRAVITY = re.compile(
    r"\b(?:at|when|reach\w*|down to|below|under)\b[^.;]{0,20}\b1[.,]0(?:0[3-9]|[1-9]\d)\b"
    r"[^.;]{0,20}\bbottle",
    re.IGNORECASE,
)
_GOES_IN = re.compile(r"\b(?:add|stir\s+in|put\s+in|pour\s+in|mix\s+in)\b", re.IGNORECASE)
_CLEANED_WITH = re.compile(
    r"\b(?:wash|rins|clean|scrubb|soak|saniti[sz]|sterili[sz]|disinfect|wip)ed"
    r"(?:\s+(?:out|up|down|first|well))*\s+(?:with|in|by|using)\s+[^.,;]*?"
    r"(?=$|[.,;]|\s(?:and|then)\s+(?:add|stir|put|pour|mix)\b)",
    re.IGNORECASE,
)
"""A pail washed with soap: what cleaned a thing does not go in with what it holds."""
_CLEANS = re.compile(
    r"(?i)\b(?:wash|rinse|clean|scrub|soak|swill|wipe|disinfect|saniti[sz]e|sterili[sz]e)\b"
)
_CLAUSES = re.compile(r"(?i)[,;]|\b(?:and|then)\b")
_METAL = re.compile(
    r"\b(?:galvani[sz]ed|copper|brass|lead|zinc|iron|alumini?um)\b[^.;]*"
    r"\b(?:buckets?|pails?|pots?|pans?|kettles?|spoons?|vessels?|tubs?|baths?|crystal)\b",
    re.IGNORECASE,
)
SAFE_DAYS = 180
"""A card that waits half a year says no more than this program does (common practice)."""
HOT = (
    "Danger: hot water or syrup bursts cold glass. Pour it into a pail, and let it cool to "
    "hand-warm before it goes into glass."
)
SEALED = (
    "Danger: a vessel that is sealed while it ferments bursts. The gas must get out: an airlock, "
    "or a lid that lies loose."
)
EARLY = (
    "Danger: bottles filled by the day, or before the end of the fall, burst. Bottle on readings: "
    "three equal ones over 14 days, at the end of its fall."
)

METAL = (
    "Danger: must is acid and dissolves zinc, copper and lead. Use food-grade plastic, glass or "
    "stainless steel."
)


def with_dangers(row: Row) -> Row:
    """Return the row with what in it can hurt somebody; a poison becomes no line of the recipe."""
    if row.kind in ("line", "question"):
        poison = (row.line and poison_of(row.line)) or poison_in(row.item.words)
        return _refused(row.item, poison_words(poison)) if poison else row
    if row.kind not in ("method", "title"):
        return row
    sentences = _told(row.item.words) if row.kind == "method" else _poisoned(row.item.words)
    found = tuple(Remark(sentence=sentence) for sentence in sentences)
    said = tuple(remark for remark in found if remark not in row.remarks)
    if not said:
        return row
    state = "look" if row.state == "read" else row.state
    return replace(row, state=state, remarks=(*said, *row.remarks))


def _refused(item: Item, sentence: str) -> Row:
    """Return the question that only keeping the words as a note answers."""
    return Row(
        item=item,
        kind="question",
        state="asked",
        read_as="Poisonous",
        remarks=(Remark(sentence=sentence),),
        asks=key_of(item),
        options=("note",),
    )


def _poisoned(words: str) -> Iterator[str]:
    for poison in poisons_in(words):
        yield f"Danger. {poison_words(poison)}"


def _told(words: str) -> Iterator[str]:
    yield from _poisoned(words)
    for sentence in re.split(r"[.;]\s+", words):
        if _HOT.search(sentence) and not _COOLED.search(sentence):
            yield HOT
        thing = _put_in(sentence)
        if thing is not None and thing.use != "spoils" and not is_for_cleaning(sentence):
            yield f"Danger. {never_food_words(thing)}"
        if _METAL.search(sentence):
            yield METAL
        if _SEALED.search(sentence) and not _LET_OUT.search(sentence):
            yield SEALED
        early = _WHEN_QUIET.search(sentence) or _AT_A_GRAVITY.search(sentence)
        if early or any(_soon(found) for found in _BY_DAYS.finditer(sentence)):
            yield EARLY


def _put_in(sentence: str) -> NeverFood | None:
    """Return the household thing that goes in by the sentence, by the verb nearest before it."""
    goes_in = False
    for clause in _CLAUSES.split(_CLEANED_WITH.sub("", sentence)):
        if _GOES_IN.search(clause):
            goes_in = True
        elif _CLEANS.search(clause):
            goes_in = False
        thing = never_food_in(clause) if goes_in else None
        if thing is not None:
            return thing
    return None


def _soon(found: re.Match[str]) -> bool:
    count, unit = found["count"] or found["first"], found["unit"] or found["its"]
    return (
        _COUNTS.get(count.lower(), 0 if not count.isdigit() else int(count))
        * DAYS_IN[unit[0].lower()]
        < SAFE_DAYS
    )
