"""What is wanted of the must: the maker's own targets, else those of the style."""

from __future__ import annotations

from typing import NamedTuple

from winebench.catalog.styles import Style, style
from winebench.model.project import Project
from winebench.plan.balance import Balance
from winebench.plan.drinking import by_style as ready_by_style
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT
from winebench.trade.gravity import (
    sg_from_brix,
    sg_from_solids_g_per_l,
    solids_g_per_l_from_sg,
)
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE
from winebench.units import Gravity

LEAST_SG, MOST_SG = 1.070, 1.110
"""Gravities between which a must is pitched (common practice): below keeps poorly, above sticks."""
LEAST_NITROGEN_MG_PER_L = 150.0
"""What yeast needs at the least (Weeks & Henschke, AWRI note on assimilable nitrogen)."""
STRONG_SULFITE_MG_PER_L = 75.0
"""More sulfite than the usual 30 to 75 holds yeast back (common practice)."""
YEAST_MARGIN_PERCENT = 1.0
"""% vol below the packet's limit at which yeast tires (common practice)."""


class Wanted(NamedTuple):
    """What the maker, else the style, wants of the must."""

    style: Style
    gravity_low: float
    gravity_high: float
    acid_low: float
    acid_high: float
    tannin_low: float
    tannin_high: float
    drink_months: float
    """From when it is to be ready, months after bottling."""
    own_gravity: bool
    """Whether the maker wrote the gravity themselves."""
    own_drink: bool
    """Whether the maker wrote those months themselves."""

    @property
    def gravity(self) -> float:
        """Return the middle of the wanted gravities."""
        return (self.gravity_low + self.gravity_high) / 2.0


def wanted(project: Project, must: Balance) -> Wanted:
    """Return the targets: the maker's own, a strength turned to a gravity, else the style's."""
    targets, by_style = project.recipe.targets, style(project.recipe.style)
    own = [_sg(gravity) for gravity in (targets.gravity_low, targets.gravity_high) if gravity]
    if own:
        low, high = min(own), max(own)
    elif targets.strength_percent is not None:
        aim = _gravity_for_strength(must, targets.strength_percent)
        low, high = aim - 0.002, aim + 0.002
    else:
        low, high = by_style.gravity_low, by_style.gravity_high
    acid_low, acid_high = _range(
        targets.acid_low_g_per_l, targets.acid_high_g_per_l, by_style.acid_low, by_style.acid_high
    )
    tannin_low, tannin_high = _range(
        targets.tannin_low_g_per_l, targets.tannin_high_g_per_l,
        by_style.tannin_low, by_style.tannin_high,
    )  # fmt: skip
    drink = targets.drink_months
    return Wanted(
        style=by_style,
        gravity_low=low,
        gravity_high=high,
        acid_low=acid_low,
        acid_high=acid_high,
        tannin_low=tannin_low,
        tannin_high=tannin_high,
        drink_months=ready_by_style(by_style) if drink is None else drink,
        own_gravity=bool(own) or targets.strength_percent is not None,
        own_drink=drink is not None,
    )


def _range(
    low: float | None, high: float | None, style_low: float, style_high: float
) -> tuple[float, float]:
    """Return the maker's ends, the style's where one is not given, in order."""
    ends = (style_low if low is None else low, style_high if high is None else high)
    return min(ends), max(ends)


def _sg(gravity: Gravity) -> float:
    return gravity.value if gravity.scale == "SG" else sg_from_brix(gravity.value)


def _gravity_for_strength(must: Balance, percent: float) -> float:
    """Return the gravity of this must with its white sugar changed to make that strength."""
    lacking = percent * EU_SUGAR_PER_PERCENT - must.sugar_g_per_l
    solids = _solids_g_per_l(must) + lacking / HEXOSE_FROM_SUCROSE
    return sg_from_solids_g_per_l(min(max(solids, 0.0), 1000.0))


def strength_at(must: Balance, sg: float) -> float:
    """Return the strength of this must with its white sugar changed to read that gravity."""
    if sg < 1.0:
        return 0.0
    lacking = solids_g_per_l_from_sg(sg) - _solids_g_per_l(must)
    sugar = must.sugar_g_per_l + lacking * HEXOSE_FROM_SUCROSE
    return max(sugar, 0.0) / EU_SUGAR_PER_PERCENT


def _solids_g_per_l(must: Balance) -> float:
    return must.per_litre(must.solids_kg * 1000.0)


def strength(must: Balance) -> float:
    """Return the strength that all of the must's sugar makes, % vol."""
    return must.sugar_g_per_l / EU_SUGAR_PER_PERCENT
