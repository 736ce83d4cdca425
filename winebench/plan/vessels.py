"""How full the vessels on the shelf will be, and what the batch fills in the end."""

from __future__ import annotations

from winebench.model.project import Project
from winebench.model.recipe import Vessel
from winebench.plan.balance import Balance
from winebench.plan.figures import figure, workings
from winebench.plan.outlook import BottleOutlook, VesselOutlook
from winebench.plan.scale import finished_l, has_puree, lees_share, racking_loss_l
from winebench.trade import bottling
from winebench.trade.workings import Workings

FULLEST_PRIMARY = 0.75
"""Share of a pail that must and pulp fill at the most; the rest is for foam (common practice)."""
FOAM_SHARE = 0.15
_SMALLEST_ML, _LARGEST_ML, _MOST_L = 100.0, 30_000.0, 100_000.0
_TOO_LITTLE_L = 0.05
BRIM_L_SHARE = 0.97
"""A jug filled to two or three centimetres under the bung. Common practice."""


def vessels(project: Project, must: Balance, factor: float) -> tuple[VesselOutlook, ...]:
    """Return each vessel with its filling; jugs fill one after the other, largest first."""
    fills, over = _jug_fills(project, wine_to_glass_l(project, must.litres * factor))
    return tuple(
        _primary(project, vessel, must, factor)
        if vessel.role == "primary"
        else _secondary(project, vessel, must.litres * factor, fills[vessel.id], over)
        for vessel in project.make.vessels
    )


def wine_to_glass_l(project: Project, must_l: float) -> float:
    """Return what goes into the jugs, L: the must less its lees and the first racking's loss."""
    lees = lees_share(puree=has_puree(project)) * must_l
    return max(must_l - lees - racking_loss_l(must_l), 0.0)


def _jug_fills(project: Project, wine_l: float) -> tuple[dict[str, float], float]:
    """Return each jug's filling, L, and what has no room."""
    jugs = [v for v in project.make.vessels if v.role == "secondary"]
    fills = {}
    for jug in sorted(jugs, key=lambda v: -v.holds.litres(project.gallon)):
        fills[jug.id] = min(wine_l, jug.holds.litres(project.gallon))
        wine_l -= fills[jug.id]
        if wine_l < _TOO_LITTLE_L:  # the siphon's end, not worth another jug
            wine_l = 0.0
    return fills, wine_l


def _primary(project: Project, vessel: Vessel, must: Balance, factor: float) -> VesselOutlook:
    holds = vessel.holds.litres(project.gallon)
    fill = (must.litres + must.pulp_l) * factor
    pails = [v for v in project.make.vessels if v.role == "primary"]
    if len(pails) > 1:  # shared out by size
        fill *= holds / max(sum(v.holds.litres(project.gallon) for v in pails), 1e-9)
    foam = fill * (1.0 + FOAM_SHARE)
    # To a whole litre: nobody buys a pail for half of one.
    fits = round(fill / FULLEST_PRIMARY) <= round(holds) or fill <= holds * FULLEST_PRIMARY
    with_fruit = " with the fruit" if must.pulp_l else ""
    least = fill / FULLEST_PRIMARY
    detail = f"foam line {foam:.1f} L · " + ("fits" if fits else f"wants a {least:.0f} L pail")
    return VesselOutlook(
        id=vessel.id, name=vessel.name, role="primary", capacity_l=holds, fill_l=fill,
        fill=figure(fill, "L", 1, workings=_pail_work(must, factor, fill, holds)),
        foam_line_l=foam, fits=fits, headline=f"{fill:.1f} L{with_fruit}", detail=detail,
    )  # fmt: skip


def _pail_work(must: Balance, factor: float, fill: float, holds: float) -> Workings:
    return workings(
        "pail-filling", "liquid + pulp, shared out by size where there are several pails; three "
        "quarters of a pail is room for both, the rest for foam", f"{fill:.2f}", "L",
        "mass balance; three quarters: common practice",
        ("liquid in all", f"{must.litres * factor:.2f}", "L"),
        ("pulp in all", f"{must.pulp_l * factor:.2f}", "L"), ("pail", f"{holds:.2f}", "L"),
    )  # fmt: skip


def _jug_work(must_l: float, fill: float, holds: float) -> Workings:
    return workings(
        "jug-filling", "must less its lees and the loss of the first racking; jugs fill one after "
        "the other, largest first", f"{fill:.2f}", "L",
        "common practice: lees 4-8 %, racking 0.1-0.2 L at one gallon, 0.4-0.6 at five",
        ("must", f"{must_l:.2f}", "L"), ("jug", f"{holds:.2f}", "L"),
    )  # fmt: skip


def _secondary(
    project: Project, vessel: Vessel, must_l: float, fill: float, over: float
) -> VesselOutlook:
    holds = vessel.holds.litres(project.gallon)
    short = holds * BRIM_L_SHARE - fill
    if fill <= 0:
        detail = "not needed for this batch"
    elif over > _TOO_LITTLE_L:
        detail = f"full; {over:.1f} L in all for top-up jugs"
    elif short <= 0.02 * holds:
        detail = "full to the neck"
    else:
        detail = f"{short:.1f} L short: top up, or a smaller jug"
    return VesselOutlook(
        id=vessel.id, name=vessel.name, role="secondary", capacity_l=holds, fill_l=fill,
        fill=figure(fill, "L", 1, workings=_jug_work(must_l, fill, holds)),
        foam_line_l=None, fits=fill <= 0 or short <= 0.12 * holds,
        headline=f"{fill:.1f} L of {holds:.1f}", detail=detail,
    )  # fmt: skip


def bottle_outlook(project: Project, must_l: float) -> BottleOutlook:
    """Return what the batch fills after lees, rackings and samples."""
    finished = finished_l(must_l, puree=has_puree(project))
    if not _SMALLEST_ML <= project.make.bottle_ml <= _LARGEST_ML or finished > _MOST_L:
        return BottleOutlook(
            bottles=0, corks=0, finished=figure(finished, "L", 1),
            sentence="Bottles hold 100 mL to 30 L here, of 100 000 L at the most: check the size.",
        )  # fmt: skip
    count = bottling.bottles(finished, project.make.bottle_ml)
    corks = bottling.corks(count)
    work = workings(
        "finished-volume", "must less lees, three rackings and samples", f"{finished:.2f}", "L",
        "common practice: lees 4-8 %, rackings 0.1-0.2 L at one gallon, 0.4-0.6 at five",
        ("must", f"{must_l:.2f}", "L"),
    )  # fmt: skip
    name = f"{'bottle' if count == 1 else 'bottles'} of {project.make.bottle_ml:g} mL"
    return BottleOutlook(
        bottles=count,
        corks=corks,
        finished=figure(finished, "L", 1, workings=work),
        sentence=f"About {count} {name}; have {corks} corks at hand."
        if count
        else "Less than one bottle.",
    )
