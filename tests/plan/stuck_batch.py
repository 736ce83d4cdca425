"""The damson batch that sticks at 1.022 in a cold room, and is set going again."""

from __future__ import annotations

from tests.plan.damson import LINES, PITCHED, damson, read, ticked
from winebench.model.edits import changed
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.model.recipe import YeastLine
from winebench.units import Amount

GOING: tuple[Entry, ...] = (
    *PITCHED,
    ticked("first-nitrogen", "2026-10-03T18:00"),
    read("1.066", "2026-10-05T18:30"),
    ticked("second-nitrogen", "2026-10-05T19:00"),
    ticked("stir", "2026-10-08T18:00"),
    ticked("lift-fruit", "2026-10-08T20:00"),
    read("1.028", "2026-10-09T18:00", "16 °C"),
    ticked("transfer", "2026-10-09T19:00"),
    read("1.022", "2026-10-14T18:00", "14 °C"),
)
STUCK: tuple[Entry, ...] = (
    *GOING,
    read("1.022", "2026-10-16T18:00", "14 °C"),
    read("1.022", "2026-10-18T18:00", "14 °C"),
)
DOUBTED: tuple[Entry, ...] = (*STUCK, read("1.022", "2026-10-19T18:00", "14 °C", degassed=True))
ROUSED: tuple[Entry, ...] = (*DOUBTED, ticked("warm-and-rouse", "2026-10-19T19:00"))
UNMOVED: tuple[Entry, ...] = (*ROUSED, read("1.022", "2026-10-22T20:00", "21 °C"))
STARTER: tuple[Entry, ...] = (*UNMOVED, ticked("fresh-starter", "2026-10-23T10:00"))
FED: tuple[Entry, ...] = (
    *STARTER,
    ticked("feed-starter", "2026-10-24T10:00"),
    ticked("feed-starter", "2026-10-25T10:00"),
    ticked("feed-starter", "2026-10-26T09:00"),
)
PITCHED_BACK: tuple[Entry, ...] = (*FED, ticked("restart", "2026-10-26T21:00"))
FALLING: tuple[Entry, ...] = (
    *PITCHED_BACK,
    read("1.022", "2026-10-28T18:00", "21 °C"),
    read("1.016", "2026-10-30T18:00", "21 °C"),
)
DRY: tuple[Entry, ...] = (
    *FALLING,
    read("1.004", "2026-11-05T18:00", "21 °C"),
    read("0.996", "2026-11-12T18:00", "21 °C"),
    read("0.993", "2026-11-20T18:00", "21 °C"),
    read("0.993", "2026-11-24T18:00", "21 °C"),
)
AGAIN: tuple[Entry, ...] = (
    *FALLING,
    read("1.010", "2026-11-05T18:00", "21 °C"),
    read("1.010", "2026-11-09T18:00", "21 °C"),
)
IN_VAIN: tuple[Entry, ...] = (
    *PITCHED_BACK,
    read("1.022", "2026-10-28T18:00", "21 °C"),
    read("1.022", "2026-11-03T18:00", "21 °C", degassed=True),
)
TOLD = {
    "going": GOING, "stuck": STUCK, "doubted": DOUBTED, "roused": ROUSED, "unmoved": UNMOVED,
    "starter": STARTER, "fed": FED, "pitched back": PITCHED_BACK, "falling": FALLING, "dry": DRY,
    "again": AGAIN, "in vain": IN_VAIN,
}  # fmt: skip
KEYS = ("doubt-reading", "warm-and-rouse", "wait-and-read", "fresh-starter", "feed-starter",
        "restart", "accept-sweet")  # fmt: skip


def filed(project: Project) -> Project:
    """Return the batch as a file gives it back: every amount a plain one, as it was typed."""
    lines = tuple(
        changed(line, amount=Amount(line.amount.text)) if getattr(line, "amount", None) else line
        for line in project.recipe.lines
    )
    return changed(project, recipe=changed(project.recipe, lines=lines))


def weak(*log: Entry, tolerance: float = 10.0) -> Project:
    """Return the batch with a yeast that stands no more than that."""
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=tolerance)
    lines = tuple(yeast if line.id == "yeast" else line for line in LINES)
    batch = damson(*log)
    return changed(batch, recipe=changed(batch.recipe, lines=lines))
