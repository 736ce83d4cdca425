"""What a standstill does to the steps after it: no date would be honest until it ferments on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from winebench.plan.days import day_words
from winebench.plan.gravity_forecast import ALMOST_DRY, FEED_FROM, NEARLY_DRY, TO_GLASS
from winebench.plan.steps.rule import Plan, Rule
from winebench.plan.stuck.standstill import not_stuck, stuck

if TYPE_CHECKING:
    from winebench.plan.batch import Batch


_IF_IT_GOES_ON = "Only if the ferment goes on, which it may not: read it again."
_LINES = {
    "transfer": TO_GLASS, "sugar-feed": FEED_FROM, "malolactic": ALMOST_DRY,
    "second-rack": NEARLY_DRY, "third-rack": NEARLY_DRY, "degas": NEARLY_DRY, "fine": NEARLY_DRY,
}  # fmt: skip
"""Gravity below which it has to fall for each step; for all others it has to be at its end."""


def waiting_for_ferment(batch: Batch, rule: Rule, plan: Plan) -> Plan:
    """Return the plan without dates while the ferment stands still.

    Where it only may be stopping the dates stay, marked as holding only if it goes on. A date
    that leans on a reading below its line needs no more fermenting.
    """
    if not rule.needs_ferment or plan.skipped or rule.key in batch.actions:
        return plan
    found = stuck(batch)
    if found is not None:
        goes_on = (not_stuck(batch),)
        others = tuple(one for one in plan.conditions if one not in goes_on)
        return replace(
            plan,
            window=None,
            basis="none",
            until="the ferment goes on",
            # What can never be overridden stands first; a stuck wine is never bottled.
            stops=goes_on + plan.stops if plan.stops else (),
            conditions=others if plan.stops else goes_on + others,
            reason=f"It waits for the ferment to go on: {found.sg:.3f} since "
            f"{day_words(found.since, batch.now)}, so that no date would be honest.",
        )
    if plan.window is None or plan.basis == "reading":
        return plan
    if batch.lines.may_stop:
        return replace(plan, depends=_IF_IT_GOES_ON)
    end = batch.sweet_end
    if end is not None and batch.lines.limit_above(_LINES.get(rule.key, batch.highest_end)):
        return replace(plan, depends=f"Only if the yeast goes on beyond its limit: {end.words}.")
    return plan
