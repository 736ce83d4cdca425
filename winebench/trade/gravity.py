"""Gravity: density, °Brix and specific gravity of sugar solutions.

SG is 20/20 °C and true (in vacuum) throughout, °Brix is g sucrose in 100 g of solution.
Source of the sucrose densities: ICUMSA SPS-4 (1994), the formula behind OIML R 142 tables.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from winebench.trade.ranges import Numbers, known, powers
from winebench.trade.rules import rule
from winebench.units import LOWEST_SG

ICUMSA = "ICUMSA SPS-4 (1994), density of sucrose solutions"
CIPM = "CIPM 2001, Tanaka et al., Metrologia 38:301, checked against IAPWS-95"

# rho = rho_water + sum over j of (t/100)^j * polynomial in the mass fraction, t = celsius - 20.
_SUCROSE = (
    (0.0, 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890),
    (0.0, -46.2720, -7.1720, 1.1597, 5.1126, 17.5254),
    (0.0, 59.7712, 7.2491, 12.3630, -35.4791),
    (0.0, -47.2207, -21.6977, 27.6301),
    (0.0, 18.3184, 12.3081),
)
WATER_20 = 998.2036
"""Density of water at 20 °C, kg/m³ (ICUMSA's own reference)."""


@rule(
    name="water-density",
    inputs={"celsius": "°C"},
    unit="kg/m³",
    words="density of pure, air-free water at one atmosphere",
    source=CIPM,
    valid="0 to 40 °C",
    example={"celsius": 20.0},
)
def water_density(celsius: Numbers) -> Numbers:
    """Return the density of water, kg/m³, from 0 to 40 °C (CIPM 2001)."""
    celsius = known(celsius, 0.0, 40.0, "a water temperature (°C) of")
    top = (celsius - 3.983035) ** 2 * (celsius + 301.797)
    return 999.974950 * (1.0 - top / (522528.9 * (celsius + 69.34881)))


@rule(
    name="sucrose-density",
    inputs={"brix": "°Brix", "celsius": "°C"},
    unit="kg/m³",
    words="density of a sucrose solution",
    source=ICUMSA,
    valid="0 to 85 °Brix, 0 to 40 °C",
    example={"brix": 20.0, "celsius": 20.0},
)
def density_from_brix(brix: Numbers, celsius: float = 20.0) -> Numbers:
    """Return the density of a sucrose solution, kg/m³; 0-85 °Brix, 0-40 °C (ICUMSA SPS-4)."""
    share = known(brix, 0.0, 85.0, "a Brix of") / 100.0
    if celsius == 20.0:
        return WATER_20 + powers(_SUCROSE[0], share)
    return water_density(celsius) + swelling(share, celsius)


def swelling(share: Numbers, celsius: float) -> Numbers:
    """Return how much denser than water a sucrose solution is, kg/m³; `share` is by mass."""
    warmer = (celsius - 20.0) / 100.0
    total = powers(_SUCROSE[0], share)
    for order, coefficients in enumerate(_SUCROSE[1:], start=1):
        total = total + warmer**order * powers(coefficients, share)
    return total


@rule(
    name="sg-from-brix",
    inputs={"brix": "°Brix"},
    unit="SG",
    words="density of the sucrose solution at 20 °C over that of water at 20 °C",
    source=ICUMSA,
    valid="0 to 85 °Brix",
    example={"brix": 22.0},
)
def sg_from_brix(brix: Numbers) -> Numbers:
    """Return SG 20/20 of a sucrose solution of that °Brix (0-85)."""
    return density_from_brix(brix) / WATER_20


_BRIX_KNOTS: NDArray[np.float64] = np.linspace(0.0, 85.0, 341)
_SG_KNOTS: NDArray[np.float64] = density_from_brix(_BRIX_KNOTS) / WATER_20


@rule(
    name="brix-from-sg",
    inputs={"sg": "SG"},
    unit="°Brix",
    words="the sucrose solution that has this gravity (°Plato is the same within 0.01); below SG 1 "
    "the line is carried on",
    source=ICUMSA + ", inverted",
    valid="SG 0.970 to 1.448, which is 85 °Brix",
    example={"sg": 1.090},
)
def brix_from_sg(sg: Numbers) -> Numbers:
    """Return the °Brix of the sucrose solution with that SG 20/20 (0.970-1.45).

    Below SG 1, where alcohol makes it so, the result is the negative "apparent" Brix: the
    tangent at water, as hydrometers are marked.
    """
    sg = known(sg, LOWEST_SG, float(_SG_KNOTS[-1]), "a gravity of")
    first = np.interp(sg, _SG_KNOTS, _BRIX_KNOTS)
    brix = first if isinstance(sg, np.ndarray) else float(first)
    share = brix / 100.0  # one Newton step takes the table's error below 1e-7
    slope = powers(_SLOPE, share) / 100.0
    residual = WATER_20 + powers(_SUCROSE[0], share) - sg * WATER_20
    return brix - residual / slope


_SLOPE = tuple(power * c for power, c in enumerate(_SUCROSE[0]) if power)


@rule(
    name="solids-from-sg",
    inputs={"sg": "SG"},
    unit="g/L",
    words="sucrose in a litre of the solution that has this gravity",
    source=ICUMSA,
    valid="SG 0.970 to 1.448, which is 85 °Brix",
    example={"sg": 1.090},
)
def solids_g_per_l_from_sg(sg: Numbers) -> Numbers:
    """Return dissolved solids, read as sucrose, g/L at 20 °C."""
    return brix_from_sg(sg) / 100.0 * sg * WATER_20


@rule(
    name="sg-from-solids",
    inputs={"g_per_l": "g/L"},
    unit="SG",
    words="gravity of a solution with that much sucrose in a litre",
    source=ICUMSA + ", inverted",
    valid="0 to 1200 g/L",
    example={"g_per_l": 230.0},
)
def sg_from_solids_g_per_l(g_per_l: Numbers) -> Numbers:
    """Return SG 20/20 of a solution with that much sucrose, g/L at 20 °C."""
    g_per_l = known(g_per_l, 0.0, 1200.0, "a sugar content (g/L) of")
    found = np.interp(g_per_l, _SOLIDS_KNOTS, _SG_KNOTS)
    sg = found if isinstance(g_per_l, np.ndarray) else float(found)
    for _ in range(2):  # secant steps on a nearly straight line
        sg = sg + (g_per_l - solids_g_per_l_from_sg(sg)) / 2600.0
    return sg


_SOLIDS_KNOTS: NDArray[np.float64] = _BRIX_KNOTS / 100.0 * _SG_KNOTS * WATER_20
