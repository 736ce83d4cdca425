"""The base of all shapes, and the one worked-out number."""

from __future__ import annotations

import msgspec

from winebench.trade.workings import Workings


class Shape(msgspec.Struct, frozen=True, kw_only=True):
    """Base of the outlook's parts."""


class Figure(Shape, frozen=True, kw_only=True):
    """One worked-out number: figure, range, unit, how to show it, and its workings.

    `value` None means "not known here"; `text` then says so.
    """

    value: float | None
    low: float | None = None
    high: float | None = None
    unit: str
    text: str
    """The number alone, with the digits it deserves: "1.078", "7.1", "18.0"."""
    shown_in: str = ""
    """Unit of `text` where that is not `unit`: 9920 g is shown as 9.92 kg."""
    workings: Workings | None = None

    @property
    def text_unit(self) -> str:
        """Return the unit that belongs behind `text`."""
        return self.shown_in or self.unit


class NamedFigure(Shape, frozen=True, kw_only=True):
    """A worked-out figure that a step is about, under its name."""

    name: str
    figure: Figure
