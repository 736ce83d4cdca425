"""The line that was read, made: with its own figures, its form, and when it goes in."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from winebench.catalog.additives import additives
from winebench.catalog.fruits import fruits
from winebench.catalog.sugars import sugars
from winebench.model.edits import new_id
from winebench.model.recipe import (
    AdditiveLine,
    FruitForm,
    FruitLine,
    Line,
    SugarLine,
    WaterLine,
    YeastLine,
)
from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.amounts import Stated
from winebench.plan.typed.beside import Beside
from winebench.plan.typed.forms import SYRUPS
from winebench.plan.typed.names import Offer
from winebench.plan.typed.number_words import UNIT, digits
from winebench.plan.typed.own_figures import OwnFigures
from winebench.plan.typed.remarks import Asked, written
from winebench.plan.typed.unknown import Unknown
from winebench.plan.typed.words import Words
from winebench.units import NUMBER, SPELLINGS, Juice, Volume, parse_number

_CONCENTRATES = (45, 68)
"""°Brix of a can that three cans of water thin, and of a wine maker's (common practice)."""

_CAN = re.compile(r"(?i)\b(?:cans?|tins?)\b")
"""The ounces on a can of liquid are fluid ones: net contents, 21 CFR 101.7 (a) (from memory)."""


class Read(NamedTuple):
    """The parts of a line, as read."""

    found: Stated
    words: Words
    fitting: tuple[Offer, ...]
    said: Beside
    pack: str = ""
    """The packs it comes in, as typed."""

    @property
    def kind(self) -> str:
        """Return what kind of thing it is, or ""."""
        return self.fitting[0].kind if self.fitting else ""

    @property
    def note(self) -> str:
        """Return what is kept beside the line in its own words."""
        fed = self.said.fed
        late = fed.note if fed and self.kind in ("sugar", "") else fed.words if fed else ""
        pieces = (self.pack, *self.words.sorts, *self.said.forms.notes, self.found.aside, late)
        return ", ".join(filter(None, pieces))

    @property
    def name(self) -> str:
        """Return amount and name as they can be typed again."""
        return f"{self.found.amount.text} {self.words.name}"


def takes_label(key: str) -> bool:
    """Return whether a label says how much sugar is in it: syrups and honey."""
    found = sugars().get(key)
    return found is not None and (found.needs_label or found.key == "honey")


def refuse_open(read: Read) -> None:
    """Raise where the words leave open how much goes into the must, or what it is.

    Raises:
        Asked: they do, with the ways to say it.

    """
    fed, forms = read.said.fed, read.said.forms
    if fed is not None and fed.is_past_the_must and _is_dosed(read):
        raise Asked(
            f'What goes in "{fed.words}" is no part of the must: keep it as a note, and the plan '
            "asks for it at its time."
        )
    if fed is not None and fed.when == "sweeten" and read.kind not in ("water", "yeast"):
        raise Asked(
            f'What goes in "{fed.words}" is no part of the must: keep it as a note, and say how '
            "sweet the wine is to be in a line such as FG 1.005."
        )
    if fed is not None and fed.when == "half" and read.kind in ("sugar", ""):
        raise _halves(read)
    if read.kind not in ("fruit", ""):
        return
    if forms.concentrate and read.said.own.juice is None:
        amount = read.found.amount.text
        if _CAN.search(read.pack) and read.found.amount.parts[0].unit == "oz":
            amount = f"{fraction_text(read.found.amount.parts[0].number)} fl oz"
        name = f"{amount} {read.words.name}".removesuffix(" juice").strip()
        ways = [written(f"{name} concentrate, {brix} Brix")
                for brix in _CONCENTRATES]  # fmt: skip
        raise Asked(
            "How strong is the concentrate? Its label says the °Brix: a can to be thinned with "
            f"three of water has about {_CONCENTRATES[0]}, a wine maker's about {_CONCENTRATES[1]} "
            "(common practice).",
            *ways,
        )
    if read.words.form == "dried" and read.words.name.lower() in ("currant", "currants"):
        amount = read.found.amount.text
        raise Asked(
            "Dried currants are small raisins in a kitchen, and no red or black currants: which "
            "are meant?",
            *(written(f"{amount} {name}") for name in ("raisins", "dried red currants",
                                                       "dried black currants")),
        )  # fmt: skip
    fruit = fruits().get(read.fitting[0].key) if read.fitting else None
    dried = fruit is not None and fruit.group == "dried"
    if (dried or read.words.form == "dried") and forms.syrup is not None:
        raise Asked(
            f"Dried fruit in syrup is neither: drain and weigh the {read.words.name.lower()}, and "
            "write the syrup on a line of its own with the percentage of its label."
        )


def _is_dosed(read: Read) -> bool:
    """Return whether it is a powder or tablet; yeast's food may go in at any time."""
    known = additives().get(read.fitting[0].key) if read.kind == "additive" else None
    return known is not None and known.kind != "nutrient"


_DAYS = re.compile(r"(?i)\bday\s*\d+|\b\d+\s*days?\b|\b1/2\b")


def _halves(read: Read) -> Asked:
    amount, name = read.found.amount, read.words.name
    said = read.said.fed.words if read.said.fed else ""
    part = amount.parts[0]
    later = _part_in(said, part.unit)
    if later is None and not any(map(str.isdigit, _DAYS.sub("", digits(said)))):
        later = part.number / 2.0
    ways = []
    if len(amount.parts) == 1 and later is not None and 0 < later < part.number:
        first, second = (
            f"{fraction_text(n)} {part.unit} {name}" for n in (part.number - later, later)
        )
        ways.append(written(f"{first}\n{second}, fed later"))
    return Asked(f'"{said}": write what goes in at the start and what later on a line each.', *ways)


def _part_in(words: str, unit: str) -> float | None:
    """Return the part that the words name in that unit, as in "of which 1 lb on day 4"."""
    found = re.search(rf"({NUMBER})\s*({UNIT})\b", digits(words))
    of_the_start = re.search(r"(?i)\b(?:start|first|now)\b", words)
    if found is None or SPELLINGS.get(found[2].lower()) != unit or of_the_start:
        return None
    return parse_number(found[1])


def made_line(read: Read) -> Line | Unknown:
    """Return the line of the likeliest thing meant, or what is known of an unknown one."""
    words, amount, note, own = read.words, read.found.amount, read.note, measured_of(read)
    if not read.fitting:
        return Unknown(amount, words.name, form_of(read), _prepared(read), note, own, _when(read))
    key, line_id = read.fitting[0].key, new_id()
    match read.kind:
        case "water":
            return WaterLine(id=line_id, amount=Volume(amount.text), note=note)
        case "fruit":
            return FruitLine(
                id=line_id,
                fruit=key,
                amount=amount,
                form=form_of(read),
                prepared=_prepared(read),
                measured=own.measured,
                note=note,
            )
        case "sugar":
            percent = own.solids_percent if takes_label(key) else None
            return SugarLine(id=line_id, sugar=key, amount=amount, solids_percent=percent,
                             when=_when(read), note=note)  # fmt: skip
        case "yeast":
            return YeastLine(id=line_id, amount=amount, note=note)
        case _:
            return AdditiveLine(id=line_id, additive=key, amount=amount, note=note)


def measured_of(read: Read) -> OwnFigures:
    """Return the line's own figures; of fruit in syrup, the syrup's usual °Brix in their place."""
    own, syrup = read.said.own, read.said.forms.syrup
    if syrup is None or own.juice is not None:
        return own
    return own._replace(juice=Juice(f"{SYRUPS[syrup][1]:g} brix"))


def form_of(read: Read) -> FruitForm:
    """Return the fruit's form: what lies in syrup is canned, a concentrate is juice."""
    if read.said.forms.concentrate:
        return "juice"
    return "canned" if read.said.forms.syrup is not None else read.words.form


def _prepared(read: Read) -> bool:
    return read.words.prepared or read.said.forms.prepared


def _when(read: Read) -> Literal["start", "feed"]:
    return "feed" if read.said.fed is not None and read.said.fed.when == "feed" else "start"
