"""What each recipe line brings to the must, by mass: water, solids, acid, nitrogen, pulp."""

from __future__ import annotations

from typing import NamedTuple

from winebench.catalog.additives import Additive, additives
from winebench.catalog.fruits import Fruit, fruits, own_fruit
from winebench.catalog.rows import Spread
from winebench.catalog.sugars import Sugar, sugars
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine, WaterLine
from winebench.trade.acid import as_tartaric
from winebench.trade.gravity import brix_from_sg, density_from_brix, water_density
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE
from winebench.units import Amount, GallonCountry, Gravity

Side = int
"""Which end of the ranges to take: -1 poor fruit, 0 typical, +1 rich fruit."""
WATER_KG_PER_L = water_density(20.0) / 1000.0
_PULP_KG_PER_L = 1.05
_FREE_ON_DAY_0 = {
    "fresh": Spread(0.35, 0.50, 0.65),
    "frozen": Spread(0.60, 0.75, 0.90),
    "canned": Spread(0.60, 0.75, 0.90),
    "dried": Spread(0.10, 0.20, 0.40),
    "puree": Spread(1.0, 1.0, 1.0),
    "juice": Spread(1.0, 1.0, 1.0),
}
"""Share of a fruit's liquid that is free when the must is made up. Common practice."""


class Portion(NamedTuple):
    """What one line brings, at one side of its ranges."""

    water_kg: float = 0.0
    solids_kg: float = 0.0
    sugar_kg: float = 0.0
    """The fermentable part, as simple sugars once the yeast has split them."""
    acid_g: float = 0.0
    """As tartaric."""
    nitrogen_mg: float = 0.0
    so2_mg: float = 0.0
    pulp_l: float = 0.0
    free: float = 1.0
    """Share of water and solids that is in the liquid on day 0."""


def fruit_of(line: FruitLine) -> Fruit:
    """Return the catalog's fruit, or a wide stand-in for the maker's own."""
    return fruits().get(line.fruit) or own_fruit(line.fruit)


def sugar_of(line: SugarLine) -> Sugar:
    """Return the catalog's sugar; the maker's own name is a syrup by its label."""
    return sugars().get(line.sugar) or sugars()["syrup"]._replace(name=line.sugar)


def additive_of(line: AdditiveLine) -> Additive | None:
    """Return the catalog's additive, or None for the maker's own."""
    return additives().get(line.additive)


def side(spread: Spread, at: Side) -> float:
    """Return the figure at that side of its range."""
    return spread[at + 1]


def mass_g(amount: Amount, g_per_litre: float, gallon: GallonCountry | None) -> float:
    """Return grams of an amount by weight, or by volume at that density."""
    if amount.dimension == "mass":
        return amount.grams()
    return amount.litres(gallon) * g_per_litre


def brix_of(gravity: Gravity) -> float:
    """Return the °Brix of a measured gravity, whichever scale it was read on."""
    return gravity.value if gravity.scale == "Brix" else brix_from_sg(gravity.value)


def fruit_portion(line: FruitLine, gallon: GallonCountry | None, at: Side) -> Portion:
    """Return what that fruit brings."""
    fruit, measured = fruit_of(line), line.measured
    brix = brix_of(measured.juice) if measured.juice else side(fruit.brix, at)
    as_juice = line.form == "juice" or fruit.group == "juice"
    kilos = mass_g(line.amount, _g_per_litre(line, brix), gallon) / 1000.0
    strained = as_juice or line.form == "puree"
    if not strained and not line.prepared:
        kilos *= 1.0 - fruit.refuse_percent / 100.0
    share = 1.0 if strained else side(fruit.liquid, at)
    if measured.liquid_percent is not None:
        share = measured.liquid_percent / 100.0
    liquid_kg = kilos * share
    solids = liquid_kg * brix / 100.0
    litres = liquid_kg * 1000.0 / density_from_brix(brix)
    if measured.acid_g_per_l is not None:
        acid = measured.acid_g_per_l * litres
    else:
        acid = side(fruit.acid_g_per_kg, at) * kilos
    free = _FREE_ON_DAY_0["juice" if strained else line.form]
    return Portion(
        water_kg=liquid_kg - solids,
        solids_kg=solids,
        sugar_kg=solids * side(fruit.fermentable, at),
        acid_g=acid,
        nitrogen_mg=side(fruit.nitrogen_mg_per_l, at) * litres,
        pulp_l=0.0 if strained else (kilos - liquid_kg) / _PULP_KG_PER_L,
        free=side(free, at),
    )


def _g_per_litre(line: FruitLine, brix: float) -> float:
    """Return how heavy a litre is: juice and puree by their °Brix, whole fruit heaped loosely."""
    if line.form in ("juice", "puree") or fruit_of(line).group == "juice":
        return density_from_brix(brix)
    return 600.0  # common practice: a litre jug of berries holds about 0.6 kg


def sugar_portion(line: SugarLine, gallon: GallonCountry | None, at: Side) -> Portion:
    """Return what that sugar brings."""
    sugar = sugar_of(line)
    percent = line.solids_percent if line.solids_percent else side(sugar.solids_percent, at)
    if line.amount.dimension == "volume":
        kilos = line.amount.litres(gallon) * _sugar_g_per_litre(sugar, percent) / 1000.0
    else:
        kilos = line.amount.grams() / 1000.0
    solids = kilos * percent / 100.0
    split = 1.0 + sugar.sucrose_share * (HEXOSE_FROM_SUCROSE - 1.0)
    return Portion(
        water_kg=kilos - solids,
        solids_kg=solids,
        sugar_kg=solids * sugar.fermentable * split,
        acid_g=kilos * sugar.acid_g_per_kg,
        nitrogen_mg=kilos * sugar.nitrogen_mg_per_kg,
    )


def _sugar_g_per_litre(sugar: Sugar, percent: float) -> float:
    if sugar.g_per_cup is not None:
        return sugar.g_per_cup / Amount("1 cup US").litres(None)
    return density_from_brix(min(percent, 84.0)) if sugar.needs_label else 850.0


def additive_g(project: Project, line: AdditiveLine) -> float | None:
    """Return the grams of an additive at the recipe's own volume, or None where not known."""
    additive = additive_of(line)
    if line.amount.dimension == "mass":
        return line.amount.grams()
    if line.amount.dimension == "count":
        return line.amount.count() * project.kitchen.tablet_g
    grams = g_per_teaspoon(project, line.additive)
    if grams is None or additive is None:
        return None
    return line.amount.litres(project.gallon) / Amount("1 tsp").litres(None) * grams


def g_per_teaspoon(project: Project, key: str) -> float | None:
    """Return what a level teaspoon of it holds: the maker's own weighing, else the table's."""
    for weighed in project.kitchen.spoons:
        if weighed.additive == key:
            return weighed.grams_per_teaspoon
    additive = additives().get(key)
    return additive.g_per_teaspoon.figure if additive else None


def additive_portion(project: Project, line: AdditiveLine) -> Portion:
    """Return what that additive brings."""
    additive, grams = additive_of(line), additive_g(project, line)
    if additive is None or grams is None:
        return Portion()
    acid = as_tartaric(1.0, additive.acid) * grams if additive.acid else 0.0
    return Portion(
        solids_kg=grams / 1000.0 if additive.acid else 0.0,
        acid_g=acid,
        nitrogen_mg=grams * 1000.0 * additive.nitrogen_share,
        so2_mg=grams * 1000.0 * additive.so2_share,
    )


def portion(project: Project, line: Line, at: Side) -> Portion:
    """Return what a line brings; water to the mark brings nothing here."""
    if isinstance(line, FruitLine):
        return fruit_portion(line, project.gallon, at)
    if isinstance(line, SugarLine):
        return sugar_portion(line, project.gallon, at)
    if isinstance(line, AdditiveLine):
        return additive_portion(project, line)
    if isinstance(line, WaterLine) and line.amount is not None:
        return Portion(water_kg=line.amount.litres(project.gallon) * WATER_KG_PER_L)
    return Portion()
