"""What is noted with a tick must not contradict its step, nor be more than the batch can take."""

from __future__ import annotations

from msgspec.structs import replace

from winebench.catalog.additives import additives
from winebench.plan.batch import Batch
from winebench.plan.dose_bounds import (
    ROUNDED,
    free_bounds,
    sorbate_bounds,
    sulfite_bounds,
    usual_bounds,
)
from winebench.plan.doses_given import SULFITE, Given, sorbate_given, sulfite_given
from winebench.plan.evidence import most_feed_g, portions
from winebench.plan.malolactic_choice import softening
from winebench.plan.outlook import Bound, RecordField
from winebench.plan.record_values import weighed_key
from winebench.plan.stability import stability
from winebench.plan.steps.sugar_feed import still_to_feed_g
from winebench.plan.stuck.standstill import EYE, accepted
from winebench.plan.sugar_by_fall import LEAST_SUGAR_G_PER_L
from winebench.units.readings import HIGHEST_SG

AWAY = 0.003
"""A gravity so far from the last reading is a reading of its own (common practice)."""
TO_SPARE = 1.2
"""Share of the wine reckoned above which a figure is likely a slip (common practice)."""
FEED_TO_SPARE = 1.5
"""Share of the portion due, likewise."""


def bounded(batch: Batch, step: str, fields: tuple[RecordField, ...]) -> tuple[RecordField, ...]:
    """Return the fields of that step's tick, each with what it may come to in this batch."""
    find = _BY_STEP.get(step)
    bounds = find(batch) if find else {}
    litres = batch.recipe.must.liquid.value
    return tuple(
        replace(one, bounds=bounds.get(one.name) or usual_bounds(one.of, litres)) for one in fields
    )


_Bounds = dict[str, tuple[Bound, ...]]


def _stable(batch: Batch) -> _Bounds:
    found = _gravity(batch)
    if accepted(batch) is None:
        words = f"More than {LEAST_SUGAR_G_PER_L:g} g/L of sugar left is not dry: it can ferment "
        words += "again, so do not tick it off; let it ferment on, or leave it sweet and stabilise."
        found["sugar"] = (Bound(text=words, most=LEAST_SUGAR_G_PER_L, never=True),)
    return found


def _gravity(batch: Batch) -> _Bounds:
    """Return that a gravity agrees with the last reading, and with the end of a dry wine."""
    bounds = []
    changed = batch.sweet or "sweeten" in batch.actions or stability(batch).above_end
    if not changed:
        end = accepted(batch) or batch.highest_end
        words = f"A gravity above {end:.3f}, the highest end of this wine, can ferment again: "
        words += "log it as a reading and wait."
        bounds.append(Bound(text=words, most=end + EYE, never=True))
    last = batch.last_sg
    if last is not None:
        words = f"That gravity is not the {last:.3f} read last: log it as a reading first."
        low, high = last - AWAY + 1e-6, last + AWAY - 1e-6
        bounds.append(Bound(text=words, least=low, most=high, never=True))
    return {"gravity": tuple(bounds)}


def _bottles(batch: Batch) -> _Bounds:
    found = _gravity(batch)
    holds, litres = batch.recipe.bottles.bottles, batch.recipe.bottles.finished.value
    if litres:
        words = f"no more wine than the {litres:.1f} L there is to bottle"
        found["litres"] = (Bound(text=words, most=TO_SPARE * litres),)
        words = f"no more bottles than the {holds} that the wine fills"
        found["count"] = (Bound(text=words, most=max(TO_SPARE * holds, holds + 1)),)
    return found


def _stabilising(batch: Batch) -> _Bounds:
    litres = batch.recipe.bottles.finished.value
    if not litres:
        return {}
    found = _sulfite(batch, litres, "sulfite")
    given = sorbate_given(batch.project, batch.recipe)
    found["sorbate"] = sorbate_bounds(given, litres, softened=softening(batch.project))
    return found


def _must(batch: Batch) -> _Bounds:
    litres = batch.recipe.must.liquid.value
    return _sulfite(batch, litres, "grams") if litres else {}


def _sulfite(batch: Batch, litres: float, weighed: str) -> _Bounds:
    """Return the bounds of sulfite in mg/L, and in grams of what the recipe's own is, else of
    potassium metabisulfite."""
    given = sulfite_given(batch.project, batch.recipe)
    free = _free_since(batch, given)
    share = additives()[weighed_key(SULFITE, batch.project)].so2_share
    per_g = share * 1000.0 / litres
    return {
        name: (
            *sulfite_bounds(given, litres, per, spare, share=share),
            *(free_bounds(free, per, spare) if free else ()),
        )
        for name, per, spare in (("mg-per-l", 1.0, 0.0), (weighed, per_g, ROUNDED))
    }


def _free_since(batch: Batch, given: tuple[Given, ...]) -> Given | None:
    """Return the free sulfite read last, where none was given since."""
    read = [seen for seen in batch.readings if seen.reading.free_so2_mg_per_l is not None]
    if not read or (given and read[-1].at < given[-1].at):
        return None
    return Given(read[-1].at, read[-1].reading.free_so2_mg_per_l or 0.0)


def _sugar(batch: Batch) -> _Bounds:
    words = f"That much sugar would bring the must above {HIGHEST_SG:.3f}, the most that can be "
    words += "read: check the amount and its unit."
    return {"grams": (Bound(text=words, most=most_feed_g(batch), never=True),)}


def _feed(batch: Batch) -> _Bounds:
    left, found = still_to_feed_g(batch), _sugar(batch)
    if not left:
        return found
    due = left / portions(batch, left)
    return {
        "grams": (
            *found["grams"],
            Bound(text="some sugar fed: 0 g is no feed", least=0.1),
            Bound(text=f"no more sugar than the {due:.0f} g due now", most=FEED_TO_SPARE * due),
        )
    }


_BY_STEP = {
    "declare-stable": _stable,
    "bottle": _bottles,
    "stabilise": _stabilising,
    "sulfite-must": _must,
    "sugar-feed": _feed,
    "sugar-added": _sugar,
}
