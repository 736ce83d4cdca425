"""Finished wine: its density, and strength on the other scale that is in use."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from winebench.trade.alcohol import TABARIE, dry_gravity
from winebench.trade.ethanol import OIML, ethanol_water_density
from winebench.trade.gravity import ICUMSA, WATER_20, water_density
from winebench.trade.ranges import Numbers, known, plain
from winebench.trade.rules import rule
from winebench.trade.scales import SIXTY_F

AIR = 1.2
"""Density of air at 20 °C, kg/m³: what weighing in air leaves out."""
_MASS_KNOTS: NDArray[np.float64] = np.linspace(0.0, 1.0, 2001)
_AT_60F: NDArray[np.float64] = ethanol_water_density(_MASS_KNOTS, SIXTY_F)
_ABV_60F: NDArray[np.float64] = _MASS_KNOTS * _AT_60F / _AT_60F[-1] * 100.0


@rule(
    name="wine-density",
    inputs={"abv": "% vol", "extract_g_per_l": "g/L"},
    unit="kg/m³",
    words="gravity of extract and sugar + gravity of the alcohol - 1, times water's density",
    source=f"{TABARIE}; {ICUMSA}; {OIML}",
    valid="0 to 25 % vol, 0 to 400 g/L of extract with the sugar left",
    example={"abv": 12.0, "extract_g_per_l": 24.0},
)
def wine_density(abv: Numbers, extract_g_per_l: Numbers) -> Numbers:
    """Return the density of a dry or sweet wine at 20 °C, kg/m³."""
    strength = known(abv, 0.0, 25.0, "a strength (% vol) of")
    extract = known(extract_g_per_l, 0.0, 400.0, "an extract (g/L) of")
    return dry_gravity(strength, extract) * WATER_20


@rule(
    name="density-without-so2",
    inputs={"density": "kg/m³", "total_so2": "mg/L"},
    unit="kg/m³",
    words="density - 0.6 kg/m³ for each g/L of total SO2",
    source="OIV-MA-AS2-01A",
    valid="970 to 1200 kg/m³, 0 to 500 mg/L",
    example={"density": 995.0, "total_so2": 50.0},
)
def density_without_so2(density: Numbers, total_so2: Numbers) -> Numbers:
    """Return the density corrected for its sulfite, kg/m³."""
    so2 = known(total_so2, 0.0, 500.0, "total SO2 (mg/L) of") / 1000.0
    return known(density, 970.0, 1200.0, "a density (kg/m³) of") - 0.6 * so2


@rule(
    name="mass-percent-from-abv-60f",
    inputs={"abv": "% vol at 60 °F"},
    unit="% mass",
    words="alcohol by mass where the strength by volume is stated at 60 °F, as in the US",
    source=OIML,
    valid="0 to 100 % vol",
    example={"abv": 12.0},
)
def mass_percent_from_abv_60f(abv: Numbers) -> Numbers:
    """Return % by mass of ethanol-water at that % vol at 60 °F."""
    strength = known(abv, 0.0, 100.0, "a strength (% vol) of")
    found: Numbers = plain(np.interp(strength, _ABV_60F, _MASS_KNOTS) * 100.0)
    return found


@rule(
    name="sg-of-alcohol-60f",
    inputs={"abv": "% vol at 60 °F"},
    unit="SG 60/60 °F in air",
    words="gravity of ethanol in water, both at 60 °F and weighed in air",
    source=OIML,
    valid="0 to 100 % vol",
    example={"abv": 12.0},
)
def sg_of_alcohol_60f(abv: Numbers) -> Numbers:
    """Return SG 60/60 °F in air of ethanol in water with that % vol at 60 °F."""
    density = ethanol_water_density(mass_percent_from_abv_60f(abv) / 100.0, SIXTY_F)
    return (density - AIR) / (water_density(SIXTY_F) - AIR)
