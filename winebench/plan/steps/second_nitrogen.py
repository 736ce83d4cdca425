"""Second half of the nutrient, when a third of the sugar is gone; never after half."""

from winebench.plan.batch import Batch
from winebench.plan.doubted import in_doubt
from winebench.plan.steps.first_nitrogen import HALF_USED, NUTRIENTS, nutrient, sugar_half_left
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, too_late, undated, waits
from winebench.plan.strength_now import strength_now

THIRD_USED = 1 / 3
"""Of the sugar: the second half of the nutrient is due (common practice)."""
STRONGEST = 9.0
"""% vol above which yeast hardly takes nutrient up any more (common practice)."""


def _work_out(batch: Batch) -> Plan:
    if batch.line(*NUTRIENTS) is None:
        return not_here(
            "No nutrient on the recipe.",
            waits("the yeast in the must", batch.pitched is not None),
            waits("more than half of the sugar left", sugar_half_left(batch)),
        )
    third, half = (batch.gravity_with_used(share) for share in (THIRD_USED, HALF_USED))
    starts, ends = batch.lines.below(third), batch.lines.below(half)
    if starts is None or batch.pitch is None:
        return undated(batch.lines.no_date(third))
    conditions = (
        waits("the yeast in the must", batch.pitched is not None),
        waits(
            f"a reading below {third:.3f}: a third of the sugar gone",
            batch.last_sg is not None and batch.last_sg <= third and not in_doubt(batch, third),
        ),
        waits(f"a reading still above {half:.3f}: half of the sugar left", sugar_half_left(batch)),
    )
    made = strength_now(batch)
    doubted = in_doubt(batch, half)
    strong = made.value is not None and made.value > STRONGEST and not doubted
    if strong or not sugar_half_left(batch):
        past = f"at {made.text} % vol" if strong else f"below {half:.3f}"
        return too_late(f"Too late: {past} nutrient feeds spoilage, not the yeast.", *conditions)
    return Plan(
        window=span(
            max(starts.window.earliest, batch.pitch.earliest),
            batch.clock.waking(starts.window.likely),
            # While it stands still above half of its sugar, nutrient may be what it wants.
            ends.window.likely if ends and not doubted else max(starts.window.latest, batch.now),
        ),
        basis=starts.basis,
        reason=f"When the gravity passes {third:.3f}, and not below {half:.3f}.",
        conditions=conditions,
        reminder="Second half of the nutrient now or not at all: "
        f"half of {batch.dose(*NUTRIENTS)}.",
        figures=nutrient(batch),
    )


RULE = Rule(
    number=120,
    key="second-nitrogen",
    name="Second nutrient",
    trigger="a third of the sugar is gone",
    reminder="Second half of the nutrient now or not at all.",
    risk="Without it the end may drag; too late, it feeds spoilage.",
    slip_class="fixed",
    slips=("1 day: fine above half of the sugar", "3 days: leave it out"),
    work_out=_work_out,
    record=(field("grams", "Nutrient", "g", of="yeast-nutrient"),),
    after=("pitch",),
    passed_by=("transfer",),
)
