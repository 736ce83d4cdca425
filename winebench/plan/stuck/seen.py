"""Stuck or slow, in words, with what the log says of each clue."""

from __future__ import annotations

from typing import TYPE_CHECKING

from winebench.plan.as_read import end_words
from winebench.plan.days import day_words
from winebench.plan.outlook import StuckOutlook
from winebench.plan.stuck.causes import causes
from winebench.plan.stuck.clue import CAUSE, DOUBT
from winebench.plan.stuck.clue import SLOW as READ
from winebench.plan.stuck.false_stops import false_stops
from winebench.plan.stuck.standstill import STUCK_DAYS, Slow, Stuck, slow, stuck

if TYPE_CHECKING:
    from winebench.plan.batch import Batch


def stuck_outlook(batch: Batch) -> StuckOutlook | None:
    """Return whether the ferment is stuck or slow, and why that may be; None where neither."""
    found = stuck(batch)
    drags = slow(batch) if found is None else None
    if found is not None:
        sentence = _stuck_words(batch, found)
    elif drags is not None:
        sentence = _slow_words(drags)
    else:
        return None
    since = found.since if found else drags.since if drags else batch.now
    run = tuple(seen for seen in batch.ferment if seen.at >= since and seen.sg is not None)
    doubts = (clue.shown_on(DOUBT if found else READ) for clue in false_stops(batch, run))
    why = (clue.shown_on(CAUSE if found else READ) for clue in causes(batch, run))
    return StuckOutlook(
        state="stuck" if found else "slow",
        since=since,
        sentence=sentence,
        clues=(*doubts, *why),
    )


def _stuck_words(batch: Batch, found: Stuck) -> str:
    return (
        f"Stuck: a point or less in {found.days} days, at {found.sg:.3f} since "
        f"{day_words(found.since, batch.now)}; this must should end at "
        f"{end_words(batch.must.dry_gravity)}."
    )


def _slow_words(found: Slow) -> str:
    points = max(round(found.fall * 1000), 0)
    fell = f"{points} point{'' if points == 1 else 's'} down" if points else "no move"
    return (
        f"Slow, not stuck: {fell} in {found.days:.0f} days, at {found.sg:.3f}. Stuck would be a "
        f"point or less in {STUCK_DAYS} days: read it again before any cure but warmth; "
        "what else is due goes on as planned."
    )
