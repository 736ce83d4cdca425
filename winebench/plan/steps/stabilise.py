"""Stabilise: sulfite by pH, and sorbate where the wine is to be sweet."""

from winebench.plan.batch import Batch
from winebench.plan.outlook import Condition
from winebench.plan.stability import not_stuck, stability
from winebench.plan.steps.malolactic import softened
from winebench.plan.steps.rule import Plan, Rule, field, undated, waits
from winebench.trade.sulfite import free_so2_for_molecular, metabisulfite_g

HIGHEST_PH = 3.8
MOST_FREE_MG_PER_L = 50.0


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
    conditions = (stable(batch), *_chemistry(batch), not_stuck(batch))
    if window is None:
        return undated("It follows a stable wine, which has no date yet.", *conditions)
    return Plan(
        window=window._replace(likely=min(batch.free_of_away(window.likely), window.latest)),
        basis=batch.plan("declare-stable").basis,
        reason="Within two weeks of stable, so that it does not stand unprotected.",
        conditions=conditions,
        reminder=_reminder(batch),
    )


def _chemistry(batch: Batch) -> tuple[Condition, ...]:
    ph = latest_ph(batch)
    found = []
    if ph is not None:
        found.append(waits(f"pH below {HIGHEST_PH} (read: {ph:g})", ph < HIGHEST_PH))
    if batch.sweet or batch.line("potassium-sorbate") is not None:
        found.append(
            waits("no malolactic fermentation, since sorbate follows", not softened(batch))
        )
    return tuple(found)


def _reminder(batch: Batch) -> str:
    sorbate = " Sorbate goes in with it, never alone." if batch.sweet else ""
    litres = batch.recipe.bottles.finished.value
    ph = latest_ph(batch)
    if ph is None or not litres:
        return f"Measure the pH first: it says how much sulfite protects.{sorbate}"
    wanted = free_so2_for_molecular(batch.style.sulfite_molecular, ph)
    free = min(wanted, MOST_FREE_MG_PER_L)
    grams = metabisulfite_g(free, litres, "potassium")
    return (
        f"At pH {ph:g} you want {free:.0f} mg/L free: weigh {grams:.1f} g of potassium "
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
)
