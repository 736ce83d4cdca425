"""Refractometer: its temperature, and what it shows once there is alcohol."""

from __future__ import annotations

import numpy as np

from winebench.trade.ranges import Numbers, known, powers
from winebench.trade.rules import rule

# OIV-MA-AS2-02 Table I, read at 10, 15, 20, 25 and 30 °Brix; the rows used here.
_CELSIUS = np.array([10.0, 11.0, 12.0, 13.0, 14.0, 15.0, 16.0, 17.0, 20.0])
_BRIX = np.array([10.0, 15.0, 20.0, 25.0, 30.0])
_ADD = np.array(
    [
        [-0.59, -0.62, -0.64, -0.67, -0.69],
        [-0.54, -0.57, -0.59, -0.61, -0.63],
        [-0.49, -0.51, -0.53, -0.55, -0.57],
        [-0.43, -0.45, -0.47, -0.48, -0.50],
        [-0.38, -0.39, -0.40, -0.42, -0.43],
        [-0.32, -0.33, -0.34, -0.35, -0.36],
        [-0.26, -0.27, -0.28, -0.28, -0.29],
        [-0.20, -0.20, -0.21, -0.21, -0.22],
        [0.0, 0.0, 0.0, 0.0, 0.0],
    ]
)


@rule(
    name="refractometer-at",
    inputs={"brix": "°Brix", "celsius": "°C"},
    unit="°Brix to add",
    words="what to add to a reading taken cooler than 20 °C by a refractometer that does not "
    "correct itself",
    source="OIV-MA-AS2-02 Table I, straight lines between its entries (a few recalled)",
    valid="10 to 30 °Brix, 10 to 20 °C",
    example={"brix": 15.0, "celsius": 12.0},
)
def correction_to_20c(brix: float, celsius: float) -> float:
    """Return the °Brix to add to a cool refractometer reading."""
    known(brix, 10.0, 30.0, "a reading (°Brix) of")
    known(celsius, 10.0, 20.0, "a temperature (°C) of")
    at_temperature = [np.interp(celsius, _CELSIUS, column) for column in _ADD.T]
    return float(np.interp(brix, _BRIX, at_temperature))


@rule(
    name="abv-from-two-instruments",
    inputs={"brix": "°Brix", "baume": "°Baumé"},
    unit="% vol",
    words="1.646 x refractometer °Brix - 2.703 x hydrometer °Baumé - 1.794",
    source="Rogerson & Symington, Am. J. Enol. Vitic. 57:486 (2006), fitted on 35 port wines; "
    "a rough guide for table wine",
    valid="4 to 20 °Brix, -3 to 6 °Baumé",
    example={"brix": 7.0, "baume": -1.0},
)
def abv_from_two_instruments(brix: Numbers, baume: Numbers) -> Numbers:
    """Return % vol from the refractometer and the hydrometer on the same wine."""
    brix = known(brix, 4.0, 20.0, "a refractometer reading (°Brix) of")
    return (
        1.646 * brix - 2.703 * known(baume, -3.0, 6.0, "a hydrometer reading (°Baumé) of") - 1.794
    )


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
    return powers((0.0, 0.3214, 0.00303), known(abv, 0.0, 20.0, "a strength (% vol) of"))


ICUMSA_INDEX = "ICUMSA refractive index of sucrose solutions, 20 °C (coefficients from memory)"
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
