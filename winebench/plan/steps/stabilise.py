"""Stabilise: sulfite by pH, and sorbate where the wine is to be sweet."""

from typing import NamedTuple

from winebench.plan.batch import Batch
from winebench.plan.figures import by_rule
from winebench.plan.outlook import Condition, Figure, NamedFigure
from winebench.plan.stability import stability
from winebench.plan.steps.malolactic import softened
from winebench.plan.steps.rule import Plan, Rule, field, named, undated, waits
from winebench.plan.stuck.standstill import keeps_sugar, not_stuck

HIGHEST_PH = 3.8
MOST_FREE_MG_PER_L = 50.0
MOST_SORBIC_MG_PER_L = 200.0
"""The limit of OIV and EU, below that of the US."""
SULFITE, SORBATE = "Potassium metabisulfite", "Potassium sorbate"


def stable(batch: Batch) -> Condition:
    """Return the condition that the wine is declared, and is, dry and stable."""
    return waits(
        "declared dry and stable", "declare-stable" in batch.actions and stability(batch).met
    )


def latest_ph(batch: Batch) -> float | None:
    """Return the newest pH in the log, or None."""
    found = [seen.reading.ph for seen in batch.readings if seen.reading.ph is not None]
    return found[-1] if found else None


def _work_out(batch: Batch) -> Plan:
    window = batch.days_after("declare-stable", 0, 1, 14)
    doses = _doses(batch)
    conditions = (stable(batch), *_chemistry(batch), not_stuck(batch))
    if window is None:
        return undated("It follows a stable wine, which has no date yet.", *conditions)
    return Plan(
        window=window._replace(likely=min(batch.free_of_away(window.likely), window.latest)),
        basis=batch.plan("declare-stable").basis,
        reason="Within two weeks of stable, so that it does not stand unprotected.",
        conditions=conditions,
        reminder=_reminder(batch, doses),
        figures=_figures(doses),
    )


def _chemistry(batch: Batch) -> tuple[Condition, ...]:
    ph = latest_ph(batch)
    found = []
    if ph is not None:
        found.append(waits(f"pH below {HIGHEST_PH} (read: {ph:g})", ph < HIGHEST_PH))
    if keeps_sugar(batch) or batch.line("potassium-sorbate") is not None:
        found.append(
            waits("no malolactic fermentation, since sorbate follows", not softened(batch))
        )
    return tuple(found)


class Doses(NamedTuple):
    """What protects the wine, each worked out for the wine there is to bottle."""

    free_so2: Figure | None = None
    """mg/L; None while the pH is not known."""
    sulfite: Figure | None = None
    sorbate: Figure | None = None
    """g of potassium sorbate; None for a wine that stays dry."""


def _doses(batch: Batch) -> Doses:
    litres = batch.recipe.bottles.finished.value
    if not litres:
        return Doses()
    litres, ph = round(litres, 1), latest_ph(batch)
    sorbate = _sorbate(batch, litres, ph) if keeps_sugar(batch) else None
    if ph is None:
        return Doses(sorbate=sorbate)
    molecular = batch.style.sulfite_molecular
    free = by_rule("free-so2", "mg/L", 0, molecular=molecular, ph=ph)
    wanted = min(free.value or 0.0, MOST_FREE_MG_PER_L)
    grams = by_rule("metabisulfite", "g", 1, so2_mg_per_l=round(wanted, 1), litres=litres,
                    salt="potassium")  # fmt: skip
    return Doses(free, grams, sorbate)


def _sorbate(batch: Batch, litres: float, ph: float | None) -> Figure:
    """Return the sorbate by strength, and by pH where a table has it; never over the limit."""
    abv = round(batch.recipe.must.strength.value or 0.0, 1)
    acid = by_rule("sorbic-dose-by-ph", "mg/L", 0, abv=abv, ph=ph) if ph else None
    if acid is None or acid.value is None:
        acid = by_rule("sorbic-dose", "mg/L", 0, abv=abv)
    milligrams = round(min(acid.value or MOST_SORBIC_MG_PER_L, MOST_SORBIC_MG_PER_L), 0)
    return by_rule("potassium-sorbate", "g", 1, sorbic_mg_per_l=milligrams, litres=litres)


def _figures(doses: Doses) -> tuple[NamedFigure, ...]:
    names = ("Free sulfite wanted", SULFITE, SORBATE)
    return tuple(named(name, dose) for name, dose in zip(names, doses, strict=True) if dose)


def _reminder(batch: Batch, doses: Doses) -> str:
    litres, ph = batch.recipe.bottles.finished.value, latest_ph(batch)
    sorbate = " Sorbate goes in with it, never alone." if keeps_sugar(batch) else ""
    if doses.sorbate and doses.sorbate.value:
        sorbate = f" Sorbate goes in with it, never alone: {doses.sorbate.text} g."
    if ph is None or not litres or doses.free_so2 is None or doses.sulfite is None:
        return f"Measure the pH first: it says how much sulfite protects.{sorbate}"
    free = min(doses.free_so2.value or 0.0, MOST_FREE_MG_PER_L)
    return (
        f"At pH {ph:g} you want {free:.0f} mg/L free: weigh {doses.sulfite.text} g of potassium "
        f"metabisulfite for {litres:.1f} L, less what is in it already.{sorbate}"
    )


RULE = Rule(
    number=260,
    key="stabilise",
    name="Stabilise",
    trigger="declared dry and stable",
    reminder="Sulfite by the pH; sorbate only with it. Window open; not for people with asthma.",
    risk="Brown wine; a sweetened one ferments again.",
    slip_class="little",
    slips=("7 days: fine", "2 months: it browns"),
    work_out=_work_out,
    record=(
        field("mg-per-l", "Sulfite", "mg/L"),
        field("sorbate", "Sorbate", "g"),
        field("ph", "pH"),
    ),
    after=("declare-stable",),
    passed_by=("bottle",),
    opens_vessel=True,
    needs_ferment=True,
)
