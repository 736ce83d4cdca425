"""The fed starter goes back into the wine that stands still."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_before, not_here, span, undated, waits
from winebench.plan.stuck.keys import FEED, PITCH_BACK, STARTER
from winebench.plan.stuck.restarting import FEED_DAYS, MOVES, doses, doses_given, litres_text
from winebench.plan.stuck.standstill import stuck

HOURS_AFTER_DOSE = 12
"""The starter works again on its last dose (common practice)."""


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return not_here(MOVES)
    given, wanted = doses_given(batch), doses(batch)
    conditions = (
        waits("a starter of fresh yeast", STARTER in batch.actions),
        waits(f"fed {wanted} times with the wine ({given} so far)", given >= wanted),
    )
    starter = batch.span(STARTER)
    if starter is None:
        return undated("It follows the starter, which has no date yet.", *conditions)
    clock = batch.clock
    last = batch.last_time(FEED) if given else None
    to_come = wanted - given
    early = clock.hours_after(last or starter.earliest, HOURS_AFTER_DOSE * (to_come + 1))
    likely = clock.days_after(last or starter.likely, to_come or HOURS_AFTER_DOSE / 24)
    latest = clock.days_after(starter.latest, FEED_DAYS)
    return Plan(
        window=not_before(found.known, span(early, clock.waking(likely), latest)),
        reason="Once the starter has been doubled with the wine and foams again.",
        conditions=(
            *conditions,
            waits(
                f"{HOURS_AFTER_DOSE} hours since the last dose",
                last is not None and batch.now >= clock.hours_after(last, HOURS_AFTER_DOSE),
            ),
        ),
        reminder=f"Pour the {litres_text(wanted)} of foaming starter back, both within 8 °C of "
        "each other; keep it at 20–23 °C and read it every second day.",
    )


RULE = Rule(
    number=205,
    key=PITCH_BACK,
    name="Pitch the starter back",
    trigger="the starter was doubled with the wine and foams",
    reminder="Pour the foaming starter back, both within 8 °C of each other; keep it warm.",
    risk="A sweet wine that can wake up in the bottle.",
    slip_class="fixed",
    slips=("12 h: fine", "2 days: the starter tires"),
    work_out=_work_out,
    record=(
        field("litres", "Starter", "L"),
        field("starter", "Starter", "°C"),
        field("wine", "Wine", "°C"),
        field("gravity", "Gravity", "SG"),
    ),
    after=(STARTER, FEED),
    passed_by=("stabilise", "bottle"),
    opens_vessel=True,
)
