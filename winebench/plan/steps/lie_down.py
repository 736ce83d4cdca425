"""Lie down: on the side, dark and cool."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field
from winebench.plan.steps.upright import rested

LATEST_DAYS = 14


def _work_out(batch: Batch) -> Plan:
    return rested(
        batch,
        LATEST_DAYS,
        "Once they have stood three days; bottles with screw caps stay upright.",
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
    needs_ferment=True,
)
