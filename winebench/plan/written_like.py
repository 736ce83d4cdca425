"""A worked-out amount in words, in the units in which the maker wrote the line."""

from __future__ import annotations

from collections.abc import Sequence

from winebench.model.recipe import Kitchen
from winebench.plan.kitchen import cups, fraction_text, in_gallons, spoons, spoons_text
from winebench.units import Amount, GallonCountry, Part, trimmed

_TEASPOON_L = Amount("1 tsp").litres(None)
_OUNCE_G = Amount("1 oz").grams()
_TONNE_G = 1e6
BY_JUG = ("gal", "qt", "pt", "cup", "fl oz")
"""Units of a country that liquids are poured in."""
IN_SPOONS = ("tsp", "tbsp", "cup")
"""Units that something dry is measured in."""
_GALLON_OUNCES = 128.0
_WHOLE_ML = 20.0
"""From here on no jug and no syringe of a kitchen shows the tenths of a millilitre."""
_NEAR = 0.002
"""A rounder amount that is no further off than this share is what a kitchen can measure."""


def mass_like(grams: float, like: Amount | None = None) -> str:
    """Return a mass written as `like` is: pounds and ounces, kilograms, else grams."""
    unit = like.parts[0].unit if like is not None else "g"
    if unit in ("lb", "oz"):
        return _pounds(grams / _OUNCE_G)
    if grams >= _TONNE_G:
        return f"{grams / 1000:.1f} kg"
    if grams >= 1000 or (unit == "kg" and grams >= 100):
        return f"{trimmed(grams / 1000, 2 if grams >= 1000 else 3)} kg"
    return f"{grams:.0f} g" if grams >= 100 else f"{trimmed(grams, 2 if grams < 10 else 1)} g"


def _pounds(ounces: float) -> str:
    ounces = _rounder(ounces, round(ounces, 1 if ounces >= 4 else 2), (1.0, 0.5, 0.25))
    pounds, rest = divmod(ounces, 16)
    quarters = rest * 4.0 == round(rest * 4.0)
    small = f"{fraction_text(rest) if quarters else trimmed(rest, 1 if ounces >= 4 else 2)} oz"
    if not pounds:
        return small
    return f"{pounds:.0f} lb {small}" if rest else f"{pounds:.0f} lb"


def _ounces(exact: float) -> float:
    """Return fluid ounces as a jug shows them: of a gallon and more to the half."""
    finest = 0.5 if exact >= _GALLON_OUNCES else 0.1
    return _rounder(exact, round(round(exact / finest) * finest, 1), (4.0, 2.0, 1.0))


def _rounder(exact: float, else_: float, steps: Sequence[float]) -> float:
    """Return the amount by the coarsest of those steps that is near enough."""
    near = (round(exact / step) * step for step in steps)
    return next((one for one in near if abs(one - exact) <= _NEAR * exact), else_)


def volume_like(litres: float, like: Amount, gallon: GallonCountry | None) -> str:
    """Return a volume of a liquid written as `like` is: in gallons to fluid ounces, or litres."""
    part = like.parts[0]
    country = f" {part.country}" if part.country else ""
    whose = part.country or gallon
    if part.unit in BY_JUG and whose is not None:
        return in_gallons(_ounces(litres / Amount("1 fl oz").litres(whose)), whose) + country
    count = litres / Amount(f"1 {part.unit}").litres(part.country or gallon)
    return f"{trimmed(count, _digits(part.unit, count))} {_plural(part, count)}{country}"


def size_like(litres: float, like: Amount, gallon: GallonCountry | None) -> str:
    """Return how much a recipe makes as a short field shows it: "1.436 gal US", "6.25 L"."""
    part = like.parts[0]
    if part.unit not in BY_JUG:
        return volume_like(litres, like, gallon)
    country = f" {part.country}" if part.country else ""
    count = litres / Amount("1 gal").litres(part.country or gallon)
    return f"{trimmed(count, 3)} gal{country}"


def _digits(unit: str, count: float) -> int:
    """Return the decimals that a kitchen can measure of so many of the unit."""
    if unit == "mL":
        return 0 if count >= _WHOLE_ML else 1
    return 3 if unit == "L" and count < 1.0 else 2


def _plural(part: Part, count: float) -> str:
    return "cups" if part.unit == "cup" and count > 1 else part.unit


def by_spoon(litres: float, like: Amount, gallon: GallonCountry | None, kitchen: Kitchen) -> str:
    """Return something dry as `like` is: in cups and quarters of one, or the spoons there are."""
    part = like.parts[0]
    if part.unit == "cup" and litres > 0.0:
        cup_l = Amount("1 cup").litres(part.country or gallon)
        measure = cups(litres, cup_l, kitchen)
        country = f" {part.country}" if part.country and "cup" in measure.text else ""
        return measure.text + country
    exact = litres / _TEASPOON_L
    off = spoons(exact, kitchen).error_percent or 0.0
    return spoons_text(exact * (1.0 + off / 100.0))
