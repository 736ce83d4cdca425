"""First taste, two to four months after bottling."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, span, waits
from winebench.plan.steps.upright import UNDATED, in_bottles

EARLIEST_MONTHS, LATEST_MONTHS = 2, 4
"""After bottling (common practice)."""


def _work_out(batch: Batch) -> Plan:
    base = batch.span("bottle")
    if base is None:
        return Plan(basis="none", reason=UNDATED, stops=in_bottles(batch))
    count = batch.clock.months_after
    window = span(
        count(base.earliest, EARLIEST_MONTHS),
        count(base.likely, round(batch.style.months_first_taste)),
        count(base.latest, LATEST_MONTHS),
    )
    bottled = batch.done_at("bottle")
    return Plan(
        window=window,
        basis=batch.plan("bottle").basis if bottled is None else "clock",
        reason="Two to three months in the bottle first; it is shy straight after.",
        stops=in_bottles(batch),
        conditions=(
            waits("two months in the bottle", bottled is not None and batch.now >= window.earliest),
        ),
    )


RULE = Rule(
    number=320,
    key="first-taste",
    name="First taste",
    trigger="2–3 months after bottling",
    reminder="Open one: clear? nose? balance?",
    risk="Nobody learns what this batch became.",
    slip_class="later",
    slips=("a month: fine",),
    work_out=_work_out,
    record=(field("score", "Score"), field("notes", "Words for it")),
    after=("bottle",),
    needs_ferment=True,
)
