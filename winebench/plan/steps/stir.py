"""Stir daily, from the pitch until the fruit is out."""

from dataclasses import replace
from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import settled, span_words
from winebench.plan.steps.rule import Plan, Rule, field, span, too_late, undated, waits

APART_HOURS = (12, 30)
NEVER_LONGER_THAN_HOURS = 36
"""Once a day or twice; a cap left longer moulds (common practice)."""
IN_HOURS = 72
"""Up to here hours say more than days do."""
MOST_SHOWN = 14


def _work_out(batch: Batch) -> Plan:
    pitch = batch.pitch
    if pitch is None:
        return undated("It starts with the pitch, which has no date yet.")
    name, reminder, slips = _words(batch)
    ended = batch.last_time("lift-fruit", "transfer")
    if ended is not None:
        ticks = batch.actions.get("stir", [])
        if not ticks:
            return replace(too_late(f"{_over(batch)}; no stirring was ticked."), name=name)
        done = settled(ticks[-1].at)
        return Plan(reason=f"{_over(batch)}: no more stirring.", done_at=done, name=name)
    last = batch.last_time("stir")
    last = max(last, pitch.likely) if last else pitch.likely
    clock = batch.clock
    window = span(
        clock.hours_after(last, APART_HOURS[0]),
        clock.days_after(last, 1),
        clock.hours_after(last, APART_HOURS[1]),
    )
    return Plan(
        window=window,
        late_from=clock.hours_after(last, NEVER_LONGER_THAN_HOURS),
        reason=_reason(batch, last),
        name=name,
        reminder=reminder,
        slips=slips,
        conditions=(waits("the yeast in the must", batch.pitched is not None),),
        repeat_times=_coming(batch, last),
    )


def _words(batch: Batch) -> tuple[str, str, tuple[str, ...]]:
    """Return name, reminder and what waiting costs, where no fruit swims on the must; else ""."""
    if batch.pulp or not batch.project.fruits:
        return "", "", ()
    slips = ("36 h: mould may start on the foam", RULE.slips[1])
    if batch.puree:
        return (
            "Stir the puree in",
            "Stir the puree under and up from the floor, smell, note anything odd.",
            slips,
        )
    return "Stir gently", "Stir gently, smell, note anything odd.", slips


def _reason(batch: Batch, last: datetime) -> str:
    until = "until the fruit is out" if batch.pulp else "until it goes to glass"
    if batch.pitched is None:
        return f"Daily from the pitch {until}."
    since = batch.now - last
    if since.total_seconds() > NEVER_LONGER_THAN_HOURS * 3600:
        hours = since.total_seconds() / 3600
        words = f"{hours:.0f} h" if hours < IN_HOURS else span_words(since)
        stirred = "the last stir" if batch.actions.get("stir") else "the pitch, and no stir ticked"
        return f"{words} since {stirred}: look for mould, smell, then stir well."
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
