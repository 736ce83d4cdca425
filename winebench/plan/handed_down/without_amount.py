"""Items that name something without an amount, or with one that lost its number."""

from __future__ import annotations

import re

from msgspec.structs import replace

from winebench.model.recipe import YeastLine
from winebench.plan.handed_down.fields import read_field
from winebench.plan.handed_down.lost_number import lost_number
from winebench.plan.handed_down.reads import line_of
from winebench.plan.handed_down.rows import Known, kept, line_id, line_text, question, title_row
from winebench.plan.handed_down.shapes import Item, Row
from winebench.plan.handed_down.unknowns import MOST_SAID, MOST_WORDS
from winebench.plan.typed.lines import NoAmount
from winebench.plan.typed.names import Offer, exact
from winebench.plan.typed.number_words import UNIT, digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.own_figures import NONE, OwnFigures, split_off_figures
from winebench.plan.typed.remarks import Remark, Way, written
from winebench.plan.typed.unknown import Unknown
from winebench.units import NUMBER, Amount, UnitsError

_FEW = 4
"""A line of so few words that begins with a known thing is that thing, without an amount."""
_NUMBER_LAST = re.compile(rf"(?<![\w.,/])(?:{NUMBER})$", re.ASCII)
_NONE_OF_IT = re.compile(r"(?i)(?:no|not|without|never)\b")
_AS_TOLD = re.compile(
    r"(?i)\b(?:as\s+(?:per|on|needed|directed|required|the\s+pack\w*)|according\s+to|to\s+taste|see\s+(?:the\s+)?"
    r"(?:pack\w*|label)|(?:per|by)\s+(?:the\s+)?(?:pack(?:et|age|ing)?|label|instructions))\b"
)
"""Words that leave an amount to what it came in."""
AMOUNT = re.compile(rf"(?<![\w.,/])(?:{NUMBER})\s*{UNIT}\b", re.IGNORECASE | re.ASCII)
ONE_PACKET = "No amount is written; one packet is taken."


def row_without_amount(item: Item, problem: NoAmount, told: Known) -> Row:
    """Return yeast as one packet, a known thing as a question, other words as words."""
    aside = re.search(r"\(([^()]*)\)", item.words)
    try:
        inside = read_field(aside[1]) if aside else None
    except UnitsError as wrong:
        return question(item, str(wrong), (), state="wrong")
    if inside is not None and inside.basis is not None:
        return title_row(item, inside, told)
    found, words = problem.found, item.words.strip(" .:")
    slip = lost_number(words)
    if slip is not None and slip.ways:  # "l packet yeast": letters that look like a number
        return question(item, slip.sentence, slip.ways, state="asked")
    if _NONE_OF_IT.match(words):
        return kept(item)
    packed = re.search(r"(?i)sachet|packet|pack\b", words)
    if found is not None and found.kind == "yeast" and not packed and AMOUNT.search(digits(words)):
        said = "How much yeast? Write the amount in front of it, apart from the rest."
        return question(item, said, _from_the_amount(words), state="asked")
    if found is not None and found.kind == "yeast":
        return _one_packet(item, "" if exact(words, (found,)) else words)
    short = len(words.split()) <= _FEW or _AS_TOLD.search(words) is not None
    begun = _begins_with(words) if found is None and short else None
    if begun is not None and begun.kind == "yeast":
        return _one_packet(item, words)
    if begun is not None:
        name = begun.name.lower()
        return question(
            item, f"How much {name}? Write the amount in front of it.", (), state="asked"
        )
    if found is None and AMOUNT.search(digits(words)) and len(words.split()) <= MOST_SAID:
        said = "There is an amount in this, and it is no line as it stands: write amount and name."
        return question(item, said, _from_the_amount(words), state="asked")
    if found is not None and problem.whole:
        return question(
            item, f"How much {words.lower()}? Write the amount in front of it.", (), state="asked"
        )
    if slip is not None:
        return question(item, slip.sentence, slip.ways, state="asked")
    if _NUMBER_LAST.search(digits(words)) and _holds_known(words):
        said = "There is a number in this and no unit: write amount and name."
        return question(item, said, (), state="asked")
    return _method_with_figures(item)


def _from_the_amount(words: str) -> tuple[Way, ...]:
    """Return the line that the words end with: "You want 4 lb of damsons" are 4 lb of damsons."""
    found = AMOUNT.search(digits(words))
    if found is None:
        return ()
    text = digits(words)[found.start() :]
    for piece in dict.fromkeys((text, text.partition(",")[0])):
        try:
            line = line_of(piece).line
        except UnitsError:
            continue
        if not isinstance(line, Unknown):
            return (written(piece),)
    return ()


def _one_packet(item: Item, note: str) -> Row:
    line = YeastLine(id=line_id(item), amount=Amount("1 packet"), note=note)
    said = (Remark(sentence=ONE_PACKET),)
    text = line_text(line, None)
    return Row(item=item, kind="line", state="look", read_as=text, line=line, remarks=said)


def _holds_known(text: str) -> bool:
    """Return whether something known stands in the words: "T acid blend 1/2"."""
    words = re.sub(r"[\d(),:;/.]", " ", text).split()[:_FEW]
    spans = (
        (start, end) for start in range(len(words)) for end in range(start + 1, len(words) + 1)
    )
    return any(exact(" ".join(words[start:end]), known()) is not None for start, end in spans)


def _begins_with(text: str) -> Offer | None:
    """Return the known thing that the words begin with: "Yeast as directed"."""
    if re.search(r"(?i)\s(?:&|and|with)\s", text):
        return None
    words = re.sub(r"[(),:;]", " ", text).split()
    tries = (exact(" ".join(words[:end]), known()) for end in range(min(len(words) - 1, 3), 0, -1))
    return next((offer for offer in tries if offer is not None), None)


def _method_with_figures(item: Item) -> Row:
    """Return words to keep; what they measure on a fruit is said not to be used."""
    row = kept(item)
    try:
        figures = (
            split_off_figures(item.words)[1] if len(item.words.split()) <= MOST_WORDS else NONE
        )
    except UnitsError:
        return row
    if figures == NONE:
        return row
    said = (
        "Not used: a must's pH is no target here; write it behind the fruit it was read on."
        if figures == OwnFigures(ph=figures.ph, remarks=figures.remarks)
        else "Not used: write it behind the fruit it was read on, as in 3 lb plums, 12 Brix."
    )
    return replace(row, state="look", remarks=(Remark(sentence=said),))
