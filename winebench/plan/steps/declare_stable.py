"""Declare dry and stable: five conditions, never the calendar alone."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.stability import (
    CLEAR_ENOUGH,
    STABLE_DAYS,
    Stability,
    low_enough,
    next_equal_reading,
    stability,
    third_reading_due,
)
from winebench.plan.steps.rule import Plan, Rule, Span, field, named, span, undated
from winebench.plan.stuck.standstill import not_stuck

LATEST_DAYS, DAYS_TO_CLEAR = 28, 7


def _work_out(batch: Batch) -> Plan:
    found = stability(batch)
    window = _window(batch, found)
    if window is None:
        return undated(batch.lines.no_date(NEARLY_DRY), *found.conditions)
    run = found.run
    by_reading = bool(run) and low_enough(batch, found.run[-1])
    return Plan(
        window=window,
        basis="reading" if by_reading else "forecast" if batch.lines.forecast else "clock",
        reason=_reason(found),
        conditions=found.conditions + (() if found.met else (not_stuck(batch),)),
        reminder=third_reading_due(batch, run) + "."
        if by_reading and not found.met
        else RULE.reminder,
        figures=(named("Dry gravity of this must", batch.recipe.must.dry_gravity),),
    )


def _window(batch: Batch, found: Stability) -> Span | None:
    count = batch.clock.days_after
    rack = batch.span("second-rack")
    before = None if batch.over("second-rack") or found.met or rack is None else rack
    ready = None if found.met else _cleared(batch)
    if found.run and low_enough(batch, found.run[-1]):
        early = count(found.run[0].at, STABLE_DAYS)
        early = later(early, before.earliest if before else None) or early
        likely = later(early, ready, None if found.met else next_equal_reading(batch, found.run))
        return span(early, likely, count(likely or early, LATEST_DAYS))
    dry = batch.lines.dry
    if dry is None:
        return None
    base = batch.last.at if batch.last else batch.now
    early = count(max(dry.earliest, base), STABLE_DAYS)
    early = later(early, before.earliest if before else None) or early
    likely = later(count(dry.likely, STABLE_DAYS), ready)
    return span(early, likely, count(max(dry.latest, likely or early), LATEST_DAYS))


def _cleared(batch: Batch) -> datetime | None:
    """Return when the wine is likely clear: a week after the third racking, unless it is now."""
    looks = [s.reading.clear for s in batch.gravities if s.reading.clear is not None]
    if looks and looks[-1] >= CLEAR_ENOUGH:
        return None
    racked = batch.span("third-rack") or batch.span("second-rack")
    return batch.clock.days_after(racked.likely, DAYS_TO_CLEAR) if racked else None


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
    record=(field("gravity", "Gravity", "SG"),),
    after=("transfer",),
    needs_ferment=True,
)
