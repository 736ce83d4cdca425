"""What a full vessel weighs, and when that is too much for one person."""

from __future__ import annotations

from winebench.model.project import Project
from winebench.model.recipe import Vessel
from winebench.plan.balance import Balance
from winebench.plan.figures import figure, workings
from winebench.plan.outlook import Figure
from winebench.plan.portions import PULP_KG_PER_L
from winebench.trade.gravity import WATER_20

HEAVY_KG = 18.0
"""From here on two people lift: common practice says so of about 20 L, vessel and all.

The load constant of the revised NIOSH lifting equation is 23 kg, for a load close to the body at
the height of the knuckles (DHHS (NIOSH) publication 94-110); from the floor it is much less.
"""
LIFTING = (
    "Two people from about 20 L on: common practice. 23 kg is NIOSH's limit for the best of lifts "
    "(94-110)."
)
_DRY_SG = 0.995
_OF_L = 19.0
_GLASS_KG, _PLASTIC_KG = 6.5, 1.0
"""A five-gallon vessel, empty (common practice); others by their surface."""
_SQUARED = 2.0 / 3.0


def empty_kg(vessel: Vessel, holds: float) -> float:
    """Return what the vessel itself weighs, kg."""
    own = _GLASS_KG if vessel.glass else _PLASTIC_KG
    return own * float((holds / _OF_L) ** _SQUARED) if holds > 0.0 else 0.0


def pail_weight(vessel: Vessel, holds: float, fill: float, must: Balance) -> Figure:
    """Return what a pail with so much must and pulp weighs, kg."""
    share = fill / max(must.litres + must.pulp_l, 1e-9)
    liquid, pulp = must.litres * share, must.pulp_l * share
    return _weight(vessel, holds, liquid, pulp, must.sg)


def jug_weight(vessel: Vessel, holds: float, fill: float, project: Project) -> Figure:
    """Return what a jug with so much wine weighs, kg."""
    final = project.recipe.targets.final_gravity
    sg = final.value if final is not None and final.scale == "SG" else _DRY_SG
    return _weight(vessel, holds, fill, 0.0, sg)


def _weight(vessel: Vessel, holds: float, liquid: float, pulp: float, sg: float) -> Figure:
    own = empty_kg(vessel, holds)
    kilos = liquid * sg * WATER_20 / 1000.0 + pulp * PULP_KG_PER_L + own
    work = workings(
        "vessel-weight", "liquid x gravity x 0.99820 kg/L + pulp x 1.05 kg/L + the empty vessel",
        f"{kilos:.1f}", "kg", "density of water at 20 °C; empty vessel: common practice",
        ("liquid", f"{liquid:.2f}", "L"), ("gravity", f"{sg:.3f}", "SG"),
        ("pulp", f"{pulp:.2f}", "L"), ("empty vessel", f"{own:.1f}", "kg"),
    )  # fmt: skip
    return figure(kilos, "kg", 0, workings=work)
