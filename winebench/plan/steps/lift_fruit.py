"""Lift the fruit out."""

from winebench.plan.batch import Batch
from winebench.plan.days import evening
from winebench.plan.doubted import in_doubt
from winebench.plan.gravity_forecast import TO_GLASS
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits

# Earliest, usual from, usual until, latest: days from the pitch (common practice).
USUAL_DAYS = (3, 5, 7, 8)
STRAWBERRY_DAYS = (3, 3, 4, 5)


def _work_out(batch: Batch) -> Plan:
    if not batch.pulp:
        return not_here("Juice or puree only: there is no fruit to lift out.")
    if batch.pitch is None:
        return undated("It follows the pitch, which has no date yet.")
    soft = all("strawberr" in fruit.fruit.lower() for fruit in batch.pulp)
    early, first, last, late = STRAWBERRY_DAYS if soft else USUAL_DAYS
    count = batch.clock.days_after
    pitch = batch.pitch
    crossing = batch.lines.below(TO_GLASS)
    wanted = crossing.window.likely if crossing else count(pitch.likely, (first + last) / 2)
    # Readings may show it earlier than the usual day; a forecast from nothing may not.
    soonest = early if batch.gravities else first
    likely = min(max(wanted, count(pitch.likely, soonest)), count(pitch.likely, last))
    likely = batch.clock.waking(likely)
    latest = count(pitch.latest, late)
    if crossing and crossing.passed and not in_doubt(batch, TO_GLASS):
        latest = min(latest, evening(batch.clock, likely))  # the move to glass waits for it
    elif crossing and crossing.window.latest < batch.now:
        latest = min(latest, evening(batch.clock, max(likely, batch.now)))  # it is late with that
    return Plan(
        window=span(count(pitch.earliest, early), likely, latest),
        basis=crossing.basis if crossing else "clock",
        reason=f"Day {first} to {last}, with the move to glass where that falls right; "
        "earlier if it tastes bitter or seedy.",
        conditions=(
            waits("the yeast in the must", batch.pitched is not None),
            waits(
                f"day {early} from the pitch",
                batch.pitched is not None and batch.now >= count(batch.pitched, early),
            ),
        ),
    )


RULE = Rule(
    number=140,
    key="lift-fruit",
    name="Lift the fruit",
    trigger="day 5–7 from the pitch, or bitter and seedy; strawberries day 3–4",
    reminder="Lift, drain, do not wring the seeds; hands clean, the drip covered.",
    risk="Bitterness from seeds; a mouldy cap.",
    slip_class="little",
    slip_days=1,
    slips=("1 day: fine", "3 days: seeds turn it bitter"),
    work_out=_work_out,
    record=(field("bag", "Wet fruit lifted", "kg"), field("colour", "Colour")),
    after=("pitch",),
    passed_by=("transfer",),
)
