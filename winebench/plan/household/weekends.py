"""Steps that may wait are put on a Saturday or Sunday, where the household wants that."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING

from winebench.plan.steps.rule import Plan, Rule

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

MOST_DAYS = {"later": 14, "little": 0, "fixed": 0}
"""How far a step of each class may be put off for a weekend; a rule may allow some days more."""
_SATURDAY = 5


def on_weekend(batch: Batch, rule: Rule, plan: Plan) -> Plan:
    """Return the plan with its likely time put off to a weekend, where that is safe.

    Nothing moves earlier, nothing past its latest time, and no daily chore moves at all. A weekend
    that has passed makes room for the next one.
    """
    window = plan.window
    most = MOST_DAYS[rule.slip_class] or rule.slip_days
    if window is None or not most or rule.repeats or plan.skipped or not batch.project.weekends:
        return plan
    soonest = max(window.likely, batch.now)
    saturday = _weekend_after(batch, soonest)
    if saturday == window.likely or saturday > window.latest:
        return plan
    if saturday > batch.clock.days_after(window.likely, most):
        return plan
    reason = f"{plan.reason.rstrip()} Put on the weekend, as you prefer."
    return replace(plan, window=window._replace(likely=saturday), reason=reason)


def _weekend_after(batch: Batch, at: datetime) -> datetime:
    """Return that time on the day itself where it is at a weekend, else on the next Saturday.

    A weekend away is none: the first day at home after it is looked at instead.
    """
    wait = (_SATURDAY - at.weekday()) % 7
    found = at if at.weekday() >= _SATURDAY else batch.clock.days_after(at, wait)
    home = batch.free_of_away(found)
    return found if home == found else _weekend_after(batch, home)
