"""Finings of protein and silica: the published range of doses, by volume.

A dose is found by a trial in glasses (`trial-to-vessel`), from the low end up: too much stays in
the wine and clouds it. Egg, milk and fish are allergens; whoever drinks the wine should be told.
"""

from __future__ import annotations

from winebench.trade.ranges import Numbers, Spread, volume
from winebench.trade.rules import rule

ADDITIVES = "Natural Food Additives, Ingredients and Flavourings (Woodhead, 2012), table 16.18"
MARCHAL = "Marchal & Jeandet in Wine Chemistry and Biochemistry (2009), p. 146"
_TRIAL = "; by a trial in 100 mL glasses first, and racked off after one to two weeks"


def _dose(litres: Numbers, low: float, figure: float, high: float, per_l: float) -> Spread[Numbers]:
    into = volume(litres) / per_l
    return Spread(into * figure, into * low, into * high)


@rule(
    name="gelatine",
    inputs={"litres": "L"},
    unit="g",
    words="5 g in 100 L, 1.5 to 15, softens tannin and clears with it. A white wine lacks the "
    "tannin: give silica sol or tannin a day before. Of pork, beef or fish: not for every table"
    + _TRIAL,
    source=ADDITIVES + " for the range; order of use common practice",
    valid="0 to 100 000 L",
    example={"litres": 19.0},
)
def gelatine_g(litres: Numbers) -> Spread[Numbers]:
    """Return gelatine for clearing, g, with its published range."""
    return _dose(litres, 1.5, 5.0, 15.0, 100.0)


@rule(
    name="silica-sol",
    inputs={"litres": "L"},
    unit="mL of 30 % sol",
    words="25 mL in 100 L, 13 to 50; with gelatine or isinglass a day after it, never alone. No "
    "allergen" + _TRIAL,
    source="common practice; the label decides",
    valid="0 to 100 000 L",
    example={"litres": 19.0},
)
def silica_sol_ml(litres: Numbers) -> Spread[Numbers]:
    """Return silica sol (kieselsol) for clearing, mL, with its usual range."""
    return _dose(litres, 13.0, 25.0, 50.0, 100.0)


@rule(
    name="egg-white",
    inputs={"litres": "L"},
    unit="egg whites",
    words="5 whites in 225 L, 3 to 8, whisked in a little salted water; for red wine with harsh "
    "tannin. Allergen: egg; the EU wants it on the label of wine on sale where it can be found"
    + _TRIAL,
    source=ADDITIVES + " for the range; label: Reg (EU) 1169/2011 Annex II",
    valid="0 to 100 000 L",
    example={"litres": 19.0},
)
def egg_whites(litres: Numbers) -> Spread[Numbers]:
    """Return egg whites for softening a red wine, with their published range."""
    return _dose(litres, 3.0, 5.0, 8.0, 225.0)


@rule(
    name="isinglass",
    inputs={"litres": "L"},
    unit="g",
    words="2 g in 100 L, 1 to 3, below 15 °C; for white wine, last of all finings. Allergen: fish, "
    "though the EU asks for no label" + _TRIAL,
    source=f"{MARCHAL}; {ADDITIVES}: 1 to 2.5; label: Reg (EU) 1169/2011 Annex II",
    valid="0 to 100 000 L",
    example={"litres": 19.0},
)
def isinglass_g(litres: Numbers) -> Spread[Numbers]:
    """Return dry isinglass for clearing a white wine, g, with its published range."""
    return _dose(litres, 1.0, 2.0, 3.0, 100.0)


@rule(
    name="casein",
    inputs={"litres": "L"},
    unit="g",
    words="15 g of potassium caseinate in 100 L, 10 to 30; takes browning from white wine, and "
    "sets at once: stir hard. Allergen: milk; the EU wants it on the label of wine on sale where "
    "it can be found" + _TRIAL,
    source=f"{MARCHAL}; {ADDITIVES}: 10 to 25; label: Reg (EU) 1169/2011 Annex II",
    valid="0 to 100 000 L",
    example={"litres": 19.0},
)
def caseinate_g(litres: Numbers) -> Spread[Numbers]:
    """Return potassium caseinate for a browned white wine, g, with its published range."""
    return _dose(litres, 10.0, 15.0, 30.0, 100.0)
