"""Hold after a change: seven quiet days before the bottles."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.outlook import Condition
from winebench.plan.stability import equal_run
from winebench.plan.steps.rule import Plan, Rule, field, not_before, not_here, undated, waits
from winebench.plan.steps.sweeten import sugar_went_in

DAYS = 7
"""A quiet week after a change, before bottles (common practice)."""
READ_WITHIN_DAYS = 1
LEAST_DAYS_BETWEEN = DAYS - READ_WITHIN_DAYS
"""Between the first and last equal reading: one is often read a day late or a few hours early."""


def _work_out(batch: Batch) -> Plan:
    if not batch.sweet and "sweeten" not in batch.actions:
        return not_here("Nothing is added at the end, so nothing needs to settle.")
    window = batch.days_after("sweeten", DAYS, DAYS, 4 * DAYS)
    if window is None:
        return undated("It follows the sweetening, which has no date yet.", *quiet(batch))
    over = rest_over(batch)
    return Plan(
        window=not_before(over, window) if over else window,
        basis=batch.plan("sweeten").basis if batch.done_at("sweeten") is None else "clock",
        reason=f"Seven days from {_change(batch)} with the gravity unmoved.",
        conditions=quiet(batch),
    )


def rest_over(batch: Batch) -> datetime | None:
    """Return when the sweetened wine will have lain still for a week; None before it is sweet.

    The week starts with the sweetening where it was read within a day of that, and else with the
    first of the newest equal readings: after a fall, or a first reading days late, it starts anew.
    """
    action = batch.done("sweeten")
    if action is None:
        return None
    since = settled(action.at)
    run = equal_run(tuple(s for s in batch.gravities if s.at >= since))
    if all(condition.met for condition in quiet(batch)) or not run:
        return batch.clock.days_after(since, DAYS)
    late = run[0].at > batch.clock.days_after(since, READ_WITHIN_DAYS)
    return batch.clock.days_after(run[0].at if late else since, DAYS)


def _change(batch: Batch) -> str:
    done = "sweeten" in batch.actions
    return "the change" if done and not sugar_went_in(batch) else "the sweetening"


def quiet(batch: Batch) -> tuple[Condition, ...]:
    """Return the conditions that the sweetened wine has lain still for a week."""
    action = batch.done("sweeten")
    if action is None:
        return (waits("the sweetening", False),)
    since = settled(action.at)
    after = [s for s in batch.gravities if s.at >= since]
    over = batch.clock.days_after(since, DAYS)
    # Only the newest equal readings count, so that a fall starts the week again.
    run = equal_run(tuple(after))
    days = (run[-1].at - run[0].at).total_seconds() / 86400 if run else 0.0
    still = bool(run) and run[-1].at >= over and days >= LEAST_DAYS_BETWEEN
    return (
        waits(f"seven days since {_change(batch)}", batch.now >= over),
        waits("the same gravity at both ends of those days", still),
    )


RULE = Rule(
    number=280,
    key="hold",
    name="Hold a week",
    trigger="sweetened or blended",
    reminder="Seven quiet days, then bottle; a fall of more than a point starts them again.",
    risk="Fizz in the bottle.",
    slip_class="fixed",
    slips=("Later is always safe",),
    work_out=_work_out,
    record=(field("gravity", "Gravity", "SG"),),
    after=("sweeten",),
    passed_by=("bottle",),
    needs_ferment=True,
)
