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
        UnitsError: a bare gallon in a project that has not said whose.

    """
    factor = scale_factor(project)
    must, balance, aim = worked_out(project, factor)
    filled = vessels(project, balance, factor)
    cautions = recipe_cautions(Weighed(project, must, balance, aim, factor, filled))
    lines = tuple(
        line_outlook(
            project, line, factor, balance, tuple(c for c in cautions if c.about == line.id)
        )
        for line in project.recipe.lines
    )
    return RecipeOutlook(
        style=aim.style.name,
        make_text=_make_text(project),
        basis_text=_with_country(project.recipe.basis.text.strip(), project),
        scale_factor=factor,
        must=must,
        lines=lines,
        cautions=cautions,
        vessels=filled,
        bottles=bottle_outlook(project, must_l(project)),
        shopping=_shopping(lines),
    )


def _make_text(project: Project) -> str:
    make = project.make
    text = _with_country(make.size.text.strip(), project)
    return f"{text} finished" if make.by == "finished" and make.size.dimension == "volume" else text


def _with_country(text: str, project: Project) -> str:
    """Return the volume with its country beside a bare gallon: "5 gal US"."""
    bare = (
        project.make.size.needs_country
        if text == project.make.size.text.strip()
        else (project.recipe.basis.needs_country)
    )
    return f"{text} {project.gallon}" if bare and project.gallon else text


def _shopping(lines: tuple[LineOutlook, ...]) -> tuple[ShoppingItem, ...]:
    return tuple(
        ShoppingItem(name=line.name, need=f"{line.scaled.text} {line.scaled.unit} ({line.measure})")
        for line in lines
        if line.kind != "water"
    )
