"""The recipe's half of an outlook: must, lines, cautions, vessels, bottles, shopping."""

from __future__ import annotations

from winebench.model.project import Project
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
from winebench.plan.recipe_cautions import Weighed, recipe_cautions
from winebench.plan.scale import must_l, scale_factor
from winebench.plan.vessels import bottle_outlook, vessels
from winebench.units import Amount


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
    return RecipeOutlook(
        style=worked.aim.style.name,
        make_text=_make_text(project),
        basis_text=_with_country(project.recipe.basis, project),
        scale_factor=factor,
        must=worked.must,
        lines=lines,
        cautions=cautions,
        vessels=filled,
        bottles=bottle_outlook(project, must_l(project)),
        shopping=_shopping(lines),
    )


def _make_text(project: Project) -> str:
    make = project.make
    text = _with_country(make.size, project)
    return f"{text} finished" if make.by == "finished" and make.size.dimension == "volume" else text


def _with_country(amount: Amount, project: Project) -> str:
    """Return the amount as typed, a bare gallon with its country beside it: "5 gal US"."""
    text = amount.text.strip()
    return f"{text} {project.gallon}" if amount.needs_country and project.gallon else text


def _shopping(lines: tuple[LineOutlook, ...]) -> tuple[ShoppingItem, ...]:
    return tuple(
        ShoppingItem(name=line.name, need=_need(line)) for line in lines if line.kind != "water"
    )


def _need(line: LineOutlook) -> str:
    scaled = f"{line.scaled.text} {line.scaled.text_unit}"
    return scaled if line.measure == scaled else f"{scaled} ({line.measure})"
