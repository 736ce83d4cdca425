"""Read the gravity: when, and what to expect."""

from datetime import datetime

from winebench.model.log import Action
from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.record_values import value_of
from winebench.plan.stability import next_equal_reading, waits_for_equal
from winebench.plan.steps.hold import last_change
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.rule import Plan, Rule, Span, span, too_late, undated
from winebench.plan.stuck.standstill import stuck

DAYS_EARLY, DAYS_STUCK, DAYS_GLASS, DAYS_AGEING = 1, 2, 7, 30
"""From one reading to the next (common practice)."""
WEEKLY_FOR_DAYS = 28
"""After the second racking, while the equal readings of a stable wine are gathered."""


def _work_out(batch: Batch) -> Plan:
    if "bottle" in batch.actions:
        if batch.last is None:
            return too_late("The wine is in bottles, and no gravity of it was read.")
        return Plan(
            reason="The wine is in bottles.",
            done_at=batch.last.at,
            entry_ids=tuple(seen.reading.id for seen in batch.gravities),
        )
    if batch.pitch is None:
        return undated("It starts with the pitch, which has no date yet.")
    window = _window(batch)
    return Plan(
        window=window,
        reason=_reason(batch, window),
        reminder=_reminder(batch, max(window.likely, batch.now)),
        entry_ids=tuple(seen.reading.id for seen in batch.gravities),
        repeat_times=(window.likely,),
    )


def _window(batch: Batch) -> Span:
    assert batch.pitch is not None
    if batch.pitched is None and batch.must_reading is None:
        gate = batch.pitch.likely
        return span(batch.clock.hours_after(gate, -2), gate, gate)
    base = batch.last.at if batch.last else batch.pitch.likely
    days = _days(batch)
    count = batch.clock.days_after
    likely = _wanted(batch, base, count(base, days))
    return span(min(count(base, days * 0.75), likely), likely, count(base, days * 1.5))


def _wanted(batch: Batch, base: datetime, usual: datetime) -> datetime:
    """Return the usual time, or an earlier or later one at which a reading tells more."""
    count = batch.clock.days_after
    hold = batch.plan("hold").window
    changed = last_change(batch)
    if changed is not None and base < changed.read_from:
        return changed.at
    if changed is not None and hold is not None and base < hold.earliest:
        return hold.earliest
    found = batch.stability
    if waits_for_equal(batch, found):
        return next_equal_reading(batch, found)
    usual = _before_racking(batch, base, usual)
    wanted = batch.next_reading
    if wanted is not None and count(base, 0.5) <= wanted < usual:
        return min(batch.clock.waking(wanted), usual)
    return usual


def _before_racking(batch: Batch, base: datetime, usual: datetime) -> datetime:
    """Return when the move to glass is likely, which waits for a reading of its day, or `usual`."""
    rack = None if batch.over("transfer") else batch.span("transfer")
    if rack is None or not base < rack.likely < usual:
        return usual
    return usual if batch.clock.same_day(base, rack.likely) else rack.likely


def _days(batch: Batch) -> int:
    if stuck(batch) is not None:
        return DAYS_STUCK
    if _ages(batch):
        return DAYS_AGEING
    if "transfer" in batch.actions or "second-rack" in batch.actions:
        return DAYS_GLASS
    return DAYS_EARLY


def _ages(batch: Batch) -> bool:
    """Return whether it was read, or could have been, for four weeks after the second racking."""
    racked = batch.last_time("second-rack")
    if racked is None:
        return False
    last = batch.last.at if batch.last else racked
    return last >= batch.clock.days_after(racked, WEEKLY_FOR_DAYS)


def _reason(batch: Batch, window: Span) -> str:
    if batch.pitched is None:
        return "The gravity of the must is the one that the strength is worked out from."
    if stuck(batch) is not None:
        return "Every second day while it stands still."
    changed = last_change(batch)
    if changed is not None and (batch.last is None or batch.last.at < changed.read_from):
        return f"The week of rest after {changed.words} is judged from this gravity."
    if changed is not None:
        return f"At the end of the week after {changed.words}: it must not have moved."
    if waits_for_equal(batch, batch.stability):
        return "The next equal reading is what a stable wine waits for."
    if _ages(batch):
        return "Once a month will do while it ages."
    if "second-rack" in batch.actions:
        return "Once a week for four weeks after the second racking, then monthly."
    if "transfer" in batch.actions and batch.last is not None and (
        window.likely < batch.clock.days_after(batch.last.at, DAYS_GLASS)
    ):  # fmt: skip
        return "It still falls, and now a reading tells most; then once a week under the airlock."
    if "transfer" in batch.actions:
        return "Once a week will do under the airlock."
    return "Daily while the gravity falls fast: every date after this leans on it."


def _reminder(batch: Batch, at: datetime) -> str:
    if batch.pitched is None:
        return "Read the must's gravity, strained and at room warmth, before the yeast."
    day = (at.date() - batch.pitched.date()).days
    words = [f"Gravity please (day {day})"]
    if batch.last_sg is not None:
        words.append(f"Last: {batch.last_sg:.3f}")
    if stuck(batch) is not None:
        words.append("It stands still; I expect the same")
    elif (expected := expected_at(batch, at)) is not None:
        words.append(f"I expect about {expected:.3f}")
    return ". ".join(words) + "."


def expected_at(batch: Batch, at: datetime) -> float | None:
    """Return the gravity to expect at that time, or None.

    By the forecast and the yeast's limit; of a sweetened wine that it has not moved since.
    """
    sweetened = batch.done("sweeten")
    if sweetened is not None and at >= settled(sweetened.at):
        return _since_sweetened(batch, sweetened)
    forecast, pitch = batch.lines.forecast, batch.pitch
    if forecast is None or pitch is None or at < pitch.likely:
        return None
    from winebench.forecast import gravity_at

    middle = gravity_at(forecast, (at - pitch.likely).total_seconds() / 3600)[1]
    end = batch.sweet_end
    return max(middle, end.sg) if end is not None and end.likely else middle


def _since_sweetened(batch: Batch, tick: Action) -> float | None:
    """Return the gravity read last since the sweetening, else the one noted with it, or None."""
    last = batch.last
    if last is not None and last.at >= settled(tick.at):
        return last.sg
    return value_of(noted_with(tick, "gravity"), "SG", batch.project)


RULE = Rule(
    number=110,
    key="read-gravity",
    name="Read the gravity",
    trigger="day 1 and 2, then daily near 1.040; weekly in glass, monthly later",
    reminder="Gravity please: strained, without gas, below 35 °C, by hydrometer.",
    risk="Every later step is done blind.",
    slip_class="little",
    slips=("1 day: the dates get wider",),
    work_out=_work_out,
    after=(),
    repeats=True,
)
