"""Kitchen measures: rounded once, at the end, to what the maker measures with; the error shown."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from winebench.model.recipe import Kitchen
from winebench.units import Amount, GallonCountry

COARSE_PERCENT = 15.0
"""A spoon further off than this is too coarse for sulfite and sorbate. Common practice."""
_TEASPOONS = (1.0, 0.5, 0.25, 0.125)


class Measure(NamedTuple):
    """How to measure something, and by how much that is off, %."""

    text: str
    error_percent: float | None


def weighed(grams: float, kitchen: Kitchen) -> Measure:
    """Return a mass rounded to the kitchen scale's step; a small dose wants a finer one."""
    step = kitchen.scale_step_g if kitchen.scale_step_g > 0 else 1.0
    rounded = round(grams / step) * step
    if rounded <= 0 or (grams < 20 * step and abs(rounded / grams - 1) > 0.02):
        return Measure(f"weigh {_trim(grams, 2)} g", None)
    text = f"{rounded / 1000:.2f} kg" if rounded >= 1000 else f"{_trim(rounded, 1)} g"
    return Measure(text, _error(rounded, grams))


def in_pounds(grams: float) -> Measure:
    """Return a mass in pounds and quarter ounces (whole ounces above a pound)."""
    ounces = grams / Amount("1 oz").grams()
    step = 1.0 if ounces >= 16 else 0.25
    rounded = max(step, round(ounces / step) * step)
    pounds, rest = divmod(rounded, 16)
    parts = [f"{pounds:.0f} lb"] if pounds else []
    parts += [f"{fraction_text(rest)} oz"] if rest else []
    return Measure(" ".join(parts), _error(rounded, ounces))


def spooned(grams: float, g_per_teaspoon: float, kitchen: Kitchen, *, precise: bool) -> Measure:
    """Return level spoons of a powder; where those are too coarse, a scale or a stock solution."""
    exact = grams / g_per_teaspoon
    smallest = kitchen.smallest_teaspoon if kitchen.smallest_teaspoon > 0 else 0.125
    rounded = round(exact / smallest) * smallest
    error = _error(rounded, exact)
    if rounded <= 0 or (precise and abs(error) > COARSE_PERCENT):
        if precise and grams < 2.0:
            text = f"weigh {_trim(grams, 2)} g, or {_trim(10 * grams, 1)} mL of a 10 % stock"
            return Measure(text, None)
        return Measure(f"weigh {_trim(grams, 2)} g", None)
    return Measure(spoons_text(rounded), error)


def spoons_text(teaspoons: float) -> str:
    """Return "2 3/8 tsp", "2 tbsp + 1/2 tsp": tablespoons from two on."""
    if teaspoons < 6:
        return f"{fraction_text(teaspoons)} tsp"
    tablespoons, rest = divmod(teaspoons, 3)
    text = f"{tablespoons:.0f} tbsp"
    return f"{text} + {fraction_text(rest)} tsp" if rest > 1e-9 else text


def fraction_text(value: float) -> str:
    """Return a number in eighths the kitchen way: "2 3/8"."""
    eighths = Fraction(round(value * 8), 8)
    whole, rest = divmod(eighths, 1)
    parts = [str(whole)] if whole or not rest else []
    return " ".join(parts + ([str(rest)] if rest else []))


def tablets(count: float) -> Measure:
    """Return tablets in halves, never thirds; under half a tablet is weighed or dissolved."""
    rounded = round(count * 2) / 2
    if rounded == 0 or abs(_error(rounded, count)) > COARSE_PERCENT:
        return Measure(f"{_trim(count, 2)} tablets: crush and weigh", None)
    text = f"{fraction_text(rounded)} {'tablet' if rounded <= 1 else 'tablets'}"
    return Measure(text, _error(rounded, count))


def packets(count: float) -> Measure:
    """Return whole packets, never fewer than the must wants."""
    whole = max(1, math.ceil(count - 1e-6))
    return Measure(f"{whole} {'packet' if whole == 1 else 'packets'}", None)


def poured(litres: float, gallon: GallonCountry | None, *, metric: bool) -> Measure:
    """Return a volume in L, or in gallons and fluid ounces of the project's country."""
    if metric or gallon is None:
        rounded = round(litres * 20) / 20 if litres >= 1 else round(litres * 100) / 100
        text = f"{_trim(rounded, 2)} L" if litres >= 1 else f"{rounded * 1000:.0f} mL"
        return Measure(text, _error(rounded, litres))
    ounce = Amount("1 fl oz").litres(gallon)
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
