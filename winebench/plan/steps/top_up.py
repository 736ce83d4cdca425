"""Top up, the same day as each racking."""

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.readings import RACKINGS
from winebench.plan.steps.rule import Plan, Rule, bottled, field, span, undated, waits
from winebench.plan.steps.sugar_feed import still_to_feed_g
from winebench.plan.stuck.standstill import low

AT_ONCE_DAYS = 3
"""After a racking it browns; later the air still feeds vinegar (common practice)."""


def _work_out(batch: Batch) -> Plan:
    if "bottle" in batch.actions:
        return bottled(batch.actions.get("top-up", []), "The wine is in bottles.")
    if still_to_feed_g(batch) and not low(batch, NEARLY_DRY):
        return undated(
            "The sugar kept back goes in first: leave room for it and for its foam.",
            waits("the sugar kept back fed", False, step="sugar-feed"),
        )
    racked, topped = batch.last_time(*RACKINGS), batch.last_time("top-up")
    if racked is not None and batch.fed:
        dry = batch.lines.below(NEARLY_DRY) if still_to_feed_g(batch) else None
        # The room was for the sugar: it is filled once that is in, or comes too late to go in.
        racked = later(racked, batch.last_time("sugar-feed"), dry.window.likely if dry else None)
    if racked is not None and (topped is None or topped < racked):
        reason = "The wine was racked: fill the jug to the neck the same day."
        if batch.now > batch.clock.days_after(racked, AT_ONCE_DAYS):
            reason = "No topping up was ticked since the racking. It still matters: the air over "
            reason += "it feeds vinegar. Where the jug is full to the neck, tick it off."
        return Plan(window=span(racked, racked, batch.clock.days_after(racked, 1)), reason=reason)
    coming = (batch.span(key) for key in RACKINGS if not batch.over(key))
    window = next((found for found in coming if found), None)
    if window is None:
        return undated("No racking has a date yet.")
    in_glass = batch.last_time(*RACKINGS) is not None
    return Plan(
        window=window,
        basis="clock",
        reason="The same day as the next racking"
        + ("; sooner wherever the jug stands short." if in_glass else "."),
        conditions=() if in_glass else (waits("the wine racked", False, step="transfer"),),
        repeat_times=(window.likely,),
    )


RULE = Rule(
    number=190,
    key="top-up",
    name="Top up",
    trigger="the same day as each racking",
    reminder="How much is it short? The same wine, or a smaller jug; 2–3 cm of air, no more.",
    risk="Browning and vinegar.",
    slip_class="fixed",
    slips=("1 day: fine", "3 days: it browns", "7 days: vinegar"),
    work_out=_work_out,
    record=(field("litres", "Added", "L"), field("what", "What with")),
    after=("transfer",),
    repeats=True,
)
