"""What is said about something typed: a sentence, and the ways to write it instead."""

from __future__ import annotations

from winebench.plan.outlook import Shape
from winebench.units import UnitsError


class Way(Shape, frozen=True):
    """One way to write it instead."""

    label: str
    """A verb or the words themselves, for a button."""
    text: str
    """What to write in its place; empty takes it out."""
    apart: bool = False
    """Whether it goes on a line of its own, before the rest, and nothing is replaced."""


class Remark(Shape, frozen=True):
    """Something to know about words that were read all the same."""

    sentence: str
    ways: tuple[Way, ...] = ()


class Unread(UnitsError):
    """Words that cannot be true, with what could be written instead."""

    def __init__(self, sentence: str, *ways: Way) -> None:
        super().__init__(sentence)
        self.ways = ways


class Asked(Unread):
    """Words that leave something open, with what could be written instead."""


def written(text: str) -> Way:
    """Return the way of writing just these words."""
    return Way(label=text, text=text)
