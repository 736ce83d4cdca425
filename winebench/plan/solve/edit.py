"""The edit that makes the recipe so, and its amounts in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from winebench.model.edits import Change, ChangeRecipe, DropLine, Edit, PutLine, Several, changed
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine
from winebench.plan.customary import household
from winebench.plan.figures import litres_text
from winebench.plan.kitchen import poured
from winebench.plan.lines import TO_THE_MARK, line_name
from winebench.plan.portions import WATER_KG_PER_L, additive_of, g_per_litre, g_per_teaspoon, mass_g
from winebench.plan.scale import scale_factor
from winebench.plan.solve.question import Question
from winebench.plan.staged import sugar_g
from winebench.plan.written_like import IN_SPOONS, by_spoon, mass_like, size_like, volume_like
from winebench.units import Amount, Size, Volume

_SAME = 1e-4
"""Share by which a volume may differ and still be left as typed."""
_POUND = Amount("1 lb")
_TRACE_G = 0.05
"""Less than this nobody weighs."""
_TRACE_POWDER_G, _NOTHING_G = 0.005, 1e-6
_UNNOTICED_SUGAR, _UNNOTICED_ACID, _UNNOTICED_TANNIN = 0.5, 0.04, 0.02
"""g/L: a hydrometer is read to 0.0005, which is 1.3 g/L of sugar; a titration to 0.1 g/L."""
_TEASPOON_L = Amount("1 tsp").litres(None)


class Written(NamedTuple):
    """One amount in words, and the edit that writes it; None where it stays as typed."""

    what: str
    name: str
    was: str
    becomes: str
    exact: float
    unit: str
    edit: Edit | None
    line: str = ""
    """Id of the line, for fruit."""


def written(asked: Question, kilos: Mapping[str, float], project: Project) -> Iterator[Written]:
    """Give each amount as it is to be written into the project, which has its fruit unmeasured."""
    for key in asked.mix.parts:
        if key in kilos:
            yield from _written(asked, key, max(kilos[key], 0.0), project)
    litres = new_volume_l(asked, kilos)
    if litres is not None:
        yield from _volume(project, litres)


def new_volume_l(asked: Question, kilos: Mapping[str, float]) -> float | None:
    """Return the volume that the recipe is to be written for, L; None where it stays."""
    if "volume" in asked.held:
        litres = asked.held["volume"]
    elif asked.volume_moves:
        litres = asked.mix.must(kilos).litres
    else:
        return None
    basis = asked.project.recipe.basis.litres(asked.project.gallon)
    return None if basis > 0 and abs(litres / basis - 1.0) < _SAME else litres


def _written(asked: Question, key: str, kilos: float, project: Project) -> Iterator[Written]:
    lines, now = asked.lines, asked.mix.parts[key].now
    if key == "sugar":
        yield _line(project, "sugar", lines.sugar, kilos * 1000.0, now * 1000.0)
    elif key in ("acid", "tannin"):
        powder = lines.acid if key == "acid" else lines.tannin
        yield _line(project, key, powder, kilos * 1000.0, now * 1000.0)
    elif key == "fruit":
        for line in lines.fruit:
            grams = mass_g(line.amount, g_per_litre(line), project.gallon)
            yield _line(project, "fruit", line, grams * kilos / now, grams)
    else:
        yield _water(asked, kilos / WATER_KG_PER_L, now / WATER_KG_PER_L, project)


def _line(project: Project, what: str, line: Line, grams: float, now: float) -> Written:
    assert isinstance(line, SugarLine | AdditiveLine | FruitLine)
    own = project.line(line.id)
    if isinstance(own, AdditiveLine) and grams <= _NOTHING_G < now:
        return _none_of(what, own)
    was = line.amount.text.strip() if own is not None else "none"
    new = own is None
    text, stands = (weight_like(project, line, each, new=new) for each in (grams, now))
    by_spoons = own is not None and _by_spoons(line)
    weighed = _TRACE_POWDER_G if isinstance(line, AdditiveLine) else _TRACE_G
    near = _unnoticed_g(project, line) if by_spoons else weighed
    same = abs(grams - now) <= near or (text == stands and not by_spoons)
    edit = None
    if not same:
        put = changed(own if own is not None else line, amount=Amount(text))
        edit = PutLine(label=f"change the {what}", line=put)
    becomes = was if same else text
    return Written(what, line_name(line), was, becomes, grams, "g", edit, line.id)


def _none_of(what: str, own: SugarLine | AdditiveLine) -> Written:
    """Return the line as it is taken out."""
    drop = DropLine(label=f"leave the {what} out", id=own.id)
    was = own.amount.text.strip()
    return Written(what, line_name(own), was, "none", 0.0, "g", drop, own.id)


def sugar_besides(project: Project, line: SugarLine) -> Written:
    """Return the other of two sugars that change; one of which nothing is left is taken out."""
    own = project.line(line.id)
    assert isinstance(own, SugarLine)
    if sugar_g(project, line) <= _TRACE_G:
        return _none_of("sugar", own)
    return _line(project, "sugar", own, sugar_g(project, line), sugar_g(project, own))


def weight_like(
    project: Project, line: SugarLine | AdditiveLine | FruitLine, grams: float, *, new: bool = False
) -> str:
    """Return so much of the line as it is written there: by weight, in cups or in spoons."""
    if new:  # as the fruit is written, but small things in grams
        fruit = next((x.amount for x in project.fruits if x.amount.dimension == "mass"), None)
        if fruit is None and household(project).pounds:
            fruit = _POUND
        return mass_like(grams, fruit if isinstance(line, SugarLine) else None)
    if line.amount.dimension != "volume":
        return mass_like(grams, line.amount)
    if isinstance(line, AdditiveLine):
        each = g_per_teaspoon(project, line.additive)
        per_l = each / _TEASPOON_L if each else 0.0
    else:
        per_l = g_per_litre(line)
    litres = grams / per_l if per_l else 0.0
    if _by_spoons(line):
        text = by_spoon(litres, line.amount, project.gallon, project.kitchen)
        off = abs(Amount(text).litres(project.gallon) - litres) * per_l
        if off > _unnoticed_g(project, line):  # what spoons cannot measure is weighed
            return weight_like(project, line, grams, new=True)
        return text
    return volume_like(litres, line.amount, project.gallon)


def _by_spoons(line: SugarLine | AdditiveLine | FruitLine) -> bool:
    """Return whether it is something dry, written in spoons or cups."""
    return not isinstance(line, FruitLine) and line.amount.parts[0].unit in IN_SPOONS


def _unnoticed_g(project: Project, line: Line) -> float:
    """Return how far the line may be off, g, and nobody tell it from what was asked for."""
    litres = project.recipe.basis.litres(project.gallon)
    if isinstance(line, SugarLine):
        return _UNNOTICED_SUGAR * litres
    found = additive_of(line) if isinstance(line, AdditiveLine) else None
    return (_UNNOTICED_TANNIN if found and found.kind == "tannin" else _UNNOTICED_ACID) * litres


def _water(asked: Question, litres: float, now: float, project: Project) -> Written:
    line = asked.lines.water
    if line is None:
        was, becomes = (filled_text(asked.project, each) for each in (now, litres))
        return Written("water", f"Water, {TO_THE_MARK}", was, becomes, litres, "L", None)
    was = "none" if line.amount is None else line.amount.text.strip()
    like = project.recipe.basis if line.amount is None else line.amount
    text, stands = (volume_like(each, like, project.gallon) for each in (litres, now))
    edit = None
    if text != stands:
        put = changed(line, amount=Volume(text))
        edit = PutLine(label="change the water", line=put)
    becomes = was if text == stands else text
    return Written("water", "Water", was, becomes, litres, "L", edit)


def filled_text(project: Project, litres: float) -> str:
    """Return water that fills up to the mark, in the units of the recipe's own volume."""
    part = project.recipe.basis.parts[0]
    if part.unit != "gal":
        return litres_text(litres)
    return poured(litres, part.country or project.gallon, metric=False).text


def _volume(project: Project, litres: float) -> Iterator[Written]:
    basis = project.recipe.basis
    becomes = size_like(litres, basis, project.gallon)
    if becomes == size_like(basis.litres(project.gallon), basis, project.gallon):
        return
    edit: Edit = ChangeRecipe(label="change the volume", fields={"basis": Volume(becomes)})
    if made_as_written(project):
        make = changed(project.make, size=Size(becomes))
        edit = Several(
            label=edit.label, edits=(edit, Change(label=edit.label, fields={"make": make}))
        )
    yield Written("volume", "The recipe’s volume", basis.text.strip(), becomes, litres, "L", edit)


def made_as_written(project: Project) -> bool:
    """Return whether the batch is the recipe's own volume of must."""
    make = project.make
    return (
        make.by == "must"
        and make.size.dimension == "volume"
        and (abs(scale_factor(project) - 1.0) < 1e-9)
    )


def batch_text(project: Project, each: Written, factor: float) -> str:
    """Return what the batch takes, in the units of the amount that is written."""
    if each.what in ("volume", "water") or each.becomes == "none":
        return filled_text(project, each.exact * factor) if each.what == "water" else ""
    amount = Amount(each.becomes)
    if amount.dimension == "volume":
        litres = amount.litres(project.gallon) * factor
        if each.what != "fruit" and amount.parts[0].unit in IN_SPOONS:
            return by_spoon(litres, amount, project.gallon, project.kitchen)
        return volume_like(litres, amount, project.gallon)
    return mass_like(amount.grams() * factor, amount)
