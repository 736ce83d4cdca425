"""Lie down: on the side, dark and cool."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, undated, waits
from winebench.plan.steps.upright import DAYS


def _work_out(batch: Batch) -> Plan:
    window = batch.days_after("bottle", DAYS, DAYS, 14)
    if window is None:
        return undated("It follows the bottling, which has no date yet.")
    bottled = batch.done_at("bottle")
    over = bottled is not None and batch.now >= batch.clock.days_after(bottled, DAYS)
    return Plan(
        window=window,
        basis=batch.plan("bottle").basis if bottled is None else "clock",
        reason="Once they have stood three days; bottles with screw caps stay upright.",
        conditions=(waits("three days since the bottling", over),),
    )


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
)
