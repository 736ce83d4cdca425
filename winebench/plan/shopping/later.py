"""What goes in after the ferment, and when: sulfite, sorbate, the sugar that sweetens, a fining.

It is bought with the rest, yet how much of it depends on what the wine reads by then. What the
pantry and the rest of the list leave over counts for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import msgspec

from winebench.catalog.additives import additives
from winebench.model.project import Project
from winebench.model.recipe import AdditiveKind, AdditiveLine
from winebench.plan import kitchen
from winebench.plan.batch import Batch
from winebench.plan.dose_bounds import MOST_FREE_MG_PER_L
from winebench.plan.figures import by_rule
from winebench.plan.kitchen import Measure
from winebench.plan.lines import dose_measure
from winebench.plan.outlook import LaterDose, ShoppingItem, StepOutlook
from winebench.plan.portions import g_per_teaspoon
from winebench.plan.shopping.items import shopping_item
from winebench.plan.shopping.needs import (
    Need,
    amount_text,
    in_whole_tablets,
    powder_need,
    sugar_need,
)
from winebench.plan.shopping.pantry import in_stock, left_out
from winebench.plan.stability import low_enough
from winebench.plan.steps.malolactic import softened
from winebench.plan.steps.stabilise import SORBATE, SULFITE

FINING = "fining"
"""Pantry entry of a fining that nobody has named."""
_OVER = ("done", "skipped")
_TABLET, _POWDER, BENTONITE = "sulfite-tablet", "potassium-metabisulfite", "bentonite"
_BENTONITE_G_PER_L = 0.5
"""Common practice, within the 0.3 to 1 g/L of the handbooks."""
_SHOWN_PERCENT = 1.0
"""A measure that is off by less is told without its error."""


class _Dose(NamedTuple):
    """What one step needs of one thing."""

    need: Need
    about: str
    """Like "at most " before the amount, or empty."""
    measure: Measure
    step: StepOutlook
    why: str


def later_doses(batch: Batch, steps: Iterable[StepOutlook]) -> tuple[LaterDose, ...]:
    """Return the doses of the steps that are still to come."""
    coming = {step.key: step for step in steps if step.state not in _OVER}
    litres = batch.recipe.bottles.finished.value
    if not litres:
        return ()
    found: list[_Dose] = []
    if "stabilise" in coming:
        found += _protection(batch.project, coming["stabilise"], round(litres, 1))
    if "sweeten" in coming and batch.sweet and not softened(batch):
        found += _sweetening(batch, coming["sweeten"], round(litres, 1))
    if "fine" in coming:
        found += _fining(batch.project, coming["fine"], round(litres, 1))
    # Once the yeast is in, what the recipe took has left the stock: what is noted is there.
    before = batch.recipe.shopping if batch.pitched is None else ()
    listed = {item.what: item for item in before}
    return tuple(_later(batch.project, dose, listed.get(dose.need.what)) for dose in found)


def _protection(project: Project, step: StepOutlook, litres: float) -> Iterator[_Dose]:
    known = {named.name: named.figure for named in step.figures}
    if SULFITE in known:
        grams, about, why = known[SULFITE].value, "", "by the pH that was read"
    else:
        most = by_rule(
            "metabisulfite", "g", 1, so2_mg_per_l=MOST_FREE_MG_PER_L, litres=litres,
            salt="potassium",
        )  # fmt: skip
        grams, about = most.value, "at most "
        why = f"{MOST_FREE_MG_PER_L:g} mg/L in {litres:.1f} L; the pH says how much of it"
    if grams:
        yield _sulfite(project, grams, about, step, why)
    if SORBATE in known and known[SORBATE].value:
        grams = known[SORBATE].value or 0.0
        measure = dose_measure(project, "potassium-sorbate", grams)
        need = powder_need(project, "potassium-sorbate", grams)
        yield _Dose(need, "", measure, step, "since it is to hold sugar")


def _sulfite(
    project: Project, potassium_g: float, about: str, step: StepOutlook, why: str
) -> _Dose:
    """Return the dose in the sulfite that the household uses: as much SO2, whichever it is."""
    key = _own_of_kind(project, "sulfite") or _POWDER
    known = additives()
    grams = potassium_g * known[_POWDER].so2_share / known[key].so2_share
    need = powder_need(project, key, grams)
    if key == _TABLET and need.g_per_one:
        count = grams / need.g_per_one
        measure = kitchen.tablets(count, need.g_per_one)
        return _Dose(in_whole_tablets(need, count), about, measure, step, why)
    return _Dose(need, about, dose_measure(project, key, grams), step, why)


def _own_of_kind(project: Project, kind: AdditiveKind) -> str | None:
    """Return which additive of that kind the recipe uses, else what is in stock of it."""
    lines = (line.additive for line in project.recipe.lines if isinstance(line, AdditiveLine))
    stock = (item.what.strip().casefold() for item in project.pantry if item.have is not None)
    found = (
        key for key in (*lines, *stock) if (known := additives().get(key)) and known.kind == kind
    )
    return next(found, None)


def _sweetening(batch: Batch, step: StepOutlook, litres: float) -> Iterator[_Dose]:
    now = batch.dry_gravity
    ended = batch.stability.met or (batch.last is not None and low_enough(batch, batch.last))
    if ended:
        now = batch.last_sg or now  # it has ended, and this is where
    wanted = batch.project.recipe.targets.final_gravity
    final = batch.style.sweet_gravity(now)
    if wanted is not None and wanted.scale == "SG":
        final = wanted.value
    if final is None:
        return
    now = min(round(now, 3), final)
    sugar = by_rule("sweeten", "kg", 3, litres=litres, sg_now=now, sg_target=final)
    if sugar.value:
        grams = 1000.0 * sugar.value
        need = sugar_need(batch.project, grams)
        metric = not need.customary or batch.project.kitchen.by == "scale"
        measure = (
            kitchen.weighed(grams, batch.project.kitchen) if metric else kitchen.in_pounds(grams)
        )
        why = f"from {now:.3f} to {final:.3f} in {litres:.1f} L; two thirds first, then to taste"
        yield _Dose(need, "about ", measure, step, why)


def _fining(project: Project, step: StepOutlook, litres: float) -> Iterator[_Dose]:
    why = "only if it is not clear by then"
    if _own_of_kind(project, "fining") == BENTONITE:
        grams = by_rule("bentonite", "g", 0, litres=litres, g_per_l=_BENTONITE_G_PER_L).value or 0.0
        need = powder_need(project, BENTONITE, grams)._replace(suggested=True)
        yield _Dose(need, "about ", dose_measure(project, BENTONITE, grams), step, why)
    elif not left_out(project, FINING):
        need = Need(FINING, "A fining", "by its packet", 1.0, "packet", suggested=True)
        yield _Dose(need, "", Measure("", None), step, why)


def _later(project: Project, dose: _Dose, listed: ShoppingItem | None) -> LaterDose:
    need, step, left = dose.need, dose.step, 0.0
    stock = in_stock(project, need)
    if listed is not None:
        left = _in_unit_of(need, listed, listed.left)
        words = f"{amount_text(need, left)} left over" if left else ""
        if need.kind == "sorbate":  # the recipe's own is for this: in the must it stops the yeast
            own = _in_unit_of(need, listed, listed.needed)
            left, words = left + own, f"{amount_text(need, own)} on the list already"
        stock = stock._replace(
            amount=left, text=words, keeping=listed.keeping, keeps_until=listed.keeps_until,
            notes=(),
        )  # fmt: skip
    amount = f"{dose.about}{need.text}"
    said = dose.measure.text in need.text  # "151 g (5 1/4 oz)" is measured as it is written
    measured = "" if said else _measured(dose.measure)
    how = f" ({measured})" if measured else ""
    when = f"for “{step.name}”, {step.when}"
    notes: tuple[str, ...] = ()
    if kitchen.STOCK in dose.measure.text:
        notes = (kitchen.stock_recipe(g_per_teaspoon(project, need.what), project.kitchen),)
    item = shopping_item(need._replace(text=amount), stock, project.money)
    if listed is not None and stock.price_of_one is not None:
        paid = _in_unit_of(need, listed, listed.needed) if need.kind == "sorbate" else 0.0
        more = max(need.value - paid, 0.0)
        had = min(more, left * max(listed.stock - listed.needed, 0.0) / (listed.left or 1.0))
        item = msgspec.structs.replace(
            item,
            stock_used=had * stock.price_of_one,
            cost_used=(more - had) * stock.price_of_one,  # part of it from the packs above
        )
    item = msgspec.structs.replace(item, notes=(*notes, *item.notes), fresh=None)
    return LaterDose(
        **msgspec.structs.asdict(item),
        amount=amount,
        measure=measured,
        measure_error_percent=dose.measure.error_percent,
        step=step.key,
        when=when,
        why=dose.why,
        had=stock.text if listed is not None or not stock.text else f"in stock {stock.text}",
        sentence=f"{need.name}: {amount}{how} {when} ({dose.why}).",
    )


def _measured(measure: Measure) -> str:
    """Return the kitchen measure, with its error where that is worth a word."""
    error = measure.error_percent
    if error is None or abs(error) < _SHOWN_PERCENT:
        return measure.text
    sign = "+" if error > 0 else "−"
    return f"{measure.text}, {sign}{abs(error):.0f} %"


def _in_unit_of(need: Need, listed: ShoppingItem, amount: float) -> float:
    """Return so much of a thing of the list in the unit of the later need."""
    if need.unit == listed.unit or not need.g_per_one:
        return amount if need.unit == listed.unit else 0.0
    return amount / need.g_per_one if listed.unit == "g" else amount * need.g_per_one
