"""What is to be said of a line that was read: guesses, other meanings, what is not counted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.forms import SYRUPS
from winebench.plan.typed.made import Read
from winebench.plan.typed.names import stems
from winebench.plan.typed.remarks import Remark, Way, written
from winebench.plan.typed.words import FORM_WORDS

_MOST_OTHERS = 4
_NTH = ("first", "second", "third", "fourth", "fifth", "sixth")
_UNSURE = ("scant", "generous", "heaping")


def said_of(read: Read) -> tuple[Remark, ...]:
    """Return it all, in the order in which it matters."""
    return (
        *read.said.own.remarks,
        *_canned(read),
        *_concentrate(read),
        *_when(read),
        *_others(read),
        *_colour(read),
        *_not_counted(read),
    )


def _canned(read: Read) -> Iterator[Remark]:
    syrup, form, name = read.said.forms.syrup, read.words.form, read.name
    if read.kind not in ("fruit", "") or read.said.own.juice is not None:
        return
    if syrup is not None:
        low, taken, high = SYRUPS[syrup]
        others = [kind for kind in ("light", "heavy") if kind != syrup]
        known = read.kind == "fruit"
        ways = tuple(written(f"{name} in {kind} syrup") for kind in others) if known else ()
        yield Remark(
            sentence=f"Fruit and syrup are counted together at {taken:g} °Brix; such a tin has "
            f"{low:g} to {high:g} (canned peaches, 21 CFR 145.170). A reading of your own, such as "
            f"{taken:g} Brix, takes its place.",
            ways=ways,
        )
    elif form == "canned" and not any("juice" in n or "water" in n for n in read.said.forms.notes):
        kinds = ("light", "heavy") if read.kind == "fruit" else ()
        ways = tuple(written(f"{name} in {kind} syrup") for kind in kinds)
        yield Remark(sentence="No syrup is counted: is there one in the tin?", ways=ways)


def _concentrate(read: Read) -> Iterator[Remark]:
    if read.said.forms.concentrate and read.said.own.acid_g_per_l is None:
        yield Remark(
            sentence="Its acidity is reckoned from plain juice by its °Brix; write its own behind "
            "that, such as TA 20 g/L, where the label has it."
        )


def _when(read: Read) -> Iterator[Remark]:
    fed = read.said.fed
    if fed is None or fed.when != "feed":
        return
    if read.kind in ("fruit", "additive"):
        yield Remark(
            sentence=f'"{fed.words}" is kept as a note: it counts as part of the must from the '
            "start."
        )
    elif fed.is_spread and read.kind in ("sugar", ""):
        yield Remark(
            sentence="All of it is read as fed later; write what goes in at the start on a line of "
            "its own.",
            ways=_first_stage_now(read, fed.stages),
        )


def _first_stage_now(read: Read, stages: int | None) -> tuple[Way, ...]:
    """Return the way to put the first of equal stages in at the start; each keeps a line."""
    part = read.found.amount.parts[0]
    if stages is None or len(read.found.amount.parts) > 1:
        return ()
    one = f"{_number(part.number / stages, part.unit)} {part.unit} {read.words.name}"
    later = (f"{one}, {_NTH[number]} portion" for number in range(1, stages))
    return (Way(label="The first stage at the start", text="\n".join((one, *later))),)


def _number(value: float, unit: str) -> str:
    return f"{value:.4g}" if unit in ("kg", "g", "L", "mL") else fraction_text(value)


def _others(read: Read) -> Iterator[Remark]:
    """Give what is to be said where the name can mean other things of its kind too."""
    if not read.fitting:
        return
    first, *rest = read.fitting
    tablets = read.found.amount.parts[0].unit == "tablet"
    others = [
        offer
        for offer in rest
        if offer.kind == first.kind
        and not stems(offer.name) & FORM_WORDS
        and (tablets or "tablet" not in stems(offer.name))
    ][:_MOST_OTHERS]
    if not others:
        return
    names = " or ".join(offer.name.lower() for offer in others)
    amount = read.found.amount.text
    ways = tuple(Way(label=o.name, text=f"{amount} {o.name.lower()}") for o in others)
    said = f'"{read.words.name}" is read as {first.name.lower()}; it could be {names}.'
    yield Remark(sentence=said, ways=ways)


def _colour(read: Read) -> Iterator[Remark]:
    if read.words.besides and read.fitting:
        name = read.fitting[0].name.lower()
        yield Remark(
            sentence=f'Read as {name}; "{read.words.besides}" is kept as a note. If that is '
            "another fruit, measure its juice."
        )


def _not_counted(read: Read) -> Iterator[Remark]:
    """Give what stands in numbers beside the line and changes nothing."""
    loose = [*read.words.sorts, read.found.aside]
    for piece in loose:
        if any(letter.isdigit() for letter in piece):
            yield Remark(sentence=f'"{piece}" is kept beside the line and not counted.')
    if any(word.lower() == "optional" for word in re.findall(r"\w+", read.note)):
        yield Remark(sentence="It is optional, and counted here: take it out if it stays out.")
    unsure = next((s.lower() for s in read.words.sorts if s.lower() in _UNSURE), None)
    if unsure is not None and read.found.amount.parts[0].unit in ("tsp", "tbsp", "cup"):
        yield Remark(sentence=f'"{unsure}" is not counted: a level measure is.')
