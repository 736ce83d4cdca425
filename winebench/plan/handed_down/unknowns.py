"""Items that the catalog does not answer: unknown things, and names without an amount."""

from __future__ import annotations

import re

from msgspec.structs import replace

from winebench.model.recipe import Line, YeastLine
from winebench.plan.handed_down.fields import basis_of, read_field
from winebench.plan.handed_down.rows import (
    Known,
    kept,
    line_id,
    line_row,
    line_text,
    question,
    title_row,
)
from winebench.plan.handed_down.shapes import ANSWERS, Field, Item, Row
from winebench.plan.typed.lines import NoAmount
from winebench.plan.typed.names import Offer, exact, meant, stems
from winebench.plan.typed.number_words import UNIT, digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.own_figures import NONE, OwnFigures, split_off_figures
from winebench.plan.typed.remarks import Remark, Way
from winebench.plan.typed.unknown import Unknown
from winebench.plan.typed.words import FORM_WORDS, in_a_form
from winebench.units import NUMBER, Amount, UnitsError

_MOST_WORDS = 7
"""An ingredient's name is no longer; more is a sentence."""
_MOST_SAID = 14
"""So many words may stand behind an amount in front: it is asked about, not dropped."""
DRINKS = (
    "wine", "wines", "mead", "cider", "perry", "melomel", "cyser", "metheglin", "hydromel",
    "pyment", "braggot",
)  # fmt: skip
_MOST_WAYS = 4
_FEW = 4
"""A line of so few words that begins with a known thing is that thing, without an amount."""
AMOUNT = re.compile(rf"(?<![\w.,/])(?:{NUMBER})\s*{UNIT}\b", re.IGNORECASE | re.ASCII)
_NO_KIND = frozenset(("fruit", "berry", "juice", "root", "wine", "type", "melon"))
"""Last words of names that say too little to propose them."""
ONE_PACKET = "No amount is written; one packet is taken."


def unknown_row(item: Item, unknown: Unknown, remarks: tuple[Remark, ...], told: Known) -> Row:
    """Return the question what it is, or the line that the answer makes of it."""
    volume = basis_of(unknown.amount.text) if unknown.amount.dimension == "volume" else None
    words = unknown.name.lower().split()
    named_first = not digits(item.words)[:1].isdigit()
    if volume is not None and named_first and words and words[-1] in DRINKS:
        return title_row(item, Field(name="basis", basis=volume), told)
    if len(words) > (_MOST_WORDS if named_first else _MOST_SAID):
        return kept(item)
    name = unknown.name.lower()
    answer = told.answers.get(name)
    if answer == "note":
        return kept(item, asks=name, options=ANSWERS, answer=answer)
    if answer is None:
        said = f'"{unknown.name}" is not in the catalog. What is it?'
        like = _like(unknown)
        return Row(
            item=item,
            kind="question",
            state="asked",
            read_as=f"{unknown.name}: {unknown.amount.text}",
            remarks=(Remark(sentence=said, ways=like), *remarks),
            asks=name,
            options=ANSWERS,
        )
    made: dict[str, Line] = {
        "fruit": unknown.as_fruit(),
        "sugar": unknown.as_sugar(),
        "additive": unknown.as_additive(),
    }
    return line_row(item, made[answer], remarks, told, asks=name, options=ANSWERS, answer=answer)


def _like(unknown: Unknown) -> tuple[Way, ...]:
    """Return the known thing that the name ends with as a way out: "Victoria plums" are plums."""
    words = unknown.name.split()
    for start in range(1, len(words)):
        name = " ".join(words[start:])
        offer = exact(name, known())
        if offer is not None and offer.kind in ("fruit", "sugar", "additive"):
            return (_way(unknown, name),)
    told = len(words) > 1 and not stems(words[-1]) & _NO_KIND
    last = meant(words[-1], known(), FORM_WORDS) if told else ()
    return tuple(_way(unknown, offer.name.lower()) for offer in _fruit_of(last)[:_MOST_WAYS])


def _fruit_of(found: tuple[Offer, ...]) -> list[Offer]:
    """Return the fruit among them that is no juice and not bought in another form."""
    return [offer for offer in found if offer.kind == "fruit" and not in_a_form(offer)]


def _way(unknown: Unknown, name: str) -> Way:
    return Way(label=f"It is {name.lower()}", text=_with_form(unknown, name))


def _with_form(unknown: Unknown, name: str) -> str:
    """Return the known thing in the amount, form and time of the unknown one."""
    form = "" if unknown.form == "fresh" else unknown.form
    text = " ".join(filter(None, (unknown.amount.text, form, name)))
    text += ", prepared" if unknown.prepared else ""
    return text + (", fed later" if unknown.when == "feed" else "")


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
    if found is not None and found.kind == "yeast":
        return _one_packet(item, "" if exact(words, (found,)) else words)
    begun = _begins_with(words) if found is None and len(words.split()) <= _FEW else None
    if begun is not None and begun.kind == "yeast":
        return _one_packet(item, words)
    if begun is not None:
        name = begun.name.lower()
        return question(
            item, f"How much {name}? Write the amount in front of it.", (), state="asked"
        )
    if found is None and AMOUNT.search(digits(words)) and len(words.split()) <= _MOST_SAID:
        said = "There is an amount in this, and it is no line as it stands: write amount and name."
        return question(item, said, (), state="asked")
    if found is not None and problem.whole:
        return question(
            item, f"How much {words.lower()}? Write the amount in front of it.", (), state="asked"
        )
    return _method_with_figures(item)


def _one_packet(item: Item, note: str) -> Row:
    line = YeastLine(id=line_id(item), amount=Amount("1 packet"), note=note)
    said = (Remark(sentence=ONE_PACKET),)
    text = line_text(line, None)
    return Row(item=item, kind="line", state="look", read_as=text, line=line, remarks=said)


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
            split_off_figures(item.words)[1] if len(item.words.split()) <= _MOST_WORDS else NONE
        )
    except UnitsError:
        return row
    if figures == NONE:
        return row
    said = (
        "Not used: a must's pH is no target here; write it behind the fruit it was read on."
        if figures == OwnFigures(ph=figures.ph)
        else "Not used: write it behind the fruit it was read on, as in 3 lb plums, 12 Brix."
    )
    return replace(row, state="look", remarks=(Remark(sentence=said),))
