"""A recipe line typed in words, such as "4 lb frozen damsons", read against the catalog."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

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
from winebench.plan.typed.amounts import Stated, stated
from winebench.plan.typed.names import Offer, exact, meant, stems
from winebench.plan.typed.pieces import refuse_pieces
from winebench.plan.typed.remarks import Remark, Way
from winebench.units import Amount, UnitsError, Volume

_FORMS: dict[str, FruitForm] = {
    "fresh": "fresh",
    "frozen": "frozen",
    "puree": "puree",
    "purée": "puree",
    "pureed": "puree",
    "juice": "juice",
    "dried": "dried",
    "canned": "canned",
    "tinned": "canned",
}
_FORM_WORDS = frozenset(_FORMS)
_PREPARED = frozenset(("stoned", "pitted", "destoned", "peeled", "cored", "destemmed", "prepared"))
_TO = re.compile(
    r"(?:water,?\s+)?(?:up\s+)?to\s+(?:make\s+(?:up\s+(?:to\s+)?)?)?(.+)", re.IGNORECASE
)
_FILLERS = frozenset(("of", "the", "a", "some", "and", "or", "&", "-", "each"))
_SORT_WORDS = """
ripe fresh chopped sliced crushed mashed washed minced grated halved quartered whole large small
medium good firm soft sound clean picked wild garden cold warm hot boiling boiled cool spring tap
filtered distilled powdered powder level heaped heaping dry active raw unsweetened pure clear
light dark liquid cooking eating dessert seedless rounded scant generous strained rinsed thawed
optional organic
"""
_SORTS = frozenset(_SORT_WORDS.split())
"""Words about a thing that do not change what it is: kept as the line's note."""
_MOST_OTHERS = 4


class Unknown(NamedTuple):
    """A line whose thing the catalog does not know: the person says what it is."""

    amount: Amount
    name: str
    form: FruitForm
    prepared: bool
    note: str = ""

    def as_fruit(self) -> FruitLine:
        """Return it as a fruit of the maker's own."""
        return FruitLine(
            id=new_id(),
            fruit=self.name,
            amount=self.amount,
            form=self.form,
            prepared=self.prepared,
            note=self.note,
        )

    def as_additive(self) -> AdditiveLine:
        """Return it as an additive of the maker's own."""
        return AdditiveLine(id=new_id(), additive=self.name, amount=self.amount, note=self.note)

    def as_sugar(self) -> SugarLine:
        """Return it as a sugar or syrup of the maker's own."""
        return SugarLine(id=new_id(), sugar=self.name, amount=self.amount, note=self.note)


class NoAmount(UnitsError):
    """A name without an amount."""

    def __init__(self, sentence: str, found: Offer | None, *, whole: bool) -> None:
        super().__init__(sentence)
        self.found = found
        """What the name means, or None."""
        self.whole = whole
        """Whether that is its full name: "sour" alone could be anything."""


class TypedLine(NamedTuple):
    """The line meant by some words, or what is known of it, and what is to be said of it."""

    line: Line | Unknown
    remarks: tuple[Remark, ...] = ()


class _Words(NamedTuple):
    name: str
    form: FruitForm = "fresh"
    prepared: bool = False
    sorts: tuple[str, ...] = ()


def typed_line(text: str, offers: Iterable[Offer]) -> TypedLine:
    """Return the line meant by the words with what is to be said of it.

    Raises:
        NoAmount: there is a name and no amount.
        UnitsError: the amount cannot be, or fits no such line.

    """
    offers = tuple(offers)
    if to_the_mark(text) is not None:
        return TypedLine(WaterLine(id=new_id()))
    refuse_pieces(text, offers)
    found = stated(text)
    if found is not None and exact(f"{found.words} {found.aside}", offers):
        # The brackets are part of the name, as in "syrup (by its label)".
        found = found._replace(words=f"{found.words} {found.aside}", aside="")
    tablets = found is not None and found.amount.parts[0].unit == "tablet"
    words, fitting = _known(found.words if found else text, offers, tablets=tablets)
    if found is None:
        return _without_amount(words, fitting)
    if not words.name and words.form != "juice":
        raise UnitsError(f'"{text.strip()}" says how much, not of what; write 4 lb damsons.')
    if all(part.number == 0 for part in found.amount.parts):
        raise UnitsError(f'"{found.amount.text}" is nothing; write how much, or leave it out.')
    note = ", ".join(filter(None, (*words.sorts, found.aside)))
    if not fitting:
        unknown = Unknown(found.amount, words.name, words.form, words.prepared, note)
        return TypedLine(unknown, found.remarks)
    line = _line(fitting[0], found.amount, words, note)
    others = _others(found, words, fitting)
    return TypedLine(line, (*found.remarks, *others))


def to_the_mark(text: str) -> Volume | str | None:
    """Return the volume of "water to 1 gallon", "" for "to the mark", or None for neither."""
    plain = " ".join(text.split()).rstrip(".")
    found = _TO.fullmatch(plain)
    if found is None:
        return None
    if found[1].lower() in ("the mark", "mark"):
        return ""
    try:
        told = stated(found[1])
        return Volume(told.amount.text) if told and not told.words else None
    except UnitsError:
        return None


def _known(
    text: str, offers: tuple[Offer, ...], *, tablets: bool
) -> tuple[_Words, tuple[Offer, ...]]:
    """Return the words sorted into name, form and the rest, with what the name can mean."""
    plain = [word.strip(',;:.()"') for word in text.split()]
    kept = [word for word in plain if word and word.lower() not in _FILLERS]
    whole = " ".join(kept)
    words = _sorted(kept)
    same = exact(f"{words.name} tablets", offers) if tablets else None
    if same is None and exact(whole, offers) is not None:
        words, same = _Words(whole), exact(whole, offers)
    if same is not None:
        return words, (same,)
    fitting = meant(words.name, offers, _FORM_WORDS)
    what, for_what = _purpose(words.name)
    if not fitting and for_what:
        fitting = meant(what, offers, _FORM_WORDS)
        if fitting:
            words = words._replace(name=what, sorts=(*words.sorts, for_what))
    if not fitting and stems(words.name) & {"yeast"} and _last(words.name) == "yeast":
        fitting = tuple(offer for offer in offers if offer.kind == "yeast")
        words = words._replace(sorts=(*words.sorts, words.name))
    return words, fitting


def _purpose(name: str) -> tuple[str, str]:
    """Return "sugar for priming" as the thing and what it is for."""
    found = re.fullmatch(r"(.+?)\s+((?:for|to|in|from|with)\s.+)", name)
    return (found[1], found[2]) if found else (name, "")


def _last(name: str) -> str:
    return name.split()[-1].lower()


def _sorted(kept: list[str]) -> _Words:
    form: FruitForm = "fresh"
    name, sorts, prepared = [], [], False
    for word in kept:
        plain = word.lower()
        if plain in _FORMS:
            form = _FORMS[plain]
        elif plain in _PREPARED:
            prepared = True
        elif plain in _SORTS:
            sorts.append(word)
        else:
            name.append(word)
    return _Words(" ".join(name), form, prepared, tuple(sorts))


_USUAL = {"yeast": "1 packet", "additive": "1 tsp"}
"""Amounts that an example may have; else a weight."""


def _without_amount(words: _Words, fitting: tuple[Offer, ...]) -> TypedLine:
    found = fitting[0] if fitting else None
    note = ", ".join(words.sorts)
    if found is not None and found.kind == "water":
        return TypedLine(WaterLine(id=new_id(), note=note))
    name = words.name or "damsons"
    whole = found is not None and (found.kind == "yeast" or exact(words.name, (found,)) is not None)
    usual = _USUAL.get(found.kind, "4 lb") if found is not None else "4 lb"
    sentence = f"How much? Write the amount first, such as {usual} {name}."
    raise NoAmount(sentence, found, whole=whole)


def _line(found: Offer, amount: Amount, words: _Words, note: str) -> Line:
    line_id = new_id()
    if found.kind == "water":
        return WaterLine(id=line_id, amount=Volume(amount.text), note=note)
    if found.kind == "fruit":
        return FruitLine(
            id=line_id,
            fruit=found.key,
            amount=amount,
            form=words.form,
            prepared=words.prepared,
            note=note,
        )
    if found.kind == "sugar":
        return SugarLine(id=line_id, sugar=found.key, amount=amount, note=note)
    if found.kind == "yeast":
        return YeastLine(id=line_id, amount=amount, note=note)
    return AdditiveLine(id=line_id, additive=found.key, amount=amount, note=note)


def _others(found: Stated, words: _Words, fitting: tuple[Offer, ...]) -> tuple[Remark, ...]:
    """Return what is to be said where the name can mean other things of its kind too."""
    first, *rest = fitting
    others = [
        offer for offer in rest if offer.kind == first.kind and not stems(offer.name) & _FORM_WORDS
    ][:_MOST_OTHERS]
    if not others:
        return ()
    names = " or ".join(offer.name.lower() for offer in others)
    ways = tuple(
        Way(label=offer.name, text=f"{found.amount.text} {offer.name.lower()}") for offer in others
    )
    said = f'"{words.name}" is read as {first.name.lower()}; it could be {names}.'
    return (Remark(sentence=said, ways=ways),)


def amount_part(text: str) -> str:
    """Return the amount that the text starts with, as typed, with the space after it; or ""."""
    found = re.match(
        r"\s*(?:[\d.,/½¼¾⅓⅔⅛ ]+\s*(?:fl\.? oz|[a-zA-Z]+)\.?\s+(?:and\s+|of\s+)?)+", text
    )
    if found is None:
        return ""
    try:
        Amount(re.sub(r"\s+of\s+$", " ", found[0]))
    except UnitsError:
        return ""
    return found[0]
