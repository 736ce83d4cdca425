"""A figure with what it can be by its measuring, and when two such figures differ."""

from __future__ import annotations

from typing import NamedTuple

_EXACT = 1e-9


class Known(NamedTuple):
    """One figure, between the lowest and the highest that it can be by its measuring."""

    value: float
    low: float
    high: float


class Fact(NamedTuple):
    """What two batches can be compared by."""

    key: str
    """What kind of thing it is, for what a difference does: "fruit", "og"."""
    name: str
    """In words: "Damsons", "Original gravity"."""
    text: str
    """As people read it, with its unit: "238 g/L"."""
    known: Known | None = None
    """None where it is words, such as a form of fruit: they are equal or not."""
    may_lack: bool = False
    """Whether a batch without it has none of it, rather than an unknown amount."""


def about(value: float, half_width: float) -> Known:
    """Return a figure known to that much either way."""
    return Known(value, value - half_width, value + half_width)


_NONE = "none"


def none_of(fact: Fact) -> Fact:
    """Return the fact of a batch that has none of it."""
    return fact._replace(text=_NONE, known=about(0.0, 0.0))


def is_none(fact: Fact) -> bool:
    """Return whether the batch has none of it."""
    return fact.may_lack and fact.text == _NONE


def way(one: Fact, other: Fact) -> int:
    """Return 1 where the first is more, -1 where it is less, 0 where both can be the same.

    Words that are not the same count as more.
    """
    if one.known is None or other.known is None:
        return int(one.text != other.text)
    if one.known.low > other.known.high + _EXACT:
        return 1
    return -1 if other.known.low > one.known.high + _EXACT else 0
