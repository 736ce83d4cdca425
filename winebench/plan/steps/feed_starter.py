"""The starter is doubled with the wine, once or twice a day, until it is a tenth of it."""

from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits
from winebench.plan.stuck.keys import FEED, PITCH_BACK, STARTER
from winebench.plan.stuck.restarting import MOVES, doses, doses_given, litres_text
from winebench.plan.stuck.standstill import stuck

EARLIEST_H, LIKELY_H, LATEST_H = 12, 24, 36
"""From one doubling to the next (common practice: once or twice a day)."""


def _work_out(batch: Batch) -> Plan:
    ticks, given, wanted = batch.actions.get(FEED, []), doses_given(batch), doses(batch)
    made = batch.last_time(STARTER)
    found = stuck(batch)
    over = found is None or given >= wanted or PITCH_BACK in batch.actions
    if ticks and over:
        reason = f"The starter has had {given} dose{'' if given == 1 else 's'} of the wine."
        return Plan(reason=reason, done_at=settled(ticks[-1].at))
    if found is None:
        return not_here(MOVES)
    starter = waits("the starter made", made is not None)
    base = settled(ticks[-1].at) if ticks and given else made
    if base is None:
        planned = batch.span(STARTER)
        if planned is None:
            return undated("It follows the starter, which has no date yet.", starter)
        base = planned.likely
    base, clock = max(base, found.known), batch.clock
    early = clock.hours_after(base, EARLIEST_H)
    first = clock.hours_after(base, LIKELY_H)
    return Plan(
        window=span(early, first, clock.hours_after(base, LATEST_H)),
        reason=f"Dose {given + 1} of {wanted}, once the starter foams: each as much as is there.",
        conditions=(
            starter,
            waits(f"{EARLIEST_H} hours to foam again", made is not None and batch.now >= early),
        ),
        reminder=f"The starter foams? Add as much wine as there is starter: {litres_text(given)} "
        f"to make {litres_text(given + 1)}.",
        repeat_times=tuple(clock.days_after(first, day) for day in range(wanted - given)),
    )


RULE = Rule(
    number=204,
    key=FEED,
    name="Feed the starter with wine",
    trigger="the starter foams; then each time it foams again",
    reminder="As much wine as there is starter, each time it foams again.",
    risk="Put into the whole wine at once, the yeast stops at its alcohol.",
    slip_class="fixed",
    slips=("12 h: fine", "2 days: the starter tires"),
    work_out=_work_out,
    record=(field("litres", "Wine added", "L"), field("foam", "Does it foam?")),
    after=(STARTER,),
    passed_by=("stabilise", "bottle"),
    repeats=True,
)
