"""The end of the drinking window."""

from winebench.plan.batch import Batch
from winebench.plan.drinking import READY
from winebench.plan.steps.rule import Plan, Rule, field, span
from winebench.plan.steps.upright import UNDATED, in_bottles

# Of the style's best age (common practice): ready where the must does not tell, best, latest.
SHARES = (READY, 1.0, 1.5)


def _work_out(batch: Batch) -> Plan:
    base = batch.span("bottle")
    if base is None:
        return Plan(basis="none", reason=UNDATED, stops=in_bottles(batch))
    by_style = [round(share * batch.style.months_best) for share in SHARES]
    from_month = batch.recipe.must.ready.value
    first_month = by_style[0] if from_month is None else round(from_month)
    months = tuple(max(first_month, month) for month in (first_month, *by_style[1:]))
    count = batch.clock.months_after
    first, best, last = (count(at, m) for at, m in zip(base, months, strict=True))
    return Plan(
        window=span(first, best, last),
        basis=batch.plan("bottle").basis if batch.done_at("bottle") is None else "clock",
        reason=f"By what it is made of it is ready about {months[0]} months after bottling; wines "
        f"of its style are at their best after about {months[1]}, with the sulfite kept up.",
        stops=in_bottles(batch),
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
