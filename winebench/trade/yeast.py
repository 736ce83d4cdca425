"""Yeast: how many packets, and how to wake them. All common practice; the packet decides."""

from __future__ import annotations

import math

from winebench.trade.ranges import NotKnown, known
from winebench.trade.rules import rule

PACKET_G = 5.0
"""Dry yeast in the usual packet (common practice)."""
_PACKET_SERVES_L = 6 * 3.785411784
"""Six US gallons (common practice)."""
_COLD_C = 15.0
_STRONG_SG = 1.100
"""Beyond these a must is hard for yeast (common practice)."""


@rule(
    name="yeast-packets",
    inputs={"litres": "L", "sg": "SG", "celsius": "°C"},
    unit="packets of 5 g",
    words="one for each 6 US gallons begun; twice that above SG 1.100 or where it ferments "
    "below 15 °C",
    source="common practice",
    valid="up to 1000 L, SG 1.000 to 1.17, 5 to 35 °C",
    example={"litres": 19.0, "sg": 1.090, "celsius": 20.0},
)
def packets(litres: float, sg: float, celsius: float = 20.0) -> int:
    """Return how many packets of dry yeast so many litres of must at that SG and °C want."""
    known(sg, 1.0, 1.17, "a must gravity of")
    known(celsius, 5.0, 35.0, "a room (°C) of")
    hard = sg > _STRONG_SG or celsius < _COLD_C
    served = known(litres, 0.0, 1000.0, "a volume (L) of") / _PACKET_SERVES_L
    return math.ceil(served - 1e-9) * (2 if hard else 1)


@rule(
    name="rehydration-water",
    inputs={"grams": "g"},
    unit="mL",
    words="ten times the yeast's mass of clean water at 35 to 40 °C, 15 to 20 minutes",
    source="common practice",
    valid="0 to 1000 g",
    example={"grams": 5.0},
)
def rehydration_water_ml(grams: float) -> float:
    """Return the water that wakes so many grams of dry yeast, mL."""
    return known(grams, 0.0, 1000.0, "a yeast mass (g) of") * 10.0


@rule(
    name="rehydration-steps",
    inputs={"yeast_celsius": "°C", "must_celsius": "°C"},
    unit="additions of must",
    words="as much must as there is yeast water halves the difference; as often as it takes to "
    "come within 8 °C before the yeast goes in, ten minutes between",
    source="common practice; mixing of equal volumes",
    valid="yeast 20 to 43 °C, must 5 to 35 °C and no warmer",
    example={"yeast_celsius": 38.0, "must_celsius": 18.0},
)
def rehydration_steps(yeast_celsius: float, must_celsius: float) -> int:
    """Return how many times to add must to the yeast, as much as is there; both in °C."""
    warm = known(yeast_celsius, 20.0, 43.0, "yeast water (°C) of")
    cool = known(must_celsius, 5.0, 35.0, "a must (°C) of")
    if cool > warm:
        raise NotKnown("the must is warmer than the yeast water; no steps are needed.")
    apart = warm - cool
    return max(0, math.ceil(math.log2(apart / 8.0) - 1e-9)) if apart > 8.0 else 0
