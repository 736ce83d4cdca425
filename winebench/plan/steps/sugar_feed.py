"""Sugar kept back, fed while the yeast is lively."""

from winebench.plan.batch import Batch
from winebench.plan.evidence import planned_feed_g
from winebench.plan.gravity_forecast import FEED_FROM, FEED_UNTIL
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits
from winebench.plan.stuck.standstill import not_stuck


def _work_out(batch: Batch) -> Plan:
    if not batch.fed:
        return not_here("All the sugar goes in at the start.")
    starts, ends = batch.lines.below(FEED_FROM), batch.lines.below(FEED_UNTIL)
    if starts is None:
        return undated(batch.lines.no_date(FEED_FROM))
    sg = batch.last_sg
    return Plan(
        window=span(
            starts.window.earliest,
            starts.window.likely,
            ends.window.likely if ends else starts.window.latest,
        ),
        basis=starts.basis,
        reason="Between 1.020 and 1.010, while it is lively.",
        conditions=(
            waits("a reading below 1.020", sg is not None and sg < FEED_FROM),
            not_stuck(batch),
        ),
        reminder=f"Feed {planned_feed_g(batch):.0f} g of sugar as cooled syrup; "
        "leave room for foam.",
    )


RULE = Rule(
    number=130,
    key="sugar-feed",
    name="Feed the sugar kept back",
    trigger="the gravity is 1.020–1.010 and it is lively",
    reminder="Feed the sugar as cooled syrup; leave room for foam.",
    risk="Fed after it stalls, the sugar stays; unfed, the wine is weaker than meant.",
    slip_class="little",
    slips=("1 day: fine above 1.010", "3 days: the yeast may not take it up again"),
    work_out=_work_out,
    record=(
        field("grams", "Sugar", "g"),
        field("before", "Gravity before", "SG"),
        field("after", "Gravity after", "SG"),
    ),
    after=("pitch",),
    needs_ferment=True,
)
