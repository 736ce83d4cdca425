"""Pitch the yeast: not before the sulfite has faded and the must has been read."""

from winebench.plan.batch import Batch
from winebench.plan.days import hour_words, later
from winebench.plan.outlook import Condition
from winebench.plan.steps.fruit_accepted import fruit_accepted, identity_known, unknown_fruit
from winebench.plan.steps.rule import Plan, Rule, Span, field, noted, span, waits
from winebench.plan.steps.sulfite_must import dose_mg_per_l, wait_hours
from winebench.plan.wanted import LEAST_SG, MOST_SG, STRONG_SULFITE_MG_PER_L

COOLEST, WARMEST = 18.0, 27.0
"""°C of a must that yeast goes into (common practice)."""
ENZYME_ALONE_HOURS = (8, 10, 24)
"""Earliest, likely, latest wait after the enzyme (common practice: 8 to 12 h)."""


def _work_out(batch: Batch) -> Plan:
    unknown = unknown_fruit(batch)
    if unknown is not None:
        return unknown
    window = _window(batch)
    return Plan(
        window=window,
        reason=_reason(batch, window),
        stops=(*identity_known(batch), *batch.held_by_recipe("pitch", "stop")),
        conditions=tuple(_conditions(batch)),
        reminder=_reminder(batch, window),
    )


def _reminder(batch: Batch, window: Span) -> str:
    wait = ""
    if any(_gates(batch)):
        wait = f"The wait is over {hour_words(window.earliest, batch.now)}. "
    return f"{wait}Read the gravity once more, then the starter."


def _gates(batch: Batch) -> tuple[Span | None, Span | None]:
    return (
        batch.hours_after("sulfite-must", *wait_hours(batch)),
        batch.hours_after("enzyme", *ENZYME_ALONE_HOURS),
    )


def _window(batch: Batch) -> Span:
    sulfite, enzyme = _gates(batch)
    base = batch.span("sugar-water")
    start = base.likely if base else batch.start
    early = later(start, *(gate.earliest for gate in (sulfite, enzyme) if gate)) or start
    likely = later(start, *(gate.likely for gate in (sulfite, enzyme) if gate)) or start
    late = later(
        batch.clock.hours_after(start, 24), *(gate.latest for gate in (sulfite, enzyme) if gate)
    )
    waking = batch.clock.waking(likely)
    return span(early, waking if late is None or waking <= late else likely, late)


def _conditions(batch: Batch) -> list[Condition]:
    sulfite, enzyme = _gates(batch)
    found = list(fruit_accepted(batch))
    if sulfite is not None:
        hours = wait_hours(batch)[0]
        ticked = batch.over("sulfite-must")
        met = ticked and batch.now >= sulfite.earliest
        found.append(waits(f"{hours:.0f} h since the sulfite", met))
    if enzyme is not None:
        ticked = batch.over("enzyme")
        found.append(waits("8 h since the enzyme", ticked and batch.now >= enzyme.earliest))
    found.append(_read(batch))
    found.append(_temperate(batch))
    if batch.must_reading is None:  # what the must really reads beats what the recipe says
        found += batch.held_by_recipe("pitch", "hold")
    return found


def _read(batch: Batch) -> Condition:
    seen = batch.must_reading
    sg = seen.sg if seen and batch.within(seen, 36) else None
    words = f"a gravity of the must between {LEAST_SG:.3f} and {MOST_SG:.3f}"
    if sg is None:
        return waits(f"{words} (not read yet)", False)
    return waits(f"{words} (read: {sg:.3f})", LEAST_SG <= sg <= MOST_SG, needs_change=True)


def _temperate(batch: Batch) -> Condition:
    """Return the condition that the must suits the yeast, by its last temperature or the tick's."""
    warm = next(
        (
            seen.reading.temperature
            for seen in reversed(batch.readings)
            if seen.reading.temperature and seen.at <= batch.now
        ),
        None,
    )
    suits = warm is not None and COOLEST <= warm.celsius <= WARMEST
    return noted(
        f"must at {COOLEST:.0f}–{WARMEST:.0f} °C ({f'read: {warm.text}' if warm else 'not read'})",
        "temperature",
        met=suits,
        least=COOLEST,
        below=WARMEST + 0.05,
        needs_change=warm is not None,
    )


def _reason(batch: Batch, window: Span) -> str:
    sulfite, enzyme = _gates(batch)
    if sulfite is not None and sulfite.earliest >= window.earliest:
        dose = dose_mg_per_l(batch)
        strong = f" {dose:.0f} mg/L is a strong dose." if dose > STRONG_SULFITE_MG_PER_L else ""
        hours = wait_hours(batch)[0]
        return f"{hours:.0f} h after the sulfite, so that it does not stun the yeast.{strong}"
    if enzyme is not None:
        return "The enzyme works 8 to 12 h alone before the yeast."
    return "As soon as the must is made up and read; no sulfite or enzyme to wait for."


RULE = Rule(
    number=70,
    key="pitch",
    name="Pitch the yeast",
    trigger="24 h after the sulfite and 8–12 h after the enzyme",
    reminder="Read the gravity once more, then the starter, within 8 °C of the must.",
    risk="Too early, it never starts; unread, the wine is weaker or stronger than meant.",
    slip_class="fixed",
    slips=("1 day: wild yeast starts first", "3 days: mould on the fruit"),
    work_out=_work_out,
    record=(
        field("og", "Gravity", "SG"),
        field("temperature", "Must", "°C"),
        field("starter", "Starter made at"),
    ),
    after=("sugar-water", "sulfite-must", "enzyme"),
    done_already="The yeast is in already: ticked anew, its day moves, and what follows with it.",
)
