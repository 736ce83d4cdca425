"""What a card lists and that is no part of the must: powders for later, and sorbate."""

from __future__ import annotations

from winebench.catalog.additives import additives
from winebench.model.recipe import AdditiveLine, Line
from winebench.plan.handed_down.shapes import Item
from winebench.plan.typed.remarks import Asked, Remark
from winebench.plan.typed.unknown import Unknown

SORBATE_LATE = Remark(
    sentence="Sorbate goes in at Stabilise, into a still wine: before the yeast it stops the "
    "ferment. The plan works out its dose then."
)


def refuse_later(item: Item, line: Line | Unknown) -> None:
    """Raise where a powder stands under a heading of what goes in later, and is no yeast's food.

    Raises:
        Asked: it does; only keeping it as a note answers that.

    """
    if isinstance(line, AdditiveLine) and _kind(line) != "nutrient":
        raise Asked(
            f'"{item.words}" stands under what goes in later, and is no part of the must: keep it '
            "as a note, and the plan asks for it at its time; or write it above if it goes in at "
            "the start."
        )


def is_sorbate(line: Line) -> bool:
    """Return whether the line is what keeps a sweetened wine still, and goes in at the end."""
    return isinstance(line, AdditiveLine) and _kind(line) == "sorbate"


def _kind(line: AdditiveLine) -> str:
    known = additives().get(line.additive)
    return known.kind if known is not None else ""
