"""Third racking, only where there are lees to leave."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, undated, waits
from winebench.plan.stuck.standstill import not_stuck

EARLIEST_DAYS, LIKELY_DAYS, LATEST_DAYS = 28, 49, 84
"""Six to eight weeks after the second, four to twelve at the outside (common practice)."""
READS_PRINT = 4
"""Clarity at which print is read through it."""


def _work_out(batch: Batch) -> Plan:
    window = batch.days_after("second-rack", EARLIEST_DAYS, LIKELY_DAYS, LATEST_DAYS)
    if window is None:
        return undated("It follows the second racking, which has no date yet.")
    racked = batch.done_at("second-rack")
    waited = racked is not None and batch.now >= batch.clock.days_after(racked, EARLIEST_DAYS)
    conditions = (waits("4 weeks since the second racking", waited), not_stuck(batch))
    looks = [s.reading.clear for s in batch.gravities if s.reading.clear is not None]
    if looks and looks[-1] == READS_PRINT:
        return Plan(
            any_time=True,
            basis="none",
            reason="Print can be read through it: leave it be, unless a finger of lees lies "
            "under it.",
            conditions=conditions,
        )
    return Plan(
        window=window._replace(likely=batch.free_of_away(window.likely))
        if batch.free_of_away(window.likely) <= window.latest
        else window,
        reason="Six to eight weeks after the second, where a finger of lees has settled.",
        conditions=conditions,
    )


RULE = Rule(
    number=210,
    key="third-rack",
    name="Third racking",
    trigger="6–8 weeks after the second, or more than 1 cm of lees",
    reminder="A finger of lees: rack, or leave it be.",
    risk="A taste of lees; racked needlessly, only more air.",
    slip_class="later",
    slips=("7 days: fine", "a month: fine where it is clear"),
    work_out=_work_out,
    record=(field("after", "Wine after", "L"), field("gravity", "Gravity", "SG")),
    after=("second-rack",),
    passed_by=("stabilise", "sweeten", "bottle"),
    opens_vessel=True,
    needs_ferment=True,
)
