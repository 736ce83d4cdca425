"""A fresh starter, made with some of the wine: dry yeast does not wake in ten percent."""

from winebench.plan.batch import Batch
from winebench.plan.outlook import Condition
from winebench.plan.steps.rule import Plan, Rule, field, not_before, not_here, span, undated, waits
from winebench.plan.strength_now import strength_now, yeast_limit
from winebench.plan.stuck.keys import STARTER, WARM
from winebench.plan.stuck.restarting import (
    LATEST_DAYS,
    MOVES,
    STARTER_L,
    WAIT_DAYS,
    at_its_limit,
    read_after_waiting,
    waited,
)
from winebench.plan.stuck.standstill import stuck
from winebench.trade.yeast import PACKET_G, rehydration_water_ml


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return not_here(MOVES)
    conditions = _conditions(batch)
    window = batch.days_after(WARM, WAIT_DAYS, WAIT_DAYS, LATEST_DAYS)
    if window is None:
        return undated("It follows the warming, which has no date yet.", *conditions)
    window = not_before(found.known, window)
    read = read_after_waiting(batch)
    likely = max(window.likely, read.at) if read else window.likely
    return Plan(
        window=span(window.earliest, batch.clock.waking(likely), window.latest),
        basis="reading" if read else "clock",
        reason="Warmth and rousing did not move it: fresh yeast has to."
        if read
        else "If three days of warmth have not moved it.",
        conditions=conditions,
        reminder=_reminder(),
    )


def _conditions(batch: Batch) -> tuple[Condition, ...]:
    until, made = waited(batch), strength_now(batch)
    limit = yeast_limit(batch)
    stands = f"a yeast that stands more than the {made.text} % vol in it"
    return (
        waits(
            f"{WAIT_DAYS} days since it was warmed and roused",
            until is not None and batch.now >= until,
        ),
        waits("a reading since then that has not moved", read_after_waiting(batch) is not None),
        *((waits(f"{stands} (yours: {limit:g})", not at_its_limit(batch)),) if limit else ()),
    )


def _reminder() -> str:
    water_ml = rehydration_water_ml(PACKET_G)
    half_ml = (STARTER_L * 1000 - water_ml) / 2
    return (
        f"Wake {PACKET_G:g} g of fresh yeast in {water_ml:.0f} mL of water at 35–40 °C for 20 "
        f"minutes; add {half_ml:.0f} mL of water with a spoon of sugar and the nutrient, then "
        f"{half_ml:.0f} mL of the wine. Nutrient goes in here, not into the wine; never dry "
        "yeast into 10 %."
    )


RULE = Rule(
    number=203,
    key=STARTER,
    name="Make a fresh starter",
    trigger="three days warm and roused, and still no move",
    reminder="Fresh yeast in warm water, then some of the wine; nutrient here, not in the wine. "
    "Never dry yeast into 10 %.",
    risk="Dry yeast put into the wine dies of its alcohol.",
    slip_class="little",
    slip_days=2,
    slips=("3 days: fine", "a week: spoilage may take the sugar"),
    work_out=_work_out,
    record=(
        field("yeast", "Yeast", "g"),
        field("nutrient", "Nutrient", "g", of="yeast-nutrient"),
        field("temperature", "Starter", "°C"),
    ),
    after=("wait-and-read",),
    passed_by=("restart", "stabilise", "bottle"),
)
