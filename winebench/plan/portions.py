"""What each recipe line brings to the must, by mass: water, solids, acid, nitrogen, pulp."""

from __future__ import annotations

import math
from typing import NamedTuple

from winebench.catalog.additives import Additive, additives
from winebench.catalog.fruits import Fruit, dried, fruits, own_fruit
from winebench.catalog.rows import Spread
from winebench.catalog.sugars import Sugar, sugars
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine, WaterLine
from winebench.trade import tannin
from winebench.trade.acid import as_tartaric
from winebench.trade.gravity import brix_from_sg, density_from_brix, water_density
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE
from winebench.units import Amount, GallonCountry, Gravity, Juice

Side = int
"""Which end of the ranges to take: -1 poor fruit, 0 typical, +1 rich fruit."""
WATER_KG_PER_L = water_density(20.0) / 1000.0
PULP_KG_PER_L = 1.05
"""Skins, flesh and seeds soaked with must are a little heavier than it (from memory)."""
_SUGAR_G_PER_L = 850.0
"""Dry sugar in a jug: a US cup of it weighs 200 g (common practice)."""
CANNED_FRUIT_SHARE = 0.6
"""Fruit in a can, share of its mass: the rest is its syrup, juice or water. Common practice."""
_TEASPOON_L = Amount("1 tsp").litres(None)
_CUP_L = Amount("1 cup US").litres(None)
ALL_FREE = Spread(1.0, 1.0, 1.0)
_FREE_ON_DAY_0 = {
    "fresh": Spread(0.35, 0.50, 0.65),
    "frozen": Spread(0.60, 0.75, 0.90),
    "canned": Spread(0.60, 0.75, 0.90),
    "dried": Spread(0.10, 0.20, 0.40),
    "puree": ALL_FREE,
    "juice": ALL_FREE,
}
"""Share of a fruit's liquid that is free when the must is made up. Common practice."""
MOST_USUAL_BRIX = 26.0
"""What the juice of wine makers' fruit gives at the most (common practice)."""
_CONCENTRATED_TIMES = 1.5
"""From so many times a plain juice's °Brix it is a concentrate (Codex STAN 247-2005, 2.1.2;
its half more from memory)."""
NOT_KNOWN = math.nan
"""A sum that holds it is not known either."""
TANNIN_OF_POWDER = Spread(tannin.OF_POWDER.low, tannin.OF_POWDER.figure, tannin.OF_POWDER.high)
"""Share of its mass."""


class Portion(NamedTuple):
    """What one line brings, at one side of its ranges."""

    water_kg: float = 0.0
    solids_kg: float = 0.0
    sugar_kg: float = 0.0
    """The fermentable part, as simple sugars once the yeast has split them."""
    left_kg: float = 0.0
    """Dissolved solids that no yeast ferments."""
    acid_g: float = 0.0
    """As tartaric."""
    nitrogen_mg: float = 0.0
    so2_mg: float = 0.0
    tannin_g: float = 0.0
    """Of what the wine keeps; `NOT_KNOWN` where no figure of the fruit is."""
    pulp_l: float = 0.0
    free: Spread = ALL_FREE
    """Share of water and solids that is in the liquid on day 0, whatever side the rest is of."""


def fruit_of(line: FruitLine) -> Fruit:
    """Return the catalog's fruit, or a wide stand-in for the maker's own."""
    return fruits().get(line.fruit) or own_fruit(line.fruit)


def sugar_of(line: SugarLine) -> Sugar:
    """Return the catalog's sugar; the maker's own name is a syrup by its label."""
    return sugars().get(line.sugar) or sugars()["syrup"]._replace(
        name=line.sugar.strip() or "Unnamed sugar"
    )


def additive_of(line: AdditiveLine) -> Additive | None:
    """Return the catalog's additive, or None for the maker's own."""
    return additives().get(line.additive)


def side(spread: Spread, at: Side) -> float:
    """Return the figure at that side of its range."""
    return spread[at + 1]


def mass_g(amount: Amount, g_per_litre: float, gallon: GallonCountry | None) -> float:
    """Return grams of an amount by weight, or by volume at that density; nothing of a count."""
    if amount.dimension == "mass":
        return amount.grams()
    if amount.dimension == "count":  # "2 packets" of sugar: nobody knows how much that is
        return 0.0
    return amount.litres(gallon) * g_per_litre


def brix_of(gravity: Gravity) -> float:
    """Return the °Brix of a measured gravity, whichever scale it was read on."""
    return gravity.value if gravity.scale == "Brix" else brix_from_sg(gravity.value)


def is_strained(line: FruitLine) -> bool:
    """Return whether it is all liquid: juice or puree, with no pulp to lift out again."""
    return line.form in ("juice", "puree") or fruit_of(line).group == "juice"


def fruit_portion(line: FruitLine, gallon: GallonCountry | None, at: Side) -> Portion:
    """Return what that fruit brings."""
    fruit, measured = in_form(line), line.measured
    brix = max(brix_of(measured.juice), 0.0) if measured.juice else side(fruit.brix, at)
    kilos = mass_g(line.amount, _g_per_litre(line, brix), gallon) / 1000.0
    strained = is_strained(line)
    if not (strained or line.prepared or line.form == "canned"):
        kilos *= 1.0 - fruit.refuse_percent / 100.0
    share = 1.0 if strained else side(fruit.liquid, at)
    if measured.liquid_percent is not None:
        share = min(max(measured.liquid_percent / 100.0, 0.0), 1.0)
    liquid_kg = kilos * share
    solids = liquid_kg * brix / 100.0
    own = CANNED_FRUIT_SHARE if line.form == "canned" else 1.0
    of_fruit = min(solids, own * liquid_kg * fruit.brix.figure / 100.0) if own < 1.0 else solids
    sugar = of_fruit * side(fruit.fermentable, at) + solids - of_fruit  # the rest is the syrup's
    litres = liquid_kg * 1000.0 / density_from_brix(brix)
    times = concentration(line, brix)
    as_plain_l = times * liquid_kg * 1000.0 / density_from_brix(brix / times)
    if measured.acid_g_per_l is not None:
        acid = measured.acid_g_per_l * litres
    else:  # what stays behind in the pulp keeps its acid, as it keeps its sugar
        acid = own * times * side(fruit.acid_g_per_kg, at) / fruit.juice_share * liquid_kg
    free = _FREE_ON_DAY_0["juice" if strained else line.form]
    return Portion(
        water_kg=liquid_kg - solids,
        solids_kg=solids,
        sugar_kg=sugar,
        left_kg=solids - sugar,
        acid_g=acid,
        nitrogen_mg=own * side(fruit.nitrogen_mg_per_l, at) * as_plain_l,
        tannin_g=own * times * kilos * _tannin_g_per_kg(line, at),
        pulp_l=0.0 if strained else (kilos - liquid_kg) / PULP_KG_PER_L,
        free=free,
    )


def in_form(line: FruitLine) -> Fruit:
    """Return the fruit, concentrated where a fresh fruit of the catalog was dried."""
    fruit = fruit_of(line)
    return dried(fruit) if line.form == "dried" and fruit.group != "dried" else fruit


def concentration(line: FruitLine, brix: float) -> float:
    """Return how many times a juice of that °Brix is concentrated; 1 where it is plain.

    Thinned back to the °Brix of plain juice it is plain juice again, so that all it brings grows
    in step. The °Brix of plain juice is that of 21 CFR 101.30 where that has the fruit; of one
    with more acid than sugar, as lemons, both together.
    """
    fruit = fruit_of(line)
    if line.form != "juice" and fruit.group != "juice":
        return 1.0
    plain, acid_percent = fruit.brix.figure, fruit.acid_g_per_kg.figure / 10.0
    times = brix / (plain + (acid_percent if acid_percent > plain else 0.0))
    return times if brix > MOST_USUAL_BRIX and times >= _CONCENTRATED_TIMES else 1.0


def tannin_kept(line: FruitLine) -> Spread:
    """Return the share of the fruit's tannin that the wine keeps of it in that form."""
    if fruit_of(line).group == "juice":
        kept = tannin.OF_JUICE
    else:
        kept = tannin.IN_THE_JUICE if line.form == "juice" else tannin.ON_THE_PULP
    return Spread(kept.low, kept.figure, kept.high)


def tannin_of(line: FruitLine) -> Spread | None:
    """Return the fruit's tannin, g/kg: the maker's own figure, else the table's; None without."""
    own = line.measured.tannin_mg_per_100_g
    if own is None:
        return in_form(line).tannin.g_per_kg
    g_per_kg = own / 100.0
    return Spread(g_per_kg, g_per_kg, g_per_kg)


def _tannin_g_per_kg(line: FruitLine, at: Side) -> float:
    known = tannin_of(line)
    return NOT_KNOWN if known is None else side(known, at) * side(tannin_kept(line), at)


def _g_per_litre(line: FruitLine, brix: float) -> float:
    """Return how heavy a litre is: juice and puree by their °Brix, whole fruit heaped loosely."""
    if is_strained(line):
        return density_from_brix(brix)
    return 600.0  # common practice: a litre jug of berries holds about 0.6 kg


def sugar_portion(line: SugarLine, gallon: GallonCountry | None, at: Side) -> Portion:
    """Return what that sugar brings."""
    sugar = sugar_of(line)
    percent = solids_percent(line, at)
    kilos = mass_g(line.amount, _sugar_g_per_litre(sugar, percent), gallon) / 1000.0
    solids = kilos * percent / 100.0
    split = 1.0 + sugar.sucrose_share * (HEXOSE_FROM_SUCROSE - 1.0)
    return Portion(
        water_kg=kilos - solids,
        solids_kg=solids,
        sugar_kg=solids * sugar.fermentable * split,
        left_kg=solids * (1.0 - sugar.fermentable),
        acid_g=kilos * sugar.acid_g_per_kg,
        nitrogen_mg=kilos * sugar.nitrogen_mg_per_kg,
    )


def solids_percent(line: SugarLine, at: Side = 0) -> float:
    """Return the sugar by mass, %: the label's figure, else the table's."""
    if line.solids_percent:
        return min(max(line.solids_percent, 1.0), 100.0)
    return side(sugar_of(line).solids_percent, at)


def g_per_litre(line: FruitLine | SugarLine) -> float:
    """Return how heavy a litre of the line's fruit or sugar is, g."""
    if isinstance(line, SugarLine):
        return _sugar_g_per_litre(sugar_of(line), solids_percent(line))
    juice = line.measured.juice
    brix = max(brix_of(juice), 0.0) if juice else fruit_of(line).brix.figure
    return _g_per_litre(line, brix)


def _sugar_g_per_litre(sugar: Sugar, percent: float) -> float:
    if sugar.g_per_cup is not None:
        return sugar.g_per_cup / _CUP_L
    return density_from_brix(min(percent, Juice.most_brix)) if sugar.needs_label else _SUGAR_G_PER_L


def additive_g(project: Project, line: AdditiveLine) -> float | None:
    """Return the grams of an additive at the recipe's own volume, or None where not known."""
    if line.amount.dimension == "mass":
        return line.amount.grams()
    if line.amount.dimension == "count":
        return line.amount.count() * project.kitchen.tablet_g if in_tablets(line) else None
    grams = g_per_teaspoon(project, line.additive)
    return None if grams is None else line.amount.litres(project.gallon) / _TEASPOON_L * grams


def in_tablets(line: AdditiveLine) -> bool:
    """Return whether it is counted in sulfite tablets, whose mass the kitchen knows."""
    additive = additive_of(line)
    tablets = line.amount.dimension == "count" and line.amount.parts[0].unit == "tablet"
    return tablets and additive is not None and additive.so2_share > 0


def g_per_teaspoon(project: Project, key: str) -> float | None:
    """Return what a level teaspoon of it holds: the maker's own weighing, else the table's."""
    for weighed in project.kitchen.spoons:
        if weighed.additive == key and weighed.grams_per_teaspoon > 0:
            return weighed.grams_per_teaspoon
    additive = additives().get(key)
    return additive.g_per_teaspoon.figure if additive else None


def additive_portion(project: Project, line: AdditiveLine, at: Side) -> Portion:
    """Return what that additive brings; of tannin powder at that side of its purity."""
    additive, grams = additive_of(line), additive_g(project, line)
    if additive is None or grams is None:
        return Portion()
    acid = as_tartaric(1.0, additive.acid) * grams if additive.acid else 0.0
    dissolved = grams / 1000.0 if additive.acid else 0.0
    return Portion(
        solids_kg=dissolved,
        left_kg=dissolved,
        acid_g=acid,
        nitrogen_mg=grams * 1000.0 * additive.nitrogen_share,
        so2_mg=grams * 1000.0 * additive.so2_share,
        tannin_g=grams * side(TANNIN_OF_POWDER, at) if additive.kind == "tannin" else 0.0,
    )


def portion(project: Project, line: Line, at: Side) -> Portion:
    """Return what a line brings; water to the mark brings nothing here."""
    if isinstance(line, FruitLine):
        return fruit_portion(line, project.gallon, at)
    if isinstance(line, SugarLine):
        return sugar_portion(line, project.gallon, at)
    if isinstance(line, AdditiveLine):
        return additive_portion(project, line, at)
    if isinstance(line, WaterLine) and line.amount is not None:
        return Portion(water_kg=line.amount.litres(project.gallon) * WATER_KG_PER_L)
    return Portion()
