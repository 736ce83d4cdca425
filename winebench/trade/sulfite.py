"""Sulfite: how much free SO2 protects at a pH, and what brings it.

Two conventions for pK are in use. A constant 1.81 is the common simplification and this program's
own; the thermodynamic table of OIV-MA-AS323-04C gives 2.04 in a 12 % wine at 20 °C, and then the
same free SO2 counts for 1.7 times the molecular SO2. Both are selectable.
"""

from __future__ import annotations

import numpy as np

from winebench.trade.choices import chosen
from winebench.trade.ranges import (
    Numbers,
    Spread,
    between,
    known,
    more_than_nothing,
    plain,
    volume,
)
from winebench.trade.rules import rule

PK = 1.81
_PK_WORDS = (
    "pK 1.81 is what home tables use; pk-so2-oiv gives the other convention, to be set as pk, and "
    "the rules that end in by-convention show both"
)
SO2_SHARE = {"potassium": 2 * 64.064 / 222.32, "sodium": 2 * 64.064 / 190.10}
"""Share of the metabisulfite's mass that is SO2, fresh powder (molar masses)."""


def _free_per_molecular(ph: Numbers, pk: float) -> Numbers:
    known(pk, 1.4, 3.0, "a pK of")
    return _ratio(ph, pk)


def _ratio(ph: Numbers, pk: Numbers | float) -> Numbers:
    ratio: Numbers = 1.0 + 10.0 ** (known(ph, 2.6, 4.5, "a pH of") - pk)
    return ratio


@rule(
    name="molecular-so2-percent",
    inputs={"ph": "pH", "pk": "1"},
    unit="%",
    words="100 / (1 + 10^(pH - pK)); " + _PK_WORDS,
    source="acid-base equilibrium; pK 1.81 the common constant",
    valid="pH 2.6 to 4.5, pK 1.4 to 3.0",
    example={"ph": 3.4, "pk": 1.81},
)
def molecular_so2_percent(ph: Numbers, pk: float = PK) -> Numbers:
    """Return the molecular share of free SO2, %."""
    return 100.0 / _free_per_molecular(ph, pk)


@rule(
    name="free-so2",
    inputs={"molecular": "mg/L", "ph": "pH", "pk": "1"},
    unit="mg/L free",
    words="molecular x (1 + 10^(pH - pK)); 0.8 for white or sweet, 0.5 for dark dry wine; "
    + _PK_WORDS,
    source="acid-base equilibrium; targets common practice",
    valid="pH 2.6 to 4.5, pK 1.4 to 3.0, 0 to 2 mg/L molecular",
    example={"molecular": 0.8, "ph": 3.4, "pk": 1.81},
)
def free_so2_for_molecular(molecular: Numbers, ph: Numbers, pk: float = PK) -> Numbers:
    """Return the free SO2, mg/L, that gives that much molecular SO2 at the pH."""
    wanted = known(molecular, 0.0, 2.0, "a molecular SO2 (mg/L) of")
    return wanted * _free_per_molecular(ph, pk)


@rule(
    name="molecular-so2",
    inputs={"free": "mg/L", "ph": "pH", "pk": "1"},
    unit="mg/L molecular",
    words="free / (1 + 10^(pH - pK)); " + _PK_WORDS,
    source="acid-base equilibrium; pK 1.81 the common constant",
    valid="0 to 500 mg/L free, pH 2.6 to 4.5, pK 1.4 to 3.0",
    example={"free": 30.0, "ph": 3.4, "pk": 1.81},
)
def molecular_so2(free: Numbers, ph: Numbers, pk: float = PK) -> Numbers:
    """Return molecular SO2, mg/L, of that much free SO2."""
    return known(free, 0.0, 500.0, "free SO2 (mg/L) of") / _free_per_molecular(ph, pk)


@rule(
    name="metabisulfite",
    inputs={"so2_mg_per_l": "mg/L", "litres": "L", "salt": "word"},
    unit="g",
    words="mg/L x litres / 1000 / share of SO2 (potassium 57.6 %, sodium 67.4 %), fresh powder",
    source="molar masses",
    valid="0 to 500 mg/L, volumes to 100 000 L",
    example={"so2_mg_per_l": 50.0, "litres": 19.0, "salt": "potassium"},
)
def metabisulfite_g(so2_mg_per_l: Numbers, litres: Numbers, salt: str = "potassium") -> Numbers:
    """Return how much metabisulfite brings that much SO2, g."""
    wanted = known(so2_mg_per_l, 0.0, 500.0, "an SO2 addition (mg/L) of")
    return wanted * volume(litres) / 1000.0 / _share(salt)


@rule(
    name="so2-from-metabisulfite",
    inputs={"grams": "g", "litres": "L", "salt": "word"},
    unit="mg/L",
    words="grams x share of SO2 x 1000 / litres; a 0.44 g tablet in a US gallon brings 67 mg/L",
    source="molar masses",
    valid="0 to 1000 g, volumes over 0 to 100 000 L",
    example={"grams": 0.44, "litres": 3.785, "salt": "potassium"},
)
def so2_mg_per_l_from_metabisulfite(
    grams: Numbers, litres: Numbers, salt: str = "potassium"
) -> Numbers:
    """Return the SO2 that so much metabisulfite brings, mg/L."""
    into = more_than_nothing(litres, 1e5, "a volume (L) of")
    return known(grams, 0.0, 1000.0, "a powder mass (g) of") * _share(salt) * 1000.0 / into


def _share(salt: str) -> float:
    return SO2_SHARE[chosen(salt, SO2_SHARE, "a salt")]


# OIV-MA-AS323-04C, Table I (its last row from memory): rows % vol, columns °C.
_PK_ABV = np.array([0.0, 5.0, 10.0, 15.0, 20.0])
_PK_CELSIUS = np.array([20.0, 25.0, 30.0, 35.0, 40.0])
_PK_TABLE = np.array(
    [
        [1.798, 2.000, 2.219, 2.334, 2.493],
        [1.897, 2.098, 2.299, 2.397, 2.527],
        [1.997, 2.198, 2.394, 2.488, 2.606],
        [2.099, 2.301, 2.503, 2.607, 2.728],
        [2.203, 2.406, 2.628, 2.754, 2.895],
    ]
)


@rule(
    name="pk-so2-oiv",
    inputs={"abv": "% vol", "celsius": "°C"},
    unit="1",
    words="the table's thermodynamic pK, straight lines between its rows and columns",
    source="OIV-MA-AS323-04C Table I (no ionic strength term; above 15 % vol from memory)",
    valid="0 to 20 % vol, 20 to 40 °C",
    example={"abv": 12.0, "celsius": 20.0},
)
def pk_so2_oiv(abv: Numbers, celsius: Numbers) -> Numbers:
    """Return the thermodynamic pK of SO2 by strength and temperature."""
    strength = known(abv, 0.0, 20.0, "a strength (% vol) of")
    warmth = known(celsius, 20.0, 40.0, "a temperature (°C) of")
    return between(_PK_ABV, _PK_CELSIUS, _PK_TABLE, strength, warmth)


_BOTH = (
    "pK 1.81, the constant of home tables, for the figure; the spread reaches to the thermodynamic "
    "pK of the OIV table, which counts more of the free SO2 as molecular"
)


@rule(
    name="molecular-so2-by-convention",
    inputs={"free": "mg/L", "ph": "pH", "abv": "% vol", "celsius": "°C"},
    unit="mg/L molecular",
    words="free / (1 + 10^(pH - pK)): " + _BOTH,
    source="acid-base equilibrium; OIV-MA-AS323-04C Table I",
    valid="0 to 500 mg/L, pH 2.6 to 4.5, 0 to 20 % vol, 20 to 40 °C",
    example={"free": 30.0, "ph": 3.4, "abv": 12.0, "celsius": 20.0},
)
def molecular_so2_by_convention(
    free: Numbers, ph: Numbers, abv: Numbers, celsius: Numbers
) -> Spread[Numbers]:
    """Return molecular SO2 of that free SO2, mg/L, by one pK convention and the other."""
    usual = molecular_so2(free, ph)
    other = usual * _ratio(ph, PK) / _ratio(ph, pk_so2_oiv(abv, celsius))
    return _spread(usual, other)


@rule(
    name="free-so2-by-convention",
    inputs={"molecular": "mg/L", "ph": "pH", "abv": "% vol", "celsius": "°C"},
    unit="mg/L free",
    words="molecular x (1 + 10^(pH - pK)): " + _BOTH,
    source="acid-base equilibrium; OIV-MA-AS323-04C Table I; targets common practice",
    valid="0 to 2 mg/L molecular, pH 2.6 to 4.5, 0 to 20 % vol, 20 to 40 °C",
    example={"molecular": 0.8, "ph": 3.4, "abv": 12.0, "celsius": 20.0},
)
def free_so2_by_convention(
    molecular: Numbers, ph: Numbers, abv: Numbers, celsius: Numbers
) -> Spread[Numbers]:
    """Return the free SO2 for that molecular SO2, mg/L, by one pK convention and the other."""
    usual = free_so2_for_molecular(molecular, ph)
    other = usual / _ratio(ph, PK) * _ratio(ph, pk_so2_oiv(abv, celsius))
    return _spread(usual, other)


def _spread(usual: Numbers, other: Numbers) -> Spread[Numbers]:
    return Spread(usual, plain(np.minimum(usual, other)), plain(np.maximum(usual, other)))


@rule(
    name="so2-stock",
    inputs={"grams": "g", "percent": "%"},
    unit="mL",
    words="grams / (percent / 100): a 10 % stock holds 1 g in 10 mL of water-thin solution",
    source="definition (mass in volume)",
    valid="1 to 20 %, 0 to 1000 g",
    example={"grams": 1.65, "percent": 10.0},
)
def stock_ml(grams: Numbers, percent: float = 10.0) -> Numbers:
    """Return how many mL of a stock solution (g in 100 mL) hold that many grams."""
    powder = known(grams, 0.0, 1000.0, "a powder mass (g) of")
    return powder * 100.0 / known(percent, 1.0, 20.0, "a stock strength (%) of")
