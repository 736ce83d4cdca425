"""What a hydrometer reading means at another temperature."""

from __future__ import annotations

from functools import lru_cache
from typing import cast

import numpy as np
from numpy.typing import NDArray

from winebench.trade.choices import said_yes
from winebench.trade.ethanol import OIML, ethanol_water_density, mass_percent_from_abv
from winebench.trade.gravity import CIPM, ICUMSA, swelling, water_density
from winebench.trade.ranges import Numbers, at_least, known, plain
from winebench.trade.rules import rule
from winebench.units import HIGHEST_SG, LOWEST_SG

GLASS_PER_KELVIN = 25e-6
"""Cubic expansion of the hydrometer's glass, 1/K."""
_INPUTS = {"sg": "SG", "celsius": "°C", "calibrated": "°C", "abv": "% vol", "glass": "word"}
_WORDS = (
    "the reading corrected for how liquid and glass swell with warmth: the sucrose solution (in "
    "that much alcohol) whose density at the sample's temperature the glass shows, "
)
_GLASS_WORDS = "glass 'no' lets the liquid alone swell. "
_SOURCE = f"{ICUMSA}; {CIPM}; {OIML}; glass 25e-6 per °C (OIML R 44)"
_VALID = "sample 0 to 40 °C, instrument 10 to 30 °C, SG 0.970 to 1.200, 0 to 25 % vol"


@rule(
    name="hydrometer",
    inputs=_INPUTS,
    unit="SG 20/20 °C",
    words=_WORDS + "taken to 20 °C, whichever temperature the instrument is made for (20 °C or 60 "
    "°F, printed in it); " + _GLASS_WORDS + "A table made for 60 °F gives SG 60/60 °F: see "
    "hydrometer-own-scale",
    source=_SOURCE,
    valid=_VALID,
    example={"sg": 1.090, "celsius": 30.0, "calibrated": 20.0},
)
def sg_from_hydrometer(
    sg: Numbers,
    celsius: float,
    calibrated: float = 20.0,
    abv: float = 0.0,
    glass: str = "yes",
) -> Numbers:
    """Return SG 20/20 °C of what an instrument for `calibrated` reads in a sample at `celsius`.

    Every other rule means SG 20/20. A hydrometer for 60 °F compares with water at 60 °F, and reads
    0.0004 more in a must of 1.090 even where the sample is at 60 °F. How the liquid swells, and how
    well that is known, is said at `true_sg`.
    """
    return _density_at(20.0, sg, celsius, calibrated, abv, glass) / water_density(20.0)


@rule(
    name="hydrometer-own-scale",
    inputs=_INPUTS,
    unit="SG on the instrument's own scale",
    words=_WORDS + "taken to the instrument's own, over water at that too: SG 60/60 °F by one for "
    "60 °F, as its printed table; " + _GLASS_WORDS + "The rule hydrometer gives SG 20/20 °C",
    source=_SOURCE,
    valid=_VALID,
    example={"sg": 1.090, "celsius": 30.0, "calibrated": 20.0},
)
def true_sg(
    sg: Numbers,
    celsius: float,
    calibrated: float = 20.0,
    abv: float = 0.0,
    glass: str = "yes",
) -> Numbers:
    """Return the gravity at the instrument's own temperature for one read in a sample at `celsius`.

    The liquid swells as sucrose does (ICUMSA) in alcohol of that strength (OIML R 22); below SG 1
    as ethanol-water of that density at least. Without the strength it is good to 0.0003 in must
    and plain alcohol; a strong wine with much extract may be off by 0.002 when 15 °C off.
    """
    density = _density_at(calibrated, sg, celsius, calibrated, abv, glass)
    return density / water_density(calibrated)


def _density_at(
    wanted: float, sg: Numbers, celsius: float, calibrated: float, abv: float, glass: str
) -> Numbers:
    """Return what the liquid's density is at `wanted` °C, kg/m³."""
    sg = known(sg, LOWEST_SG, HIGHEST_SG, "a gravity of")
    known(celsius, 0.0, 40.0, "a sample (°C) of")
    known(calibrated, 10.0, 30.0, "an instrument's own temperature (°C) of")
    known(abv, 0.0, 25.0, "a strength (% vol) of")
    expansion = GLASS_PER_KELVIN if said_yes(glass, "glass") else 0.0
    base, there = _thinnest(abv, wanted), _thinnest(abv, celsius)
    shown = sg * water_density(calibrated) * (1.0 - expansion * (celsius - calibrated))
    share = at_least(0.0, (shown / there - 1.0) / 0.4)
    for _ in range(6):  # swelling rises by 385 a unit of share at none, by 530 at 0.44
        share = at_least(0.0, share + (shown - there - swelling(share, celsius)) / 470.0)
    swollen = base + swelling(share, wanted)
    if isinstance(shown, np.ndarray):
        thinner = _alcohol_like(shown, celsius, wanted)
        swollen = cast("Numbers", np.where(shown < there, thinner, swollen))
    elif shown < there:
        swollen = _alcohol_like(shown, celsius, wanted)
    return swollen


# Thinner than water means alcohol, so it swells at least as ethanol-water of that density does.
_SHARES: NDArray[np.float64] = np.linspace(0.0, 0.4, 401)


@lru_cache(maxsize=64)
def _alcohol_densities(celsius: float) -> NDArray[np.float64]:
    return ethanol_water_density(_SHARES, celsius)


def _alcohol_like(density: Numbers, celsius: float, wanted: float) -> Numbers:
    """Return at the wanted temperature the density of an ethanol-water, kg/m³."""
    share = np.interp(-density, -_alcohol_densities(celsius), _SHARES)
    found: Numbers = plain(np.interp(share, _SHARES, _alcohol_densities(wanted)))
    return found


def _thinnest(abv: float, celsius: float) -> float:
    """Return the density of the liquid with no solids in it, kg/m³."""
    if abv == 0.0:
        return water_density(celsius)
    return ethanol_water_density(mass_percent_from_abv(abv) / 100.0, celsius)
