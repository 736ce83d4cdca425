"""The must by mass: water and solids added up, gravity through the sucrose tables."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple

from winebench.model.project import Project
from winebench.model.recipe import SugarLine, WaterLine
from winebench.plan.portions import WATER_KG_PER_L, Portion, Side, portion
from winebench.trade.gravity import density_from_brix, sg_from_brix

MOST_BRIX = 84.0


class Balance(NamedTuple):
    """A must, at one side of its fruit's ranges, for the recipe's own volume."""

    water_kg: float
    solids_kg: float
    sugar_kg: float
    acid_g: float
    nitrogen_mg: float
    so2_mg: float
    pulp_l: float
    to_mark_l: float
    """Water that fills it to the recipe's volume; 0 where no line asks for it."""
    free_water_kg: float
    free_solids_kg: float

    @property
    def brix(self) -> float:
        """Return °Brix once the fruit has given up its sugar."""
        return _brix(self.water_kg, self.solids_kg)

    @property
    def sg(self) -> float:
        """Return SG 20/20 once the fruit has given up its sugar."""
        return sg_from_brix(self.brix)

    @property
    def sg_day_0(self) -> float:
        """Return SG 20/20 of the liquid when the must is just made up."""
        return sg_from_brix(_brix(self.free_water_kg, self.free_solids_kg))

    @property
    def litres(self) -> float:
        """Return the liquid without the pulp, L."""
        return (self.water_kg + self.solids_kg) * 1000.0 / density_from_brix(self.brix)

    @property
    def sugar_g_per_l(self) -> float:
        """Return fermentable sugar, g/L."""
        return self.sugar_kg * 1000.0 / self.litres if self.litres else 0.0

    @property
    def acid_g_per_l(self) -> float:
        """Return titratable acid, g/L as tartaric."""
        return self.acid_g / self.litres if self.litres else 0.0


def _brix(water_kg: float, solids_kg: float) -> float:
    total = water_kg + solids_kg
    return min(100.0 * solids_kg / total, MOST_BRIX) if total > 0 else 0.0


class Extra(NamedTuple):
    """Something tried on top of the recipe while solving for a target."""

    sugar_kg: float = 0.0
    water_kg: float = 0.0


NOTHING_EXTRA = Extra()


def balanced(project: Project, at: Side = 0, extra: Extra = NOTHING_EXTRA) -> Balance:
    """Return the must of the recipe as written; sugar to be fed later is left out."""
    portions = [
        portion(project, line, at)
        for line in project.recipe.lines
        if not (isinstance(line, SugarLine) and line.when == "feed")
    ]
    portions.append(
        Portion(
            water_kg=extra.water_kg,
            solids_kg=extra.sugar_kg,
            sugar_kg=extra.sugar_kg * 1.0526,
        )
    )
    to_mark = 0.0
    if any(isinstance(line, WaterLine) and line.amount is None for line in project.recipe.lines):
        to_mark = _to_mark_kg(portions, project.recipe.basis.litres(project.gallon))
        portions.append(Portion(water_kg=to_mark))
    return _summed(portions, to_mark / WATER_KG_PER_L)


def _summed(portions: Iterable[Portion], to_mark_l: float) -> Balance:
    parts = tuple(portions)
    return Balance(
        water_kg=sum(part.water_kg for part in parts),
        solids_kg=sum(part.solids_kg for part in parts),
        sugar_kg=sum(part.sugar_kg for part in parts),
        acid_g=sum(part.acid_g for part in parts),
        nitrogen_mg=sum(part.nitrogen_mg for part in parts),
        so2_mg=sum(part.so2_mg for part in parts),
        pulp_l=sum(part.pulp_l for part in parts),
        to_mark_l=to_mark_l,
        free_water_kg=sum(part.water_kg * part.free for part in parts),
        free_solids_kg=sum(part.solids_kg * part.free for part in parts),
    )


def _to_mark_kg(portions: list[Portion], basis_l: float) -> float:
    """Return the water, kg, that brings the liquid to the basis; 0 where it is over already."""
    water = sum(part.water_kg for part in portions)
    solids = sum(part.solids_kg for part in portions)

    def short(added: float) -> float:
        brix = _brix(water + added, solids)
        return basis_l - (water + added + solids) * 1000.0 / density_from_brix(brix)

    added = max(short(0.0), 0.0) * WATER_KG_PER_L
    for _ in range(3):  # nearly linear: each step leaves a thousandth of the gap
        added = max(added + short(added) * WATER_KG_PER_L, 0.0)
    return added


def solved(shortfall: Callable[[float], float], first: float, second: float) -> float | None:
    """Return where a rising shortfall is nought, by secants; None where it does not settle."""
    at_first, at_second = shortfall(first), shortfall(second)
    for _ in range(12):
        if abs(at_second) < 1e-7:
            return second
        if at_second == at_first:
            return None
        step = at_second * (second - first) / (at_second - at_first)
        first, at_first = second, at_second
        second = second - step
        at_second = shortfall(second)
    return second if abs(at_second) < 1e-4 else None


def sugar_to_target_kg(project: Project, target_sg: float) -> float | None:
    """Return white sugar to add to the recipe (negative: leave out) for that gravity, kg.

    Solved on the same balance that shows the gravity, so that doing it reaches the target. None
    where no amount does.
    """
    return solved(
        lambda kilos: balanced(project, extra=Extra(sugar_kg=kilos)).sg - target_sg, 0.0, 0.2
    )


def water_to_target_l(project: Project, target_sg: float) -> float | None:
    """Return water to add to the recipe (negative: leave out) for that gravity, L."""
    start = balanced(project)
    bare = start.water_kg - start.to_mark_l * WATER_KG_PER_L
    if start.solids_kg <= 0:
        return None

    def over(kilos: float) -> float:
        return sg_from_brix(_brix(max(start.water_kg + kilos, 0.01), start.solids_kg)) - target_sg

    found = solved(over, 0.0, 0.1)
    if found is None or start.water_kg + found < min(bare, start.water_kg):
        return None
    return found / WATER_KG_PER_L
