"""Sweetening a finished wine: to a gravity or to so much sugar in a litre."""

from __future__ import annotations

from typing import Generic, NamedTuple

from winebench.trade.gravity import ICUMSA, WATER_20
from winebench.trade.ranges import Numbers, known, more_than_nothing
from winebench.trade.rules import rule

LITRES_PER_KG = 0.617
"""Volume a kilogram of sugar takes up in wine, L (ICUMSA; 27 CFR 24.181 has 0.618)."""
_STABILISE = ". Only a wine that is stabilised, or it ferments again and bottles burst"


class Sweetened(NamedTuple, Generic[Numbers]):
    """Sugar to dissolve, the volume after, and what the strength is multiplied by."""

    sugar_kg: Numbers
    litres_after: Numbers
    abv_factor: Numbers


@rule(
    name="sweeten",
    inputs={"litres": "L", "sg_now": "SG", "sg_target": "SG"},
    unit="kg, L, 1",
    words="0.9982 x litres x (target - now) / (1 - 0.617 x target); each kg adds 0.617 L, which "
    "thins strength, acid and SO2 by the factor" + _STABILISE,
    source=ICUMSA + ", mass and volume balance",
    valid="SG 0.980 to 1.060, target no lower than it is, volumes over 0 to 100 000 L",
    example={"litres": 19.0, "sg_now": 0.994, "sg_target": 1.006},
)
def sweetened(litres: Numbers, sg_now: Numbers, sg_target: Numbers) -> Sweetened[Numbers]:
    """Return what sweetening a finished wine to a gravity takes and does."""
    now = known(sg_now, 0.980, 1.060, "a gravity of")
    target = known(sg_target, now, 1.060, "a sweetened gravity of")
    per_litre = WATER_20 / 1000.0
    # mass balance: rho0 V + m = rho1 (V + v m), with v the volume of a kg of sugar
    share = per_litre * (target - now) / (1.0 - LITRES_PER_KG * per_litre * target)
    return _after(litres, share)


@rule(
    name="sweeten-to-sugar",
    inputs={"litres": "L", "sugar_now_g_per_l": "g/L", "sugar_target_g_per_l": "g/L"},
    unit="kg, L, 1",
    words="litres x (target - now) / (1000 - 0.617 x target), for a litre of the sweetened wine; "
    "each kg adds 0.617 L, which thins strength, acid and SO2 by the factor" + _STABILISE,
    source=ICUMSA + ", mass and volume balance",
    valid="0 to 200 g/L, target no less than there is, volumes over 0 to 100 000 L",
    example={"litres": 19.0, "sugar_now_g_per_l": 2.0, "sugar_target_g_per_l": 30.0},
)
def sweetened_to_sugar(
    litres: Numbers, sugar_now_g_per_l: Numbers, sugar_target_g_per_l: Numbers
) -> Sweetened[Numbers]:
    """Return what sweetening a finished wine to so much sugar in a litre takes and does."""
    now = known(sugar_now_g_per_l, 0.0, 200.0, "sugar left (g/L) of")
    target = known(sugar_target_g_per_l, now, 200.0, "a sugar target (g/L) of")
    return _after(litres, (target - now) / (1000.0 - LITRES_PER_KG * target))


def _after(litres: Numbers, kg_per_litre: Numbers) -> Sweetened[Numbers]:
    """Return the sugar and what it does, for sugar added to each litre before, kg/L."""
    before = more_than_nothing(litres, 1e5, "a volume (L) of")
    after = before * (1.0 + LITRES_PER_KG * kg_per_litre)
    return Sweetened(before * kg_per_litre, after, before / after)
