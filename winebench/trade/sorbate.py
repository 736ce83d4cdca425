"""Sorbate: what keeps a sweetened, cleared and sulfited wine from starting again.

It stops yeast multiplying; it does not kill and cannot arrest a ferment. Never after a malolactic
ferment: bacteria turn it into the smell of crushed geranium, for which there is no cure.
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

SORBIC_SHARE = 112.13 / 150.22
LIMITS_MG_PER_L = {"OIV": 200.0, "EU": 200.0, "US": 300.0}
"""Published limits of sorbic acid: OIV II.3.4.5; Reg (EU) 2019/934; 27 CFR 24.246.

Wine of other fruit has the same 200 (French order of 2 Oct 1997, annex III C, part 1)."""


@rule(
    name="sorbic-dose",
    inputs={"abv": "% vol"},
    unit="mg/L sorbic acid",
    words="150 mg/L at 10 % vol, 25 less for each percent more, 50 at 14; says nothing of pH, for "
    "which see sorbic-dose-by-ph. Limits: 200 (OIV, EU), 300 (US); the spoon rule of half a "
    "teaspoon a gallon brings about 240",
    source="Peynaud, Knowing and Making Wine, 1984 (from memory)",
    valid="10 to 14 % vol",
    example={"abv": 12.0},
)
def sorbic_acid_dose_mg_per_l(abv: Numbers) -> Numbers:
    """Return the sorbic acid that a clear, sulfited wine of that strength needs, mg/L."""
    # Straight between the table's figures, which lie on one line.
    return 150.0 - 25.0 * (known(abv, 10.0, 14.0, "a strength (% vol) of") - 10.0)


# Underhill's table: mL of a 3 % solution of the salt for a litre; rows % vol, columns pH.
_ABV = np.array([10.0, 11.0, 12.0, 13.0, 14.0])
_PH = np.array([3.1, 3.2, 3.3, 3.4, 3.5])
_ML_OF_3_PERCENT = np.array(
    [
        [5.5, 6.0, 7.0, 8.0, 9.0],
        [4.5, 5.0, 6.0, 7.0, 7.5],
        [3.2, 3.5, 4.0, 4.5, 5.0],
        [2.6, 3.0, 3.2, 3.5, 4.0],
        [2.0, 2.2, 2.4, 2.7, 3.0],
    ]
)


@rule(
    name="sorbic-dose-by-ph",
    inputs={"abv": "% vol", "ph": "pH"},
    unit="mg/L sorbic acid",
    words="table by strength and pH, straight lines between its entries, but never over 200, the "
    "limit of OIV and EU (US: 300), which the table passes by 1.5 at 10 % vol and pH 3.5; the "
    "spread takes in Peynaud's dose by strength alone. Less acid, more sorbate: it works "
    "undissociated (pKa 4.76)",
    source="Underhill, Making Better Wines, sorbate table; Peynaud, Knowing and Making Wine, 1984 "
    "(from memory); limits OIV II.3.4.5, Reg (EU) 2019/934, 27 CFR 24.246",
    valid="10 to 14 % vol, pH 3.1 to 3.5",
    example={"abv": 12.0, "ph": 3.4},
)
def sorbic_acid_dose_by_ph_mg_per_l(abv: Numbers, ph: Numbers) -> Spread[Numbers]:
    """Return the sorbic acid that a clear, sulfited wine of that strength and pH needs, mg/L."""
    by_strength = sorbic_acid_dose_mg_per_l(abv)
    acidity = known(ph, 3.1, 3.5, "a pH of")
    salt_mg = between(_ABV, _PH, _ML_OF_3_PERCENT, abv, acidity) * 30.0
    dose = plain(np.minimum(salt_mg * SORBIC_SHARE, LIMITS_MG_PER_L["OIV"]))
    return Spread(dose, plain(np.minimum(dose, by_strength)), plain(np.maximum(dose, by_strength)))


@rule(
    name="sorbic-left-to-limit",
    inputs={"sorbic_mg_per_l": "mg/L", "limit": "word"},
    unit="mg/L sorbic acid",
    words="limit - what is in the wine; OIV and EU 200, US 300, for wine on sale. Tasted by some "
    "from 135 mg/L",
    source="OIV II.3.4.5; Reg (EU) 2019/934, fruit wine French order of 2 Oct 1997, annex III C; "
    "27 CFR 24.246; Univ. Minnesota extension note (2014)",
    valid="0 to 1000 mg/L",
    example={"sorbic_mg_per_l": 100.0, "limit": "EU"},
)
def sorbic_left_mg_per_l(sorbic_mg_per_l: Numbers, limit: str) -> Numbers:
    """Return how much sorbic acid a limit leaves, mg/L; negative where it is passed."""
    most = LIMITS_MG_PER_L[chosen(limit, LIMITS_MG_PER_L, "a limit")]
    return most - known(sorbic_mg_per_l, 0.0, 1000.0, "sorbic acid (mg/L) of")


@rule(
    name="potassium-sorbate",
    inputs={"sorbic_mg_per_l": "mg/L", "litres": "L"},
    unit="g",
    words="mg/L x litres / 1000 / 0.746, the share of sorbic acid in the salt",
    source="molar masses",
    valid="0 to 300 mg/L, volumes to 100 000 L",
    example={"sorbic_mg_per_l": 100.0, "litres": 19.0},
)
def potassium_sorbate_g(sorbic_mg_per_l: Numbers, litres: Numbers) -> Numbers:
    """Return how much potassium sorbate brings that much sorbic acid, g."""
    wanted = known(sorbic_mg_per_l, 0.0, 300.0, "a sorbic acid dose (mg/L) of")
    return wanted * volume(litres) / 1000.0 / SORBIC_SHARE


@rule(
    name="sorbic-from-sorbate",
    inputs={"grams": "g", "litres": "L"},
    unit="mg/L sorbic acid",
    words="grams x 0.746 x 1000 / litres",
    source="molar masses",
    valid="0 to 1000 g, volumes over 0 to 100 000 L",
    example={"grams": 2.4, "litres": 3.785},
)
def sorbic_mg_per_l(grams: Numbers, litres: Numbers) -> Numbers:
    """Return the sorbic acid that so much potassium sorbate brings, mg/L."""
    into = more_than_nothing(litres, 1e5, "a volume (L) of")
    return known(grams, 0.0, 1000.0, "a powder mass (g) of") * SORBIC_SHARE * 1000.0 / into
