"""Stir daily, from the pitch until the fruit is out."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import settled, span_words
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits

NEVER_LONGER_THAN_HOURS = 36
MOST_SHOWN = 14


def _work_out(batch: Batch) -> Plan:
    pitch = batch.pitch
    if pitch is None:
        return undated("It starts with the pitch, which has no date yet.")
    ended = batch.last_time("lift-fruit", "transfer")
    if ended is not None:
        ticks = batch.actions.get("stir", [])
        return (
            Plan(reason=f"{_over(batch)}: no more stirring.", done_at=settled(ticks[-1].at))
            if ticks
            else not_here(f"{_over(batch)}; no stirring was ticked.")
        )
    last = batch.last_time("stir")
    last = max(last, pitch.likely) if last else pitch.likely
    clock = batch.clock
    window = span(
        clock.hours_after(last, 12),
        clock.days_after(last, 1),
        clock.hours_after(last, NEVER_LONGER_THAN_HOURS),
    )
    return Plan(
        window=window,
        reason=_reason(batch, last),
        reminder="" if batch.pulp else "Stir gently, smell, note anything odd.",
        conditions=(waits("the yeast is in", batch.pitched is not None),),
        repeat_times=_coming(batch, last),
    )


def _reason(batch: Batch, last: datetime) -> str:
    until = "until the fruit is out" if batch.pulp else "until it goes to glass"
    if batch.pitched is None:
        return f"Daily from the pitch {until}."
    since = batch.now - last
    if since.total_seconds() > NEVER_LONGER_THAN_HOURS * 3600:
        return f"{span_words(since)} since the last stir: look for mould, smell, then stir well."
    return f"Daily {until}; never more than 36 h apart."


def _over(batch: Batch) -> str:
    return "The fruit is out" if batch.pulp else "The wine is in glass"


def _coming(batch: Batch, last: datetime) -> tuple[datetime, ...]:
    end = batch.span("lift-fruit") or batch.span("transfer")
    if end is None:
        return ()
    first = max(batch.clock.days_after(last, 1), batch.now)
    times = [first]
    day = 2
    while len(times) < MOST_SHOWN and batch.clock.days_after(last, day) < end.likely:
        coming = batch.clock.days_after(last, day)
        if coming > first and not batch.clock.same_day(coming, first):
            times.append(coming)
        day += 1
    return tuple(times)


RULE = Rule(
    number=100,
    key="stir",
    name="Stir and push the fruit under",
    trigger="each day from the pitch until the fruit is out",
    reminder="Stir, push the fruit under, smell, note anything odd.",
    risk="Mould, vinegar, lost colour.",
    slip_class="fixed",
    slips=("36 h: mould may start on the cap", "3 days: vinegar; smell before you go on"),
    work_out=_work_out,
    record=(field("smell", "Smell"), field("temperature", "Must", "°C")),
    after=("pitch",),
    repeats=True,
)
