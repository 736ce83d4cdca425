"""Refractometer: its temperature, and what it shows once there is alcohol."""

from __future__ import annotations

import numpy as np

from winebench.trade.ethanol import sg_of_alcohol
from winebench.trade.gravity import sg_from_brix
from winebench.trade.ranges import Numbers, Spread, at_least, between, known, plain, powers
from winebench.trade.rules import rule
from winebench.trade.scales import sg_from_baume

# What to add, by °C and by °Brix read. From 10 to 17 °C and 10 °Brix up: OIV-MA-AS2-02 Table I;
# elsewhere to 22 °C the International table as a Russian standard prints it, which is within 0.02
# of OIV's where both speak; from 23 °C that same table from memory, at 30 °C within 0.03 of what
# the refractive indexes of ISO 1743 make.
_CELSIUS = np.array([*range(10, 31)], dtype=float)
_BRIX = np.array([0, 5, 10, 15, 20, 25, 30], dtype=float)
_ADD = np.array(
    [
        [-0.50, -0.54, -0.59, -0.62, -0.65, -0.67, -0.69],
        [-0.46, -0.49, -0.54, -0.57, -0.59, -0.61, -0.63],
        [-0.42, -0.45, -0.49, -0.51, -0.53, -0.55, -0.56],
        [-0.37, -0.40, -0.43, -0.45, -0.47, -0.48, -0.50],
        [-0.33, -0.35, -0.38, -0.39, -0.40, -0.42, -0.43],
        [-0.27, -0.29, -0.32, -0.33, -0.34, -0.35, -0.36],
        [-0.22, -0.24, -0.26, -0.27, -0.28, -0.28, -0.29],
        [-0.17, -0.18, -0.20, -0.20, -0.21, -0.21, -0.22],
        [-0.12, -0.13, -0.13, -0.14, -0.14, -0.14, -0.14],
        [-0.06, -0.06, -0.06, -0.07, -0.07, -0.07, -0.07],
        [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        [0.06, 0.07, 0.07, 0.07, 0.07, 0.08, 0.08],
        [0.13, 0.13, 0.14, 0.14, 0.15, 0.15, 0.15],
        [0.19, 0.20, 0.21, 0.22, 0.22, 0.23, 0.23],
        [0.26, 0.27, 0.28, 0.29, 0.30, 0.30, 0.31],
        [0.33, 0.35, 0.36, 0.37, 0.38, 0.38, 0.39],
        [0.40, 0.42, 0.43, 0.44, 0.45, 0.46, 0.47],
        [0.48, 0.50, 0.52, 0.53, 0.54, 0.55, 0.55],
        [0.56, 0.57, 0.60, 0.61, 0.62, 0.63, 0.63],
        [0.64, 0.66, 0.68, 0.69, 0.71, 0.72, 0.72],
        [0.72, 0.74, 0.77, 0.78, 0.79, 0.80, 0.80],
    ]
)


@rule(
    name="refractometer-at",
    inputs={"brix": "°Brix", "celsius": "°C"},
    unit="°Brix to add",
    words="what to add to a reading of a refractometer that does not correct itself (most do: ATC)",
    source="OIV-MA-AS2-02 Table I; International temperature correction table as in GOST, "
    "docs.cntd.ru 1200157922 (from 23 °C from memory, at 30 °C borne out by the indexes of "
    "ISO 1743); straight lines between",
    valid="0 to 30 °Brix, 10 to 30 °C",
    example={"brix": 15.0, "celsius": 12.0},
)
def correction_to_20c(brix: Numbers, celsius: Numbers) -> Numbers:
    """Return the °Brix to add to a refractometer reading to have it at 20 °C."""
    reading = known(brix, 0.0, 30.0, "a reading (°Brix) of")
    warmth = known(celsius, 10.0, 30.0, "a temperature (°C) of")
    return between(_CELSIUS, _BRIX, _ADD, warmth, reading)


@rule(
    name="abv-from-two-instruments",
    inputs={"brix": "°Brix", "baume": "°Baumé"},
    unit="% vol",
    words="1.646 x refractometer °Brix - 2.703 x hydrometer °Baumé - 1.794, a fit; the spread "
    "takes in the strength, to 22 % vol, at which extract and alcohol add up to both readings",
    source="Rogerson & Symington, Am. J. Enol. Vitic. 57:486 (2006), fitted on 35 port wines, a "
    "rough guide for table wine; OIML R 22, ICUMSA and CRC refractive indexes for the other",
    valid="4 to 20 °Brix, -3 to 6 °Baumé (145), 0 to 28 % vol",
    example={"brix": 7.0, "baume": -1.0},
)
def abv_from_two_instruments(brix: Numbers, baume: Numbers) -> Spread[Numbers]:
    """Return % vol from the refractometer and the hydrometer on the same wine."""
    brix = known(brix, 4.0, 20.0, "a refractometer reading (°Brix) of")
    baume = known(baume, -3.0, 6.0, "a hydrometer reading (°Baumé) of")
    fitted = known(
        1.646 * brix - 2.703 * baume - 1.794, 0.0, 28.0, "a strength (% vol) so found of"
    )
    balanced = _balanced_abv(brix, sg_from_baume(baume))
    return Spread(fitted, plain(np.minimum(fitted, balanced)), plain(np.maximum(fitted, balanced)))


def _balanced_abv(brix: Numbers, sg: Numbers) -> Numbers:
    """Return the strength at which both readings come of sucrose and alcohol added up, % vol."""
    low = sg * 0.0
    high = low + 22.0
    for _ in range(30):  # by halves
        middle = (low + high) / 2.0
        sucrose = at_least(0.0, brix - powers(_SHOWN, middle))
        heavier = (sg_from_brix(sucrose) + sg_of_alcohol(middle) - 1.0 > sg) * 1.0
        low, high = low + heavier * (middle - low), middle + heavier * (high - middle)
    return (low + high) / 2.0


_SHOWN = (0.0, 0.3214, 0.00303)
"""Fitted to CRC refractive indexes of ethanol-water to 20 % vol, read on the sucrose scale."""


@rule(
    name="sugar-shown-by-alcohol",
    inputs={"abv": "% vol"},
    unit="°Brix",
    words="about 0.33 to 0.36 °Brix for each % vol: a dry wine reads 4 to 5 °Brix of alcohol alone "
    "and 6 to 8 with its extract. Never plot it as gravity",
    source="CRC Handbook refractive indexes of ethanol-water, read on the sucrose scale",
    valid="0 to 20 % vol",
    example={"abv": 12.0},
)
def brix_shown_by_alcohol(abv: Numbers) -> Numbers:
    """Return the °Brix that alcohol in water alone shows."""
    return powers(_SHOWN, known(abv, 0.0, 20.0, "a strength (% vol) of"))


ICUMSA_INDEX = "polynomial fitted to the ICUMSA table of sucrose, 20 °C, as an encyclopaedia has it"
_INDEX = (-99127.4536, 318417.95, -413145.80, 270177.93, -88885.21, 11758.74)
_INDEX_SLOPE = tuple(power * c for power, c in enumerate(_INDEX) if power)


@rule(
    name="brix-from-refractive-index",
    inputs={"index": "nD"},
    unit="°Brix",
    words="the sucrose solution that bends light so at 20 °C",
    source=ICUMSA_INDEX + "; within 0.03 of OIV-MA-AS2-02 Table II",
    valid="nD 1.3330 to 1.4202, about 0 to 50 °Brix",
    example={"index": 1.36719},
)
def brix_from_refractive_index(index: Numbers) -> Numbers:
    """Return °Brix from the refractive index at 20 °C."""
    return powers(_INDEX, known(index, 1.3330, 1.4202, "a refractive index of"))


@rule(
    name="refractive-index-from-brix",
    inputs={"brix": "°Brix"},
    unit="nD",
    words="refractive index at 20 °C of the sucrose solution",
    source=ICUMSA_INDEX + ", inverted",
    valid="0 to 50 °Brix",
    example={"brix": 22.0},
)
def refractive_index_from_brix(brix: Numbers) -> Numbers:
    """Return the refractive index at 20 °C of a sucrose solution."""
    wanted = known(brix, 0.0, 50.0, "a Brix of")
    index = 1.333 + 0.0017 * wanted
    for _ in range(4):  # Newton
        index = index - (powers(_INDEX, index) - wanted) / powers(_INDEX_SLOPE, index)
    return index
