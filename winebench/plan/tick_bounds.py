"""What is noted with a tick must not contradict its step, nor be more than the batch can take."""

from __future__ import annotations

from msgspec.structs import replace

from winebench.plan.batch import Batch
from winebench.plan.evidence import portions
from winebench.plan.outlook import Bound, RecordField
from winebench.plan.stability import LEAST_SUGAR_G_PER_L, stability
from winebench.plan.steps.stabilise import MOST_SORBIC_MG_PER_L
from winebench.plan.steps.sugar_feed import still_to_feed_g
from winebench.plan.stuck.standstill import EYE, accepted
from winebench.trade.sorbate import SORBIC_SHARE
from winebench.trade.sulfite import SO2_SHARE
from winebench.trade.sulfite_running import LIMITS_MG_PER_L

MOST_SO2_MG_PER_L = LIMITS_MG_PER_L["EU-fruit-wine"]
HARMFUL_SO2_MG_PER_L = LIMITS_MG_PER_L["US"]
"""The strictest limit for wine of other fruit, from which on a reason is asked for; and the loosest
limit for wine on sale, beyond which nothing is taken (sources beside the limits)."""
AWAY = 0.003
"""A gravity so far from the last reading is a reading of its own (common practice)."""
TO_SPARE = 1.2
"""Share of the wine reckoned above which a figure is likely a slip (common practice)."""
FEED_TO_SPARE = 1.5
"""Share of the portion due, likewise."""
_ROUNDED = 0.05
"""g, since doses are told to a tenth."""


def bounded(batch: Batch, step: str, fields: tuple[RecordField, ...]) -> tuple[RecordField, ...]:
    """Return the fields of that step's tick, each with what it may come to in this batch."""
    find = _BY_STEP.get(step)
    bounds = find(batch) if find else {}
    return tuple(replace(one, bounds=bounds.get(one.name, ())) for one in fields)


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
    found = _sulfite(litres, "sulfite")
    grams = MOST_SORBIC_MG_PER_L / 1000.0 * litres / SORBIC_SHARE
    limit = f"{MOST_SORBIC_MG_PER_L:.0f} mg/L of sorbic acid"
    found["sorbate"] = (
        Bound(
            text=f"That much sorbate is over twice the limit of {limit} ({grams:.1f} g in "
            f"{litres:.1f} L): check the amount.",
            most=2.0 * grams + _ROUNDED,
            never=True,
        ),
        Bound(text=f"no more sorbate than {grams:.1f} g ({limit})", most=grams + _ROUNDED),
    )
    return found


def _must(batch: Batch) -> _Bounds:
    litres = batch.recipe.must.liquid.value
    return _sulfite(litres, "grams") if litres else {}


def _sulfite(litres: float, weighed: str) -> _Bounds:
    """Return the bounds of sulfite in mg/L, and in grams of potassium metabisulfite."""
    per_mg = litres / 1000.0 / SO2_SHARE["potassium"]
    return {
        name: (
            Bound(
                text=f"That much sulfite is over {HARMFUL_SO2_MG_PER_L:.0f} mg/L in {litres:.1f} L"
                ", which can harm who drinks it: check the amount.",
                most=HARMFUL_SO2_MG_PER_L * share + spare,
                never=True,
            ),
            Bound(
                text=f"no more sulfite than {MOST_SO2_MG_PER_L:.0f} mg/L "
                f"({MOST_SO2_MG_PER_L * per_mg:.1f} g in {litres:.1f} L)",
                most=MOST_SO2_MG_PER_L * share + spare,
            ),
        )
        for name, share, spare in (("mg-per-l", 1.0, 0.0), (weighed, per_mg, _ROUNDED))
    }


def _feed(batch: Batch) -> _Bounds:
    left = still_to_feed_g(batch)
    if not left:
        return {}
    due = left / portions(batch, left)
    return {
        "grams": (
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
}
