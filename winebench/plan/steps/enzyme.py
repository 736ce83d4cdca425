"""Pectic enzyme, once the sulfite has faded."""

from winebench.plan.batch import Batch
from winebench.plan.steps.fruit_accepted import unknown_fruit
from winebench.plan.steps.rule import Plan, Rule, Span, field, not_here, span, waits

HOTTEST_MUST_CELSIUS = 35.0
"""A hotter must kills the enzyme (common practice)."""


def _work_out(batch: Batch) -> Plan:
    unknown = unknown_fruit(batch)
    if unknown is not None:
        return unknown
    if batch.line("pectic-enzyme") is None:
        return not_here("No enzyme on the recipe.")
    wait = _wait(batch)
    base = batch.span("sugar-water")
    start = base.likely if base else batch.start
    window = wait or span(start, start, batch.clock.hours_after(start, 12))
    seen = batch.must_reading
    warm = seen.reading.temperature if seen and batch.pitched is None else None
    cool = waits(
        f"must below {HOTTEST_MUST_CELSIUS:.0f} °C",
        warm is None or warm.celsius < HOTTEST_MUST_CELSIUS,
        needs_change=True,
    )
    gate = (waits("8 h since the sulfite", batch.now >= wait.earliest),) if wait else ()
    return Plan(
        window=window,
        reason="Best 12 h after the sulfite, which would spoil it; 8 h at the least."
        if wait
        else "With the must: there is no sulfite to wait for.",
        conditions=(*gate, cool),
        reminder=f"{batch.dose('pectic-enzyme')} of enzyme now; is the must below 35 °C?",
    )


def _wait(batch: Batch) -> Span | None:
    """Return the window after the sulfite, out of the night where that can be."""
    wait = batch.hours_after("sulfite-must", 8, 12, 24)
    if wait is None:
        return None
    waking = batch.clock.waking(wait.likely)
    return wait._replace(likely=waking) if waking <= wait.latest else wait


RULE = Rule(
    number=60,
    key="enzyme",
    name="Pectic enzyme",
    trigger="12 h after the sulfite, or with the must where there is none",
    reminder="Enzyme now; is the must below 35 °C?",
    risk="Haze that will not clear, and less juice.",
    slip_class="little",
    slips=("12 h: the yeast waits with it", "after the yeast: works still, but slower"),
    work_out=_work_out,
    record=(field("grams", "Enzyme", "g", of="pectic-enzyme"), field("temperature", "Must", "°C")),
    after=("sugar-water", "sulfite-must"),
    passed_by=("pitch",),
)
