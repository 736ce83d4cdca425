"""Three days after warming and rousing the gravity says whether that was enough."""

from winebench.plan.batch import Batch
from winebench.plan.days import day_words
from winebench.plan.steps.rule import Plan, Rule, field, not_before, not_here, undated, waits
from winebench.plan.stuck.keys import WARM
from winebench.plan.stuck.restarting import MOVES, WAIT_DAYS, read_after_waiting, waited
from winebench.plan.stuck.standstill import stuck

LATEST_DAYS = 5
"""Three days show it, five at the latest (common practice)."""


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return not_here(MOVES)
    read = read_after_waiting(batch)
    if read is not None:
        return not_here(f"Read {day_words(read.at, batch.now)}: {read.sg:.3f}.")
    until = waited(batch)
    conditions = (
        waits("the warming and rousing", until is not None),
        waits(f"{WAIT_DAYS} days since it was warmed", until is not None and batch.now >= until),
    )
    window = batch.days_after(WARM, WAIT_DAYS, WAIT_DAYS, LATEST_DAYS)
    if window is None:
        return undated("It follows the warming, which has no date yet.", *conditions)
    return Plan(
        window=not_before(found.known, window),
        reason="Three days after it was warmed and roused: two points down, and it is saved.",
        conditions=conditions,
    )


RULE = Rule(
    number=202,
    key="wait-and-read",
    name="Wait three days and read",
    trigger="3 days after it was warmed and roused",
    reminder="Leave it warm for three days, then read it with the gas out: log the gravity.",
    risk="A starter made for nothing, or too late.",
    slip_class="fixed",
    slips=("2 days: fine", "a week: spoilage may take the sugar"),
    work_out=_work_out,
    record=(field("gravity", "Gravity", "SG"), field("lock", "Does the lock move?")),
    after=(WARM,),
    passed_by=("fresh-starter", "restart", "stabilise", "bottle"),
)
