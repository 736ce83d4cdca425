"""Bottle: only what cannot ferment again."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.outlook import Condition, NamedFigure
from winebench.plan.readings import LARGEST_RISE
from winebench.plan.steps.fine import DAYS_TO_SETTLE
from winebench.plan.steps.hold import last_change, quiet, rest_over
from winebench.plan.steps.malolactic import no_sorbate_words, softened, sorbate_allowed
from winebench.plan.steps.rule import (
    Plan,
    Rule,
    Span,
    field,
    named,
    not_before,
    noted,
    span,
    waits,
)
from winebench.plan.steps.stabilise import LEAST_SULFITE, sorbate_in, stable, sulfite_known
from winebench.plan.steps.sweeten import sugar_went_in
from winebench.plan.stuck.standstill import accepted, not_stuck
from winebench.plan.sugar_left import pressure_if_bottled, pressure_words

MANY = 4
"""So many conditions missing is no list to read: the wine is simply not there yet."""


def _work_out(batch: Batch) -> Plan:
    stops = _stops(batch)
    conditions = (_sulfite(batch), *_settled(batch), not_stuck(batch))
    window = _window(batch)
    held = not all(condition.met for condition in stops)
    pressure = pressure_words(batch) if held else ""
    if any(condition.needs_change for condition in stops) and softened(batch):
        words = f"{no_sorbate_words(batch)} {pressure}".strip()
        return Plan(basis="none", reason=words, stops=stops, conditions=conditions)
    missing = [c.text for c in batch.stability.conditions if not c.met]
    first = "Once stable and stabilised; later is always safe."
    if window is None:
        first = "It follows a stable wine, which has no date yet."
    if batch.last is not None and 0 < len(missing) < MANY:
        first = "Held until stable: " + "; ".join(missing) + "."
    elif last_change(batch) is not None and held:
        unmet = (condition.text for condition in stops if not condition.met)
        first = "Held until: " + "; ".join(unmet) + "."
    return Plan(
        window=window,
        basis=batch.plan("declare-stable").basis if window else "none",
        reason=f"{first} {pressure}".strip(),
        stops=stops,
        conditions=conditions,
        reminder=batch.recipe.bottles.sentence + " Two fingers of air under the cork.",
        figures=_figures(batch, held=held),
    )


def _settled(batch: Batch) -> tuple[Condition, ...]:
    """Return the condition that what fined it has settled."""
    over = _fining_over(batch)
    return () if over is None else (waits("two weeks since the fining", batch.now >= over),)


def _fining_over(batch: Batch) -> datetime | None:
    fined = batch.last_time("fine")
    return batch.clock.days_after(fined, DAYS_TO_SETTLE) if fined else None


def _sulfite(batch: Batch) -> Condition:
    if "stabilise" not in batch.actions:
        return waits("the stabilising, so that the sulfite is known", False)
    words = "the sulfite known: note how much went in with the stabilising, or what is free now"
    return noted(words, "mg-per-l", met=sulfite_known(batch), least=LEAST_SULFITE)


def _figures(batch: Batch, *, held: bool) -> tuple[NamedFigure, ...]:
    wine = (named("Wine to bottle", batch.recipe.bottles.finished),)
    pressure = pressure_if_bottled(batch) if held else None
    return (*wine, named("Pressure if bottled now", pressure)) if pressure else wine


def _stops(batch: Batch) -> tuple[Condition, ...]:
    found = [stable(batch)]
    found += list(quiet(batch))
    if batch.sweet or "sweeten" in batch.actions:
        found += _with_sorbate(batch) if batch.sweet or sugar_went_in(batch) else ()
    elif accepted(batch) is not None:
        found += _with_sorbate(batch)
    elif _risen(batch):
        found.append(waits("the sweetening ticked, since the gravity has risen", False))
    return tuple(found)


def _with_sorbate(batch: Batch) -> tuple[Condition, ...]:
    return (
        sorbate_in(batch),
        sorbate_allowed(batch),
    )


def _risen(batch: Batch) -> bool:
    """Return whether sugar seems to have gone in since it was found stable."""
    run, last = batch.stability.run, batch.last_sg
    return bool(run) and last is not None and last > (run[-1].sg or last) + LARGEST_RISE


def _window(batch: Batch) -> Span | None:
    base = batch.days_after("hold", 0, 1, 28) or batch.days_after("stabilise", 1, 7, 56)
    base = base or batch.days_after("declare-stable", 1, 7, 56)
    if base is None:
        return None
    safe = later(_safe_from(batch), _fining_over(batch))
    if safe is not None:
        base = not_before(safe, base)
    # The cold is no gate, its crystals are harmless; but who means to wait bottles after it.
    cold = None if batch.over("cold-hold") else batch.span("cold-hold")
    likely = later(base.likely, cold.likely if cold else None) or base.likely
    return span(base.earliest, batch.free_of_away(batch.clock.waking(likely)), base.latest)


def _safe_from(batch: Batch) -> datetime | None:
    """Return when a wine that fell again, after it was declared or sweetened, can be safe."""
    again = batch.span("declare-stable") if "declare-stable" in batch.earlier else None
    return later(again.earliest if again else None, rest_over(batch))


RULE = Rule(
    number=290,
    key="bottle",
    name="Bottle",
    trigger="stable and stabilised; sweetened wine a week later",
    reminder="Two fingers of air under the cork.",
    risk="Too early, bottles burst; far too late, tired wine.",
    slip_class="later",
    slips=("Later is always safe: in a full jug, for months",),
    work_out=_work_out,
    record=(
        field("count", "Bottles"),
        field("litres", "Wine", "L"),
        field("gravity", "Gravity", "SG"),
        field("mg-per-l", "Free sulfite", "mg/L"),
        field("place", "Where they lie"),
    ),
    after=("declare-stable", "stabilise"),
    opens_vessel=True,
    needs_ferment=True,
)
