"""Invented recipes for tests of the must, built from the lines that matter to each."""

from __future__ import annotations

from typing import Any

from winebench.model.project import Project
from winebench.model.recipe import (
    AdditiveLine,
    FruitLine,
    Kitchen,
    Line,
    Make,
    Measured,
    Recipe,
    SugarLine,
    Targets,
    Vessel,
    WaterLine,
    YeastLine,
)
from winebench.plan.compose import RecipeOutlook, compose
from winebench.plan.outlook import Caution, LineOutlook
from winebench.units import Amount, Juice, Size, Volume

WATER = WaterLine(id="water")
YEAST = YeastLine(id="yeast", amount=Amount("1 packet"))


def white(amount: str, **fields: Any) -> SugarLine:
    return SugarLine(id="sugar", sugar="white-sugar", amount=Amount(amount), **fields)


def sugar(key: str, amount: str, **fields: Any) -> SugarLine:
    return SugarLine(id=key, sugar=key, amount=Amount(amount), **fields)


def fruit(key: str, amount: str, brix: str = "", **fields: Any) -> FruitLine:
    """Return some fruit; with `brix`, juice that was measured."""
    measured = fields.pop("measured", Measured(juice=Juice(brix) if brix else None))
    return FruitLine(id=key, fruit=key, amount=Amount(amount), measured=measured, **fields)


def additive(key: str, amount: str) -> AdditiveLine:
    return AdditiveLine(id=key, additive=key, amount=Amount(amount))


def water(amount: str) -> WaterLine:
    return WaterLine(id="poured", amount=Volume(amount))


def vessel(name: str, role: Any, holds: str, *, glass: bool = False) -> Vessel:
    return Vessel(id=name, name=name, role=role, holds=Volume(holds), glass=glass)


GALLON: tuple[Line, ...] = (
    fruit("damson", "1.8 kg"),
    white("680 g"),
    WATER,
    additive("sulfite-tablet", "1 tablet"),
    YEAST,
)
"""Damsons for one gallon, as a card has them."""


def project(*lines: Line, basis: str = "1 gal US", make: str = "", **fields: Any) -> Project:
    """Return a project of those lines; `targets`, `kitchen`, `vessels` and `gallon` by name."""
    return Project(
        id="test",
        name="Test",
        gallon=fields.pop("gallon", "US"),
        recipe=Recipe(
            lines=lines,
            basis=Volume(basis),
            targets=fields.pop("targets", Targets()),
            style=fields.pop("style", "dark-dry"),
        ),
        make=Make(
            size=Size(make or basis),
            by=fields.pop("by", "must"),
            bottle_ml=fields.pop("bottle_ml", 750.0),
            vessels=fields.pop("vessels", ()),
        ),
        kitchen=fields.pop("kitchen", Kitchen()),
        **fields,
    )


def line(found: RecipeOutlook, line_id: str) -> LineOutlook:
    return next(one for one in found.lines if one.id == line_id)


def composed_line(made: Project, line_id: str) -> LineOutlook:
    return line(compose(made), line_id)


def caution(made: Project, key: str) -> Caution | None:
    return next((c for c in compose(made).cautions if c.key == key), None)


def cautions(made: Project) -> list[str]:
    return [c.key for c in compose(made).cautions]
