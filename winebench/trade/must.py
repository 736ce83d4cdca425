"""Grape must: denser than sucrose at the same refractometer °Brix, and not all of it sugar.

For musts of dried or fresh grapes. Other fruit has no such table; there the fermentable share of
the solids is a figure of the fruit itself.
"""

from __future__ import annotations

import numpy as np

from winebench.trade.ranges import Numbers, known, plain
from winebench.trade.rules import rule

OIV_TABLE = "OIV-MA-AS2-02 Table II, as in the French order of 14 Sept 2011, Annex IV"
_BRIX = np.array([10, 11, 13, 14, 16, 17, 19, 20, 22, 23, 25, 26, 28, 29, 30], dtype=float)
_DENSITY = np.array(
    [1.0391, 1.0431, 1.0514, 1.0556, 1.0641, 1.0685, 1.0773, 1.0818, 1.0908, 1.0954, 1.1047,
     1.1095, 1.1190, 1.1239, 1.1287]
) * 1000.0  # fmt: skip
_SUGAR = np.array(
    [82.2, 92.8, 114.3, 125.2, 147.1, 158.2, 180.6, 191.9, 214.7, 226.2, 249.5, 261.2, 284.9, 296.9,
     308.9]
)  # fmt: skip


@rule(
    name="grape-must-sugar",
    inputs={"brix": "°Brix"},
    unit="g/L",
    words="sugar of a grape must by refractometer; 20 to 30 g/L less than sucrose would be, "
    "for acid and the rest of the must bend light too",
    source=OIV_TABLE + ", straight lines between its entries",
    valid="10 to 30 °Brix",
    example={"brix": 22.0},
)
def grape_must_sugar_g_per_l(brix: Numbers) -> Numbers:
    """Return the sugar of a grape must by refractometer, g/L at 20 °C."""
    found: Numbers = plain(np.interp(known(brix, 10.0, 30.0, _READING), _BRIX, _SUGAR))
    return found


@rule(
    name="grape-must-density",
    inputs={"brix": "°Brix"},
    unit="kg/m³",
    words="density of a grape must by refractometer; about 1 kg/m³ more than sucrose-density gives",
    source=OIV_TABLE + ", straight lines between its entries",
    valid="10 to 30 °Brix",
    example={"brix": 22.0},
)
def grape_must_density(brix: Numbers) -> Numbers:
    """Return the density of a grape must by refractometer, kg/m³ at 20 °C."""
    found: Numbers = plain(np.interp(known(brix, 10.0, 30.0, _READING), _BRIX, _DENSITY))
    return found


@rule(
    name="grape-must-sugar-by-mass",
    inputs={"brix": "°Brix"},
    unit="g/kg",
    words="sugar of a litre of grape must / its density",
    source=OIV_TABLE + ", straight lines between its entries",
    valid="10 to 30 °Brix",
    example={"brix": 22.0},
)
def grape_must_sugar_g_per_kg(brix: Numbers) -> Numbers:
    """Return the sugar of a grape must by refractometer, g/kg."""
    return grape_must_sugar_g_per_l(brix) / grape_must_density(brix) * 1000.0


_READING = "a must reading (°Brix) of"
