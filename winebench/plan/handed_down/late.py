"""What a card lists and that is no part of the must: what is for later or the end, and sorbate."""

from __future__ import annotations

from winebench.catalog.additives import additives
from winebench.model.recipe import AdditiveLine, Line, WaterLine, YeastLine
from winebench.plan.handed_down.shapes import Item
from winebench.plan.typed.remarks import Asked, Remark
from winebench.plan.typed.unknown import Unknown

SORBATE_LATE = Remark(
    sentence="Sorbate goes in at Stabilise, into a still wine: before the yeast it stops the "
    "ferment. The plan works out its dose then."
)
SWEETENED_LATE = Remark(
    sentence="It stands under what the finished wine gets, so none of it is in the must: kept as a "
    "note. How sweet the wine is to be goes in a line such as FG 1.005."
)


def refuse_later(item: Item, line: Line | Unknown) -> None:
    """Raise where a powder stands under a heading of what goes in later.

    Yeast's food may be fed, and is no part of a finished wine.

    Raises:
        Asked: it does; only keeping it as a note answers that.

    """
    if isinstance(line, AdditiveLine) and (item.ends or _kind(line) != "nutrient"):
        raise Asked(
            f'"{item.words}" stands under what goes in later, and is no part of the must: keep it '
            "as a note, and the plan asks for it at its time; or write it above if it goes in at "
            "the start."
        )


def is_for_the_end(item: Item, line: Line | Unknown) -> bool:
    """Return whether the line sweetens or flavours the finished wine, by the heading over it."""
    return item.ends and not isinstance(line, WaterLine | YeastLine)


def is_sorbate(line: Line) -> bool:
    """Return whether the line is what keeps a sweetened wine still, and goes in at the end."""
    return isinstance(line, AdditiveLine) and _kind(line) == "sorbate"


def _kind(line: AdditiveLine) -> str:
    known = additives().get(line.additive)
    return known.kind if known is not None else ""
