"""Fining and additions by volume: pectic enzyme, tannin, bentonite. All common practice."""

from __future__ import annotations

from winebench.trade.choices import said_yes
from winebench.trade.ranges import Numbers, Spread, known, volume
from winebench.trade.rules import rule

US_GALLON_L = 3.785411784


@rule(
    name="pectic-enzyme",
    inputs={"litres": "L", "double": "word"},
    unit="tsp",
    words="half a teaspoon a US gallon; 'yes' doubles it for plum, apricot, apple pulp or cooked "
    "fruit. The must below 35 °C",
    source="common practice; the packet decides",
    valid="0 to 1000 L",
    example={"litres": 19.0, "double": "no"},
)
def pectic_enzyme_tsp(litres: Numbers, double: str = "no") -> Numbers:
    """Return level teaspoons of dry pectic enzyme."""
    per_gallon = 1.0 if said_yes(double, "double") else 0.5
    return known(litres, 0.0, 1000.0, "a volume (L) of") / US_GALLON_L * per_gallon


@rule(
    name="tannin",
    inputs={"litres": "L"},
    unit="tsp",
    words="a quarter of a teaspoon a US gallon, none to half a one: none where the fruit brings "
    "its own (elderberry, blackberry, grape skins). Half a day after pectic enzyme, which it binds",
    source="common practice; the packet decides",
    valid="0 to 1000 L",
    example={"litres": 19.0},
)
def tannin_tsp(litres: Numbers) -> Spread[Numbers]:
    """Return level teaspoons of grape tannin for body and clearing, with the usual range."""
    gallons = known(litres, 0.0, 1000.0, "a volume (L) of") / US_GALLON_L
    return Spread(gallons * 0.25, gallons * 0.0, gallons * 0.5)


@rule(
    name="bentonite",
    inputs={"litres": "L", "g_per_l": "g/L"},
    unit="g",
    words="litres x dose; 0.3 to 1 g/L, by a bench trial in 100 mL glasses first. Takes protein, "
    "comes before all other finings, no allergen",
    source="common practice",
    valid="0.1 to 1.5 g/L, volumes to 100 000 L",
    example={"litres": 19.0, "g_per_l": 0.5},
)
def bentonite_g(litres: Numbers, g_per_l: Numbers) -> Numbers:
    """Return bentonite for clearing, g."""
    return known(g_per_l, 0.1, 1.5, "a bentonite dose (g/L) of") * volume(litres)


@rule(
    name="trial-to-vessel",
    inputs={"trial_ml": "mL", "stock_ml": "mL", "litres": "L"},
    unit="mL",
    words="mL of stock that pleased in the glass x vessel / glass",
    source="definition",
    valid="glasses of 10 to 1000 mL, volumes to 100 000 L",
    example={"trial_ml": 100.0, "stock_ml": 1.5, "litres": 19.0},
)
def vessel_stock_ml(trial_ml: Numbers, stock_ml: Numbers, litres: Numbers) -> Numbers:
    """Return the stock solution for the vessel after a bench trial, mL."""
    glass = known(trial_ml, 10.0, 1000.0, "a trial glass (mL) of")
    stock = known(stock_ml, 0.0, glass, "a stock volume (mL) of")
    return stock * (volume(litres) * 1000.0 / glass)
