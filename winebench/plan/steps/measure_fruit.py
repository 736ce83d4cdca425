"""Measure the fruit: its own sugar and acid in place of the table's."""

from winebench.plan.batch import Batch
from winebench.plan.steps.fruit_accepted import unknown_fruit
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span


def _work_out(batch: Batch) -> Plan:
    unknown = unknown_fruit(batch)
    if unknown is not None:
        return unknown
    if not batch.project.fruits:
        return not_here("There is no fruit on the recipe yet.")
    if all(f.measured.juice or f.measured.acid_g_per_l for f in batch.project.fruits):
        return not_here("The fruit's own figures are on the recipe.")
    if batch.must_reading is not None:
        return not_here("The must was read before the yeast went in.")
    return Plan(
        window=span(batch.start, batch.start, batch.clock.hours_after(batch.start, 12)),
        reason="At crushing; typical figures stand in until you measure.",
    )


RULE = Rule(
    number=30,
    key="measure-fruit",
    name="Measure the fruit",
    trigger="the fruit is crushed",
    reminder="Strain a spoonful at 20 °C and read it; typical values are standing in until you do.",
    risk="Wrong sugar and acid for this year's fruit.",
    slip_class="little",
    slips=("1 day: wild yeast has begun to eat the sugar you measure",),
    work_out=_work_out,
    record=(
        field("brix", "Juice", "°Brix"),
        field("acid", "Titratable acidity", "g/L as tartaric"),
        field("ph", "pH"),
        field("temperature", "Sample", "°C"),
    ),
    after=("fruit-accepted",),
    passed_by=("pitch",),
)
