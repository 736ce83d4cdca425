"""Whether the ferment stands still, only drags, or was left sweet as it is."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING, NamedTuple

from winebench.plan.days import settled
from winebench.plan.doubted import in_doubt
from winebench.plan.outlook import Condition
from winebench.plan.readings import LARGEST_RISE, SUGAR_IN, Seen
from winebench.plan.steps.rule import waits
from winebench.plan.stuck.keys import ACCEPTED, PITCH_BACK

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

POINT = 0.001
"""What a hydrometer is read to (common practice)."""
EYE = 0.0002
"""What rounding in the correction may add to two equal readings."""
STUCK_DAYS = 4
"""So long without a point of fall is a standstill (common practice)."""
STUCK_ABOVE_DRY = 0.010
"""SG above its end from which a standstill is too high (common practice); nearer, it may be dry."""
LOWEST_DRY = 0.990
"""A reckoned end below this is not relied on: few dry wines read lower (common practice)."""
STARTING_DAYS = 3
"""So long after the pitch a ferment may still be on its way (common practice)."""
SLOW_DAYS = 28
"""At a pace that takes longer than this to its end a ferment is slow (common practice)."""
LEAST_DAYS_APART = 2.0
"""Two readings closer together tell no pace (common practice)."""
TRIED_DAYS = 7
"""A week for a restart to show (common practice)."""


class Stuck(NamedTuple):
    """Readings that stand still too high."""

    since: datetime
    known: datetime
    """The first reading that, four days on or more, had not moved; after a starter that was
    pitched back in vain, the first a week later."""
    days: int
    sg: float
    asked_from: datetime
    """What was done against it before this counts no more: it is asked for again."""


class Slow(NamedTuple):
    """Readings that fall, but at a pace that leads to no end soon."""

    since: datetime
    days: float
    fall: float
    """SG over those days."""
    sg: float


def stuck(batch: Batch) -> Stuck | None:
    """Return how long the gravity has stood still too high, or None where it has not.

    A fall of one point or less in four days or more, ten points or more above what the must
    should end at (common practice). Only hydrometer readings are counted, each corrected for its
    warmth; a wine that was left sweet on purpose is not stuck.
    """
    last = too_high(batch)
    if last is None or last.sg is None:
        return None
    run: list[Seen] = []
    for seen in reversed(batch.steady):
        if seen.sg is None or seen.sg - last.sg > POINT + EYE:
            break
        run.append(seen)
    since = run[-1].at if run else last.at
    days = _days(since, last.at)
    if days < STUCK_DAYS:
        return None
    known = next(seen.at for seen in reversed(run) if _days(since, seen.at) >= STUCK_DAYS)
    asked_from = since
    for back in (settled(tick.at) for tick in batch.ticks.get(PITCH_BACK, ())):
        in_vain = [seen.at for seen in run if _days(back, seen.at) >= TRIED_DAYS]
        if in_vain and back > since:
            asked_from, known = back + timedelta(seconds=1), in_vain[-1]
    return Stuck(since, known, int(days), last.sg, asked_from)


def slow(batch: Batch) -> Slow | None:
    """Return how the gravity drags, or None where it is stuck, or falls as it should.

    The forecast tells, from three readings on; without one the last two readings tell that lie
    two days apart or more: slow is what would need more than four weeks to its end at their pace.
    """
    last = too_high(batch)
    if last is None or last.sg is None or batch.pitched is None or stuck(batch) is not None:
        return None
    if _days(batch.pitched, last.at) < STARTING_DAYS:
        return None
    former = [s for s in batch.ferment if _days(s.at, last.at) >= LEAST_DAYS_APART]
    if not former or former[-1].sg is None:
        return None
    days = _days(former[-1].at, last.at)
    found = Slow(former[-1].at, days, former[-1].sg - last.sg, last.sg)
    forecast = batch.lines.forecast
    if forecast is not None:
        drags = forecast.state in ("slow, not stuck", "may be stuck", "stuck")
    else:
        drags = found.fall / days * SLOW_DAYS < last.sg - batch.dry_gravity
    return found if drags else None


def too_high(batch: Batch) -> Seen | None:
    """Return the last reading where it lies well above the must's end in a wine at work."""
    last = batch.steady[-1] if batch.steady else None
    if last is None or last.sg is None or last.sg <= _highest_at_rest(batch) + EYE:
        return None
    if "sweeten" in batch.actions or "bottle" in batch.actions or accepted(batch) is not None:
        return None
    return last


def _highest_at_rest(batch: Batch) -> float:
    """Return the gravity up to which a standstill may be the end: never below a dry wine's."""
    return max(max(batch.dry_gravity, LOWEST_DRY) + STUCK_ABOVE_DRY, batch.highest_end)


def _days(early: datetime, late: datetime) -> float:
    return (late - early).total_seconds() / 86400


def without_lone_rises(batch: Batch) -> tuple[Seen, ...]:
    """Return the readings of the ferment without those that alone stand above their neighbours.

    Gravity only falls unless sugar goes in: a single rise is gas, warmth or a slip of the pen, and
    neither starts nor ends a standstill. A second reading up there confirms it.
    """
    fed = [settled(tick.at) for step in SUGAR_IN for tick in batch.ticks.get(step, ())]
    found: list[Seen] = []
    for place, seen in enumerate(batch.ferment):
        before = found[-1] if found else None
        if before is not None and _rose(before, seen):
            then = batch.ferment[place + 1 : place + 2]
            sugared = any(before.at <= at <= seen.at for at in fed)
            if not sugared and not any(_rose(before, one) for one in then):
                continue
        found.append(seen)
    return tuple(found)


def _rose(before: Seen, seen: Seen) -> bool:
    return before.sg is not None and seen.sg is not None and seen.sg - before.sg > LARGEST_RISE


def not_stuck(batch: Batch) -> Condition:
    """Return the condition that the gravity still moves, or has reached its end."""
    found = stuck(batch)
    if found is None:
        return waits("a ferment that is not stuck", True)
    return waits(
        f"a gravity that falls again (unmoved at {found.sg:.3f} for {found.days} days)", False
    )


def accepted(batch: Batch) -> float | None:
    """Return the gravity at which the maker left the wine sweet, or None.

    None, too, where it has fallen since: a wine that wakes ends where its yeast ends it.
    """
    action = batch.done(ACCEPTED)
    if action is None:
        return None
    at = settled(action.at)
    before = [seen.sg for seen in batch.ferment if seen.at <= at and seen.sg is not None]
    after = [seen.sg for seen in batch.ferment if seen.at > at and seen.sg is not None]
    if not before or any(sg < before[-1] - POINT - EYE for sg in after):
        return None
    return before[-1]


def accepted_at(batch: Batch) -> datetime | None:
    """Return when the wine was left sweet, or None where it was not or has woken since."""
    return batch.done_at(ACCEPTED) if accepted(batch) is not None else None


def low(batch: Batch, line: float) -> bool:
    """Return whether it reads below that gravity, or will never: it was left sweet."""
    below = batch.last_sg is not None and batch.last_sg < line and not in_doubt(batch, line)
    return below or accepted(batch) is not None


def keeps_sugar(batch: Batch) -> bool:
    """Return whether the wine holds sugar in the bottle: sweetened, or left sweet."""
    return batch.sweet or accepted(batch) is not None
