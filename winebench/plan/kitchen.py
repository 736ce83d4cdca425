"""Kitchen measures: rounded once, at the end, to what the maker measures with; the error shown."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from winebench.model.recipe import Kitchen
from winebench.plan.spoons import amount_of, combination, spoons_words
from winebench.units import Amount, GallonCountry, trimmed

COARSE_PERCENT = 15.0
"""A spoon further off than this is too coarse for sulfite and sorbate. Common practice."""
CRUDE_PERCENT = 30.0
"""A spoon further off than this is too coarse for anything. Common practice."""
_MOST_TEASPOONS = 48.0
"""A cup: more than that is weighed, not counted out."""
_SMALL_DOSE_PERCENT = 2.0
_OUNCE_G = Amount("1 oz").grams()
STOCK = "10 % stock"
_MOST_BY_STOCK_G = 10.0
"""A larger dose than 100 mL of a 10 % stock is weighed."""
_COARSE_CUP_PERCENT = 5.0
"""A cup of sugar is good to ten percent; its rounding shall not add more than half of that."""
_TEASPOON_L = Amount("1 tsp").litres(None)
_HAIR = 1e-6
"""A share of one that is arithmetic's doing."""
_FEW_OUNCES = 4.0
"""Fewer fluid ounces than this are told in spoons or mL: a whole ounce would be too coarse."""
_US_OUNCES = (("gal", 128), ("qt", 32), ("cup", 8))
_IMPERIAL_OUNCES = (("gal", 160), ("pt", 20))
"""Fluid ounces in each: NIST Handbook 44, appendix C. British kitchens pour by the pint."""
_HALF_CUP_OUNCES = 4.0
_POURED_PERCENT = 0.5
"""Water by half and quarter cups, where that is as near as a jug is read anyway."""


class Measure(NamedTuple):
    """How to measure something, and by how much that is off, %."""

    text: str
    error_percent: float | None


def weighed(grams: float, kitchen: Kitchen, *, precise: bool = False) -> Measure:
    """Return a mass rounded to the kitchen scale's step, from a kilogram on to 10 g at least.

    A dose that the scale is too coarse for is left as it is, for a finer one; what is `precise`
    (sulfite, sorbate) may go in as a stock solution.
    """
    step = kitchen.scale_step_g if kitchen.scale_step_g > 0 else 1.0
    if grams >= 1000:
        rounded = _rounded(grams, max(step, 10.0))
        return Measure(f"{trimmed(rounded / 1000, 3)} kg", _error(rounded, grams))
    rounded = _rounded(grams, step)
    if rounded <= 0 or (grams < 20 * step and abs(_error(rounded, grams)) > _SMALL_DOSE_PERCENT):
        finer = f"weigh {trimmed(grams, 2)} g on a finer scale"
        return Measure(finer + _or_stock(grams, precise=precise), None)
    return Measure(f"{trimmed(rounded, _digits(step))} g", _error(rounded, grams))


def _rounded(value: float, step: float) -> float:
    return round(value / step) * step


def _digits(step: float) -> int:
    """Return the decimals that a scale of that step shows."""
    return next((digits for digits in range(4) if abs(step - round(step, digits)) < 1e-9), 4)


def in_pounds(grams: float) -> Measure:
    """Return grams in pounds and quarter ounces (whole ounces above a pound)."""
    ounces = grams / _OUNCE_G
    step = 1.0 if ounces >= 16 else 0.25
    rounded = max(step, _rounded(ounces, step)) if ounces > 0 else 0.0
    pounds, rest = divmod(rounded, 16)
    parts = [f"{pounds:.0f} lb"] if pounds else []
    parts += [f"{fraction_text(rest)} oz"] if rest or not pounds else []
    return Measure(" ".join(parts), _error(rounded, ounces))


def spooned(grams: float, g_per_teaspoon: float, kitchen: Kitchen, *, precise: bool) -> Measure:
    """Return grams of a powder in level spoons; where those are too coarse, by scale or stock."""
    exact = grams / g_per_teaspoon
    if exact > _MOST_TEASPOONS:
        return weighed(grams, kitchen)
    measure = spoons(exact, kitchen)
    coarse = COARSE_PERCENT if precise else CRUDE_PERCENT
    if measure.error_percent is not None and abs(measure.error_percent) <= coarse:
        return measure
    return _small_dose(grams, kitchen)


def _small_dose(grams: float, kitchen: Kitchen) -> Measure:
    """Return a dose that spoons are too coarse for, by the scale where it shows so little."""
    step = kitchen.scale_step_g if kitchen.scale_step_g > 0 else 1.0
    rounded, stock = _rounded(grams, step), _or_stock(grams, precise=True)
    if abs(_error(rounded, grams)) > COARSE_PERCENT:
        return Measure(f"weigh {trimmed(grams, 2)} g on a finer scale{stock}", None)
    return Measure(f"weigh {trimmed(rounded, _digits(step))} g{stock}", _error(rounded, grams))


def _or_stock(grams: float, *, precise: bool) -> str:
    if not precise or not 0.0 < grams <= _MOST_BY_STOCK_G:
        return ""
    return f", or {trimmed(10 * grams, 0 if grams > 1.0 else 1)} mL of a {STOCK}"


def stock_recipe(g_per_teaspoon: float | None, kitchen: Kitchen) -> str:
    """Return how a 10 % stock is made: ten grams in a hundred millilitres."""
    by_spoon = f" ({spoons(10.0 / g_per_teaspoon, kitchen).text})" if g_per_teaspoon else ""
    return f"{STOCK}: 10 g{by_spoon} dissolved in water to make 100 mL; make it fresh."


def spoons(teaspoons: float, kitchen: Kitchen) -> Measure:
    """Return the level spoons of the household that come nearest, but never none of an amount.

    Where it has not named two or more of them, any multiple of the smallest will do.
    """
    owned = kitchen.spoons_owned
    if len(owned) > 1 and teaspoons > 0:
        taken = combination(teaspoons, owned)
        return Measure(spoons_words(taken), _error(amount_of(taken), teaspoons))
    smallest = owned[0] if owned else kitchen.smallest_teaspoon
    smallest = smallest if smallest > 0 else 0.125
    rounded = max(_rounded(teaspoons, smallest), smallest) if teaspoons > 0 else 0.0
    return Measure(spoons_text(rounded), _error(rounded, teaspoons))


def spoons_text(teaspoons: float) -> str:
    """Return "2 3/8 tsp", "2 tbsp + 1/2 tsp": tablespoons from two on."""
    if teaspoons < 6:
        return f"{fraction_text(teaspoons)} tsp"
    tablespoons, rest = divmod(_fraction(teaspoons), 3)
    text = f"{tablespoons} tbsp"
    return f"{text} + {fraction_text(float(rest))} tsp" if rest else text


def cups(litres: float, cup_l: float, kitchen: Kitchen) -> Measure:
    """Return a volume in cups and quarters of one, or in spoons where a quarter is too coarse."""
    exact = litres / cup_l
    rounded = _rounded(exact, 0.25)
    if exact > 0 and (rounded == 0 or abs(_error(rounded, exact)) > _COARSE_CUP_PERCENT):
        return spoons(litres / _TEASPOON_L, kitchen)
    name = "cup" if rounded <= 1 else "cups"
    return Measure(f"{fraction_text(rounded)} {name}", _error(rounded, exact))


def _fraction(value: float) -> Fraction:
    return Fraction(value).limit_denominator(32)


def fraction_text(value: float) -> str:
    """Return a number the kitchen way: "2 3/8"."""
    whole, rest = divmod(_fraction(value), 1)
    parts = [str(whole)] if whole or not rest else []
    return " ".join(parts + ([str(rest)] if rest else []))


def whole_halves(count: float) -> float:
    """Return so many tablets in whole and half ones, as they can be broken; less than it never."""
    return math.floor(2.0 * count + _HAIR) / 2.0


def tablets_used_up(count: float, tablet_g: float) -> float:
    """Return the tablets that `tablets` takes out of the tub for that many.

    A dose that halves are too coarse for takes whole ones, which are crushed.
    """
    off = tablets(count, tablet_g).error_percent
    return float(math.ceil(count - _HAIR)) if off is None else _rounded(count, 0.5)


def tablets(count: float, tablet_g: float) -> Measure:
    """Return tablets in halves, never thirds; where those are too coarse, crushed and weighed,
    or as a stock solution.
    """
    rounded = _rounded(count, 0.5)
    if count > 0 and (rounded == 0 or abs(_error(rounded, count)) > COARSE_PERCENT):
        grams = count * tablet_g
        stock = _or_stock(grams, precise=True)
        return Measure(f"crush and weigh {trimmed(grams, 2)} g{stock}", None)
    text = f"{fraction_text(rounded)} {'tablet' if rounded <= 1 else 'tablets'}"
    return Measure(text, _error(rounded, count))


def counted(count: float, unit: str) -> Measure:
    """Return whole packets (or bottles, tablets), never fewer than wanted."""
    whole = max(1, math.ceil(count - _HAIR))
    return Measure(f"{whole} {unit if whole == 1 else unit + 's'}", None)


def poured(litres: float, gallon: GallonCountry | None, *, metric: bool) -> Measure:
    """Return a volume in L, or in what a kitchen of the project's country has jugs and cups for."""
    ounce = Amount("1 fl oz").litres(gallon) if gallon else 0.0
    if metric or gallon is None or is_little(litres, gallon):
        step = 0.05 if litres >= 1 else 0.01 if litres >= 0.1 else 0.001
        rounded = _rounded(litres, step)
        if rounded <= 0 < litres:  # "0 mL" would tell to leave it out
            return Measure("too little to pour", None)
        text = f"{trimmed(rounded, 2)} L" if rounded >= 1 else f"{rounded * 1000:.0f} mL"
        return Measure(text, _error(rounded, litres))
    exact = litres / ounce
    steps = (_HALF_CUP_OUNCES, _HALF_CUP_OUNCES / 2.0) if gallon == "US" else ()
    near = (_rounded(exact, step) for step in steps)
    ounces = next((one for one in near if abs(_error(one, exact)) <= _POURED_PERCENT), round(exact))
    return Measure(in_gallons(ounces, gallon), _error(ounces * ounce, litres))


def is_little(litres: float, gallon: GallonCountry | None) -> bool:
    """Return whether so much of a liquid is too little for a jug marked in fluid ounces."""
    return gallon is not None and litres < _FEW_OUNCES * Amount("1 fl oz").litres(gallon)


def in_gallons(ounces: float, country: GallonCountry) -> str:
    """Return fluid ounces as "1 gal 2 qt 2 1/2 cups", "1 qt 3 fl oz"; imperial in pints."""
    pieces = []
    sizes = _US_OUNCES if country == "US" else _IMPERIAL_OUNCES
    for unit, size in sizes:
        if unit == "cup" and ounces % (size / 4.0) == 0:
            count, ounces = ounces / size, 0.0
        else:
            count, ounces = divmod(ounces, size)
        plural = "s" if unit == "cup" and count > 1 else ""
        pieces += [f"{fraction_text(count)} {unit}{plural}"] if count else []
    pieces += [f"{trimmed(ounces, 1)} fl oz"] if ounces or not pieces else []
    return " ".join(pieces)


def _error(rounded: float, exact: float) -> float:
    return (rounded / exact - 1.0) * 100.0 if exact else 0.0
