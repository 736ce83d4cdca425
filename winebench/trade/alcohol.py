"""Alcohol: what sugar makes of it, what gravities say of it, and the extract it hides.

Strength is % vol at 20 °C. Published relations between gravity and strength disagree by half a
percent at wine strengths; `abv_from_gravities` shows one figure with that spread.
"""

from __future__ import annotations

from typing import Generic, NamedTuple

import numpy as np

from winebench.trade.ethanol import ETHANOL_20, OIML, sg_of_alcohol
from winebench.trade.gravity import (
    ICUMSA,
    WATER_20,
    brix_from_sg,
    sg_from_solids_g_per_l,
    solids_g_per_l_from_sg,
)
from winebench.trade.ranges import (
    NotKnown,
    Numbers,
    Spread,
    at_least,
    known,
    more_than_nothing,
    plain,
    volume,
)
from winebench.trade.rules import rule
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE

TABARIE = "Tabarié's additivity, OIV-MA-AS2-03B"
_RELATIONS = (
    "Balling 1865, as the German beer tax has it; its attenuation factor and Duncan & Acton 1967 "
    "from memory"
)
EU_SUGAR_PER_PERCENT = 16.83
_MOST_PER_SUGAR = 2 * 46.069 / 180.156 / ETHANOL_20 * 100.0
"""% vol for each g/L of simple sugar, were nothing lost to the yeast."""


@rule(
    name="potential-alcohol",
    inputs={"sugar_g_per_l": "g/L", "sugar_per_percent": "g/L"},
    unit="% vol",
    words="sugar / sugar that makes one percent (EU: 16.83; the former convention: 17.5). Simple "
    "sugar: white sugar counts 1.0526 of it",
    source="Reg. (EU) usage as in the French order of 14 Sept 2011, Annex IV",
    valid="0 to 400 g/L, 15 to 20 g/L for one percent",
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
    words="sugar gone / 16.83 g/L per % vol; the former convention of 17.5 gives 4 % less. Simple "
    "sugar: white sugar counts 1.0526 of it",
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
    return known(sugar_g_per_l, 0.0, 400.0, "a sugar content (g/L) of") * _MOST_PER_SUGAR


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

    So has the formula of the German tax: original = 100 (real + 2.0665 alcohol) / (100 + 1.0665
    alcohol), all by mass (alcohol-encyclopedia.eu, Stammwürze). The attenuation factor 0.22 +
    0.001 x original extract gives the real extract (from memory; MEBAK B-590.80.530 has 0.81 of
    what seems to be gone for what is, as this has at 12 to 15 %).
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
        gone = before - solids_g_per_l_from_sg(fg - sg_of_alcohol(abv) + 1.0)
        abv = at_least(0.0, gone) * yield_g_per_g / ETHANOL_20 * 100.0
    return abv


_TWO_INSTRUMENTS = 0.002
"""What two readings of one wine may be off together: common practice."""
_IMPOSSIBLE = (
    ". Thinner than all its sugar's alcohol in water (OIML R 22), less 0.002: one of the two "
    "readings is wrong"
)


def _fall(og: Numbers, fg: Numbers) -> tuple[Numbers, Numbers]:
    """Return two gravities that one wine can have had.

    No yeast makes more of the sugar than chemistry allows, and no wine is thinner than so much
    alcohol in water alone.

    Raises:
        NotKnown: a single pair that cannot be; in arrays its `fg` becomes nan.

    """
    og = known(og, 1.0, 1.17, "an original gravity of")
    fg = known(fg, 0.980, og, "a gravity now of")
    strongest = solids_g_per_l_from_sg(og) * HEXOSE_FROM_SUCROSE * _MOST_PER_SUGAR
    thinnest = sg_of_alcohol(strongest)
    impossible = fg < thinnest - _TWO_INSTRUMENTS
    if not isinstance(impossible, np.ndarray) and impossible:
        raise NotKnown(
            f"one of the two readings is wrong: all the sugar of {og:.3f} makes {strongest:.1f} % "
            f"vol at most, and that much alcohol in water reads {thinnest:.3f}, not {fg:.3f}."
        )
    return og, known(fg, thinnest - _TWO_INSTRUMENTS, og, "a gravity now of")


@rule(
    name="abv-from-gravities",
    inputs={"og": "SG", "fg": "SG"},
    unit="% vol",
    words="middle of three relations, which no single one is better than: Balling's balance, "
    "Duncan & Acton, 131.25 x drop; the spread spans them and mass balance with 0.46 to 0.50 g "
    "alcohol per g sugar" + _IMPOSSIBLE,
    source=_RELATIONS + "; common practice; " + TABARIE,
    valid="OG 1.000 to 1.17, FG 0.980 to OG, no thinner than its sugar can make it",
    example={"og": 1.090, "fg": 0.995},
)
def abv_from_gravities(og: Numbers, fg: Numbers) -> Spread[Numbers]:
    """Return the strength that a fall in gravity means, % vol, with its spread."""
    balling, duncan_acton, fall_x_131, lean, rich = abv_by_each_relation(og, fg)
    low, figure, high = np.sort([balling, duncan_acton, fall_x_131], axis=0)
    moved = og != fg  # no fall, no alcohol, whatever rounding says
    return Spread(
        plain(figure * moved),
        plain(np.minimum(low, lean) * moved),
        plain(np.maximum(high, rich) * moved),
    )


class Relations(NamedTuple, Generic[Numbers]):
    """What each relation makes of one fall in gravity, % vol."""

    balling: Numbers
    duncan_acton: Numbers
    fall_x_131: Numbers
    mass_balance_46: Numbers
    mass_balance_50: Numbers


@rule(
    name="abv-by-each-relation",
    inputs={"og": "SG", "fg": "SG"},
    unit="% vol",
    words="Balling's balance; Duncan & Acton: points / (7.75 - 3 (original points - 7) / 800); "
    "131.25 x fall; mass balance with 0.46 and with 0.50 g alcohol per g sugar" + _IMPOSSIBLE,
    source=_RELATIONS + "; common practice; " + TABARIE,
    valid="OG 1.000 to 1.17, FG 0.980 to OG, no thinner than its sugar can make it",
    example={"og": 1.090, "fg": 0.995},
)
def abv_by_each_relation(og: Numbers, fg: Numbers) -> Relations[Numbers]:
    """Return the strength by each of the relations that abv-from-gravities spans, % vol."""
    og, fg = _fall(og, fg)
    return Relations(
        abv_balling(og, fg),
        abv_duncan_acton(og, fg),
        abv_131(og, fg),
        abv_mass_balance(og, fg, 0.46),
        abv_mass_balance(og, fg, 0.50),
    )


@rule(
    name="potential-alcohol-scale",
    inputs={"sg": "SG"},
    unit="% vol",
    words="strength if the must falls to 1.000, as the third scale of a hydrometer counts it: "
    "three relations and their spread, as abv-from-gravities. Printed scales differ as much; a dry "
    "wine ends lower and is stronger",
    source=_RELATIONS + "; common practice",
    valid="SG 1.000 to 1.17",
    example={"sg": 1.090},
)
def potential_alcohol_on_scale(sg: Numbers) -> Spread[Numbers]:
    """Return the potential alcohol that a hydrometer's scale shows beside that gravity, % vol."""
    return abv_from_gravities(sg, sg * 0.0 + 1.0)


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
    strength = known(abv, 0.0, 25.0, "a strength (% vol) of")
    return known(sg, 0.970, 1.17, "a gravity of") - sg_of_alcohol(strength) + 1.0


@rule(
    name="dry-extract",
    inputs={"sg": "SG", "abv": "% vol"},
    unit="g/L",
    words="sucrose of the gravity that the wine has without its alcohol. Below nothing: one of "
    "the two readings is wrong",
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
    extract = known(extract_g_per_l, 0.0, 400.0, "an extract (g/L) of")
    strength = known(abv, 0.0, 25.0, "a strength (% vol) of")
    return sg_from_solids_g_per_l(extract) + sg_of_alcohol(strength) - 1.0


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
