"""The end of the drinking window."""

from winebench.plan.batch import Batch
from winebench.plan.drinking import READY
from winebench.plan.steps.rule import Plan, Rule, field, span, undated, waits

# Of the style's best age: ready from, best, and latest (common practice).
SHARES = (READY, 1.0, 1.5)


def _work_out(batch: Batch) -> Plan:
    base = batch.span("bottle")
    if base is None:
        return undated("It follows the bottling, which has no date yet.")
    months = tuple(round(share * batch.style.months_best) for share in SHARES)
    count = batch.clock.months_after
    first, best, last = (count(at, m) for at, m in zip(base, months, strict=True))
    return Plan(
        window=span(first, best, last),
        basis=batch.plan("bottle").basis if batch.done_at("bottle") is None else "clock",
        reason=f"Wines of this style are ready {months[0]} months after bottling and at their "
        f"best after about {months[1]}, with the sulfite kept up.",
        conditions=(waits("in bottles", "bottle" in batch.actions),),
    )


RULE = Rule(
    number=330,
    key="drink-by",
    name="Best drunk by",
    trigger="half to one and a half times the style's best age",
    reminder="How many are left? Best drunk by about now.",
    risk="Tired wine.",
    slip_class="later",
    slips=("a few months: fine", "a year: it fades"),
    work_out=_work_out,
    record=(field("left", "Bottles left"),),
    after=("bottle",),
    needs_ferment=True,
)
