"""Sugar in stages: some in the must at the start, some kept back to be fed while it ferments."""

from __future__ import annotations

from typing import NamedTuple

from winebench.model.edits import PutLine, Several, changed
from winebench.model.project import Project
from winebench.model.recipe import SugarLine
from winebench.plan.balance import Balance, sugar_to_target_kg
from winebench.plan.figures import grams_text
from winebench.plan.kitchen import in_pounds
from winebench.plan.outlook import Repair
from winebench.plan.portions import g_per_litre, mass_g, solids_percent
from winebench.plan.wanted import LEAST_SG
from winebench.plan.written_like import mass_like
from winebench.units import Amount

_GOOD_START_SG = 1.080
"""A must to be fed starts well above the least: its fruit may be poorer than the table's."""


class Moved(NamedTuple):
    """Sugar that goes in at the start instead of later."""

    grams: float
    """For the recipe's own volume."""
    sg: float
    """What the start then reads."""
    repair: Repair


def sugar_lines(project: Project, when: str) -> tuple[SugarLine, ...]:
    """Return the sugar of the start, or that fed later, whose amount is known; white first."""
    lines = (x for x in project.recipe.lines if isinstance(x, SugarLine) and x.when == when)
    known = [line for line in lines if line.amount.dimension != "count"]
    return tuple(sorted(known, key=lambda line: line.sugar != "white-sugar"))


def sugar_g(project: Project, line: SugarLine) -> float:
    """Return how much sugar the line is, g."""
    return mass_g(line.amount, g_per_litre(line), project.gallon)


def to_the_start(project: Project, start: Balance) -> Moved | None:
    """Return what of the sugar to be fed brings a thin start to where yeast goes in.

    None where none is fed, or all of it is not enough.
    """
    feed = next(iter(sugar_lines(project, "feed")), None)
    if feed is None:
        return None
    have = sugar_g(project, feed)
    for sg in (_GOOD_START_SG, LEAST_SG + 0.001):
        kilos = sugar_to_target_kg(project, sg, solids_percent(feed), (start, start))
        if kilos is not None and 0.0 < kilos * 1000.0 <= have:
            return Moved(kilos * 1000.0, sg, _repair(project, feed, have, kilos * 1000.0))
    return None


def _repair(project: Project, feed: SugarLine, have: float, grams: float) -> Repair:
    label = "move sugar to the start"
    alike = (x for x in sugar_lines(project, "start") if x.sugar == feed.sugar)
    same = next((x for x in alike if x.solids_percent == feed.solids_percent), None)
    if same is None:
        made = changed(
            feed, id=f"{feed.id}-start", when="start", note="", amount=amount_like(grams, feed)
        )
    else:
        made = changed(same, amount=amount_like(sugar_g(project, same) + grams, same))
    left = changed(feed, amount=amount_like(have - grams, feed))
    edits = (PutLine(label=label, line=left), PutLine(label=label, line=made))
    return Repair(label="Move it to the start", edit=Several(label=label, edits=edits))


def amount_like(grams: float, line: SugarLine) -> Amount:
    """Return so many grams of sugar, written as the line is where that is by weight."""
    like = line.amount if line.amount.dimension == "mass" else None
    return Amount(mass_like(grams, like))


def moved_words(moved: Moved, factor: float) -> str:
    """Return what to do for it, in a sentence about the batch."""
    grams = moved.grams * factor
    return (
        f"Put {grams_text(grams)} ({in_pounds(grams).text}) of the sugar to be fed in at the "
        f"start: it then reads {moved.sg:.3f}."
    )
