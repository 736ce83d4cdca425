"""What a stretch of a card could be, asked again and again while it is cut into items."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

from winebench.plan.handed_down.choices import refuse_choice
from winebench.plan.handed_down.fields import read_field
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.lines import NoAmount, to_the_mark, typed_line
from winebench.plan.typed.offers import known
from winebench.plan.typed.pieces import refuse_pieces
from winebench.plan.typed.remarks import Unread
from winebench.units import UnitsError

Sense = Literal["item", "name", "amount", "volume", "words"]
"""item: whole in itself; name: a known thing without its amount; amount, volume: how much, not of
what; words: anything else."""


@lru_cache(maxsize=4096)
def sense(text: str) -> Sense:
    """Return what the stretch could be."""
    try:
        refuse_pieces(text, known())
        refuse_choice(text)
        if to_the_mark(text) is not None:  # "to 4.5 L" goes with the water before it
            return "item" if text.lower().startswith("water") else "words"
        found = stated(text)
        if found is not None and not found.words.strip(" ,;:.-"):
            return "volume" if read_field(text) else "amount"
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
        typed_line(text, known())
    except NoAmount as problem:
        return problem.found is not None and problem.whole
    except UnitsError:
        return False
    return True  # water needs none


def is_figure(text: str) -> bool:
    """Return whether the stretch states a figure of the recipe, right or wrong."""
    try:
        return read_field(text) is not None
    except UnitsError:
        return True


def _numbered(text: str) -> Sense:
    """Return what a stretch is that starts with a number and no known unit."""
    return "item" if is_figure(text) or len(text.split()) > 1 else "words"
