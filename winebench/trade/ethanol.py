"""Ethanol in water: density, mass, volume and gravity (OIML R 22). Strength is % vol at 20 °C."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from winebench.trade.ranges import Numbers, known, plain, powers
from winebench.trade.rules import rule

OIML = "OIML R 22 (1975), Annex to Directive 76/766/EEC"
ETHANOL_20 = 789.24
"""Density of ethanol at 20 °C, kg/m³."""

_A = (
    9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4,
    3.062874042e5, -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4,
)  # fmt: skip
_B = (0.0, -2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11)
_C = (
    (0.0, 1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
     3.924090430035045e3, -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4,
     1.852373922069467e4, -7.420201433430137e3, 1.285617841998974e3),
    (0.0, -1.193013005057010e-2, 2.517399633803461e-1, -2.170575700536993, 1.353034988843029e1,
     -5.029988758547014e1, 1.096355666577570e2, -1.422753946421155e2, 1.080435942856230e2,
     -4.414153236817392e1, 7.442971530188783),
    (0.0, -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.022992966719220,
     -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461,
     -5.411227621436812e-1),
    (0.0, 4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6,
     -1.515784836987210e-6),
    (0.0, -2.788074354782409e-8, 1.345612883493354e-8),
)  # fmt: skip


@rule(
    name="ethanol-density",
    inputs={"mass_fraction": "1", "celsius": "°C"},
    unit="kg/m³",
    words="density of ethanol in water, by mass fraction",
    source=OIML,
    valid="0 to 1, 0 to 40 °C",
    example={"mass_fraction": 0.1, "celsius": 20.0},
)
def ethanol_water_density(mass_fraction: Numbers, celsius: float = 20.0) -> Numbers:
    """Return the density of ethanol in water, kg/m³ (OIML R 22)."""
    share = known(mass_fraction, 0.0, 1.0, "a mass fraction of")
    known(celsius, 0.0, 40.0, "a temperature (°C) of")
    warmer = celsius - 20.0
    total = powers(_A, share) + powers(_B, warmer)
    for order, coefficients in enumerate(_C, start=1):
        total = total + warmer**order * powers(coefficients, share)
    return total


_MASS_KNOTS: NDArray[np.float64] = np.linspace(0.0, 1.0, 2001)
_ABV_KNOTS: NDArray[np.float64] = (
    _MASS_KNOTS * ethanol_water_density(_MASS_KNOTS) / ETHANOL_20 * 100.0
)
# So close that straight lines between them are good to 1e-8.
_SG_KNOTS: NDArray[np.float64] = ethanol_water_density(_MASS_KNOTS) / _A[0]


@rule(
    name="mass-percent-from-abv",
    inputs={"abv": "% vol"},
    unit="% mass",
    words="alcohol by mass of ethanol in water with that strength by volume at 20 °C",
    source=OIML,
    valid="0 to 100 % vol",
    example={"abv": 12.0},
)
def mass_percent_from_abv(abv: Numbers) -> Numbers:
    """Return % by mass of ethanol-water at that % vol (20 °C)."""
    strength = known(abv, 0.0, 100.0, "a strength (% vol) of")
    percent: Numbers = plain(np.interp(strength, _ABV_KNOTS, _MASS_KNOTS) * 100.0)
    return percent


@rule(
    name="ethanol-per-litre",
    inputs={"abv": "% vol"},
    unit="g/L",
    words="volume of ethanol x its density",
    source="definition; ethanol 789.24 kg/m³ at 20 °C (OIML R 22)",
    valid="0 to 100 % vol",
    example={"abv": 12.0},
)
def ethanol_g_per_l(abv: Numbers) -> Numbers:
    """Return g ethanol per litre at 20 °C."""
    return known(abv, 0.0, 100.0, "a strength (% vol) of") * ETHANOL_20 / 100.0


@rule(
    name="sg-of-alcohol",
    inputs={"abv": "% vol"},
    unit="SG",
    words="gravity 20/20 of ethanol in water of that strength",
    source=OIML,
    valid="0 to 100 % vol",
    example={"abv": 12.0},
)
def sg_of_alcohol(abv: Numbers) -> Numbers:
    """Return SG 20/20 of ethanol in water."""
    found: Numbers = plain(
        np.interp(known(abv, 0.0, 100.0, "a strength (% vol) of"), _ABV_KNOTS, _SG_KNOTS)
    )
    return found


@rule(
    name="abv-from-distillate",
    inputs={"density": "kg/m³"},
    unit="% vol",
    words="strength of the ethanol-water that has this density at 20 °C",
    source=OIML + ", inverted",
    valid="790 to 998.2 kg/m³",
    example={"density": 983.0},
)
def abv_from_distillate_density(density: Numbers) -> Numbers:
    """Return % vol of ethanol-water by its density at 20 °C, kg/m³."""
    density = known(density, 790.0, 998.21, "a density (kg/m³) of")
    found: Numbers = plain(np.interp(-density, -_SG_KNOTS * _A[0], _ABV_KNOTS))
    return found
