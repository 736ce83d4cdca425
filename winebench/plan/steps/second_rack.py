"""Second racking: four weeks in glass AND below 1.000 AND no longer falling."""

from winebench.plan.batch import Batch
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.outlook import Condition
from winebench.plan.steps.rule import Plan, Rule, field, span, undated, waits
from winebench.plan.stuck.standstill import accepted, low, not_stuck

DAYS, LATEST_DAYS, WAIT_DAYS = 28, 56, 7
"""Four weeks in glass, eight at the latest; over 1.000 it is read again a week later (common
practice)."""
STILL = 0.001
"""SG; no more than that lost in three days is still enough to be racked (common practice)."""
READING_GOOD_FOR_HOURS = 72
"""So long a slow wine's reading holds (common practice)."""


def _work_out(batch: Batch) -> Plan:
    window = batch.days_after("transfer", DAYS, DAYS, LATEST_DAYS)
    if window is None:
        return undated("It follows the move to glass, which has no date yet.")
    dry = batch.lines.below(NEARLY_DRY)
    conditions = _conditions(batch)
    if dry is None:
        return undated(batch.lines.no_date(NEARLY_DRY), *conditions)
    likely = max(window.likely, dry.window.likely)
    over_time = window.earliest <= batch.now
    reads_low = low(batch, NEARLY_DRY)
    if over_time and batch.last is not None and not (reads_low and _still(batch)):
        likely = max(likely, batch.clock.days_after(batch.last.at, WAIT_DAYS))
    by_gravity = likely > window.likely
    reason = "28 days after the move to glass, once it reads below 1.000."
    if by_gravity:
        reason = "When the gravity passes 1.000, later than the 28 days."
    if by_gravity and reads_low:
        reason = "Below 1.000 it may still fall: a week after the last reading, read it again."
    left = accepted(batch)
    if left is not None:
        reason = f"28 days after the move to glass, while it stands at the {left:.3f} that it was "
        reason += "left sweet at; read it again before."
    return Plan(
        window=span(window.earliest, batch.free_of_away(batch.clock.waking(likely)), window.latest),
        basis=dry.basis if by_gravity else "clock",
        reason=reason,
        conditions=conditions,
        reminder=f"{'28 days are up. Read' if over_time else 'At 28 days read'} the gravity: "
        + (
            "under 1.000 we rack, over we wait."
            if left is None
            else f"unmoved at {left:.3f} we rack; where it falls, we wait."
        ),
    )


def _conditions(batch: Batch) -> tuple[Condition, ...]:
    moved = batch.done_at("transfer")
    waited = moved is not None and batch.now >= batch.clock.days_after(moved, DAYS)
    fresh = low(batch, NEARLY_DRY) and batch.within(batch.last, READING_GOOD_FOR_HOURS)
    return (
        waits("28 days in glass", waited),
        waits(
            f"a reading{' below 1.000' if accepted(batch) is None else ''} within three days", fresh
        ),
        waits("a fall of no more than a point in three days", _still(batch)),
        not_stuck(batch),
    )


def _still(batch: Batch) -> bool:
    fall = _fall_in_three_days(batch)
    return fall is not None and fall <= STILL + 1e-6


def _fall_in_three_days(batch: Batch) -> float | None:
    """Return how far the gravity fell, as SG over three days, between the last two readings.

    None where no two readings lie a day or more apart.
    """
    last = batch.last
    if last is None or last.sg is None:
        return None
    for seen in reversed(batch.gravities[:-1]):
        days = (last.at - seen.at).total_seconds() / 86400
        if days >= 1.0 and seen.sg is not None:
            return (seen.sg - last.sg) / days * 3.0
    return None


RULE = Rule(
    number=180,
    key="second-rack",
    name="Second racking",
    trigger="28 days in glass and below 1.000",
    reminder="Read the gravity: under 1.000 we rack, over we wait.",
    risk="A taste of dead yeast; racked too early, the working yeast is left behind.",
    slip_class="later",
    slips=("7 days: fine", "3 weeks: fine", "2 months: a taste of lees"),
    work_out=_work_out,
    record=(
        field("before", "Wine before", "L"),
        field("after", "Wine after", "L"),
        field("gravity", "Gravity", "SG"),
        field("smell", "Smell"),
    ),
    after=("transfer",),
    passed_by=("third-rack", "sweeten", "bottle"),
    opens_vessel=True,
    needs_ferment=True,
    done_already="It is done already: ticked anew, its day moves. Racked once more, it is the "
    "third racking.",
)
