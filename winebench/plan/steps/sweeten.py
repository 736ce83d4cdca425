"""Acid, blend, sweeten: to taste, after the wine is stabilised."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_here, undated, waits


def _work_out(batch: Batch) -> Plan:
    if not batch.sweet:
        return not_here("The wine is to stay dry.")
    window = batch.days_after("stabilise", 1, 2, 28)
    stabilised = waits("stabilised, sorbate in", "stabilise" in batch.actions)
    if window is None:
        return undated("It follows the stabilising, which has no date yet.", stabilised)
    done = batch.done_at("stabilise")
    waited = done is not None and batch.now >= batch.clock.days_after(done, 1)
    return Plan(
        window=window,
        basis=batch.plan("stabilise").basis,
        reason="The day after stabilising at the earliest, and a week before bottling.",
        stops=(stabilised,),
        conditions=(waits("a day since the stabilising", waited),),
    )


RULE = Rule(
    number=270,
    key="sweeten",
    name="Sweeten to taste",
    trigger="stabilised, and a trial in the glass",
    reminder="Two thirds now, taste tomorrow, then decide.",
    risk="Coarse, or able to ferment again.",
    slip_class="later",
    slips=("7 days: fine",),
    work_out=_work_out,
    record=(
        field("grams", "Sugar", "g"),
        field("litres", "Wine after", "L"),
        field("gravity", "Gravity after", "SG"),
        field("trial", "Trial in the glass"),
    ),
    after=("stabilise",),
    passed_by=("bottle",),
    opens_vessel=True,
    needs_ferment=True,
)
