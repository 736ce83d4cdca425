"""What goes in after the ferment, and when: sulfite, sorbate, the sugar that sweetens, a fining.

It is bought with the rest, yet how much of it depends on what the wine reads by then.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from winebench.plan.batch import Batch
from winebench.plan.figures import by_rule, grams_text
from winebench.plan.outlook import LaterDose, StepOutlook
from winebench.plan.steps.stabilise import MOST_FREE_MG_PER_L, SORBATE, SULFITE

_OVER = ("done", "skipped")


def later_doses(batch: Batch, steps: Iterable[StepOutlook]) -> tuple[LaterDose, ...]:
    """Return the doses of the steps that are still to come."""
    coming = {step.key: step for step in steps if step.state not in _OVER}
    litres = batch.recipe.bottles.finished.value
    if not litres:
        return ()
    found: list[LaterDose] = []
    if "stabilise" in coming:
        found += _protection(coming["stabilise"], round(litres, 1))
    if "sweeten" in coming and batch.sweet:
        found += _sweetening(batch, coming["sweeten"], round(litres, 1))
    if "fine" in coming:
        found.append(_dose("A fining", "by its packet", coming["fine"], "only if it is not clear"))
    return tuple(found)


def _protection(step: StepOutlook, litres: float) -> Iterator[LaterDose]:
    known = {named.name: named.figure for named in step.figures}
    if SULFITE in known:
        yield _dose(SULFITE, f"{known[SULFITE].text} g", step, "by the pH that was read")
    else:
        most = by_rule(
            "metabisulfite", "g", 1, so2_mg_per_l=MOST_FREE_MG_PER_L, litres=litres,
            salt="potassium",
        )  # fmt: skip
        why = f"{MOST_FREE_MG_PER_L:g} mg/L in {litres:.1f} L; the pH says how much of it"
        yield _dose(SULFITE, f"at most {most.text} g", step, why)
    if SORBATE in known:
        yield _dose(SORBATE, f"{known[SORBATE].text} g", step, "since it is to hold sugar")


def _sweetening(batch: Batch, step: StepOutlook, litres: float) -> Iterator[LaterDose]:
    wanted = batch.project.recipe.targets.final_gravity
    final = batch.style.final_sweet
    if wanted is not None and wanted.scale == "SG":
        final = wanted.value
    if final is None:
        return
    dry = round(batch.dry_gravity, 3)
    sugar = by_rule("sweeten", "kg", 3, litres=litres, sg_now=dry, sg_target=final)
    if sugar.value:
        why = f"from {dry:.3f} to {final:.3f} in {litres:.1f} L; two thirds first, then to taste"
        yield _dose("White sugar", f"about {grams_text(1000.0 * sugar.value)}", step, why)


def _dose(name: str, amount: str, step: StepOutlook, why: str) -> LaterDose:
    return LaterDose(name=name, amount=amount, step=step.key, when=step.when, sentence=(
        f"{name}: {amount} for “{step.name}”, {step.when} ({why})."
    ))  # fmt: skip
