"""Kitchen measures: rounded once, at the end, to what the maker measures with; the error shown."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from winebench.model.recipe import Kitchen
from winebench.units import Amount, GallonCountry

COARSE_PERCENT = 15.0
"""A spoon further off than this is too coarse for sulfite and sorbate. Common practice."""
CRUDE_PERCENT = 30.0
"""A spoon further off than this is too coarse for anything. Common practice."""
_MOST_TEASPOONS = 48.0
"""A cup: more than that is weighed, not counted out."""
_SMALL_DOSE_PERCENT = 2.0
_OUNCE_G = Amount("1 oz").grams()
_FEW_OUNCES = 4.0
"""Fewer fluid ounces than this are told in mL: a whole ounce would be too coarse."""


class Measure(NamedTuple):
    """How to measure something, and by how much that is off, %."""

    text: str
    error_percent: float | None


def weighed(grams: float, kitchen: Kitchen) -> Measure:
    """Return a mass rounded to the kitchen scale's step, from a kilogram on to 10 g at least.

    A dose that the scale is too coarse for is left as it is, for a finer one.
    """
    step = kitchen.scale_step_g if kitchen.scale_step_g > 0 else 1.0
    if grams >= 1000:
        rounded = _rounded(grams, max(step, 10.0))
        return Measure(f"{_trim(rounded / 1000, 3)} kg", _error(rounded, grams))
    rounded = _rounded(grams, step)
    if rounded <= 0 or (grams < 20 * step and abs(_error(rounded, grams)) > _SMALL_DOSE_PERCENT):
        return Measure(f"weigh {_trim(grams, 2)} g on a finer scale", None)
    return Measure(f"{_trim(rounded, _digits(step))} g", _error(rounded, grams))


def _rounded(value: float, step: float) -> float:
    return round(value / step) * step


def _digits(step: float) -> int:
    """Return the decimals that a scale of that step shows."""
    return next((digits for digits in range(4) if abs(step - round(step, digits)) < 1e-9), 4)


def in_pounds(grams: float) -> Measure:
    """Return a mass in pounds and quarter ounces (whole ounces above a pound)."""
    ounces = grams / _OUNCE_G
    step = 1.0 if ounces >= 16 else 0.25
    rounded = max(step, _rounded(ounces, step)) if ounces > 0 else 0.0
    pounds, rest = divmod(rounded, 16)
    parts = [f"{pounds:.0f} lb"] if pounds else []
    parts += [f"{fraction_text(rest)} oz"] if rest or not pounds else []
    return Measure(" ".join(parts), _error(rounded, ounces))


def spooned(grams: float, g_per_teaspoon: float, kitchen: Kitchen, *, precise: bool) -> Measure:
    """Return level spoons of a powder; where those are too coarse, a scale or a stock solution."""
    exact = grams / g_per_teaspoon
    if exact > _MOST_TEASPOONS:
        return weighed(grams, kitchen)
    measure = spoons(exact, kitchen)
    coarse = COARSE_PERCENT if precise else CRUDE_PERCENT
    if measure.error_percent is not None and abs(measure.error_percent) <= coarse:
        return measure
    if precise and 0 < grams < 2.0:
        stock = f"{_trim(10 * grams, 1)} mL of a 10 % stock"
        return Measure(f"weigh {_trim(grams, 2)} g, or {stock}", None)
    return Measure(f"weigh {_trim(grams, 2)} g", None)


def spoons(teaspoons: float, kitchen: Kitchen) -> Measure:
    """Return level spoons, rounded to the smallest spoon owned but never to none."""
    smallest = kitchen.smallest_teaspoon if kitchen.smallest_teaspoon > 0 else 0.125
    rounded = max(_rounded(teaspoons, smallest), smallest) if teaspoons > 0 else 0.0
    return Measure(spoons_text(rounded), _error(rounded, teaspoons))


def spoons_text(teaspoons: float) -> str:
    """Return "2 3/8 tsp", "2 tbsp + 1/2 tsp": tablespoons from two on."""
    if teaspoons < 6:
        return f"{fraction_text(teaspoons)} tsp"
    tablespoons, rest = divmod(_fraction(teaspoons), 3)
    text = f"{tablespoons} tbsp"
    return f"{text} + {fraction_text(float(rest))} tsp" if rest else text


def cups(litres: float, cup_l: float) -> Measure:
    """Return a volume in cups and quarters of one."""
    exact = litres / cup_l
    rounded = max(_rounded(exact, 0.25), 0.25) if exact > 0 else 0.0
    name = "cup" if rounded <= 1 else "cups"
    return Measure(f"{fraction_text(rounded)} {name}", _error(rounded, exact))


def _fraction(value: float) -> Fraction:
    return Fraction(value).limit_denominator(32)


def fraction_text(value: float) -> str:
    """Return a number the kitchen way: "2 3/8"."""
    whole, rest = divmod(_fraction(value), 1)
    parts = [str(whole)] if whole or not rest else []
    return " ".join(parts + ([str(rest)] if rest else []))


def tablets(count: float, tablet_g: float) -> Measure:
    """Return tablets in halves, never thirds; where those are too coarse, crushed and weighed."""
    rounded = _rounded(count, 0.5)
    if count > 0 and (rounded == 0 or abs(_error(rounded, count)) > COARSE_PERCENT):
        return Measure(f"crush and weigh {_trim(count * tablet_g, 2)} g", None)
    text = f"{fraction_text(rounded)} {'tablet' if rounded <= 1 else 'tablets'}"
    return Measure(text, _error(rounded, count))


def counted(count: float, unit: str) -> Measure:
    """Return whole packets (or bottles, tablets), never fewer than wanted."""
    whole = max(1, math.ceil(count - 1e-6))
    return Measure(f"{whole} {unit if whole == 1 else unit + 's'}", None)


def poured(litres: float, gallon: GallonCountry | None, *, metric: bool) -> Measure:
    """Return a volume in L, or in gallons and fluid ounces of the project's country."""
    ounce = Amount("1 fl oz").litres(gallon) if gallon else 0.0
    if metric or gallon is None or litres < _FEW_OUNCES * ounce:
        step = 0.05 if litres >= 1 else 0.01 if litres >= 0.1 else 0.001
        rounded = _rounded(litres, step)
        if rounded <= 0 < litres:  # "0 mL" would tell to leave it out
            return Measure("too little to pour", None)
        text = f"{_trim(rounded, 2)} L" if rounded >= 1 else f"{rounded * 1000:.0f} mL"
        return Measure(text, _error(rounded, litres))
    ounces_a_gallon = round(Amount("1 gal").litres(gallon) / ounce)
    ounces = round(litres / ounce)
    gallons, rest = divmod(ounces, ounces_a_gallon)
    parts = [f"{gallons} gal"] if gallons else []
    parts += [f"{rest} fl oz"] if rest or not gallons else []
    return Measure(" ".join(parts), _error(ounces * ounce, litres))


def _error(rounded: float, exact: float) -> float:
    return (rounded / exact - 1.0) * 100.0 if exact else 0.0


def _trim(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
