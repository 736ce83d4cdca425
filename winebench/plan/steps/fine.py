"""Fine, where time alone does not clear it."""

from winebench.plan.batch import Batch
from winebench.plan.stability import CLEAR_ENOUGH
from winebench.plan.steps.rule import Plan, Rule, field, not_here, noted, span, undated, waits

DAYS_TO_SETTLE = 14
"""Between the fining and the bottles, for its lees to fall (common practice)."""


def _work_out(batch: Batch) -> Plan:
    conditions = (
        waits("the gas out of it", batch.over("degas")),
        noted("a trial of 100 mL noted", "trial"),
        noted("what the fining is made of noted, for the label", "what"),
    )
    looks = [s.reading.clear for s in batch.readings if s.reading.clear is not None]
    if looks and looks[-1] >= CLEAR_ENOUGH:
        return not_here("It is clear: nothing to fine.", *conditions)
    window = batch.days_after("second-rack", 28, 42, 84)
    if window is None:
        return undated("It follows the second racking, which has no date yet.", *conditions)
    bottles = batch.span("bottle")
    if bottles is not None:
        last = batch.clock.days_after(bottles.likely, -DAYS_TO_SETTLE)
        window = span(window.earliest, min(window.likely, last), last)
    return Plan(
        window=window,
        reason="Four weeks after the second racking, only if it has not cleared by itself.",
        conditions=conditions,
    )


RULE = Rule(
    number=230,
    key="fine",
    name="Fine, if it is not clear",
    trigger="4 weeks after the second racking and not clear",
    reminder="Try 100 mL first. Write down what it is made of: egg, milk (casein) and fish "
    "(isinglass) go on the label as allergens.",
    risk="Haze; too much strips the wine.",
    slip_class="later",
    slips=("Later is safe: the bottles wait two weeks from it",),
    work_out=_work_out,
    record=(
        field("what", "What with, and what it is made of"),
        field("grams", "Dose", "g"),
        field("trial", "Trial of 100 mL"),
    ),
    after=("second-rack",),
    passed_by=("stabilise", "bottle"),
    needs_ferment=True,
)
