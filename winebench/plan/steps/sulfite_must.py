"""Sulfite at crushing, where the recipe has it."""

from winebench.plan.batch import Batch
from winebench.plan.doses_given import sulfite_of
from winebench.plan.steps.fruit_accepted import fruit_accepted, identity_known, unknown_fruit
from winebench.plan.steps.rule import Plan, Rule, field, named, not_here, span
from winebench.plan.wanted import STRONG_SULFITE_MG_PER_L

KEY = "sulfite-must"
SULFITES = ("potassium-metabisulfite", "sodium-metabisulfite", "sulfite-tablet")


def _work_out(batch: Batch) -> Plan:
    unknown = unknown_fruit(batch)
    if unknown is not None:
        return unknown
    if batch.line(*SULFITES) is None:
        return not_here("No sulfite on the recipe, so nothing waits for it.")
    base = batch.span("sugar-water")
    start = base.likely if base else batch.start
    added = batch.recipe.must.sulfite.text
    return Plan(
        window=span(start, start, batch.clock.hours_after(start, 2)),
        reason="As soon as the must is made up; the 24 h wait for the yeast starts here.",
        stops=(*identity_known(batch), *batch.held_by_recipe(KEY, "stop")),
        conditions=(*fruit_accepted(batch), *batch.held_by_recipe(KEY, "hold")),
        reminder=f"Add {batch.dose(*SULFITES)} dissolved ({added} mg/L in all); lid loose for a "
        "day, window open; not for people with asthma to stir.",
        figures=(named("Sulfite in all", batch.recipe.must.sulfite),),
    )


def wait_hours(batch: Batch) -> tuple[float, float, float]:
    """Return the earliest, likely and latest wait of the yeast after the sulfite, h.

    24 h, and 12 to 24 h more above 75 mg/L (common practice).
    """
    return (36, 42, 60) if dose_mg_per_l(batch) > STRONG_SULFITE_MG_PER_L else (24, 24, 48)


def dose_mg_per_l(batch: Batch) -> float:
    """Return the sulfite of the must, mg/L: as its ticks note it, else as the recipe has it."""
    litres = batch.recipe.must.liquid.value
    noted = sum(sulfite_of(batch.project, tick, litres) for tick in batch.actions.get(KEY, ()))
    return noted or batch.recipe.must.sulfite.value or 0.0


RULE = Rule(
    number=50,
    key=KEY,
    name="Sulfite the must",
    trigger="the must is made up",
    reminder="Add the sulfite dissolved; lid loose for a day, window open.",
    risk="Wild yeast and browning; too much of it keeps the yeast from starting.",
    slip_class="little",
    slips=("12 h: wild yeast starts first",),
    work_out=_work_out,
    record=(
        field("grams", "Sulfite", "g", of=SULFITES[0]),
        field("mg-per-l", "That is", "mg/L", of=SULFITES[0]),
    ),
    after=("sugar-water",),
    passed_by=("enzyme", "pitch"),
)
