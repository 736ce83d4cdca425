"""The first cure of a stuck ferment: warmth, and the yeast stirred up from the floor."""

from winebench.plan.batch import Batch
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, waits
from winebench.plan.stuck.causes import COLD_CELSIUS
from winebench.plan.stuck.keys import WARM
from winebench.plan.stuck.restarting import LATEST_DAYS, MOVES
from winebench.plan.stuck.standstill import stuck

WARM_CELSIUS = 20.0
"""A stuck ferment is warmed to 20 to 23 °C (common practice)."""


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return not_here(MOVES)
    return Plan(
        window=span(
            found.known,
            batch.clock.waking(found.known),
            batch.clock.days_after(found.known, LATEST_DAYS),
        ),
        basis="reading",
        reason=f"{found.days} days without a move at {found.sg:.3f}; warmth costs nothing and "
        "cures most.",
        conditions=(
            waits(
                "the reading doubted first: gas out, warmth noted",
                batch.over("doubt-reading"),
                step="doubt-reading",
            ),
        ),
        reminder=f"{_warmth(batch)} Stir up the floor, lid or lock loose, then wait 3 days.",
    )


def _warmth(batch: Batch) -> str:
    warm = batch.last.reading.temperature if batch.last else None
    if warm is None:
        return "How warm is it? Bring it to 20–23 °C over a day."
    if warm.celsius >= WARM_CELSIUS:
        return f"It stood at {warm.text}, which is warm enough: rouse it."
    cold = "too cold" if warm.celsius < COLD_CELSIUS else "cool"
    return f"It stood at {warm.text}, {cold}: warm it to 20–23 °C over a day."


RULE = Rule(
    number=201,
    key=WARM,
    name="Warm it and rouse it",
    trigger="the gravity stands still, and the reading is no mistake",
    reminder="Warm it to 20–23 °C, stir up the floor, lid or lock loose, then wait 3 days.",
    risk="A sweet wine that can wake up in the bottle.",
    slip_class="little",
    slip_days=2,
    slips=("3 days: fine", "10 days: spoilage may take the sugar"),
    work_out=_work_out,
    record=(
        field("before", "How warm it was", "°C"),
        field("after", "How warm it is now", "°C"),
        field("action", "What you did"),
    ),
    after=("doubt-reading",),
    passed_by=("fresh-starter", "restart", "stabilise", "bottle"),
    opens_vessel=True,
)
