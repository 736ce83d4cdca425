"""The path of a stuck ferment: what to look at first, in order of cost."""

from winebench.plan.batch import Batch
from winebench.plan.stability import Stuck, stuck
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span

COLD_CELSIUS = 15.0
COOL_CELSIUS = 18.0


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return not_here("The gravity moves, or has reached its end.")
    start = batch.last.at if batch.last else batch.now
    return Plan(
        window=span(start, start, batch.clock.days_after(start, 10)),
        basis="reading",
        reason=f"Unmoved for {found.days} days at {found.sg:.3f}, above the "
        f"{batch.dry_gravity:.3f} that it should end at.",
        reminder=_clues(batch, found),
    )


def _clues(batch: Batch, found: Stuck) -> str:
    """Return what to do first: doubt the reading, then warmth, then gas, then a new starter."""
    words = [f"{found.days} days without a move at {found.sg:.3f}."]
    last = batch.last.reading if batch.last else None
    if last is not None and not last.degassed:
        words.append("First read a sample with the gas stirred out.")
    warm = last.temperature if last else None
    celsius = warm.celsius if warm else None
    if celsius is None:
        words.append("Then: how warm is it?")
    elif celsius < COOL_CELSIUS:
        cold = "too cold" if celsius < COLD_CELSIUS else "cool"
        words.append(f"It stood at {warm.text if warm else ''}, {cold}: warm it to 20–23 °C.")
    words.append("Rouse it and wait 3 days; only then a fresh starter fed with this wine.")
    return " ".join(words)


RULE = Rule(
    number=200,
    key="restart",
    name="Stuck: set it going",
    trigger="one point or less in four days, ten points above its end",
    reminder="Warm it, rouse it, wait three days; then a fresh starter.",
    risk="A sweet wine that can wake up in the bottle.",
    slip_class="little",
    slips=("3 days: fine", "10 days: spoilage may take the sugar"),
    work_out=_work_out,
    record=(field("clues", "What you found"), field("action", "What you did")),
    after=("pitch",),
    passed_by=("stabilise", "bottle"),
)
