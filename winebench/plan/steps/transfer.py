"""Transfer to glass: on a reading, never on the day alone."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import day_words, evening, later
from winebench.plan.doubted import doubt_words, in_doubt
from winebench.plan.gravity_forecast import NEARLY_DRY, TO_GLASS, Passing
from winebench.plan.steps.rule import Plan, Rule, Span, field, span, undated, waits
from winebench.plan.steps.sugar_feed import still_to_feed_g
from winebench.plan.stuck.keys import PITCH_BACK
from winebench.plan.stuck.standstill import low, not_stuck

GOOD_OVER_MIDNIGHT_HOURS = 6
"""A reading counts on its day; one of the late evening for the night that follows."""
EARLIEST_DAYS, LATEST_DAYS = 4, 10
"""From the pitch: sooner it foams through the lock, later it has too much air (common practice)."""
SLIP_DAYS = 2
"""After it fell below 1.030 (common practice)."""
LATEST_DAYS_FED = 4
"""From a feed until it is below 1.030 again at the latest: 20 points a lively yeast eats in two
(common practice)."""


def _work_out(batch: Batch) -> Plan:
    if batch.pitch is None:
        return undated("It follows the pitch, which has no date yet.")
    crossing = batch.lines.below(TO_GLASS)
    reads_low = low(batch, TO_GLASS)
    # What was read before sugar went in says nothing of where the gravity stands since.
    fed = batch.last_time("sugar-feed")
    before = fed is not None and batch.last is not None and batch.last.at <= fed
    doubted = in_doubt(batch, TO_GLASS)
    fresh = reads_low and not before and _of_today(batch)
    since = "since the sugar was fed" if before else "on the day"
    doubt = doubt_words(batch) if doubted else ""
    conditions = (
        waits(f"a reading below 1.030 {since}{doubt}", fresh),
        *((waits("the fruit lifted", batch.over("lift-fruit")),) if batch.pulp else ()),
        not_stuck(batch),
    )
    if crossing is None:
        return undated(batch.lines.no_date(TO_GLASS), *conditions)
    low_from = _low_since_feed(batch, crossing.window)
    window = _after_fruit(batch, _window(batch, low_from, crossing.passed))
    basis = crossing.basis
    if before and fed is not None:
        count = batch.clock.days_after
        window = span(fed, batch.clock.waking(count(fed, 1)), count(fed, LATEST_DAYS_FED))
        basis = "clock"
        reason = "Sugar was fed since the last reading: the next one says when it is below 1.030."
    elif doubted:
        reason = f"{batch.last_sg:.3f} was read, and is in doubt: a second reading decides."
    elif crossing.passed:
        reason = f"Below 1.030 since {day_words(low_from.likely, batch.now)}, by reading."
    else:
        reason = _crossing_words(batch, crossing, window)
    return Plan(
        window=window,
        basis=basis,
        reason=reason,
        conditions=conditions,
        reminder="Read it once more before it is racked: sugar went in since the last reading."
        if before
        else _reminder(batch, crossing.window.likely, reads_low, fresh),
    )


def _crossing_words(batch: Batch, crossing: Passing, window: Span) -> str:
    """Return when it should cross 1.030, and apart from that how long the racking may wait."""
    early, _, late = crossing.window
    if crossing.basis != "forecast" or late <= batch.now:
        return "When the gravity passes 1.030; a reading on the day decides."
    first, last = (day_words(at, batch.now) for at in (max(early, batch.now), late))
    when = first if first == last else f"between {first} and {last}"
    wait = day_words(window.latest, batch.now)
    return (
        f"The gravity should cross 1.030 {when}; the racking may wait until {wait}. A reading on "
        "the day decides."
    )


def _low_since_feed(batch: Batch, crossing: Span) -> Span:
    """Return when it passed 1.030; where sugar was fed since, the first reading after that."""
    fed = batch.last_time("sugar-feed")
    after = [seen.at for seen in batch.gravities if fed is not None and seen.at > fed]
    return Span(*(max(at, after[0]) for at in crossing)) if after else crossing


def _window(batch: Batch, crossing: Span, passed: bool) -> Span:
    assert batch.pitch is not None
    count = batch.clock.days_after
    dry = batch.lines.below(NEARLY_DRY)
    tenth = count(batch.pitch.latest, LATEST_DAYS)
    bounds = [count(crossing.latest, SLIP_DAYS), tenth, *([dry.window.likely] if dry else [])]
    if passed:
        # A must that first reads low after the tenth day has its two days all the same.
        late = min(bound for bound in bounds if bound != tenth or tenth > crossing.likely)
        back = batch.last_time(PITCH_BACK)  # until then it was held, and not late
        going = count(back, SLIP_DAYS) if back else late
        return span(
            crossing.earliest,
            crossing.likely,
            max(late, going, evening(batch.clock, crossing.likely)),
        )
    # A reading may open it sooner; what nobody read is not expected before the fourth day.
    fourth = [] if batch.gravities else [count(at, EARLIEST_DAYS) for at in batch.pitch]
    early = later(crossing.earliest, *fourth[:1])
    likely = batch.clock.waking(max(crossing.likely, *fourth[1:2] or [crossing.likely]))
    # Past the tenth day the forecast, not the card, says how late it can be.
    late = min(bounds) if min(bounds) > likely else crossing.latest
    return span(early or likely, likely, late)


def _after_fruit(batch: Batch, window: Span) -> Span:
    """Return the window, but not before the fruit can be out."""
    fruit = batch.span("lift-fruit")
    waiting = not batch.over("lift-fruit")
    if fruit is None or (waiting and window.latest < batch.now):
        return window  # late is late, whatever it waits for
    return span(
        max(window.earliest, fruit.earliest), max(window.likely, fruit.likely), window.latest
    )


def _of_today(batch: Batch) -> bool:
    last = batch.last
    if last is None:
        return False
    return batch.clock.same_day(last.at, batch.now) or batch.within(last, GOOD_OVER_MIDNIGHT_HOURS)


def _reminder(batch: Batch, likely: datetime, reads_low: bool, fresh: bool) -> str:
    if fresh:
        left = still_to_feed_g(batch)
        fill = (
            f"Leave room in the jug for the {left:.0f} g of sugar still to be fed, and its foam."
            if left
            else "Fill the jug to the neck."
        )
        return f"It is below 1.030. Jug, siphon and lock clean? {fill}"
    if reads_low:
        return "It was below 1.030; read it once more today. Jug, siphon and lock clean?"
    day = day_words(likely, batch.now)
    if likely.date() < batch.now.date():
        return f"It should have passed 1.030 by {day}: read it. Jug, siphon and lock clean?"
    on = day if day in ("today", "tomorrow") else f"on {day}"
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
    done_already="It is in glass already: ticked anew, its day moves, and what follows with it.",
)
