"""Cautions about the recipe's volume: lines that make another one, and water up to a mark twice."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.edits import Change, ChangeRecipe, DropLine, PutLine, Several, changed
from winebench.model.project import Project
from winebench.model.recipe import WaterLine
from winebench.plan.balance import Balance, has_mark
from winebench.plan.cautions.contradiction import free_id
from winebench.plan.figures import litres_text
from winebench.plan.outlook import Caution, Repair
from winebench.plan.written_like import volume_like
from winebench.units import Size, Volume

_ALIKE = 0.05
"""Fruit does not give its juice more exactly than that."""


def volume_cautions(project: Project, must: Balance) -> Iterator[Caution]:
    """Give what is wrong with the volume of the recipe as written, with its ways out."""
    yield from _second_mark(project)
    own, litres = project.recipe.basis, must.litres
    basis = own.litres(project.gallon)
    if litres <= 0 or abs(litres / basis - 1.0) <= _ALIKE:
        return
    over = "more" if litres > basis else "less"
    yield Caution(
        key="volume-off",
        severity="caution",
        about="must",
        sentence=f"These lines make {litres_text(litres)}, {over} than the recipe's "
        f"{own.text.strip()} ({litres_text(basis)}), and so does each size scaled from it.",
        detail=f"{_what_to_do(project, lacks=litres < basis)}, or change the volume.",
        repairs=(*_to_the_mark(project, basis - litres), _other_volume(project, litres)),
    )


def _what_to_do(project: Project, *, lacks: bool) -> str:
    if has_mark(project):
        return "Fruit and sugar fill it past the mark without water: use less"
    if any(isinstance(line, WaterLine) for line in project.recipe.lines):
        return "Write the water as “to the mark”"
    return f"Fill it with water to the {project.recipe.basis.text.strip()}" if lacks else "Use less"


def _to_the_mark(project: Project, lacking_l: float) -> Iterator[Repair]:
    """Give the repair that fills up with water, or pours so much less of it, where that can be."""
    if lacking_l > 0.0 and not any(isinstance(line, WaterLine) for line in project.recipe.lines):
        line = WaterLine(id=free_id(project))
        yield Repair(label="Add the water", edit=PutLine(label="add the water", line=line))
    waters = [line for line in project.recipe.lines if isinstance(line, WaterLine)]
    poured = sum(line.amount.litres(project.gallon) for line in waters if line.amount is not None)
    if len(waters) == 1 and waters[0].amount is not None and poured + lacking_l > 0.0:
        made = changed(waters[0], amount=None)
        yield Repair(label="Water to the mark", edit=PutLine(label="fill to the mark", line=made))


def _other_volume(project: Project, litres: float) -> Repair:
    """Return the repair that writes down the volume that the lines make."""
    own, size = project.recipe.basis, project.make.size
    text = volume_like(litres, own, project.gallon)
    label = f"It makes {text}"
    recipe = ChangeRecipe(label=label, fields={"basis": Volume(text)})
    same = size.dimension == "volume" and project.make.by == "must"
    if not same or abs(size.litres(project.gallon) / own.litres(project.gallon) - 1.0) > 1e-9:
        return Repair(label=label, edit=recipe)
    make = Change(label=label, fields={"make": changed(project.make, size=Size(text))})
    return Repair(label=label, edit=Several(label=label, edits=(recipe, make)))


def _second_mark(project: Project) -> Iterator[Caution]:
    lines = (line for line in project.recipe.lines if isinstance(line, WaterLine))
    for line in [line for line in lines if line.amount is None][1:]:
        drop = DropLine(label="leave out the second water", id=line.id)
        yield Caution(
            key="second-mark",
            severity="caution",
            about=line.id,
            sentence="Water is filled up to the mark once; a second time there is nothing to fill.",
            detail="Leave this line out, or write how much of the water it is.",
            repairs=(Repair(label="Leave it out", edit=drop),),
        )
