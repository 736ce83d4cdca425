"""The strength so far, by what was read."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from winebench.model.project import Project
from winebench.model.recipe import YeastLine
from winebench.plan.evidence import gravity_of_feed
from winebench.plan.outlook import Figure
from winebench.trade.alcohol import abv_from_gravities
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import work

if TYPE_CHECKING:
    from winebench.plan.batch import Batch


def strength_now(batch: Batch) -> Figure:
    """Return the strength by the fall in gravity so far, % vol."""
    if batch.last_sg is None:
        return Figure(value=None, unit="% vol", text="no alcohol yet by any reading")
    sweetened = batch.actions.get("sweeten")
    # Sugar that goes in at the end raises the gravity and makes no alcohol.
    before = [s.sg for s in batch.gravities if not sweetened or s.at < sweetened[0].at]
    fed = gravity_of_feed(batch)
    og, fg = round(batch.original_gravity + fed, 4), round(before[-1] or 1.0 if before else 1.0, 4)
    return _strength(og, fg)


@lru_cache(maxsize=64)
def _strength(og: float, fg: float) -> Figure:
    try:
        found = abv_from_gravities(og, fg)
        workings = work("abv-from-gravities", og=og, fg=fg)
    except NotKnown:
        return Figure(value=None, unit="% vol", text="not known from these gravities")
    return Figure(
        value=found.figure,
        low=found.low,
        high=found.high,
        unit="% vol",
        text=f"{found.figure:.1f}",
        workings=workings,
    )


def yeast_limit(batch: Batch) -> float | None:
    """Return the strength that the recipe's hardiest yeast stands, % vol; None without one."""
    return hardiest_yeast(batch.project)


def hardiest_yeast(project: Project) -> float | None:
    """Return the strength that the recipe's hardiest yeast stands, % vol; None without one."""
    lines = project.recipe.lines
    return max((y.tolerance_percent for y in lines if isinstance(y, YeastLine)), default=None)
