"""Sugar kept back, fed while the yeast is lively."""

from winebench.plan.batch import Batch
from winebench.plan.doubted import doubt_words, in_doubt
from winebench.plan.evidence import fed_g, feed_points, planned_feed_g, portions
from winebench.plan.gravity_forecast import FEED_FROM, FEED_UNTIL, Passing
from winebench.plan.steps.rule import Plan, Rule, Span, field, not_here, span, undated, waits
from winebench.plan.stuck.standstill import not_stuck

KEY = "sugar-feed"
ALL_IN = 0.9
"""Share of the planned sugar from which on it counts as fed: nobody weighs syrup to the gram."""


def still_to_feed_g(batch: Batch) -> float:
    """Return the sugar that waits to be fed, g; 0 where there is none or all is in."""
    planned = planned_feed_g(batch)
    if not batch.fed or (KEY in batch.actions and fed_g(batch) >= ALL_IN * planned):
        return 0.0
    return planned - fed_g(batch)


def _work_out(batch: Batch) -> Plan:
    if not batch.fed:
        return not_here("All the sugar goes in at the start.")
    passing = batch.lines.below(FEED_FROM)
    if passing is None:
        return undated(batch.lines.no_date(FEED_FROM))
    last, fed, left = batch.last, batch.last_time(KEY), still_to_feed_g(batch)
    unread = fed is not None and (last is None or last.at <= fed)
    low = last is not None and last.sg is not None and last.sg < FEED_FROM
    doubted = in_doubt(batch, FEED_FROM)
    since = " since the last feed" if fed else ""
    doubt = doubt_words(batch) if doubted else ""
    reason = "Between 1.020 and 1.010, while it is lively."
    if fed is not None and left:
        whole = planned_feed_g(batch)
        reason = f"{whole - left:.0f} g of {whole:.0f} g are in. {reason}"
    return Plan(
        window=_window(batch, passing, unread=unread),
        basis="clock" if unread else passing.basis,
        reason=reason,
        conditions=(
            waits(
                f"a reading below {FEED_FROM:.3f}{since}{doubt}",
                low and not unread and not doubted,
            ),
            not_stuck(batch),
        ),
        reminder=_reminder(batch, left),
        goes_on=left > 0,
    )


def _window(batch: Batch, passing: Passing, *, unread: bool) -> Span:
    fed, count = batch.last_time(KEY), batch.clock.days_after
    if unread and fed is not None:
        # What was read before the last portion does not say when the yeast has eaten it.
        return span(count(fed, 0.5), batch.clock.waking(count(fed, 1)), count(fed, 3))
    ends = batch.lines.below(FEED_UNTIL)
    starts = passing.window
    return span(starts.earliest, starts.likely, ends.window.likely if ends else starts.latest)


def _reminder(batch: Batch, left: float) -> str:
    count = portions(batch, left)
    now = left / count
    words = f"Feed {now:.0f} g of sugar as cooled syrup; leave room for foam."
    if count > 1:
        words += (
            f" It raises the gravity by {feed_points(batch, now):.0f} points; the other "
            f"{left - now:.0f} g when it reads below {FEED_FROM:.3f} again."
        )
    return words


RULE = Rule(
    number=130,
    key=KEY,
    name="Feed the sugar kept back",
    trigger="the gravity is 1.020–1.010 and it is lively",
    reminder="Feed the sugar as cooled syrup; leave room for foam.",
    risk="Fed after it stalls, the sugar stays; unfed, the wine is weaker than meant.",
    slip_class="little",
    slips=("1 day: fine above 1.010", "3 days: the yeast may not take it up again"),
    work_out=_work_out,
    record=(
        field("grams", "Sugar", "g", of="white-sugar"),
        field("before", "Gravity before", "SG"),
        field("after", "Gravity after", "SG"),
    ),
    after=("pitch",),
    needs_ferment=True,
)
