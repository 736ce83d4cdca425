"""How full the vessels on the shelf will be, and what the batch fills in the end."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import partial

from msgspec.structs import replace

from winebench.model.project import Project
from winebench.model.recipe import Vessel
from winebench.plan.balance import Balance
from winebench.plan.customary import gallons_of, volume_text
from winebench.plan.days import full_day
from winebench.plan.figures import figure, workings
from winebench.plan.learning.own_losses import losses_words, own_losses
from winebench.plan.losses import LEAVING, SAMPLES_L, Losses, expected_loss_l, has_puree
from winebench.plan.outlook import BottleOutlook, VesselOutlook
from winebench.plan.scale import finished_l
from winebench.plan.weights import jug_weight, pail_weight
from winebench.trade import bottling
from winebench.trade.workings import Workings
from winebench.units import GallonCountry

FULLEST_PRIMARY = 0.75
"""Share of a pail that must and pulp fill at the most; the rest is for foam (common practice)."""
_NEAR_L, _NEAR_SHARE = 0.5, 0.03
"""So much too small a pail may be: nobody buys another one for half a litre."""
_SMALLEST_ML, _LARGEST_ML, _MOST_L = 100.0, 30_000.0, 100_000.0
_LEAVING_NAMES = ("lees and first racking", "second racking", "third racking")
TOO_LITTLE_L = 0.05
"""The siphon's end, not worth another jug."""
BRIM_L_SHARE = 0.97
"""A jug filled to two or three centimetres under the bung. Common practice."""


def vessels(project: Project, must: Balance, factor: float) -> tuple[VesselOutlook, ...]:
    """Return each vessel with its filling; jugs fill largest first, top-up jugs last."""
    fills, over = _jug_fills(project, wine_to_glass_l(project, must.litres * factor))
    return tuple(
        _primary(project, vessel, must, factor)
        if vessel.role == "primary"
        else _secondary(project, vessel, must.litres * factor, fills[vessel.id], over)
        for vessel in project.make.vessels
    )


def vessels_now(
    filled: Sequence[VesselOutlook], transfer: datetime | None, bottle: datetime | None
) -> tuple[VesselOutlook, ...]:
    """Return the vessels as the log has them: what the wine has left is empty."""
    return tuple(_now(vessel, transfer, bottle) for vessel in filled)


def _now(
    vessel: VesselOutlook, transfer: datetime | None, bottle: datetime | None
) -> VesselOutlook:
    left = bottle or (transfer if vessel.role == "primary" else None)
    if left is None:
        come = transfer is not None and vessel.fill_l > 0.0
        return replace(vessel, stage="now") if come else vessel
    if vessel.fill_l <= 0.0:
        return vessel
    where = "bottled" if bottle is not None else "moved to glass"
    return replace(
        vessel, stage="over", fill_l=0.0, fill=None, weight=None, foam_line_l=None, fits=True,
        headline="empty", detail=f"{where} {full_day(left)}",
    )  # fmt: skip


def bottles_now(expected: BottleOutlook, project: Project) -> BottleOutlook:
    """Return what is to be bottled, or once it is what was filled and when."""
    done = project.done("bottle")
    if done is None:
        return expected
    filled = bottles_filled(project)
    size = f"of {project.make.bottle_ml:g} mL, filled {full_day(done.at)}."
    said = "Bottles" if filled is None else f"{filled} {'bottle' if filled == 1 else 'bottles'}"
    return replace(expected, sentence=f"{said} {size}")


def bottles_filled(project: Project) -> int | None:
    """Return how many bottles were noted as filled; None where that was not counted.

    What was bottled on another day adds to it; a tick with a reason tells the bottling anew.
    """
    ticks = [tick for tick in project.actions if tick.step == "bottle"]
    anew = max((place for place, tick in enumerate(ticks) if tick.override), default=0)
    counts = [
        next((one.value.strip() for one in tick.records if one.name == "count"), "")
        for tick in ticks[anew:]
    ]
    known = bool(counts) and all(count.isdecimal() for count in counts)
    return sum(map(int, counts)) if known else None


def wine_to_glass_l(project: Project, must_l: float) -> float:
    """Return what goes into the jugs, L: the must less what the first racking leaves behind."""
    losses, puree = own_losses(project, must_l), has_puree(project)
    return max(must_l - expected_loss_l(LEAVING[0], must_l, puree=puree, losses=losses), 0.0)


def _jug_fills(project: Project, wine_l: float) -> tuple[dict[str, float], float]:
    """Return each jug's filling, L, and what has no room."""
    jugs = [v for v in project.make.vessels if v.role == "secondary"]
    fills = {}
    for jug in sorted(jugs, key=lambda v: (is_top_up(v), -v.holds.litres(project.gallon))):
        fills[jug.id] = min(wine_l, jug.holds.litres(project.gallon))
        wine_l -= fills[jug.id]
        if wine_l < TOO_LITTLE_L:
            wine_l = 0.0
    return fills, wine_l


def pail_fits(fill: float, holds: float) -> bool:
    """Return whether a pail has room for the foam too, to half a litre of pail."""
    return foam_line_l(fill) <= holds + min(_NEAR_L, _NEAR_SHARE * holds)


def foam_line_l(fill: float) -> float:
    """Return how high the foam of so much must and pulp may rise, L: where a pail has to end."""
    return fill / FULLEST_PRIMARY


def most_for_top_up_l(wine: float) -> float:
    """Return the most wine, L, that may be left over for top-up jugs and bottles (practice)."""
    return max(0.15 * wine, 1.0)


def is_top_up(vessel: Vessel) -> bool:
    """Return whether a jug is kept to fill the others from, by its name."""
    return "top-up" in vessel.name.lower()


def _primary(project: Project, vessel: Vessel, must: Balance, factor: float) -> VesselOutlook:
    holds = vessel.holds.litres(project.gallon)
    fill = (must.litres + must.pulp_l) * factor
    pails = [v for v in project.make.vessels if v.role == "primary"]
    if len(pails) > 1:  # shared out by size
        fill *= holds / max(sum(v.holds.litres(project.gallon) for v in pails), 1e-9)
    foam, fits = foam_line_l(fill), pail_fits(fill, holds)
    shown = min(foam, holds) if fits else foam  # what a pail is short by may foam to its rim
    with_fruit = " with the fruit" if must.pulp_l else ""
    gallon = gallons_of(project)
    told = partial(volume_text, gallon=gallon)
    wanted = told(foam) if gallon else f"{foam:.0f} L"
    detail = f"foam line {told(shown)} · " + ("fits" if fits else f"wants a {wanted} pail")
    return VesselOutlook(
        id=vessel.id, name=vessel.name.strip() or "Unnamed pail", role="primary",
        capacity_l=holds, fill_l=fill,
        fill=figure(fill, "L", 1, workings=_pail_work(must, factor, fill, holds)),
        weight=pail_weight(vessel, holds, fill, must),
        foam_line_l=shown, fits=fits, headline=f"{told(fill)}{with_fruit}", detail=detail,
    )  # fmt: skip


def _pail_work(must: Balance, factor: float, fill: float, holds: float) -> Workings:
    return workings(
        "pail-filling", "liquid + pulp, shared out by size where there are several pails; three "
        "quarters of a pail is room for both, the rest for foam", f"{fill:.2f}", "L",
        "mass balance; three quarters: common practice",
        ("liquid in all", f"{must.litres * factor:.2f}", "L"),
        ("pulp in all", f"{must.pulp_l * factor:.2f}", "L"), ("pail", f"{holds:.2f}", "L"),
    )  # fmt: skip


def of_text(fill: float, holds: float, gallon: GallonCountry | None) -> str:
    """Return like "3.8 L of 3.8" or, in gallons, "2 qt of 1 gal (1.9 L of 3.8)"."""
    litres = f"{fill:.1f} L of {holds:.1f}"
    if gallon is None:
        return litres
    if holds - fill < TOO_LITTLE_L:
        return volume_text(fill, gallon)
    told = (volume_text(each, gallon, both=False) for each in (fill, holds))
    return f"{' of '.join(told)} ({litres})"


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
    spare, gallon = is_top_up(vessel), gallons_of(project)
    told = partial(volume_text, gallon=gallon)
    if fill <= 0:
        detail = "not needed for this batch"
    elif spare and short > 0.02 * holds and over <= TOO_LITTLE_L:
        detail = f"to top up from; {told(short)} of air, so use it first or keep it in bottles"
    elif over > TOO_LITTLE_L:
        detail = f"full; {told(over)} in all for top-up jugs"
    elif short <= 0.02 * holds:
        detail = "full to the neck"
    else:
        detail = f"{told(short)} short: top up, or a smaller jug"
    return VesselOutlook(
        id=vessel.id, name=vessel.name.strip() or "Unnamed jug", role="secondary",
        capacity_l=holds, fill_l=fill,
        fill=figure(fill, "L", 1, workings=_jug_work(must_l, fill, holds)),
        weight=jug_weight(vessel, holds, fill, project),
        foam_line_l=None, fits=fill <= 0 or spare or short <= 0.12 * holds,
        headline=of_text(fill, holds, gallon), detail=detail,
    )  # fmt: skip


def bottle_outlook(project: Project, must_l: float) -> BottleOutlook:
    """Return what the batch fills after lees, rackings and samples."""
    losses, puree = own_losses(project, must_l), has_puree(project)
    finished = finished_l(must_l, puree=puree, losses=losses)
    if not _SMALLEST_ML <= project.make.bottle_ml <= _LARGEST_ML or finished > _MOST_L:
        return BottleOutlook(
            bottles=0, corks=0, finished=figure(finished, "L", 1),
            sentence="Bottles hold 100 mL to 30 L here, of 100 000 L at the most: check the size.",
        )  # fmt: skip
    count = bottling.bottles(finished, project.make.bottle_ml)
    corks = bottling.corks(count)
    work = _finished_work(must_l, finished, losses, puree=puree)
    name = f"{'bottle' if count == 1 else 'bottles'} of {project.make.bottle_ml:g} mL"
    return BottleOutlook(
        bottles=count,
        corks=corks,
        finished=figure(finished, "L", 1, workings=work),
        sentence=f"About {count} {name}; have {corks} corks at hand{_rests_on(losses)}."
        if count
        else "Less than one bottle.",
    )


def _rests_on(losses: Losses) -> str:
    return f" ({losses_words(losses)})" if losses.rackings else ""


def _finished_work(must_l: float, finished: float, losses: Losses, *, puree: bool) -> Workings:
    known = dict(losses.known)
    lost = [
        (
            f"{name}, {'as logged' if step in known else 'expected'}",
            f"{expected_loss_l(step, must_l, puree=puree, losses=losses):.2f}",
            "L",
        )
        for step, name in zip(LEAVING, _LEAVING_NAMES, strict=True)
    ]
    source = "common practice: lees 4-8 %, rackings 0.1-0.2 L at one gallon, 0.4-0.6 at five"
    if losses.rackings:
        source += f"; {losses_words(losses)}, each such racking drawing it away from there"
    return workings(
        "finished-volume", "must less lees, three rackings and samples", f"{finished:.2f}", "L",
        source, ("must", f"{must_l:.2f}", "L"), *lost,
        ("samples", f"{min(SAMPLES_L, 0.03 * must_l):.2f}", "L"),
    )  # fmt: skip
