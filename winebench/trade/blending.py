"""Blending, sweetening and fortifying: balances, and whether they can work at all."""

from __future__ import annotations

from typing import Generic, NamedTuple

from winebench.trade.gravity import ICUMSA, WATER_20
from winebench.trade.ranges import NotKnown, Numbers, known, more_than_nothing, volume
from winebench.trade.rules import rule

_LITRES_PER_KG = 0.617
"""Volume a kilogram of sugar takes up in wine, L (ICUMSA; 27 CFR 24.181 has 0.618)."""


class Sweetened(NamedTuple, Generic[Numbers]):
    """Sugar to dissolve, the volume after, and what the strength is multiplied by."""

    sugar_kg: Numbers
    litres_after: Numbers
    abv_factor: Numbers


@rule(
    name="sweeten",
    inputs={"litres": "L", "sg_now": "SG", "sg_target": "SG"},
    unit="kg, L, 1",
    words="0.9982 x litres x (target - now) / (1 - 0.617 x target); each kg adds 0.617 L",
    source=ICUMSA + ", mass and volume balance",
    valid="SG 0.980 to 1.060",
    example={"litres": 19.0, "sg_now": 0.994, "sg_target": 1.006},
)
def sweetened(litres: Numbers, sg_now: Numbers, sg_target: Numbers) -> Sweetened[Numbers]:
    """Return what sweetening a finished wine to a gravity takes and does."""
    now = known(sg_now, 0.980, 1.060, "a gravity of")
    target = known(sg_target, now, 1.060, "a sweetened gravity of")
    litres = more_than_nothing(litres, 1e5, "a volume (L) of")
    per_litre = WATER_20 / 1000.0
    # mass balance: rho0 V + m = rho1 (V + v m), with v the volume of a kg of sugar
    sugar = per_litre * litres * (target - now) / (1.0 - _LITRES_PER_KG * per_litre * target)
    after = litres + _LITRES_PER_KG * sugar
    return Sweetened(sugar, after, litres / after)


class Parts(NamedTuple):
    """How much of each wine, L."""

    first_l: float
    second_l: float


@rule(
    name="blend",
    inputs={"first": "1", "second": "1", "target": "1", "litres": "L"},
    unit="L, L",
    words="square rule: shares lie as the distances to the target, crosswise. For strength, "
    "acidity or sugar; never for pH",
    source="definition (volumes taken to add up)",
    valid="target between the two",
    example={"first": 14.0, "second": 11.0, "target": 12.0, "litres": 10.0},
)
def blend(first: float, second: float, target: float, litres: float) -> Parts:
    """Return how much of two wines makes that volume with the target figure.

    Raises:
        NotKnown: the target does not lie between the two.

    """
    for figure in (first, second):
        known(figure, -1000.0, 1000.0, "a figure of")
    volume(litres)
    if not min(first, second) <= target <= max(first, second) or first == second:
        raise NotKnown(
            f"{target:g} does not lie between {first:g} and {second:g}; "
            "no blend of the two gives it."
        )
    share = (target - second) / (first - second)
    return Parts(litres * share, litres * (1.0 - share))


@rule(
    name="fortify",
    inputs={"litres": "L", "abv": "% vol", "spirit_abv": "% vol", "target_abv": "% vol"},
    unit="L",
    words="litres x (target - wine) / (spirit - target). Local law decides whether you may",
    source="definition (contraction on mixing neglected)",
    valid="target between wine and spirit",
    example={"litres": 4.0, "abv": 12.0, "spirit_abv": 40.0, "target_abv": 18.0},
)
def spirit_l(litres: float, abv: float, spirit_abv: float, target_abv: float) -> float:
    """Return how much spirit fortifies the wine to the target, L."""
    volume(litres)
    known(abv, 0.0, 25.0, "a wine's strength (% vol) of")
    known(spirit_abv, 0.0, 96.0, "a spirit's strength (% vol) of")
    if not abv <= target_abv < spirit_abv:
        raise NotKnown(
            f"{target_abv:g} % does not lie between the wine ({abv:g} %) "
            f"and the spirit ({spirit_abv:g} %)."
        )
    return litres * (target_abv - abv) / (spirit_abv - target_abv)
