"""Sugar and water in, cooled."""

from winebench.plan.batch import Batch
from winebench.plan.steps.fruit_accepted import fruit_accepted, identity_known, unknown_fruit
from winebench.plan.steps.rule import Plan, Rule, field, span


def _work_out(batch: Batch) -> Plan:
    unknown = unknown_fruit(batch)
    if unknown is not None:
        return unknown
    return Plan(
        window=span(batch.start, batch.start, batch.clock.hours_after(batch.start, 12)),
        reason="The must is made up on the day you start."
        if batch.project.start or batch.done("sugar-water")
        else "No start day is set, so the plan starts now.",
        name="" if batch.pulp or not batch.project.fruits else "Sugar and water in",
        stops=(*identity_known(batch), *batch.held_by_recipe("sugar-water", "stop")),
        conditions=(*fruit_accepted(batch), *batch.held_by_recipe("sugar-water", "hold")),
    )


RULE = Rule(
    number=40,
    key="sugar-water",
    name="Crush, sugar and water in",
    trigger="the fruit is crushed",
    reminder="Is the syrup hand-warm, below 30 °C? Nothing hot in glass.",
    risk="Cracked glass and scalds; heat kills enzyme and yeast.",
    slip_class="fixed",
    slips=("1 day: crushed fruit starts by itself, with whatever yeast is on it",),
    work_out=_work_out,
    record=(
        field("sugar", "Sugar", "g", of="white-sugar"),
        field("water", "Water", "L"),
        field("mark", "Must in the pail", "L"),
    ),
    after=("fruit-accepted",),
    passed_by=("sulfite-must", "enzyme", "pitch"),
    opens_vessel=True,
)
