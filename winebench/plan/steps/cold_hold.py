"""Cold hold, for fruit that throws tartrate crystals."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_here, noted, undated, waits

LEAST_DAYS, USUAL_DAYS, LATEST_DAYS = 14, 18, 60
"""Two to three weeks (common practice)."""


def _work_out(batch: Batch) -> Plan:
    conditions = (
        waits(
            "the wine declared dry and stable",
            "declare-stable" in batch.actions,
            step="declare-stable",
        ),
        noted(f"{LEAST_DAYS} days in the cold, or more, noted", "days", least=LEAST_DAYS),
    )
    if not any("grape" in fruit.fruit and "grapefruit" not in fruit.fruit
               for fruit in batch.project.fruits):  # fmt: skip
        return not_here("Only grapes throw these crystals.", *conditions)
    window = batch.days_after("declare-stable", LEAST_DAYS, USUAL_DAYS, LATEST_DAYS)
    if window is None:
        return undated("It follows a stable wine, which has no date yet.", *conditions)
    return Plan(
        window=window,
        reason="Two to three weeks in the cold, once it is stable.",
        conditions=conditions,
    )


RULE = Rule(
    number=240,
    key="cold-hold",
    name="Cold hold",
    trigger="stable, and made of grapes",
    reminder="Two weeks in the cold, not freezing, then rack off the crystals.",
    risk="Crystals in the bottle; harmless.",
    slip_class="later",
    slips=("7 days: fine",),
    work_out=_work_out,
    record=(field("temperature", "How cold", "°C"), field("days", "Days")),
    after=("declare-stable",),
    passed_by=("bottle",),
    needs_ferment=True,
)
