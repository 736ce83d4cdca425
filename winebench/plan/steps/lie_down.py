"""Lie down: on the side, dark and cool."""

from dataclasses import replace

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_before
from winebench.plan.steps.upright import rested

LATEST_DAYS = 14
"""After bottling; corks that stay dry for long shrink (how long is from memory)."""


def _work_out(batch: Batch) -> Plan:
    plan = rested(
        batch,
        LATEST_DAYS,
        "Once they have stood three days; bottles with screw caps stay upright.",
    )
    stood = batch.done_at("upright")
    if stood is None or plan.window is None:
        return plan
    return replace(plan, window=not_before(stood, plan.window))


RULE = Rule(
    number=310,
    key="lie-down",
    name="Lay them down",
    trigger="three days upright",
    reminder="On the side, dark, 10–15 °C. Which box? Screw caps stay up.",
    risk="A dry cork lets air in.",
    slip_class="later",
    slips=("7 days: fine", "2 months: the cork dries"),
    work_out=_work_out,
    record=(field("place", "Where"),),
    after=("bottle", "upright"),
    passed_by=("first-taste",),
    needs_ferment=True,
)
