"""Top up, the same day as each racking."""

from winebench.plan.batch import Batch
from winebench.plan.days import later, settled
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.readings import RACKINGS
from winebench.plan.record_values import value_of
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.rule import (
    Plan,
    Rule,
    bottled,
    field,
    not_before,
    span,
    undated,
    waits,
)
from winebench.plan.steps.sugar_feed import still_to_feed_g
from winebench.plan.stuck.standstill import low
from winebench.plan.vessels import BRIM_L_SHARE, is_top_up

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
    if racked is not None and (topped is None or topped < racked) and not _racked_full(batch):
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
    if in_glass and window.likely.date() <= batch.now.date():
        # That racking is what is due; this follows it, and is asked for once that is ticked.
        window = not_before(batch.clock.days_after(batch.now, 1), window)
    return Plan(
        window=window,
        basis="clock",
        reason="The same day as the next racking"
        + ("; sooner wherever the jug stands short." if in_glass else "."),
        conditions=() if in_glass else (waits("the wine racked", False, step="transfer"),),
        repeat_times=(window.likely,),
    )


def _racked_full(batch: Batch) -> bool:
    """Return whether as much was noted with the last racking as fills the jugs to the neck."""
    if batch.last_time("sugar-feed") is not None:
        return False  # it was racked with room for that
    ticks = (tick for key in RACKINGS for tick in batch.actions.get(key, ()))
    last = max(ticks, key=lambda tick: settled(tick.at))
    noted = next(filter(None, (noted_with(last, name) for name in ("litres", "after"))), "")
    litres = value_of(noted, "L", batch.project) if noted else None
    jugs = [v for v in batch.project.make.vessels if v.role == "secondary" and not is_top_up(v)]
    holds = sum(jug.holds.litres(batch.project.gallon) for jug in jugs)
    return litres is not None and holds > 0.0 and litres >= BRIM_L_SHARE * holds


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
