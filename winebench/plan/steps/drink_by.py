"""The end of the drinking window."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, span, undated, waits

# Months in the bottle: from, best until, latest (common practice).
LIGHT, DARK, SWEET = (6, 12, 12), (12, 18, 24), (6, 18, 24)


def _work_out(batch: Batch) -> Plan:
    base = batch.span("bottle")
    if base is None:
        return undated("It follows the bottling, which has no date yet.")
    style = batch.project.recipe.style
    months = SWEET if style == "sweet" else DARK if style.startswith("dark") else LIGHT
    count = batch.clock.months_after
    first, best, last = (count(at, m) for at, m in zip(base, months, strict=True))
    return Plan(
        window=span(first, best, last),
        basis=batch.plan("bottle").basis if batch.done_at("bottle") is None else "clock",
        reason=f"Wines of this style are at their best {months[0]} to {months[2]} months "
        "after bottling, with the sulfite kept up.",
        conditions=(waits("in bottles", "bottle" in batch.actions),),
    )


RULE = Rule(
    number=330,
    key="drink-by",
    name="Best drunk by",
    trigger="6–24 months after bottling, by style",
    reminder="How many are left? Best drunk by about now.",
    risk="Tired wine.",
    slip_class="later",
    slips=("a few months: fine", "a year: it fades"),
    work_out=_work_out,
    record=(field("left", "Bottles left"),),
    after=("bottle",),
)
