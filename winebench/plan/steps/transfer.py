"""Transfer to glass: on a reading, never on the day alone."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import day_words, later
from winebench.plan.gravity_forecast import NEARLY_DRY, TO_GLASS
from winebench.plan.steps.rule import Plan, Rule, Span, field, span, undated, waits
from winebench.plan.stuck.standstill import low, not_stuck

READING_GOOD_FOR_HOURS = 24
EARLIEST_DAYS, LATEST_DAYS = 4, 10
SLIP_DAYS = 2


def _work_out(batch: Batch) -> Plan:
    if batch.pitch is None:
        return undated("It follows the pitch, which has no date yet.")
    crossing = batch.lines.below(TO_GLASS)
    reads_low = low(batch, TO_GLASS)
    # What was read before sugar went in says nothing of where the gravity stands since.
    fed = batch.last_time("sugar-feed")
    before = fed is not None and batch.last is not None and batch.last.at <= fed
    fresh = reads_low and not before and batch.within(batch.last, READING_GOOD_FOR_HOURS)
    since = "since the sugar was fed" if before else "on the day"
    conditions = (
        waits(f"a reading below 1.030 {since}", fresh),
        *((waits("the fruit lifted", batch.over("lift-fruit")),) if batch.pulp else ()),
        not_stuck(batch),
    )
    if crossing is None:
        return undated(batch.lines.no_date(TO_GLASS), *conditions)
    window = _after_fruit(batch, _window(batch, crossing.window, crossing.passed))
    if crossing.passed:
        reason = f"Below 1.030 since {day_words(crossing.window.likely, batch.now)}, by reading."
    else:
        reason = "When the gravity passes 1.030; a reading on the day decides."
    return Plan(
        window=window,
        basis=crossing.basis,
        reason=reason,
        conditions=conditions,
        reminder=_reminder(batch, crossing.window.likely, reads_low, fresh),
    )


def _window(batch: Batch, crossing: Span, passed: bool) -> Span:
    assert batch.pitch is not None
    count = batch.clock.days_after
    dry = batch.lines.below(NEARLY_DRY)
    bounds = [count(batch.pitch.latest, LATEST_DAYS)] + ([dry.window.likely] if dry else [])
    if passed:
        return span(crossing.earliest, crossing.likely, count(crossing.likely, SLIP_DAYS))
    early = later(crossing.earliest, count(batch.pitch.earliest, EARLIEST_DAYS))
    likely = batch.clock.waking(max(crossing.likely, count(batch.pitch.likely, EARLIEST_DAYS)))
    # Past the tenth day the forecast, not the card, says how late it can be.
    late = min(bounds) if min(bounds) > likely else crossing.latest
    return span(early or likely, likely, late)


def _after_fruit(batch: Batch, window: Span) -> Span:
    """Return the window, but not before the fruit can be out."""
    fruit = batch.span("lift-fruit")
    if fruit is None:
        return window
    return span(
        max(window.earliest, fruit.earliest), max(window.likely, fruit.likely), window.latest
    )


def _reminder(batch: Batch, likely: datetime, reads_low: bool, fresh: bool) -> str:
    if fresh:
        return "It is below 1.030. Jug, siphon and lock clean? Fill the jug to the neck."
    if reads_low:
        return "It was below 1.030; read it once more today. Jug, siphon and lock clean?"
    day = day_words(likely, batch.now)
    on = day if day in ("today", "tomorrow", "yesterday") else f"on {day}"
    return f"It should pass 1.030 {on}. Jug, siphon and lock clean?"


RULE = Rule(
    number=150,
    key="transfer",
    name="Rack to glass",
    trigger="a reading below 1.030",
    reminder="Jug, siphon and lock clean? Two people lift more than 20 L.",
    risk="Too early it foams through the lock; too late, air and vinegar.",
    slip_class="little",
    slip_days=2,
    slips=("1 day: fine", "3 days: air and browning"),
    work_out=_work_out,
    record=(
        field("litres", "Into the jug", "L"),
        field("lost", "Lost", "L"),
        field("gravity", "Gravity", "SG"),
    ),
    after=("pitch",),
    passed_by=("second-rack", "bottle"),
    opens_vessel=True,
    needs_ferment=True,
)
