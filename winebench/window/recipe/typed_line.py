"""A recipe line typed in words, such as "4 lb frozen damsons", read against the catalog."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal, NamedTuple

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
from winebench.units import Amount, UnitsError, Volume

Kind = Literal["fruit", "sugar", "water", "additive", "yeast"]

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
_PREPARED = frozenset(("stoned", "pitted", "destoned", "peeled", "cored", "destemmed", "prepared"))
_TO = re.compile(r"(?:water,?\s+)?(?:up\s+)?to\s+(.+)", re.IGNORECASE)
_FILLERS = frozenset(("of", "the", "a", "some"))


class Offer(NamedTuple):
    """Something that the catalog knows, by the name that a person would type."""

    key: str
    name: str
    kind: Kind


class Unknown(NamedTuple):
    """A line whose thing the catalog does not know: the person says what it is."""

    amount: Amount
    name: str
    form: FruitForm
    prepared: bool

    def as_fruit(self) -> FruitLine:
        """Return it as a fruit of the maker's own."""
        return FruitLine(
            id=new_id(),
            fruit=self.name,
            amount=self.amount,
            form=self.form,
            prepared=self.prepared,
        )

    def as_additive(self) -> AdditiveLine:
        """Return it as an additive of the maker's own."""
        return AdditiveLine(id=new_id(), additive=self.name, amount=self.amount)

    def as_sugar(self) -> SugarLine:
        """Return it as a sugar or syrup of the maker's own."""
        return SugarLine(id=new_id(), sugar=self.name, amount=self.amount)


def read_line(text: str, offers: Iterable[Offer]) -> Line | Unknown:
    """Return the line meant by the words, or what is known of it.

    Raises:
        UnitsError: there is no amount, or none that fits such a line.

    """
    if _to_the_mark(text):
        return WaterLine(id=new_id())
    amount, words = _split(text)
    form, prepared, words = _preparation(words)
    name = " ".join(words)
    if not name and amount is not None and not (form == "juice"):
        raise UnitsError(f'"{text.strip()}" says how much, not of what; write 4 lb damsons.')
    found = match(name, offers)
    if (found is not None and found.kind == "water") or name == "water":
        return WaterLine(id=new_id(), amount=None if amount is None else Volume(amount.text))
    if amount is None:
        raise UnitsError(f"How much? Write the amount first, such as 4 lb {name or 'damsons'}.")
    if found is None:
        return Unknown(amount, name, form, prepared)
    return _line(found, amount, form, prepared)


def _to_the_mark(text: str) -> bool:
    """Return whether the words are "water to the mark", or to a volume: the recipe's own."""
    found = _TO.fullmatch(" ".join(text.split()).rstrip("."))
    if found is None:
        return False
    try:
        return found[1].lower() in ("the mark", "mark") or bool(Volume(found[1]).parts)
    except UnitsError:
        return False


def _split(text: str) -> tuple[Amount | None, list[str]]:
    """Return the amount that the text starts with, and the words after it."""
    words = re.sub(r"(?<=\d)(?=[a-zA-Z])", " ", " ".join(text.split())).split()
    for end in range(len(words), 0, -1):
        try:
            return Amount(" ".join(words[:end])), words[end:]
        except UnitsError:
            continue
    if words and re.match(r"[\d½¼¾⅓⅔⅛]", words[0]):
        Amount(words[0] if len(words) == 1 else " ".join(words[:2]))  # raises: names what is wrong
    return None, words


def _preparation(words: list[str]) -> tuple[FruitForm, bool, list[str]]:
    form: FruitForm = "fresh"
    prepared = False
    rest = []
    for word in words:
        plain = word.lower().strip(",;()")
        if plain in _FORMS:
            form = _FORMS[plain]
        elif plain in _PREPARED:
            prepared = True
        elif plain not in _FILLERS:
            rest.append(word.strip(",;"))
    return form, prepared, rest


def _stem(word: str) -> str:
    word = word.lower().strip(",;().")
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith("oes") or word.endswith("ches"):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


def stems(name: str) -> frozenset[str]:
    """Return the words of a name, each in the singular."""
    return frozenset(_stem(word) for word in re.split(r"[\s/–-]+", name) if _stem(word))


def match(name: str, offers: Iterable[Offer]) -> Offer | None:
    """Return what the name means: all its words in an offer's name, the shortest such
    name, and of equals the one offered first."""
    wanted = stems(name)
    if not wanted:
        return None
    fitting = []
    for offer in offers:
        known = stems(offer.name) | stems(offer.key)
        joined = "".join(sorted(known)), "".join(sorted(wanted))
        if wanted <= known or joined[0] == joined[1]:
            fitting.append(offer)
    return min(fitting, key=lambda offer: len(stems(offer.name)), default=None)


def _line(found: Offer, amount: Amount, form: FruitForm, prepared: bool) -> Line:
    line_id = new_id()
    if found.kind == "fruit":
        return FruitLine(id=line_id, fruit=found.key, amount=amount, form=form, prepared=prepared)
    if found.kind == "sugar":
        return SugarLine(id=line_id, sugar=found.key, amount=amount)
    if found.kind == "yeast":
        return YeastLine(id=line_id, amount=amount)
    return AdditiveLine(id=line_id, additive=found.key, amount=amount)


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
