"""What a standstill does to the steps after it: no date would be honest until it ferments on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from winebench.plan.days import day_words
from winebench.plan.steps.rule import Plan, Rule
from winebench.plan.stuck.standstill import GOES_ON, not_stuck, stuck

if TYPE_CHECKING:
    from winebench.plan.batch import Batch


def waiting_for_ferment(batch: Batch, rule: Rule, plan: Plan) -> Plan:
    """Return the plan without dates while the ferment stands still.

    Where it only may be stopping the dates stay, marked as holding only if it goes on. A date
    that leans on a reading below its line needs no more fermenting.
    """
    if not rule.needs_ferment or plan.skipped or rule.key in batch.actions:
        return plan
    found = stuck(batch)
    if found is not None:
        others = tuple(one for one in plan.conditions if not one.text.startswith(GOES_ON))
        goes_on = (not_stuck(batch),)
        return replace(
            plan,
            window=None,
            basis="none",
            held=True,
            # What can never be overridden stands first; a stuck wine is never bottled.
            stops=goes_on + plan.stops if plan.stops else (),
            conditions=others if plan.stops else goes_on + others,
            reason=f"It waits for the ferment to go on: {found.sg:.3f} since "
            f"{day_words(found.since, batch.now)}, so that no date would be honest.",
        )
    doubtful = plan.window is not None and plan.basis != "reading" and batch.lines.may_stop
    return replace(plan, if_it_goes_on=True) if doubtful else plan
