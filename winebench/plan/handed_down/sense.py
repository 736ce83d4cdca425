"""What a stretch of a card could be, asked again and again while it is cut into items."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

from winebench.plan.handed_down.choices import refuse_choice
from winebench.plan.handed_down.fields import read_field
from winebench.plan.handed_down.marks import unmarked
from winebench.plan.handed_down.per_volume import name_per, split_off_per
from winebench.plan.handed_down.reads import line_of
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.cans import is_numbered_can
from winebench.plan.typed.feeds import when_fed
from winebench.plan.typed.forms import is_about, split_off_forms
from winebench.plan.typed.lines import NoAmount, to_the_mark
from winebench.plan.typed.not_in_wine import NotInWine
from winebench.plan.typed.offers import known
from winebench.plan.typed.pieces import refuse_pieces
from winebench.plan.typed.remarks import Unread
from winebench.units import UnitsError

_EACH = re.compile(r"(?i)\(?\d[\d.,/ ]*[a-z]+(?:\s[a-z]+)?\.?\s+(?:each|apiece)\)?")
_WATERS = ("water", "wasser", "eau", "enough")
"""A line that begins so is whole with how far up the water goes."""
_OF_NOTHING = re.compile(r"(?i)(?:(?:on|for|from|at|by|if|when)\s|(?:strong|weak)\W*$)")
"""What stands behind an amount whose thing is named before it: "yeast, 1 tsp on toast"."""
Sense = Literal["item", "name", "amount", "volume", "words"]
"""item: whole in itself; name: a known thing without its amount; amount, volume: how much, not of
what; words: anything else."""


@lru_cache(maxsize=4096)
def sense(text: str) -> Sense:
    """Return what the stretch could be."""
    text, per = split_off_per(unmarked(text))
    if per is not None:
        dose = sense(text)
        return "amount" if dose == "volume" else dose
    name, by = name_per(text)
    if by and name and sense(name) == "name":
        return "name"
    fed = when_fed(text)
    more = fed is not None and fed.when == "half" and text[:1].isdigit()  # "+ 2 lb later"
    if (fed is not None and not more) or _EACH.fullmatch(text):  # of what stands before it
        return "words"
    rest, said = split_off_forms(text)
    if said.prepared and not rest.strip(" .,;"):  # "leaves removed"
        return "words"
    if is_numbered_can(text):
        return "amount"
    try:
        refuse_pieces(text, known())
        refuse_choice(text)
        if to_the_mark(text) is not None:  # "to 4.5 L" goes with the water before it
            return "item" if text.lower().startswith(_WATERS) else "words"
        found = stated(text)
        if found is not None and not found.words.strip(" ,;:.-"):
            return "volume" if read_field(text) else "amount"
        if found is not None and _OF_NOTHING.match(found.words):
            return "amount"
        about = found is not None and is_about(re.sub(r"(?i)^of\s+", "", found.words))
        if about and found is not None and "juice" not in found.words.lower():
            return "amount"  # "3 lb ripe", before "stoned plums"
        if found is not None or read_field(text):
            return "item"
    except Unread:
        return "item"
    except UnitsError:
        return _numbered(text)
    return "name" if is_named(text) else "words"


def is_named(text: str) -> bool:
    """Return whether the words are a known thing without its amount, in any of its sorts."""
    try:
        line_of(text)
    except NoAmount as problem:
        return problem.found is not None and problem.whole
    except NotInWine:
        return True
    except UnitsError:
        return False
    return True  # water needs none


def named_kind(text: str) -> str:
    """Return what kind of thing words without an amount name in full, "" for none."""
    try:
        line_of(text)
    except NoAmount as problem:
        return problem.found.kind if problem.found is not None and problem.whole else ""
    except UnitsError:
        return ""
    return "water"  # it needs no amount


def is_figure(text: str) -> bool:
    """Return whether the stretch states a figure of the recipe, right or wrong."""
    try:
        return read_field(unmarked(text)) is not None
    except UnitsError:
        return True


def states_figure(text: str) -> bool:
    """Return whether a line among what is to be done is a figure of the recipe all the same."""
    try:
        return text[:1].isalpha() and read_field(text) is not None
    except UnitsError:
        return False


def _numbered(text: str) -> Sense:
    """Return what a stretch is that starts with a number and no known unit."""
    return "item" if is_figure(text) or len(text.split()) > 1 else "words"
