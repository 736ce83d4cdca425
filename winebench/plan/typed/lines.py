"""A recipe line typed in words, such as "4 lb frozen damsons", read against the catalog."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from winebench.model.edits import new_id
from winebench.model.recipe import Line, WaterLine
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.beside import Beside, beside
from winebench.plan.typed.crushed import refuse_crushed
from winebench.plan.typed.forms import is_about
from winebench.plan.typed.grouped import without_point
from winebench.plan.typed.made import Read, made_line, refuse_open, takes_label
from winebench.plan.typed.names import Offer, exact
from winebench.plan.typed.not_in_wine import refusal_of_cleaning, refusal_of_unknown
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.numbers import not_below_nothing
from winebench.plan.typed.own_figures import NONE, split_off_figures
from winebench.plan.typed.packs import unpacked
from winebench.plan.typed.pieces import refuse_pieces
from winebench.plan.typed.remarks import Asked, Remark, written
from winebench.plan.typed.said_of import said_of
from winebench.plan.typed.spoonfuls import measures_said, refuse_heaped
from winebench.plan.typed.staged import refuse_staged
from winebench.plan.typed.thousands import without_thousands
from winebench.plan.typed.unknown import Unknown
from winebench.plan.typed.words import Words, known_words
from winebench.units import Amount, UnitsError, Volume

_WATER = (
    r"(?:(?:cold|cool|warm|hot|boiling|boiled|tap|spring|bottled|filtered|distilled|mineral|rain|clean|fresh|soft|enough|kaltes|kochendes|"
    r"heißes)\s+)*(?:water|wasser|eau)"
)
_UP = (
    r"(?:top(?:ped)?|make|made|fill(?:ed)?|bring|brought|add(?:ed)?)"
    r"(?:\s+(?:it|all|this|(?:the\s+)?(?:volume|total|must|level)))?(?:\s+up)?"
)
_ENOUGH = r"(?:enough|sufficient|as\s+(?:needed|required)|as\s+much\s+as\s+(?:is\s+)?needed)"
_TO = (
    re.compile(
        rf"(?:enough\s+)?(?:(?:{_UP}\s+(?:(?:with|using)\s+)?)?{_WATER}\s*[,:–-]?\s+)?"
        rf"(?:{_ENOUGH}\s+)?(?:{_UP}\s+)?(?:up\s+)?to\s+"
        r"(?:(?:make|fill|reach|give|get)\s+(?:up\s+(?:to\s+)?)?)?(?P<mark>.+)",
        re.IGNORECASE,
    ),
    re.compile(rf"{_UP}\s+to\s+(?P<mark>.+?)\s+(?:with|using)\s+{_WATER}", re.IGNORECASE),
    re.compile(
        rf"auf\s+(?P<mark>.+?)(?:\s+mit\s+{_WATER})?\s+auff\w+",
        re.IGNORECASE,
    ),
    re.compile(
        rf"(?:mit\s+)?{_WATER}\s+(?:bis\s+)?(?:auf|bis|zu)\s+(?P<mark>.+?)(?:\s+auff\w+)?",
        re.IGNORECASE,
    ),
    re.compile(
        rf"(?:compl[ée]ter\s+(?:avec\s+de\s+l['’])?)?{_WATER}\s+"
        r"(?:jusqu['’]?[àa]|[àa]|pour\s+(?:faire|obtenir))\s+(?P<mark>.+)",
        re.IGNORECASE,
    ),
)


_KEPT_BACK = ("save", "hold", "hold back", "keep", "keep back", "reserve", "put by", "rest")


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


class _Named(NamedTuple):
    """A line without an amount."""

    words: Words
    fitting: tuple[Offer, ...]


def typed_line(text: str, offers: Iterable[Offer]) -> TypedLine:
    """Return the line meant by the words with what is to be said of it.

    Raises:
        NoAmount: there is a name and no amount.
        NotInWine: it is a household chemical, or what cleans the equipment.
        UnitsError: the amount cannot be, or fits no such line.

    """
    try:
        found = _typed_line(text, tuple(offers))
    except UnitsError as problem:
        named = isinstance(problem, NoAmount) and problem.found is not None and problem.whole
        amounts = any(map(str.isdigit, digits(text)))
        refused = None if named else refusal_of_unknown(text, has_amount=amounts)
        raise refused or problem from None
    if isinstance(found.line, Unknown):
        refused = refusal_of_unknown(text, has_amount=True)
        if refused is not None:
            raise refused
    return found


def _typed_line(text: str, offers: tuple[Offer, ...]) -> TypedLine:
    not_below_nothing(text)
    if to_the_mark(text) is not None:
        return TypedLine(WaterLine(id=new_id()))
    refuse_pieces(text, offers)
    refuse_staged(text, offers)
    refuse_heaped(text)
    packed = unpacked(text)
    read = _fitting_read(packed.text, offers)
    if isinstance(read, _Named):
        return _without_amount(read)
    kept_back = not read.words.name or read.words.name.lower() in _KEPT_BACK
    if kept_back and read.said.fed is not None:
        later = written(f"{read.found.amount.text} sugar, fed later")
        raise Asked(f'"{text.strip()}" does not say of what: is it sugar?', later)
    if not read.words.name and read.words.form == "juice":
        raise Asked(f'"{text.strip()}": the juice of what? Write such as 2 L apple juice.')
    if not read.words.name:
        raise UnitsError(f'"{text.strip()}" says how much, not of what; write 4 lb damsons.')
    if all(part.number == 0 for part in read.found.amount.parts):
        raise UnitsError(f'"{read.found.amount.text}" is nothing; write how much, or leave it out.')
    read = without_thousands(read._replace(pack=packed.note))
    if read.kind in ("additive", "water"):
        name = read.fitting[0].name.lower()
        cleans = refusal_of_cleaning(text, name, read.found.amount.text)
        if cleans is not None:
            raise cleans
    refuse_open(read)
    refuse_crushed(read)
    remarks = (*read.found.remarks, *packed.remarks, *measures_said(text), *said_of(read))
    return TypedLine(made_line(read), remarks)


def to_the_mark(text: str) -> Volume | str | None:
    """Return the volume of "water to 1 gallon", "" for "to the mark", or None for neither."""
    plain = " ".join(text.split()).rstrip(".")
    marks = (_mark(found["mark"]) for form in _TO if (found := form.fullmatch(plain)))
    return next((mark for mark in marks if mark is not None), None)


def _mark(text: str) -> Volume | str | None:
    if text.lower() in ("the mark", "mark"):
        return ""
    try:
        mark = re.sub(r"(?i)^the\s+(.+?)[\s-](?:mark|line|level)$", r"\1", text)
        mark = re.sub(r"(?i)^the\s+(?=(?:(?:US|imperial)\s+)?(?:gallon|lit(?:re|er))$)", "1 ", mark)
        told = stated(mark)
        return Volume(without_point(told.amount.text)) if told and not told.words else None
    except UnitsError:
        return None


def _fitting_read(text: str, offers: tuple[Offer, ...]) -> Read | _Named:
    """Return the line in its parts: without what belongs to such a thing, as far as it does.

    A percentage is a syrup's, °Brix and acidity a fruit's: on other lines they stay in the words.
    """
    said = beside(text)
    read = _read(said, offers)
    at_a_gravity = said.fed is not None and split_off_figures(said.fed.words)[1] != NONE
    if at_a_gravity and not isinstance(read, _Named) and read.kind == "fruit":
        said = beside(text, feed=False)  # "juice at 1.050" is what it reads, not when it goes in
        read = _read(said, offers)
    if isinstance(read, _Named) or said.own == NONE:
        return read
    if read.kind == "fruit" and said.own.percent is not None:
        return _read(beside(text, percent=False), offers)
    if read.kind in ("fruit", "") or (read.kind == "sugar" and takes_label(read.fitting[0].key)):
        return read
    return _read(beside(text, figures=False), offers)


def _read(said: Beside, offers: tuple[Offer, ...]) -> Read | _Named:
    found = stated(said.text)
    if found is None:
        named = _Named(*known_words(said.text, offers, tablets=False))
        bare = re.sub(r"\([^()]*\)", " ", said.text)
        return named if named.fitting else _Named(*known_words(bare, offers, tablets=False))
    if exact(f"{found.words} {found.aside}", offers):
        # The brackets are part of the name, as in "syrup (by its label)".
        found = found._replace(words=f"{found.words} {found.aside}", aside="")
    about = [piece for piece in re.split(r"\s*[,;/]\s*", found.aside) if is_about(piece)]
    if about:
        rest = [p for p in re.split(r"\s*[,;/]\s*", found.aside) if p not in about]
        found = found._replace(words=" ".join((found.words, *about)), aside=", ".join(rest))
    tablets = found.amount.parts[0].unit == "tablet"
    words, fitting = known_words(found.words, offers, tablets=tablets)
    return Read(found, words, fitting, said)


_USUAL = {"yeast": "1 packet", "additive": "1 tsp"}
"""Amounts that an example may have; else a weight."""


def _without_amount(named: _Named) -> TypedLine:
    words, fitting = named
    found = fitting[0] if fitting else None
    note = ", ".join(words.sorts)
    if found is not None and found.kind == "water" and any(map(str.isdigit, note)):
        raise Asked(f'Water "{note}": how much, or how far up? Write such as water to 1 gallon.')
    if found is not None and found.kind == "water":
        return TypedLine(WaterLine(id=new_id(), note=note))
    name = words.name or "damsons"
    whole = found is not None and (found.kind == "yeast" or exact(words.name, (found,)) is not None)
    usual = _USUAL.get(found.kind, "4 lb") if found is not None else "4 lb"
    sentence = f"How much? Write the amount first, such as {usual} {name}."
    raise NoAmount(sentence, found, whole=whole)


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
