"""What is to be said about the vessels: too small, not full, too heavy, too few."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from winebench.plan.figures import litres_text
from winebench.plan.outlook import Caution, VesselOutlook
from winebench.plan.vessels import most_for_top_up_l
from winebench.plan.weights import HEAVY_KG, LIFTING


def vessel_cautions(vessels: Sequence[VesselOutlook], wine: float) -> Iterator[Caution]:
    """Give what is wrong with the vessels; `wine` is what goes into the jugs, L."""
    for vessel in vessels:
        if not vessel.fits and vessel.role == "primary":
            yield Caution(
                key="pail-too-small", severity="hold", about="vessels", gates="sugar-water",
                sentence=f"{vessel.name} is too small: {vessel.headline}, {vessel.detail}.",
                detail="The first days' foam lifts the fruit and runs over: a quarter of the pail "
                "stays free (common practice). Use a bigger pail, or two, or make less.",
            )  # fmt: skip
        elif not vessel.fits:
            yield Caution(
                key="jug-not-full", severity="caution", about="vessels",
                sentence=f"{vessel.name} will not be full: {vessel.headline}, {vessel.detail}.",
                detail="Air over the wine browns it.",
            )  # fmt: skip
        yield from _heavy(vessel)
    yield from _jugs(vessels, wine)


def _heavy(vessel: VesselOutlook) -> Iterator[Caution]:
    kilos = vessel.weight.value if vessel.weight is not None else None
    if kilos is None or kilos < HEAVY_KG or vessel.fill_l <= 0.0:
        return
    if vessel.role == "primary":
        yield Caution(
            key="heavy-pail", severity="note", about="vessels",
            sentence=f"The {vessel.name} with its must weighs about {kilos:.0f} kg: fill it "
            "where it can stay, or lift it with two.",
            detail=LIFTING,
        )  # fmt: skip
    else:
        yield Caution(
            key="heavy", severity="note", about="vessels",
            sentence=f"{vessel.name} full weighs about {kilos:.0f} kg: two people, and never "
            "by the neck.",
            detail=LIFTING,
        )  # fmt: skip


def _jugs(vessels: Sequence[VesselOutlook], wine: float) -> Iterator[Caution]:
    jugs = [vessel for vessel in vessels if vessel.role == "secondary"]
    over = wine - sum(vessel.capacity_l for vessel in jugs)
    if jugs and over > most_for_top_up_l(wine):
        yield Caution(
            key="jugs-too-small", severity="caution", about="vessels",
            sentence=f"{litres_text(over)} of the wine has no jug to go to.",
            detail="Have another jug ready before the transfer, or make less.",
        )  # fmt: skip
