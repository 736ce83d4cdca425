"""The recipe's half of an outlook: must, lines, cautions, vessels, bottles, shopping."""

from __future__ import annotations

from msgspec.structs import replace

from winebench.model.project import Project
from winebench.plan.cautions.recipe import Weighed, recipe_cautions
from winebench.plan.figures import with_country
from winebench.plan.lines import line_outlook
from winebench.plan.must import worked_out
from winebench.plan.outlook import (
    BottleOutlook,
    Caution,
    LineOutlook,
    Must,
    Shape,
    ShoppingItem,
    VesselOutlook,
)
from winebench.plan.scale import made_l, scale_factor
from winebench.plan.shopping.items import cost_of, shopping
from winebench.plan.vessels import bottle_outlook, vessels


class RecipeOutlook(Shape, frozen=True, kw_only=True):
    """What the recipe, its size and its vessels come to."""

    style: str
    make_text: str
    basis_text: str
    scale_factor: float
    must: Must
    lines: tuple[LineOutlook, ...]
    cautions: tuple[Caution, ...]
    vessels: tuple[VesselOutlook, ...]
    bottles: BottleOutlook
    shopping: tuple[ShoppingItem, ...]


def compose(project: Project) -> RecipeOutlook:
    """Return the recipe's half of the outlook.

    Raises:
        UnitsError: a bare gallon in a project that has not said whose, or a recipe for nothing.

    """
    factor = scale_factor(project)
    worked = worked_out(project, factor)
    filled = vessels(project, worked.whole, factor)
    cautions = recipe_cautions(Weighed(project, worked, factor, filled))
    lines = tuple(
        line_outlook(
            project, line, factor, worked.whole, tuple(c for c in cautions if c.about == line.id)
        )
        for line in project.recipe.lines
    )
    bottles = bottle_outlook(project, made_l(project, worked.whole.litres * factor))
    items = shopping(project, lines, bottles)
    return RecipeOutlook(
        style=worked.aim.style.name,
        make_text=_make_text(project),
        basis_text=with_country(project.recipe.basis, project.gallon),
        scale_factor=factor,
        must=worked.must,
        lines=lines,
        cautions=cautions,
        vessels=filled,
        bottles=replace(
            bottles,
            cost=cost_of(items, bottles.bottles, project.money),
            drink_from=worked.must.ready,
        ),
        shopping=items,
    )


def _make_text(project: Project) -> str:
    make = project.make
    text = with_country(make.size, project.gallon)
    return f"{text} finished" if make.by == "finished" and make.size.dimension == "volume" else text
