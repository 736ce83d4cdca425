"""Bottle: only what cannot ferment again."""

from datetime import datetime

from winebench.plan.batch import Batch
from winebench.plan.days import later
from winebench.plan.dose_bounds import harm_in_all
from winebench.plan.doses_given import sulfite_given
from winebench.plan.outlook import Condition, NamedFigure
from winebench.plan.readings import LARGEST_RISE
from winebench.plan.steps.fine import DAYS_TO_SETTLE
from winebench.plan.steps.hold import DAYS as REST_DAYS
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
from winebench.plan.steps.stabilise import (
    LEAST_SULFITE,
    not_before_stable,
    sorbate_in,
    stable,
    sulfite_known,
)
from winebench.plan.steps.sweeten import sugar_went_in
from winebench.plan.stuck.standstill import accepted, not_stuck
from winebench.plan.sugar_left import pressure_if_bottled, pressure_words

NEXT_SESSION_DAYS = 14
"""Within so long what was left over is bottled too, on a day or a weekend after (common practice).
"""
MANY = 4
"""So many conditions missing is no list to read: the wine is simply not there yet."""


def _work_out(batch: Batch) -> Plan:
    safe = stops(batch)
    conditions = (_sulfite(batch), *_too_much(batch), *_settled(batch), not_stuck(batch))
    window = _window(batch)
    held = not all(condition.met for condition in safe)
    pressure = pressure_words(batch) if held else ""
    if any(condition.needs_change for condition in safe) and softened(batch):
        words = f"{no_sorbate_words(batch)} {pressure}".strip()
        return Plan(basis="none", reason=words, stops=safe, conditions=conditions)
    missing = [c.text for c in batch.stability.conditions if not c.met]
    first = "Once stable and stabilised; later is always safe."
    if window is None:
        first = "It follows a stable wine, which has no date yet."
    if _unticked_sugar(batch):
        first = "The gravity has risen since it was found stable: tick what went in. The bottles "
        first += f"wait {REST_DAYS} days from there, and for sorbate where it was sugar."
    if batch.last is not None and 0 < len(missing) < MANY:
        first = "Held until stable: " + "; ".join(missing) + "."
    elif last_change(batch) is not None and held:
        unmet = (condition.text for condition in safe if not condition.met)
        first = "Held until: " + "; ".join(unmet) + "."
    return Plan(
        window=window,
        basis=batch.plan("declare-stable").basis if window else "none",
        reason=f"{first} {pressure}".strip(),
        stops=safe,
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


def _too_much(batch: Batch) -> tuple[Condition, ...]:
    """Return that sulfite far beyond the limits is measured first."""
    words = harm_in_all(sulfite_given(batch.project, batch.recipe))
    return (waits(words, False, needs_change=True),) if words else ()


def _figures(batch: Batch, *, held: bool) -> tuple[NamedFigure, ...]:
    wine = (named("Wine to bottle", batch.recipe.bottles.finished),)
    pressure = pressure_if_bottled(batch) if held else None
    return (*wine, named("Pressure if bottled now", pressure)) if pressure else wine


def stops(batch: Batch) -> tuple[Condition, ...]:
    """Return what has to be met before it is bottled, and what no typed reason opens."""
    found = [stable(batch)]
    found += list(quiet(batch))
    if batch.sweet or "sweeten" in batch.actions:
        found += _with_sorbate(batch) if batch.sweet or sugar_went_in(batch) else ()
    elif accepted(batch) is not None:
        found += _with_sorbate(batch)
    elif _unticked_sugar(batch):
        found.append(waits("the sweetening ticked, since the gravity has risen", False))
    return tuple(found)


def _with_sorbate(batch: Batch) -> tuple[Condition, ...]:
    return (
        sorbate_in(batch),
        sorbate_allowed(batch),
    )


def _unticked_sugar(batch: Batch) -> bool:
    """Return whether sugar seems to have gone into a dry wine since it was found stable."""
    if batch.sweet or "sweeten" in batch.actions or accepted(batch) is not None:
        return False
    run, last = batch.stability.run, batch.last_sg
    return bool(run) and last is not None and last > (run[-1].sg or last) + LARGEST_RISE


def _window(batch: Batch) -> Span | None:
    base = batch.days_after("hold", 0, 1, 28) or batch.days_after("stabilise", 1, 7, 56)
    base = base or batch.days_after("declare-stable", 1, 7, 56)
    # What was ticked before its time hastens nothing: each step still to come counts as well.
    for key, days in (("stabilise", (1, 1, 1)), ("sweeten", (REST_DAYS,) * 3)):
        coming = None if key in batch.actions else batch.days_after(key, *days)
        base = Span(*map(max, base, coming)) if base and coming else base
    base = not_before_stable(batch, base) if base else None
    if base is None:
        return None
    safe = later(rest_over(batch), _risen_over(batch), _fining_over(batch))
    if safe is not None:
        base = not_before(safe, base)
    # The cold is no gate, its crystals are harmless; but who means to wait bottles after it.
    cold = None if batch.over("cold-hold") else batch.span("cold-hold")
    likely = later(base.likely, cold.likely if cold else None) or base.likely
    return span(base.earliest, batch.free_of_away(batch.clock.waking(likely)), base.latest)


def _risen_over(batch: Batch) -> datetime | None:
    """Return when a wine will have rested whose gravity rose with no sweetening ticked."""
    if not _unticked_sugar(batch) or batch.last is None:
        return None
    return batch.clock.days_after(batch.last.at, REST_DAYS)


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
    done_already="It is in bottles already: ticked anew, its day moves, and what follows with it.",
    goes_on_days=NEXT_SESSION_DAYS,
)
