"""Clean and rinse, before every step that opens a vessel."""

from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.steps.rule import Plan, Rule, bottled, field, span, undated

HOURS_BEFORE = 1
GOOD_FOR_HOURS = 24
"""Cleaned within an hour before; what stood for a day is cleaned again (common practice)."""


def _work_out(batch: Batch) -> Plan:
    opening = next(
        (
            rule
            for rule in batch.rules.values()
            if rule.opens_vessel and not batch.over(rule.key) and batch.span(rule.key)
        ),
        None,
    )
    when = batch.span(opening.key) if opening else None
    if opening is None or when is None:
        ticks = batch.actions.get("clean", [])
        if "bottle" in batch.actions:
            return bottled(ticks, "The wine is in bottles: no vessel to open.")
        return undated("No step that opens a vessel has a date yet.")
    name = batch.name_of(opening.key)
    plan = batch.plan(opening.key)
    if plan.holding and when.likely <= batch.now:
        return undated(f"Next before: {name[0].lower()}{name[1:]}, which waits.")
    count = batch.clock.hours_after
    early, likely, late = (count(time, -HOURS_BEFORE) for time in when)
    late = max(late, batch.now)  # it is late with the step that it is for, never by itself
    last = batch.done("clean")
    ready = last is not None and count(settled(last.at), GOOD_FOR_HOURS) >= when.earliest
    window = span(early, likely, late)
    words = f"An hour before: {name[0].lower()}{name[1:]}."
    if ready and last is not None:
        words = f"Clean; good for a day. Next needed for: {name.lower()}."
        again = count(settled(last.at), GOOD_FOR_HOURS)
        window = span(max(early, again), likely, late)
    return Plan(
        window=window,
        basis=plan.basis,
        reason=words,
        repeat_times=(window.likely,),
    )


RULE = Rule(
    number=20,
    key="clean",
    name="Clean and rinse",
    trigger="any step that opens a vessel",
    reminder="7.5 g of cleaner per litre of warm water (1 oz per gallon US), rinse, leave the lid "
    "off; gloves on, and never two cleaners together.",
    risk="Infection; pressure in a closed vessel; burnt eyes.",
    slip_class="fixed",
    slips=("A day after cleaning, clean again",),
    work_out=_work_out,
    record=(field("what", "What was cleaned"),),
    repeats=True,
)
