"""The words of a line, sorted into name, form and the rest, against the names that are known."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.model.recipe import FruitForm
from winebench.plan.typed.forms import COLOURS, FORMS, PREPARED, SORTS, form_of
from winebench.plan.typed.names import Offer, exact, meant, stems

FORM_WORDS = frozenset(FORMS)
_DONE = re.compile(r"(?i)[a-z]{3,}(?:ed|ly)")
_SAY_NOTHING = frozenset((
    "fruit", "berry", "juice", "root", "powder", "type", "skin", "slip", "table", "seed", "wine",
))  # fmt: skip
_IN_A_FORM = FORM_WORDS | {"must"}
_FILLERS = frozenset((
    "of", "the", "a", "some", "and", "or", "&", "-", "--", "–", "—", "@", "each", "|", "all", "de",
    "du", "des", "von",
))  # fmt: skip
_ELIDED = re.compile(r"\b[dl]['’](?=[^\W\d])", re.IGNORECASE)
"""3 litres d'eau."""


class Words(NamedTuple):
    """A name, and what else stands beside it."""

    name: str
    form: FruitForm = "fresh"
    prepared: bool = False
    sorts: tuple[str, ...] = ()
    besides: str = ""
    """A colour that the known name does without: to be said."""


def known_words(
    text: str, offers: tuple[Offer, ...], *, tablets: bool
) -> tuple[Words, tuple[Offer, ...]]:
    """Return the words sorted into name, form and the rest, with what the name can mean."""
    plain = [word.strip(',;:.!?()"|') for word in _ELIDED.sub("", text).split()]
    kept = [word for word in plain if word and word.lower() not in _FILLERS]
    whole = " ".join(kept)
    words = _sorted(kept)
    same = exact(f"{words.name} tablets", offers) if tablets else None
    if same is None and exact(whole, offers) is not None:
        words, same = Words(whole), exact(whole, offers)
    if same is None and words.form == "juice":  # "frozen apple juice" is apple juice
        same = exact(f"{words.name} juice", offers)
        words = words._replace(name=f"{words.name} juice") if same is not None else words
    if same is not None:
        return words, (same,)
    found = meant(words.name, offers, FORM_WORDS)
    fitting = tuple(o for o in found if not in_a_form(o) and is_named_by(o, words.name))
    if not fitting:
        words, fitting = _for_what(words, offers, tablets=tablets)
    if not fitting:
        words, fitting = _without_done(words, offers)
    if not fitting:
        words, fitting = _without_colour(words, offers)
    ends = {words.name.split()[end].lower() for end in (0, -1)} if words.name else set()
    begun = exact(" ".join(words.name.split()[:2]), offers)  # "yeast nutrient as told" is none
    if not fitting and "yeast" in ends and (begun is None or begun.kind == "yeast"):
        fitting = tuple(offer for offer in offers if offer.kind == "yeast")[:1]
        words = words._replace(sorts=(*words.sorts, words.name))
    return words, fitting


def in_a_form(offer: Offer) -> bool:
    """Return whether it is juice, dried or frozen by its name: no grapes are grape juice."""
    return bool(stems(offer.name) & _IN_A_FORM)


def is_named_by(offer: Offer, name: str) -> bool:
    """Return whether the words say which it is: "fruit" is no passion fruit, "skins" no grapes."""
    return offer.name.lower() == name.lower() or bool(stems(name) - _SAY_NOTHING)


def _for_what(
    words: Words, offers: tuple[Offer, ...], *, tablets: bool
) -> tuple[Words, tuple[Offer, ...]]:
    """Return "sugar for the must" as the thing, and what it is for as a sort of it."""
    found = re.fullmatch(r"(.+?)\s+((?:for|to|in|from|with|by|at|on)\s.+)", words.name)
    if found is None:
        return words, ()
    same = exact(f"{found[1]} tablets", offers) if tablets else None
    named = (same,) if same is not None else meant(found[1], offers, FORM_WORDS)
    fitting = tuple(offer for offer in named if not in_a_form(offer))
    if fitting:
        words = words._replace(name=found[1], sorts=(*words.sorts, found[2]))
    return words, fitting


def _without_colour(words: Words, offers: tuple[Offer, ...]) -> tuple[Words, tuple[Offer, ...]]:
    """Return "green gooseberries" as gooseberries, the colour as a sort of it."""
    colour, _, name = words.name.partition(" ")
    same = exact(name, offers) if colour.lower() in COLOURS else None
    if same is None or same.kind != "fruit":
        return words, ()
    return words._replace(name=name, sorts=(*words.sorts, colour), besides=colour), (same,)


def _without_done(words: Words, offers: tuple[Offer, ...]) -> tuple[Words, tuple[Offer, ...]]:
    """Return "scrubbed parsnips" as parsnips: what was done to a known fruit is a sort of it."""
    parts = words.name.split()
    done = [part for part in parts if _DONE.fullmatch(part)]
    name = " ".join(part for part in parts if part not in done)
    same = exact(name, offers) if done and name else None
    if same is None or same.kind != "fruit":
        return words, ()
    return words._replace(name=name, sorts=(*words.sorts, *done)), (same,)


def _sorted(kept: list[str]) -> Words:
    forms, name, sorts, prepared = [], [], [], False
    for word in kept:
        plain = word.lower()
        if plain in FORMS:
            forms.append(plain)
        elif plain in PREPARED:
            prepared = True
        elif plain in SORTS:
            sorts.append(word)
        else:
            name.append(word)
    return Words(" ".join(name), form_of(forms), prepared, tuple(sorts))
