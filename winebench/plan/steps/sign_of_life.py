"""Sign of life: has it started?"""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_here, undated, waits

STARTED_POINTS = 0.003
"""SG; a fall by three points shows that it has started (common practice)."""


def _work_out(batch: Batch) -> Plan:
    window = batch.hours_after("pitch", 12, 36, 72)
    if window is None:
        return undated("It follows the pitch, which has no date yet.")
    fallen = next(
        (
            seen
            for seen in batch.gravities
            if seen.sg is not None and batch.original_gravity - seen.sg >= STARTED_POINTS
        ),
        None,
    )
    if fallen is not None:
        return not_here(f"The gravity has fallen to {fallen.sg:.3f}: it works.")
    return Plan(
        window=window,
        reason="Most musts show foam or a cap 12 to 48 h after the pitch.",
        conditions=(waits("the yeast in the must", batch.pitched is not None),),
    )


RULE = Rule(
    number=80,
    key="sign-of-life",
    name="Sign of life",
    trigger="24–48 h after the pitch",
    reminder="Any cap, foam or hiss? Read the gravity if not.",
    risk="Spoilage gets there before the yeast.",
    slip_class="little",
    slips=("1 day: fine", "3 days without life: mould and vinegar win"),
    work_out=_work_out,
    record=(field("life", "Cap, foam or hiss?"),),
    after=("pitch",),
    passed_by=("lift-fruit", "transfer"),
)
