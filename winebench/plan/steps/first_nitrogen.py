"""First half of the nutrient, at the first signs of life."""

from winebench.plan.batch import Batch
from winebench.plan.doubted import in_doubt
from winebench.plan.outlook import NamedFigure
from winebench.plan.steps.rule import Plan, Rule, field, named, not_here, too_late, undated, waits

NUTRIENTS = ("yeast-nutrient", "diammonium-phosphate")
HALF_USED = 0.5
"""Of the sugar: nutrient after that feeds what spoils wine (common practice)."""


def sugar_half_left(batch: Batch) -> bool:
    """Return whether, by the last reading, more than half of the sugar is still there."""
    half = batch.gravity_with_used(HALF_USED)
    return batch.last_sg is None or batch.last_sg > half or in_doubt(batch, half)


def nutrient(batch: Batch) -> tuple[NamedFigure, ...]:
    """Return how much nutrient there is for both halves."""
    line = batch.line(*NUTRIENTS)
    return (named("Nutrient, both halves", line.scaled),) if line else ()


def _work_out(batch: Batch) -> Plan:
    conditions = (
        waits("the yeast in the must", batch.pitched is not None),
        waits("more than half of the sugar left", sugar_half_left(batch)),
    )
    if batch.line(*NUTRIENTS) is None:
        return not_here("No nutrient on the recipe.", *conditions)
    window = batch.hours_after("pitch", 12, 24, 36)
    if window is None:
        return undated("It follows the pitch, which has no date yet.", conditions[0])
    if not sugar_half_left(batch):
        words = "Too late: below half of the sugar nutrient feeds spoilage, not the yeast."
        return too_late(words, *conditions)
    return Plan(
        window=window,
        reason="At the first signs of life, 12 to 36 h after the pitch.",
        conditions=(conditions[0], waits("signs of life", batch.over("sign-of-life"))),
        reminder=f"First half of the nutrient: half of {batch.dose(*NUTRIENTS)}.",
        figures=nutrient(batch),
    )


RULE = Rule(
    number=90,
    key="first-nitrogen",
    name="First nutrient",
    trigger="the first signs of life",
    reminder="First half of the nutrient.",
    risk="A hot, smelly or stuck ferment.",
    slip_class="little",
    slips=("12 h: fine", "3 days: give all of it only above half of the sugar"),
    work_out=_work_out,
    record=(field("grams", "Nutrient", "g", of="yeast-nutrient"),),
    after=("pitch",),
    passed_by=("second-nitrogen", "transfer"),
)
