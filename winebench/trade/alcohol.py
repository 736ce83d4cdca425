"""Alcohol: its density, what sugar makes of it, and what gravities say of it.

Strength is % vol at 20 °C. Published relations between gravity and strength disagree by half a
percent at wine strengths; `abv_from_gravities` shows one figure with that spread.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from winebench.trade.gravity import (
    ICUMSA,
    WATER_20,
    brix_from_sg,
    sg_from_solids_g_per_l,
    solids_g_per_l_from_sg,
)
from winebench.trade.ranges import (
    Numbers,
    Spread,
    at_least,
    known,
    more_than_nothing,
    plain,
    powers,
    volume,
)
from winebench.trade.rules import rule

OIML = "OIML R 22 (1975), Annex to Directive 76/766/EEC"
TABARIE = "Tabarié's additivity, OIV-MA-AS2-03B"
ETHANOL_20 = 789.24
"""Density of ethanol at 20 °C, kg/m³."""
EU_SUGAR_PER_PERCENT = 16.83

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


@rule(
    name="potential-alcohol",
    inputs={"sugar_g_per_l": "g/L", "sugar_per_percent": "g/L"},
    unit="% vol",
    words="sugar / sugar that makes one percent (EU: 16.83; the former convention: 17.5)",
    source="Reg. (EU) usage as in the French order of 14 Sept 2011, Annex IV",
    valid="0 to 400 g/L",
    example={"sugar_g_per_l": 200.0, "sugar_per_percent": 16.83},
)
def potential_alcohol(
    sugar_g_per_l: Numbers, sugar_per_percent: float = EU_SUGAR_PER_PERCENT
) -> Numbers:
    """Return the strength that so much sugar can make, % vol."""
    known(sugar_per_percent, 15.0, 20.0, "sugar for one percent (g/L) of")
    return known(sugar_g_per_l, 0.0, 400.0, "a sugar content (g/L) of") / sugar_per_percent


@rule(
    name="abv-from-fermented-sugar",
    inputs={"sugar_g_per_l": "g/L"},
    unit="% vol",
    words="sugar gone / 16.83 g/L per % vol",
    source="Reg. (EU) usage as in the French order of 14 Sept 2011, Annex IV",
    valid="0 to 400 g/L",
    example={"sugar_g_per_l": 220.0},
)
def abv_from_fermented_sugar(sugar_g_per_l: Numbers) -> Numbers:
    """Return the strength made of sugar (as hexose) that fermented, % vol."""
    return potential_alcohol(sugar_g_per_l)


@rule(
    name="most-alcohol",
    inputs={"sugar_g_per_l": "g/L"},
    unit="% vol",
    words="2 ethanol from each hexose and nothing for the yeast itself: never reached",
    source="molar masses; ethanol 789.24 kg/m³",
    valid="0 to 400 g/L",
    example={"sugar_g_per_l": 220.0},
)
def most_alcohol(sugar_g_per_l: Numbers) -> Numbers:
    """Return the strength that chemistry alone would allow, % vol."""
    sugar = known(sugar_g_per_l, 0.0, 400.0, "a sugar content (g/L) of")
    return sugar * (2 * 46.069 / 180.156) / ETHANOL_20 * 100.0


def abv_131(og: Numbers, fg: Numbers) -> Numbers:
    """Return % vol by the linear rule of thumb, 131.25 (OG - FG): common practice."""
    return (og - fg) * 131.25


def abv_duncan_acton(og: Numbers, fg: Numbers) -> Numbers:
    """Return % vol as drop / (7.75 - 3 (G - 7) / 800), G = OG points.

    Source: Duncan & Acton, Progressive Winemaking, 1967 (from memory).
    """
    points = (og - 1.0) * 1000.0
    return (og - fg) * 1000.0 / (7.75 - 3.0 * (points - 7.0) / 800.0)


def abv_balling(og: Numbers, fg: Numbers) -> Numbers:
    """Return % vol by Balling's extract balance: 2.0665 g extract make 1 g alcohol (1865).

    The attenuation factor 0.22 + 0.001 x original extract gives the real extract (from memory).
    """
    original, apparent = brix_from_sg(og), brix_from_sg(fg)
    q = 0.22 + 0.001 * original
    real = (q * original + apparent) / (1.0 + q)
    mass_percent = (original - real) / (2.0665 - 1.0665 * original / 100.0)
    return mass_percent * fg * WATER_20 / ETHANOL_20


def abv_mass_balance(og: Numbers, fg: Numbers, yield_g_per_g: float) -> Numbers:
    """Return % vol where Tabarié's additivity and that yield (g ethanol per g extract) both hold.

    More alcohol means more extract left, which means less alcohol made: the steps shrink
    sixfold each time, so six settle it to 0.001.
    """
    before = solids_g_per_l_from_sg(og)
    abv = before * 0.0
    for _ in range(6):
        gone = before - tabarie_extract(fg, abv)
        abv = at_least(0.0, gone) * yield_g_per_g / ETHANOL_20 * 100.0
    return abv


@rule(
    name="abv-from-gravities",
    inputs={"og": "SG", "fg": "SG"},
    unit="% vol",
    words="middle of three relations: Balling's balance, Duncan & Acton, 131.25 x drop; "
    "the spread spans them and mass balance with 0.46 to 0.50 g alcohol per g sugar",
    source="Balling 1865; Duncan & Acton 1967 (both from memory); common practice; " + TABARIE,
    valid="OG 1.000 to 1.17, FG 0.980 to OG",
    example={"og": 1.090, "fg": 0.995},
)
def abv_from_gravities(og: Numbers, fg: Numbers) -> Spread[Numbers]:
    """Return the strength that a fall in gravity means, % vol, with its spread."""
    og = known(og, 1.0, 1.17, "an original gravity of")
    fg = known(fg, 0.980, og, "a gravity now of")
    low, figure, high = np.sort(
        [abv_131(og, fg), abv_duncan_acton(og, fg), abv_balling(og, fg)], axis=0
    )
    lean, rich = abv_mass_balance(og, fg, 0.46), abv_mass_balance(og, fg, 0.50)
    moved = og != fg  # no fall, no alcohol, whatever rounding says
    return Spread(
        plain(figure * moved),
        plain(np.minimum(low, lean) * moved),
        plain(np.maximum(high, rich) * moved),
    )


@rule(
    name="tabarie",
    inputs={"sg": "SG", "abv": "% vol"},
    unit="SG",
    words="gravity of the wine with its alcohol driven off: wine - alcohol in water + 1",
    source=TABARIE + "; " + OIML,
    valid="SG 0.970 to 1.17, 0 to 25 % vol",
    example={"sg": 0.995, "abv": 12.0},
)
def sg_without_alcohol(sg: Numbers, abv: Numbers) -> Numbers:
    """Return the gravity of a wine without its alcohol (Tabarié)."""
    return known(sg, 0.970, 1.17, "a gravity of") - sg_of_alcohol(abv) + 1.0


@rule(
    name="dry-extract",
    inputs={"sg": "SG", "abv": "% vol"},
    unit="g/L",
    words="sucrose of the gravity that the wine has without its alcohol",
    source=TABARIE + "; " + ICUMSA,
    valid="SG 0.970 to 1.17, 0 to 25 % vol",
    example={"sg": 0.995, "abv": 12.0},
)
def tabarie_extract(sg: Numbers, abv: Numbers) -> Numbers:
    """Return total dry extract, g/L."""
    return solids_g_per_l_from_sg(sg_without_alcohol(sg, abv))


@rule(
    name="dry-gravity",
    inputs={"abv": "% vol", "extract_g_per_l": "g/L"},
    unit="SG",
    words="gravity of the extract that is left + gravity of the alcohol - 1",
    source=TABARIE + "; " + ICUMSA + "; " + OIML,
    valid="0 to 25 % vol, 0 to 400 g/L",
    example={"abv": 12.0, "extract_g_per_l": 22.0},
)
def dry_gravity(abv: Numbers, extract_g_per_l: Numbers) -> Numbers:
    """Return the gravity at which a wine of that strength and unfermentable extract ends."""
    return sg_from_solids_g_per_l(extract_g_per_l) + sg_of_alcohol(abv) - 1.0


@rule(
    name="abv-after-addition",
    inputs={"abv": "% vol", "litres": "L", "added_l": "L"},
    unit="% vol",
    words="strength x volume before / volume after",
    source="definition (contraction on mixing neglected)",
    valid="0 to 25 % vol, volumes to 100 000 L",
    example={"abv": 12.5, "litres": 19.0, "added_l": 0.6},
)
def abv_after_addition(abv: Numbers, litres: Numbers, added_l: Numbers) -> Numbers:
    """Return the strength after adding something without alcohol, % vol."""
    after = more_than_nothing(volume(litres) + volume(added_l), 2e5, "a volume (L) of")
    return known(abv, 0.0, 25.0, "a strength (% vol) of") * litres / after
