"""What an additive may come to that is noted with any tick under its own key."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from winebench.catalog.additives import additives
from winebench.model.log import Record
from winebench.model.project import Project
from winebench.plan.compose import RecipeOutlook
from winebench.plan.dose_bounds import ROUNDED, sorbate_bounds, sulfite_bounds, usual_bounds
from winebench.plan.doses_given import own_so2, sorbate_given, sulfite_given
from winebench.plan.malolactic_choice import softening
from winebench.plan.outlook import Bound
from winebench.plan.recipe_side import recipe_outlook


def own_bounds(key: str, project: Project) -> tuple[Bound, ...]:
    """Return the bounds of that additive, in g, in the project's must or wine."""
    additive = additives()[key]
    recipe = recipe_outlook(project)
    must, litres = recipe.must.liquid.value, _litres(project, recipe)
    if not litres:
        return ()
    if share := additive.so2_share:
        per = share * 1000.0 / litres
        return sulfite_bounds(sulfite_given(project, recipe), litres, per, ROUNDED, share)
    if additive.kind == "sorbate":
        given = sorbate_given(project, recipe)
        return sorbate_bounds(given, litres, softened=softening(project))
    return usual_bounds(key, must)


def sulfite_together(records: Iterable[Record], project: Project) -> Iterator[tuple[Bound, float]]:
    """Give the bounds that several sulfites of one tick pass together, each with their mg/L."""
    known = additives()
    sulfites = [one for one in records if one.name in known and known[one.name].so2_share]
    if len(sulfites) < 2:
        return
    recipe = recipe_outlook(project)
    litres = _litres(project, recipe)
    if not litres:
        return
    together = own_so2(project, sulfites, litres)
    for bound in sulfite_bounds(sulfite_given(project, recipe), litres, 1.0):
        if bound.passed_by(together):
            yield bound, together


def _litres(project: Project, recipe: RecipeOutlook) -> float | None:
    """Return what a dose goes into: the must, once the yeast is in the wine."""
    must, wine = recipe.must.liquid.value, recipe.bottles.finished.value
    return wine if project.done("pitch") and wine else must
