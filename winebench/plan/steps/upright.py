"""Upright for three days, so that the corks set."""

from winebench.plan.batch import Batch
from winebench.plan.outlook import Condition
from winebench.plan.steps.rule import Plan, Rule, field, waits

DAYS, LATEST_DAYS = 3, 7
"""Until corks have set (common practice)."""


UNDATED = "It follows the bottling, which has no date yet."


def in_bottles(batch: Batch) -> tuple[Condition, ...]:
    """Return the condition of all that is done to bottles, which no reason opens."""
    return (waits("the wine in bottles", "bottle" in batch.actions, step="bottle"),)


def rested(batch: Batch, latest_days: float, reason: str) -> Plan:
    """Return the answer of a step that waits until the bottles have stood three days."""
    stops = in_bottles(batch)
    window = batch.days_after("bottle", DAYS, DAYS, latest_days)
    if window is None:
        return Plan(basis="none", reason=UNDATED, stops=stops)
    bottled = batch.done_at("bottle")
    over = bottled is not None and batch.now >= batch.clock.days_after(bottled, DAYS)
    return Plan(
        window=window,
        basis=batch.plan("bottle").basis if bottled is None else "clock",
        reason=reason,
        stops=stops,
        conditions=(waits("three days since the bottling", over),),
    )


def _work_out(batch: Batch) -> Plan:
    return rested(
        batch,
        LATEST_DAYS,
        "Three days upright, so that the corks set and the air under them settles.",
    )


RULE = Rule(
    number=300,
    key="upright",
    name="Stand upright",
    trigger="bottled",
    reminder="Three days upright; then they may lie down.",
    risk="A leaking cork.",
    slip_class="later",
    slips=("4 days: fine", "a month: the cork dries"),
    work_out=_work_out,
    record=(field("leaks", "Any leaks?"),),
    after=("bottle",),
    passed_by=("lie-down", "first-taste"),
    needs_ferment=True,
)
