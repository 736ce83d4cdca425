"""Hold after a change: seven quiet days before the bottles."""

from datetime import datetime
from typing import NamedTuple

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.outlook import Condition
from winebench.plan.readings import RACKINGS
from winebench.plan.stability import equal_run
from winebench.plan.steps.rule import Plan, Rule, field, not_before, not_here, span, undated, waits
from winebench.plan.steps.sweeten import sugar_went_in

DAYS = 7
"""A quiet week after a change, before bottles (common practice)."""
READ_WITHIN_DAYS = 1
LEAST_DAYS_BETWEEN = DAYS - READ_WITHIN_DAYS
"""Between the first and last equal reading: one is often read a day late or a few hours early."""


class Change(NamedTuple):
    """What was last done to the stabilised wine, after which it has to rest."""

    at: datetime
    words: str
    read_from: datetime
    """Readings from here on speak of the rest."""


def last_change(batch: Batch) -> Change | None:
    """Return the last sweetening, or racking of the stabilised wine; None before either."""
    sweetened, safe = batch.last_time("sweeten"), batch.last_time("stabilise")
    racked = batch.last_time(*RACKINGS)
    if racked is not None and safe is not None and racked == later(racked, safe, sweetened):
        # The last reading before a racking is of the same wine.
        before = [s.at for s in batch.gravities if (sweetened or safe) <= s.at <= racked]
        return Change(racked, "the racking", before[-1] if before else racked)
    if sweetened is None:
        return None
    words = "the sweetening" if sugar_went_in(batch) else "the change"
    return Change(sweetened, words, sweetened)


def _work_out(batch: Batch) -> Plan:
    changed = last_change(batch)
    if not batch.sweet and changed is None:
        return not_here("Nothing is added at the end, so nothing needs to settle.")
    if changed is None or (batch.sweet and "sweeten" not in batch.actions):
        window = batch.days_after("sweeten", DAYS, DAYS, 4 * DAYS)
        words = "the sweetening"
    else:
        days = (DAYS, DAYS, 4 * DAYS)
        window = span(*(batch.clock.days_after(changed.at, count) for count in days))
        words = changed.words
    if window is None:
        return undated("It follows the sweetening, which has no date yet.", *quiet(batch))
    over = rest_over(batch)
    return Plan(
        window=not_before(over, window) if over else window,
        basis="clock" if changed else batch.plan("sweeten").basis,
        reason=f"Seven days from {words} with the gravity unmoved.",
        conditions=quiet(batch),
    )


def rest_over(batch: Batch) -> datetime | None:
    """Return when the changed wine will have lain still for a week; None before it is changed.

    The week starts with the change where it was read within a day of that, and else with the first
    of the newest equal readings: after a fall, or a first reading days late, it starts anew.
    """
    changed = last_change(batch)
    if changed is None:
        return None
    run = equal_run(tuple(s for s in batch.gravities if s.at >= changed.read_from))
    if all(condition.met for condition in _still(batch, changed)) or not run:
        return batch.clock.days_after(changed.at, DAYS)
    late = run[0].at > batch.clock.days_after(changed.at, READ_WITHIN_DAYS)
    return batch.clock.days_after(run[0].at if late else changed.at, DAYS)


def quiet(batch: Batch) -> tuple[Condition, ...]:
    """Return the conditions that the sweetened, or racked, wine has lain still for a week."""
    changed = last_change(batch)
    sugar = (
        () if "sweeten" in batch.actions or not batch.sweet else (waits("the sweetening", False),)
    )
    return sugar + (_still(batch, changed) if changed else ())


def _still(batch: Batch, changed: Change) -> tuple[Condition, ...]:
    # Only the newest equal readings count, so that a fall starts the week again.
    run = equal_run(tuple(s for s in batch.gravities if s.at >= changed.read_from))
    over = batch.clock.days_after(changed.at, DAYS)
    days = (run[-1].at - run[0].at).total_seconds() / 86400 if run else 0.0
    still = bool(run) and run[-1].at >= over and days >= LEAST_DAYS_BETWEEN
    return (
        waits(f"seven days since {changed.words}", batch.now >= over),
        waits("the same gravity at both ends of those days", still),
    )


RULE = Rule(
    number=280,
    key="hold",
    name="Hold a week",
    trigger="sweetened, blended, or racked once it is stabilised",
    reminder="Seven quiet days, then bottle; a fall of more than a point starts them again.",
    risk="Fizz in the bottle.",
    slip_class="fixed",
    slips=("Later is always safe",),
    work_out=_work_out,
    record=(field("gravity", "Gravity", "SG"),),
    after=("stabilise",),
    passed_by=("bottle",),
    needs_ferment=True,
)
