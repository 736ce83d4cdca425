"""Whose a figure behind an ingredient is: the juice's own, or the must's."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal

from winebench.catalog.fruits import fruits
from winebench.model.recipe import FruitLine, Line, SugarLine, WaterLine
from winebench.plan.handed_down.marks import unmarked
from winebench.plan.handed_down.reads import line_of
from winebench.plan.handed_down.sense import is_figure, is_named
from winebench.plan.portions import brix_of, is_strained
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.made import takes_label
from winebench.plan.typed.own_figures import NONE, split_off_figures
from winebench.plan.typed.unknown import Unknown
from winebench.plan.wanted import LEAST_SG
from winebench.units import UnitsError

Holds = Literal["", "likely", "unlikely"]
_ABOVE = 1.3
"""How far over its table fruit may read: more is the must's figure (common practice)."""
_SMALL = ("tsp", "tbsp", "packet", "tablet", "mg")
"""Units in which no fruit is measured out."""


def _line(text: str) -> Line | Unknown | None:
    try:
        return line_of(unmarked(text)).line
    except UnitsError:
        return None


def is_sweet_or_water(text: str) -> bool:
    """Return whether the words are a line of sugar or water."""
    return isinstance(_line(text), SugarLine | WaterLine)


def names_another(text: str) -> bool:
    """Return whether an amount in the words is of a thing that is known by its full name."""
    try:
        found = stated(unmarked(text))
    except UnitsError:
        return True
    return found is not None and is_named(found.words)


def is_water(text: str) -> bool:
    """Return whether the words are a line of water."""
    return isinstance(_line(text), WaterLine)


@lru_cache(maxsize=1024)
def holds_figures(text: str, figures: str) -> Holds:
    """Return whether such figures can be of what the words name; "" where it has none."""
    line = _line(text) or _line(f"{text}, {figures}")  # a concentrate is none without its figure
    if isinstance(line, SugarLine):
        return "likely" if takes_label(line.sugar) else ""
    if isinstance(line, Unknown):
        return "" if line.amount.parts[0].unit in _SMALL else "likely"
    if not isinstance(line, FruitLine):
        unread = line is None and not is_figure(text) and any(letter.isdigit() for letter in text)
        return "unlikely" if unread else ""
    try:
        _, found = split_off_figures(unmarked(figures))
        juice = found.juice
    except UnitsError:
        return "likely"  # it is wrong wherever it stands; said at the fruit
    if found == NONE:  # a percentage
        return ""
    fruit = fruits().get(line.fruit)
    whole = line.form in ("fresh", "frozen") and not is_strained(line)
    if juice is None or fruit is None or not whole:
        return "likely"
    like_a_must = juice.scale == "SG" and juice.value >= LEAST_SG and fruit.group != "grape"
    too_much = brix_of(juice) > _ABOVE * fruit.brix.high
    return "unlikely" if like_a_must or too_much else "likely"
