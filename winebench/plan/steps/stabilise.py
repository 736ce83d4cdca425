"""Stabilise: sulfite by pH, and sorbate where the wine is to be sweet."""

from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.dose_bounds import MOST_FREE_MG_PER_L
from winebench.plan.doses_given import own_so2, sorbate_given
from winebench.plan.figures import by_rule
from winebench.plan.outlook import Condition, Figure, NamedFigure
from winebench.plan.record_values import value_of
from winebench.plan.steps.malolactic import no_sorbate_words, softened
from winebench.plan.steps.noting import noted_with, written
from winebench.plan.steps.rule import Plan, Rule, Span, field, named, noted, undated, waits
from winebench.plan.stuck.standstill import keeps_sugar, not_stuck
from winebench.trade.sorbate import SORBIC_SHARE

HELD_FROM_PH = 3.8
"""From here on sulfite protects too little: acid first (common practice)."""
LEAST_PH_OF_WINE, MOST_PH_OF_WINE = 2.6, 4.5
"""Outside this it is no pH of a wine (common practice)."""
PH_NOTED = ("malolactic", "stabilise", "sweeten")
"""Steps whose ticks have a pH written down with them."""
SULFITE_NOTED = {"mg-per-l": "mg/L", "sulfite": "g or tablets"}
"""What sulfite is noted under, and in which unit."""
METABISULFITE = "potassium-metabisulfite"
LEAST_SULFITE = 0.01
"""Above nothing, in whichever unit."""
STRONGEST_OF_TABLES = 14.0
"""% vol, where the tables of sorbate end."""
LEAST_SORBATE = 0.7
"""Share of the sorbate asked for that counts as sorbated (common practice: a scoop is no scale)."""
SULFITE, SORBATE = "Potassium metabisulfite", "Potassium sorbate"


def stable(batch: Batch) -> Condition:
    """Return the condition that the wine is declared, and is, dry and stable."""
    return waits(
        "the wine declared dry and stable",
        "declare-stable" in batch.actions and batch.stability.met,
        step="declare-stable",
    )


def not_before_stable(batch: Batch, window: Span) -> Span | None:
    """Return the window of what waits for a stable wine; None where that has no honest date.

    What was stabilised, sweetened or declared before its time hastens nothing.
    """
    if stable(batch).met:
        return window
    found = batch.plan("declare-stable").window
    return Span(*map(max, window, found)) if found else None


def latest_ph(batch: Batch) -> float | None:
    """Return the newest pH in the log, read by itself or written down with a tick, or None."""
    found = [(seen.at, seen.reading.ph) for seen in batch.readings if seen.reading.ph is not None]
    for key in PH_NOTED:
        for tick in batch.actions.get(key, ()):
            ph = value_of(noted_with(tick, "ph"), "", batch.project, name="ph")
            if ph is not None and LEAST_PH_OF_WINE <= ph <= MOST_PH_OF_WINE:
                found.append((settled(tick.at), ph))
    return max(found, key=lambda one: one[0])[1] if found else None


def sulfite_known(batch: Batch) -> bool:
    """Return whether somebody noted how much sulfite the stabilised wine holds.

    As what went in, as free sulfite read since, or as none, with the reason why.
    """
    tick = batch.done("stabilise")
    if tick is None:
        return False
    litres = batch.recipe.bottles.finished.value
    ticks = batch.actions["stabilise"]
    noted_so = (
        value_of(noted_with(one, name), unit, batch.project, METABISULFITE, litres)
        for one in ticks
        for name, unit in SULFITE_NOTED.items()
    )
    by_key = (own_so2(batch.project, one.records, litres or 1.0) for one in ticks)
    read = (s.reading.free_so2_mg_per_l for s in batch.readings if s.at >= settled(tick.at))
    return (
        any(noted_so) or any(by_key) or bool(tick.override) or any(one is not None for one in read)
    )


def sorbate_in(batch: Batch) -> Condition:
    """Return the condition that enough sorbate went in for a wine with sugar in it."""
    words = "sorbate in, since it is sweet"
    if "stabilise" not in batch.actions:
        return waits(words, False)
    text, grams = written(batch, "stabilise", "sorbate"), _sorbate_g(batch)
    asked = sorbate_asked(batch)
    least = LEAST_SORBATE * (asked.value or 0.0) if asked else 0.0
    if asked and grams < least:
        noted_so = f"noted: {text}" if text else "none is noted"
        if grams > 0:
            noted_so = f"noted: {grams:.1f} g in all"
        words += f" ({least:.1f} g at the least of the {asked.text} g asked for; {noted_so})"
    return waits(words, grams > 0 and grams >= least, needs_change=True)


def _sorbate_g(batch: Batch) -> float:
    """Return the potassium sorbate given in all since it was found stable, g."""
    litres = batch.recipe.bottles.finished.value
    since = settled(batch.actions["stabilise"][0].at)
    given = [one for one in sorbate_given(batch.project, batch.recipe) if one.at >= since]
    return sum(one.mg_per_l for one in given) * (litres or 0.0) / (1000.0 * SORBIC_SHARE)


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
    words = f"pH below {HELD_FROM_PH} ({'not read yet' if ph is None else f'read: {ph:g}'})"
    met = ph is not None and ph < HELD_FROM_PH
    found = [
        # What is typed with the tick is the newest pH, whatever was read before.
        noted(
            words,
            "ph",
            met=met,
            least=LEAST_PH_OF_WINE,
            below=HELD_FROM_PH,
            needs_change=ph is not None,
        ),
        noted(
            "the sulfite noted: mg/L, g or tablets",
            *SULFITE_NOTED,
            *(key for key, one in additives().items() if one.so2_share),
            least=LEAST_SULFITE,
        ),
    ]
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
    sorbic: Figure | None = None
    """mg/L; None for a wine that stays dry, as the sorbate."""
    sorbate: Figure | None = None
    """g of potassium sorbate; None for a wine that stays dry."""


def _doses(batch: Batch) -> Doses:
    litres = batch.recipe.bottles.finished.value
    if not litres:
        return Doses()
    litres, ph = round(litres, 1), latest_ph(batch)
    sorbate = sorbate_asked(batch) if keeps_sugar(batch) and not softened(batch) else None
    sorbic = _sorbic_wanted(batch) if sorbate else None
    if ph is None:
        return Doses(sorbic=sorbic, sorbate=sorbate)
    molecular = batch.style.sulfite_molecular
    free = by_rule("free-so2", "mg/L", 0, molecular=molecular, ph=ph)
    wanted = min(free.value or 0.0, MOST_FREE_MG_PER_L)
    grams = by_rule("metabisulfite", "g", 1, so2_mg_per_l=round(wanted, 1), litres=litres,
                    salt="potassium")  # fmt: skip
    return Doses(free, grams, sorbic, sorbate)


def sorbate_asked(batch: Batch) -> Figure | None:
    """Return the sorbate for the wine there is to bottle, g; None where there is none."""
    litres = batch.recipe.bottles.finished.value
    wanted = _sorbic_wanted(batch).value
    if not litres or wanted is None:
        return None
    return by_rule("potassium-sorbate", "g", 1, sorbic_mg_per_l=round(wanted, 0),
                   litres=round(litres, 1))  # fmt: skip


def _sorbic_wanted(batch: Batch) -> Figure:
    """Return the sorbic acid by strength, and by pH where a table has it, mg/L.

    A wine stronger than the tables wants no more than their strongest; of a weaker one they say
    nothing, and it gets what the limit allows.
    """
    ph, abv = latest_ph(batch), round(batch.must.strength.value or 0.0, 1)
    abv = min(abv, STRONGEST_OF_TABLES)
    found = by_rule("sorbic-dose-by-ph", "mg/L", 0, abv=abv, ph=ph) if ph else None
    if found is None or found.value is None:
        found = by_rule("sorbic-dose", "mg/L", 0, abv=abv)
    if found.value is None:
        found = by_rule("sorbic-left-to-limit", "mg/L", 0, sorbic_mg_per_l=0.0, limit="OIV")
    return found


def _figures(doses: Doses) -> tuple[NamedFigure, ...]:
    names = ("Free sulfite wanted", SULFITE, "Sorbic acid wanted", SORBATE)
    return tuple(named(name, dose) for name, dose in zip(names, doses, strict=True) if dose)


def _reminder(batch: Batch, doses: Doses) -> str:
    litres, ph = batch.recipe.bottles.finished.value, latest_ph(batch)
    sorbate = " Sorbate goes in with it, never alone." if keeps_sugar(batch) else ""
    if sorbate and softened(batch):
        sorbate = f" {no_sorbate_words(batch)}"
    if doses.sorbate and doses.sorbate.value:
        sorbate = f" Sorbate goes in with it, never alone: {doses.sorbate.text} g."
    if ph is None or not litres or doses.free_so2 is None or doses.sulfite is None:
        return f"Measure the pH first: it says how much sulfite protects.{sorbate}"
    free = doses.free_so2.value or 0.0
    wants = f"At pH {ph:g} you want {free:.0f} mg/L free"
    if free > MOST_FREE_MG_PER_L:
        wants += (
            f", and more than {MOST_FREE_MG_PER_L:.0f} is tasted: add acid first, and measure the "
            f"pH again. For {MOST_FREE_MG_PER_L:.0f} mg/L"
        )
    return (
        f"{wants}: weigh {doses.sulfite.text} g of potassium "
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
        field("mg-per-l", "Sulfite", SULFITE_NOTED["mg-per-l"], of=METABISULFITE),
        field(
            "sulfite",
            "Sulfite weighed or counted",
            SULFITE_NOTED["sulfite"],
            of=METABISULFITE,
        ),
        field("sorbate", "Sorbate", "g", of="potassium-sorbate"),
        field("ph", "pH"),
    ),
    after=("declare-stable",),
    passed_by=("bottle",),
    opens_vessel=True,
    needs_ferment=True,
)
