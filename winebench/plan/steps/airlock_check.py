"""Airlock check, from the move to glass until the bottles."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.steps.rule import Plan, Rule, bottled, field, span, undated, waits

WEEKLY_FOR_DAYS, WEEK, MONTH = 28, 7, 30
"""A lock runs dry in two to three weeks: looked at weekly, later monthly (common practice)."""
SHOWN = 6


def _work_out(batch: Batch) -> Plan:
    base = batch.span("transfer")
    if "bottle" in batch.actions:
        ticks = batch.actions.get("airlock-check", [])
        return bottled(ticks, "The wine is in bottles: no lock to watch.")
    if base is None:
        return undated("It starts with the move to glass, which has no date yet.")
    last = _last_look(batch, base.likely)
    times = _times(batch, base.likely, last)
    weekly = times[0] <= batch.clock.days_after(base.likely, WEEKLY_FOR_DAYS)
    return Plan(
        window=span(times[0], times[0], batch.clock.days_after(times[0], WEEK if weekly else 14)),
        basis=batch.plan("transfer").basis if batch.done_at("transfer") is None else "clock",
        reason="Weekly for four weeks, then monthly; a lock dries out in two or three weeks.",
        conditions=(waits("the wine in glass", batch.over("transfer")),),
        repeat_times=(max(times[0], batch.now), *(t for t in times[1:] if t > batch.now)),
    )


def _last_look(batch: Batch, glass: datetime) -> datetime:
    """Return when the jug was last in hand: any reading or racking is a look at its lock."""
    ticked = batch.last_time("airlock-check", "second-rack", "third-rack", "stabilise", "sweeten")
    read = batch.last.at if batch.last else None
    return later(glass, ticked, read) or glass


def _times(batch: Batch, glass: datetime, last: datetime) -> list[datetime]:
    until = batch.clock.days_after(glass, WEEKLY_FOR_DAYS)
    times: list[datetime] = []
    at = last
    for _ in range(SHOWN):
        at = batch.clock.days_after(at, WEEK if at < until else MONTH)
        times.append(at)
    return times


RULE = Rule(
    number=160,
    key="airlock-check",
    name="Check the airlock",
    trigger="weekly, then monthly, once in glass",
    reminder="Top up the lock with water; still moving?",
    risk="A dry lock lets in air and flies.",
    slip_class="later",
    slips=("7 days: fine", "3 weeks: the lock may be dry"),
    work_out=_work_out,
    record=(field("moving", "Still moving?"),),
    after=("transfer",),
    repeats=True,
)
