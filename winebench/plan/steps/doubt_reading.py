"""Stuck? First doubt the reading: most standstills are none."""

from winebench.plan.as_read import end_words
from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span
from winebench.plan.stuck.restarting import LATEST_DAYS, MOVES
from winebench.plan.stuck.standstill import stuck


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return not_here(MOVES)
    last = batch.last.reading if batch.last else None
    if last is not None and last.degassed and last.temperature is not None:
        return not_here("The last reading had the gas out and its warmth noted: it is no mistake.")
    return Plan(
        window=span(found.known, found.known, batch.clock.days_after(found.known, LATEST_DAYS)),
        basis="reading",
        reason=f"Unmoved for {found.days} days at {found.sg:.3f}, above the "
        f"{end_words(batch.must.dry_gravity)} that it should end at.",
    )


RULE = Rule(
    number=200,
    key="doubt-reading",
    name="Stuck? Doubt the reading",
    trigger="one point or less in four days, ten points above its end",
    reminder="Stir up the floor, take a sample, stir its gas out, and read it by hydrometer with "
    "its temperature.",
    risk="A cure for a wine that has nothing.",
    slip_class="little",
    slips=("3 days: fine", "10 days: spoilage may take the sugar"),
    work_out=_work_out,
    record=(
        field("gravity", "Gravity", "SG"),
        field("temperature", "Sample", "°C"),
        field("clues", "What you found"),
    ),
    after=("pitch",),
    passed_by=("warm-and-rouse", "fresh-starter", "restart", "stabilise", "bottle"),
)
