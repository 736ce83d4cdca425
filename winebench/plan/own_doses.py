"""What an additive may come to that is noted with any tick under its own key."""

from __future__ import annotations

from winebench.catalog.additives import additives
from winebench.model.project import Project
from winebench.plan.dose_bounds import ROUNDED, sorbate_bounds, sulfite_bounds, usual_bounds
from winebench.plan.doses_given import sorbate_given, sulfite_given
from winebench.plan.outlook import Bound
from winebench.plan.recipe_side import recipe_outlook


def own_bounds(key: str, project: Project) -> tuple[Bound, ...]:
    """Return the bounds of that additive, in g, in the project's must or wine."""
    additive = additives()[key]
    recipe = recipe_outlook(project)
    must, wine = recipe.must.liquid.value, recipe.bottles.finished.value
    litres = wine if project.done("pitch") and wine else must
    if not litres:
        return ()
    if additive.so2_share:
        per = additive.so2_share * 1000.0 / litres
        return sulfite_bounds(sulfite_given(project, recipe), litres, per, ROUNDED)
    if additive.kind == "sorbate":
        return sorbate_bounds(sorbate_given(project, recipe), litres)
    return usual_bounds(key, must)
