"""How full the vessels on the shelf will be, and what the batch fills in the end."""

from __future__ import annotations

from winebench.model.project import Project
from winebench.model.recipe import Vessel
from winebench.plan.balance import Balance
from winebench.plan.figures import figure, workings
from winebench.plan.outlook import BottleOutlook, VesselOutlook
from winebench.plan.scale import LEES_SHARE, finished_l, has_puree, racking_loss_l
from winebench.trade import bottling

FULLEST_PRIMARY = 0.85
"""Share of a pail that must and pulp may fill at the most; the rest is for foam."""
FOAM_SHARE = 0.15
BRIM_L_SHARE = 0.97
"""A jug filled to two or three centimetres under the bung. Common practice."""


def vessels(project: Project, must: Balance, factor: float) -> tuple[VesselOutlook, ...]:
    """Return each vessel with its filling; jugs fill one after the other, largest first."""
    left = must.litres * factor * (1.0 - LEES_SHARE) - racking_loss_l(must.litres * factor)
    jugs = [v for v in project.make.vessels if v.role == "secondary"]
    fills: dict[str, float] = {}
    for jug in sorted(jugs, key=lambda v: -v.holds.litres(project.gallon)):
        fills[jug.id] = min(max(left, 0.0), jug.holds.litres(project.gallon))
        left -= fills[jug.id]
    return tuple(
        _primary(project, vessel, must, factor)
        if vessel.role == "primary"
        else _secondary(project, vessel, fills[vessel.id], max(left, 0.0))
        for vessel in project.make.vessels
    )


def _primary(project: Project, vessel: Vessel, must: Balance, factor: float) -> VesselOutlook:
    holds = vessel.holds.litres(project.gallon)
    fill = (must.litres + must.pulp_l) * factor
    pails = [v for v in project.make.vessels if v.role == "primary"]
    if len(pails) > 1:  # shared out by size
        fill *= holds / sum(v.holds.litres(project.gallon) for v in pails)
    foam = fill * (1.0 + FOAM_SHARE)
    fits = fill <= holds * FULLEST_PRIMARY
    with_fruit = " with the fruit" if must.pulp_l else ""
    least = fill / FULLEST_PRIMARY
    detail = f"foam line {foam:.1f} L · " + ("fits" if fits else f"wants a {least:.0f} L pail")
    return VesselOutlook(
        id=vessel.id, name=vessel.name, role="primary", capacity_l=holds, fill_l=fill,
        foam_line_l=foam, fits=fits, headline=f"{fill:.1f} L{with_fruit}", detail=detail,
    )  # fmt: skip


def _secondary(project: Project, vessel: Vessel, fill: float, over: float) -> VesselOutlook:
    holds = vessel.holds.litres(project.gallon)
    short = holds * BRIM_L_SHARE - fill
    if over > 0.05:
        detail = f"full, {over:.1f} L over for a top-up jug"
    elif short <= 0.02 * holds:
        detail = "full to the neck"
    else:
        detail = f"{short:.1f} L short: top up, or a smaller jug"
    return VesselOutlook(
        id=vessel.id, name=vessel.name, role="secondary", capacity_l=holds, fill_l=fill,
        foam_line_l=None, fits=short <= 0.12 * holds, headline=f"{fill:.1f} L of {holds:.1f}",
        detail=detail,
    )  # fmt: skip


def bottle_outlook(project: Project, must_l: float) -> BottleOutlook:
    """Return what the batch fills after lees, rackings and samples."""
    finished = finished_l(must_l, puree=has_puree(project))
    count = bottling.bottles(finished, project.make.bottle_ml)
    corks = bottling.corks(count)
    work = workings(
        "finished-volume", "must less lees, three rackings and samples", f"{finished:.2f}", "L",
        "common practice: lees 4-8 %, rackings 0.1-0.2 L at one gallon, 0.4-0.6 at five",
        ("must", f"{must_l:.2f}", "L"),
    )  # fmt: skip
    size = f"{project.make.bottle_ml:g} mL"
    return BottleOutlook(
        bottles=count,
        corks=corks,
        finished=figure(finished, "L", 1, workings=work),
        sentence=f"About {count} bottles of {size}; have {corks} corks at hand."
        if count
        else "Less than one bottle.",
    )
