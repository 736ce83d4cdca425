"""The must by mass: water and solids added up, gravity through the sucrose tables."""

from __future__ import annotations

from collections.abc import Iterable
from math import isnan
from typing import Any, NamedTuple

from winebench.catalog.rows import Spread
from winebench.model.project import Project
from winebench.model.recipe import SugarLine, WaterLine
from winebench.plan.portions import WATER_KG_PER_L, Portion, Side, portion
from winebench.trade.gravity import (
    brix_from_sg,
    density_from_brix,
    sg_from_brix,
    sg_from_solids_g_per_l,
)
from winebench.units import Juice

MOST_BRIX = Juice.most_brix
"""Where the sucrose table ends; a heap of sugar without water is shown as this."""
MOST_SOLIDS_G_PER_L = 1190.0
"""What a litre of that holds: past it there is no room for water."""


class Balance(NamedTuple):
    """A must, at one side of its fruit's ranges, for the recipe's own volume."""

    water_kg: float
    solids_kg: float
    sugar_kg: float
    """Fermentable, as simple sugars once split."""
    left_kg: float
    """Dissolved solids that no yeast ferments."""
    acid_g: float
    nitrogen_mg: float
    so2_mg: float
    tannin_g: float
    """Condensed tannin that the wine keeps; not a number where some fruit's is not known."""
    pulp_l: float
    to_mark_l: float
    """Water that fills it to the recipe's volume; 0 where no line asks for it."""
    free_water_kg: Spread
    """In the liquid on day 0, with little, usual and much of the juice free."""
    free_solids_kg: Spread
    brix: float
    """Once the fruit has given up its sugar."""
    litres: float
    """Liquid without the pulp, L."""

    @property
    def sg(self) -> float:
        """Return SG 20/20 once the fruit has given up its sugar."""
        return sg_from_brix(self.brix)

    @property
    def sg_day_0(self) -> float:
        """Return SG 20/20 of the liquid when the must is just made up."""
        return sg_from_brix(_brix(self.free_water_kg.figure, self.free_solids_kg.figure))

    @property
    def sg_day_0_ends(self) -> tuple[float, float]:
        """Return the lowest and highest of that, by how much of the juice is free at once."""
        pairs = zip(self.free_water_kg, self.free_solids_kg, strict=True)
        found = [sg_from_brix(_brix(water, solids)) for water, solids in pairs]
        return min(found), max(found)

    @property
    def sugar_g_per_l(self) -> float:
        """Return fermentable sugar, g/L."""
        return self.per_litre(self.sugar_kg * 1000.0)

    @property
    def left_g_per_l(self) -> float:
        """Return dissolved solids that no yeast ferments, g/L."""
        return self.per_litre(self.left_kg * 1000.0)

    @property
    def acid_g_per_l(self) -> float:
        """Return titratable acid, g/L as tartaric."""
        return self.per_litre(self.acid_g)

    @property
    def tannin_g_per_l(self) -> float | None:
        """Return tannin that the wine keeps, g/L; None where some fruit's is not known."""
        return None if isnan(self.tannin_g) else self.per_litre(self.tannin_g)

    @property
    def is_heap(self) -> bool:
        """Return whether it is more sugar than its water dissolves: no table has figures of it."""
        return self.brix >= MOST_BRIX

    def times(self, factor: float) -> Balance:
        """Return so many times as much of the same must."""
        amounts = (_times(value, factor) for value in self)
        return Balance(*amounts)._replace(brix=self.brix)

    def per_litre(self, amount: float) -> float:
        """Return an amount over the liquid; 0 where there is none."""
        return amount / self.litres if self.litres else 0.0


def _times(value: Any, factor: float) -> Any:
    if isinstance(value, Spread):
        return Spread(*(end * factor for end in value))
    return value * factor


def _brix(water_kg: float, solids_kg: float) -> float:
    total = water_kg + solids_kg
    return min(max(100.0 * solids_kg / total, 0.0), MOST_BRIX) if total > 0 else 0.0


def has_feed(project: Project) -> bool:
    """Return whether some sugar is kept back to be fed later."""
    return any(_is_feed(line) for line in project.recipe.lines)


def has_mark(project: Project) -> bool:
    """Return whether water fills the must to the recipe's volume."""
    return any(isinstance(x, WaterLine) and x.amount is None for x in project.recipe.lines)


def _is_feed(line: object) -> bool:
    return isinstance(line, SugarLine) and line.when == "feed"


def _mark_l(project: Project) -> float:
    return project.recipe.basis.litres(project.gallon)


def balanced(project: Project, at: Side = 0, *, fed: bool = False) -> Balance:
    """Return the must of the recipe as written.

    Water "to the mark" fills the liquid, not the pulp, to the recipe's volume. Sugar to be fed
    later is left out, or put on top of the filled must where `fed`.
    """
    lines = project.recipe.lines
    portions = [portion(project, line, at) for line in lines if not _is_feed(line)]
    to_mark = 0.0
    if has_mark(project):
        to_mark = _to_mark_kg(portions, _mark_l(project))
        portions.append(Portion(water_kg=to_mark))
    if fed:
        portions += [portion(project, line, at) for line in lines if _is_feed(line)]
    return _summed(portions, to_mark / WATER_KG_PER_L)


def _summed(parts: Iterable[Portion], to_mark_l: float) -> Balance:
    water = solids = sugar = left = acid = nitrogen = so2 = tannin = pulp = 0.0
    free_water, free_solids = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    for part in parts:
        water += part.water_kg
        solids += part.solids_kg
        sugar += part.sugar_kg
        left += part.left_kg
        acid += part.acid_g
        nitrogen += part.nitrogen_mg
        so2 += part.so2_mg
        tannin += part.tannin_g
        pulp += part.pulp_l
        for end, share in enumerate(part.free):
            free_water[end] += part.water_kg * share
            free_solids[end] += part.solids_kg * share
    brix = _brix(water, solids)
    return Balance(
        water, solids, sugar, left, acid, nitrogen, so2, tannin, pulp, to_mark_l,
        Spread(*free_water), Spread(*free_solids), brix,
        (water + solids) * 1000.0 / density_from_brix(brix),
    )  # fmt: skip


def _to_mark_kg(portions: list[Portion], mark_l: float) -> float:
    """Return the water, kg, that brings the liquid to the mark; 0 where it is over already."""
    water = sum(part.water_kg for part in portions)
    solids = sum(part.solids_kg for part in portions)
    if mark_l <= 0 or solids * 1000.0 / mark_l > MOST_SOLIDS_G_PER_L:
        return 0.0
    full = mark_l * WATER_KG_PER_L * sg_from_solids_g_per_l(solids * 1000.0 / mark_l)
    return max(full - water - solids, 0.0)


def both_musts(project: Project) -> tuple[Balance, Balance]:
    """Return the must when the yeast goes in, and with the sugar that is fed later."""
    start = balanced(project)
    return start, balanced(project, fed=True) if has_feed(project) else start


def _share_of_solids(target_sg: float) -> float | None:
    """Return the solids of a must of that gravity, share of its mass; None where it has none."""
    return brix_from_sg(target_sg) / 100.0 if 1.0 < target_sg < 1.4 else None


def sugar_to_target_kg(
    project: Project,
    target_sg: float,
    solids_percent: float = 100.0,
    musts: tuple[Balance, Balance] | None = None,
    *,
    fed: bool = False,
) -> float | None:
    """Return sugar of so much solids to add to the recipe for that gravity, kg.

    Negative: leave out. Exact on the same balance that shows the gravity: under a mark the sugar
    takes the place of water, else, and where it is `fed` later, it adds to the volume. None where
    no amount does. `musts` is `both_musts(project)` where that is known already.
    """
    share, wanted = solids_percent / 100.0, _share_of_solids(target_sg)
    if wanted is None or wanted >= share:
        return None
    start, must = musts or both_musts(project)
    bare_kg = start.water_kg + start.solids_kg - start.to_mark_l * WATER_KG_PER_L
    if has_mark(project) and not fed:
        filled_kg, filled_solids = _filled(project, start, must, wanted)
        kilos = (filled_solids - start.solids_kg) / share
        if filled_kg >= bare_kg + kilos:  # there is room for the sugar under the mark
            return kilos if must.solids_kg + kilos * share >= 0 else None
    total = must.water_kg + must.solids_kg
    if not fed:
        total += bare_kg - start.water_kg - start.solids_kg
    kilos = (wanted * total - must.solids_kg) / (share - wanted)
    return kilos if must.solids_kg + kilos * share >= 0 else None


def _filled(project: Project, start: Balance, must: Balance, wanted: float) -> tuple[float, float]:
    """Return mass and solids, kg, up to the mark of the must that reads as wanted once fed."""
    mark = _mark_l(project)
    fed_solids = must.solids_kg - start.solids_kg
    fed_kg = fed_solids + must.water_kg - start.water_kg
    solids = filled = 0.0
    for _ in range(8):  # each turn leaves a tenth of the error
        filled = mark * WATER_KG_PER_L * sg_from_brix(_brix(filled - solids, solids))
        solids = wanted * (filled + fed_kg) - fed_solids
    return filled, solids


def water_to_target_l(
    project: Project, target_sg: float, musts: tuple[Balance, Balance] | None = None
) -> float | None:
    """Return water to add to the recipe (negative: leave out) for that gravity, L.

    None where no amount does, or more would have to be left out than is poured in.
    """
    (_, must), wanted = musts or both_musts(project), _share_of_solids(target_sg)
    if wanted is None or must.solids_kg <= 0:
        return None
    kilos = must.solids_kg / wanted - must.solids_kg - must.water_kg
    return kilos / WATER_KG_PER_L if kilos >= -_poured_kg(project, must) else None


def _poured_kg(project: Project, must: Balance) -> float:
    lines = (x for x in project.recipe.lines if isinstance(x, WaterLine))
    written = sum(x.amount.litres(project.gallon) for x in lines if x.amount is not None)
    return (written + must.to_mark_l) * WATER_KG_PER_L
