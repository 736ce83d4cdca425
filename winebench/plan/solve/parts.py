"""Which lines of a recipe can change, and the recipe taken apart into them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import isnan
from typing import NamedTuple, TypeVar

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import (
    AdditiveKind,
    AdditiveLine,
    FruitLine,
    Line,
    SugarLine,
    WaterLine,
)
from winebench.plan import staged
from winebench.plan.balance import balanced, has_mark
from winebench.plan.cautions.contradiction import free_id
from winebench.plan.portions import (
    WATER_KG_PER_L,
    Portion,
    Side,
    additive_g,
    additive_of,
    g_per_litre,
    mass_g,
    portion,
    sugar_of,
)
from winebench.plan.solve.mix import Mix, Part, Vector
from winebench.plan.solve.shapes import SolveError
from winebench.units import Amount

_KILO = Amount("1 kg")
_KINDS = ("sugar", "water", "acid", "tannin", "fruit", "volume")
L = TypeVar("L", SugarLine, AdditiveLine, WaterLine)


class Chosen(NamedTuple):
    """The lines that stand for each that can change; one not in the recipe is new."""

    sugar: SugarLine
    acid: AdditiveLine
    tannin: AdditiveLine
    water: WaterLine | None
    """The line with an amount; None under a mark, where water fills it up."""
    fruit: tuple[FruitLine, ...]


def sugar_lines(project: Project) -> tuple[SugarLine, ...]:
    """Return the sugars whose amount is known: white sugar first, what is fed later last."""
    return (*staged.sugar_lines(project, "start"), *staged.sugar_lines(project, "feed"))


def acid_lines(project: Project) -> tuple[AdditiveLine, ...]:
    """Return the acids whose amount is known in grams."""
    return _additives(project, "acid")


def tannin_lines(project: Project) -> tuple[AdditiveLine, ...]:
    """Return the tannin powders whose amount is known in grams."""
    return _additives(project, "tannin")


def _additives(project: Project, kind: AdditiveKind) -> tuple[AdditiveLine, ...]:
    return tuple(
        line
        for line in project.recipe.lines
        if isinstance(line, AdditiveLine)
        and (found := additive_of(line))
        and found.kind == kind
        and additive_g(project, line) is not None
    )


def chosen(project: Project, names: Sequence[str]) -> tuple[Chosen, tuple[str, ...]]:
    """Return the lines meant by the names, and what those are: "sugar", "water" and so on.

    Raises:
        SolveError: a name that means no line that can change.

    """
    sugars, acids, tannins = sugar_lines(project), acid_lines(project), tannin_lines(project)
    sugar: SugarLine | None = None
    acid: AdditiveLine | None = None
    tannin: AdditiveLine | None = None
    kinds: list[str] = []
    for name in names:
        if name in _KINDS:
            kinds.append(name)
        elif (one := _named(name, sugars, lambda x: x.sugar)) is not None:
            _only_one(sugar, one, one.sugar)
            sugar = one
            kinds.append("sugar")
        elif (other := _named(name, acids, lambda x: x.additive)) is not None:
            _only_one(acid, other, other.additive)
            acid = other
            kinds.append("acid")
        elif (other := _named(name, tannins, lambda x: x.additive)) is not None:
            _only_one(tannin, other, other.additive)
            tannin = other
            kinds.append("tannin")
        else:
            ways = _ways(sugars, (*acids, *tannins))
            raise SolveError(f'"{name}" is nothing that can change here; {ways}.')
    new = free_id(project)
    found = Chosen(
        sugar=sugar or next(iter(sugars), SugarLine(id=new, sugar="white-sugar", amount=_nil())),
        acid=acid or next(iter(acids), _new(f"{new}-acid", "tartaric-acid")),
        tannin=tannin or next(iter(tannins), _new(f"{new}-tannin", "grape-tannin")),
        water=None if has_mark(project) else _water(project, f"{new}-water"),
        fruit=tuple(line for line in project.fruits if _known(line.amount)),
    )
    if "fruit" in kinds and not fruit_kg(project, found):
        raise SolveError("There is no fruit on the recipe that could change.")
    return found, tuple(dict.fromkeys(kinds))


def _only_one(former: Line | None, line: Line, name: str) -> None:
    if former is not None and former != line:
        raise SolveError(
            f"Only one sugar, one acid and one tannin can change at a time; leave {name} out."
        )


def _nil() -> Amount:
    return Amount("0 g")


def _new(id_: str, additive: str) -> AdditiveLine:
    return AdditiveLine(id=id_, additive=additive, amount=_nil())


def _water(project: Project, id_: str) -> WaterLine:
    """Return the water line that holds most, else a new one."""
    lines = [x for x in project.recipe.lines if isinstance(x, WaterLine)]
    new = WaterLine(id=id_)
    return max(lines, key=lambda x: _litres(project, x), default=new)


def _named(name: str, lines: Iterable[L], key: Callable[[L], str]) -> L | None:
    return next((line for line in lines if name in (line.id, key(line))), None)


def _ways(sugars: Iterable[SugarLine], additives: Iterable[AdditiveLine]) -> str:
    names = [*(x.sugar for x in sugars), *(x.additive for x in additives)]
    return "name " + ", ".join((*_KINDS, *names))


def _known(amount: Amount) -> bool:
    return amount.dimension != "count"


def _litres(project: Project, line: WaterLine) -> float:
    return line.amount.litres(project.gallon) if line.amount is not None else 0.0


def fruit_kg(project: Project, lines: Chosen) -> float:
    """Return all the fruit, kg as weighed."""
    grams = (mass_g(x.amount, g_per_litre(x), project.gallon) for x in lines.fruit)
    return sum(grams) / 1000.0


def taken_apart(project: Project, lines: Chosen, at: Side) -> Mix:
    """Return the recipe as a sum of what can change and what does not, at a side of the ranges."""
    moving = {lines.sugar.id, lines.acid.id, lines.tannin.id, *(x.id for x in lines.fruit)}
    moving |= {lines.water.id} if lines.water else set()
    start, feed = Vector(), Vector()
    for line in project.recipe.lines:
        if line.id in moving:
            continue
        brought = _vector(portion(project, line, at))
        if isinstance(line, SugarLine) and line.when == "feed":
            feed = feed.plus(brought)
        else:
            start = start.plus(brought)
    parts = {
        "sugar": _sugar(project, lines.sugar, at),
        "acid": _powder(project, lines.acid, at),
        "tannin": _powder(project, lines.tannin, at),
        "water": _water_part(project, lines, at),
    }  # fmt: skip
    kilos = fruit_kg(project, lines)
    if kilos > 0:
        each = Vector(fruit=1.0)
        for fruit in lines.fruit:
            each = each.plus(_vector(portion(project, fruit, at)), 1.0 / kilos)
        parts["fruit"] = Part(kilos, each)
    return Mix(start, feed, parts)


def _vector(brought: Portion) -> Vector:
    """Return it as a vector; tannin that is not known counts as none, and is not held then."""
    tannin = 0.0 if isnan(brought.tannin_g) else brought.tannin_g
    return Vector(
        brought.water_kg, brought.solids_kg, brought.sugar_kg, brought.acid_g, 0.0, tannin
    )


def _kilo(project: Project, line: Line, at: Side) -> Vector:
    """Return what a kilogram of that line brings."""
    return _vector(portion(project, changed(line, amount=_KILO), at))


def _powder(project: Project, line: AdditiveLine, at: Side) -> Part:
    return Part((additive_g(project, line) or 0.0) / 1000.0, _kilo(project, line, at))


def _sugar(project: Project, line: SugarLine, at: Side) -> Part:
    return Part(
        staged.sugar_g(project, line) / 1000.0, _kilo(project, line, at), fed=line.when == "feed"
    )


def _water_part(project: Project, lines: Chosen, at: Side) -> Part:
    one = Vector(water=1.0)
    if lines.water is None:
        return Part(balanced(project, at).to_mark_l * WATER_KG_PER_L, one)
    return Part(_litres(project, lines.water) * WATER_KG_PER_L, one)


def additive_name(line: AdditiveLine) -> str:
    """Return what the acid or powder is called in a sentence."""
    found = additive_of(line)
    return found.name.lower() if found else line.additive


def sugar_name(line: SugarLine) -> str:
    """Return what the sugar is called in a sentence."""
    return sugar_of(line).name.lower()
