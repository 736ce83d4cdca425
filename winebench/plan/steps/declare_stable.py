"""Declare dry and stable: five conditions, never the calendar alone."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.stability import (
    CLEAR_ENOUGH,
    STABLE_DAYS,
    Stability,
    low_enough,
    next_equal_reading,
    read_cold,
    rests_in_cold_room,
    third_reading_due,
    warm_it_words,
)
from winebench.plan.steps.rule import Plan, Rule, Span, field, named, span, undated
from winebench.plan.stuck.standstill import not_stuck
from winebench.plan.sugar_by_fall import LEAST_SUGAR_G_PER_L

LATEST_DAYS, DAYS_TO_CLEAR = 28, 7
"""After it could be declared; and how long a haze is given to settle (common practice)."""


def _work_out(batch: Batch) -> Plan:
    found = batch.stability
    if rests_in_cold_room(batch, found.run):
        return Plan(
            basis="none",
            reason=f"It is at its end, but the room is set to {batch.project.room.text}, where "
            f"yeast may only rest. {warm_it_words()}",
            conditions=found.conditions,
            until="it has stood warm",
        )
    window = _window(batch, found)
    if window is None:
        return undated(batch.lines.no_date(batch.highest_end), *found.conditions)
    run = found.run
    by_reading = found.above_end or (bool(run) and low_enough(batch, run[-1]))
    return Plan(
        window=window,
        basis="reading" if by_reading else "forecast" if batch.lines.forecast else "clock",
        reason=_reason(found),
        conditions=found.conditions + (() if found.met else (not_stuck(batch),)),
        reminder=_reminder(batch, found, by_reading=by_reading),
        figures=(named("Dry gravity as reckoned", batch.must.dry_gravity),),
    )


def _reminder(batch: Batch, found: Stability, *, by_reading: bool) -> str:
    if found.above_end and not found.met:
        return (
            f"It stands still above its end. Test it for sugar: with {LEAST_SUGAR_G_PER_L:.0f} "
            "g/L or less it is dry. Else leave it as sweet as it is and stabilise it, or warm and "
            "rouse it and read on."
        )
    if found.conditions[0].met or not by_reading:
        return RULE.reminder
    return third_reading_due(batch, found) + "."


def _window(batch: Batch, found: Stability) -> Span | None:
    count = batch.clock.days_after
    low = found.above_end or (bool(found.run) and low_enough(batch, found.run[-1]))
    dry = None if low else batch.lines.dry
    if not low and dry is None:
        return None
    since = found.since or batch.now
    if found.run and read_cold(found.run[-1]):
        since = max(since, found.run[-1].at)  # read warm from here on, at the soonest
    if found.met or found.above_end:
        return span(count(since, STABLE_DAYS), latest=count(since, STABLE_DAYS + LATEST_DAYS))
    base = batch.last.at if batch.last else batch.now
    starts = later(since if low else None, *((max(dry.earliest, base), found.since) if dry else ()))
    early, likely = (count(starts or since, STABLE_DAYS),) * 2
    if low:
        likely = next_equal_reading(batch, found)
    elif dry:
        likely = max(early, count(dry.likely, STABLE_DAYS))
    # A racking still to come lets air to it, and starts the 14 days again.
    rack = None if batch.over("second-rack") else batch.span("second-rack")
    if rack is not None:
        early = max(early, count(rack.earliest, STABLE_DAYS))
    likely = (
        later(likely, _cleared(batch), count(rack.likely, STABLE_DAYS) if rack else None) or early
    )
    return span(early, likely, count(max(likely, dry.latest) if dry else likely, LATEST_DAYS))


def _cleared(batch: Batch) -> datetime | None:
    """Return when the wine is likely clear: some time after its last racking, unless it is now.

    A week; after one that is still to come, the 14 days that start again with it.
    """
    looks = [s.reading.clear for s in batch.gravities if s.reading.clear is not None]
    if looks and looks[-1] >= CLEAR_ENOUGH:
        return None
    key = "third-rack" if batch.span("third-rack") else "second-rack"
    racked = batch.span(key)
    days = DAYS_TO_CLEAR if batch.done_at(key) else STABLE_DAYS
    return batch.clock.days_after(racked.likely, days) if racked else None


def _reason(found: Stability) -> str:
    missing = [condition.text for condition in found.conditions if not condition.met]
    if not missing:
        return "All five conditions are met."
    if len(missing) == len(found.conditions):
        return "Two weeks of equal readings once it is dry; none of the five is there yet."
    return "Missing: " + "; ".join(missing) + "."


RULE = Rule(
    number=250,
    key="declare-stable",
    name="Dry and stable",
    trigger="three equal readings over 14 days, warm, without gas, clear and at its end",
    reminder="Three equal readings, 14 days, 18 °C: then it is stable.",
    risk="Bottles that burst.",
    slip_class="fixed",
    slips=("Later is always safe",),
    work_out=_work_out,
    record=(field("gravity", "Gravity", "SG"), field("sugar", "Sugar left, by a test", "g/L")),
    after=("transfer",),
    needs_ferment=True,
    done_already="It is declared already: ticked anew, it is judged by the readings up to the new "
    "day, and where those do not bear it the stabilising is asked for again.",
    unopened="A reason answers for the warmth alone, and only of a wine with no sugar left by "
    "reckoning or by a test (where it did stand warm, set the room to that): stabilising and "
    "bottling still wait until all the other conditions are met.",
)
