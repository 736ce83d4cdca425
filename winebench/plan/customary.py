"""Volumes, weights and temperatures in the words of a household that thinks in gallons.

What is worked out is told in litres, kilograms and °C. A household whose batch is in gallons reads
gallons, quarts and fluid ounces first, the litres in brackets behind them; pounds likewise; and
temperatures in the scale in which its room is written. What a laboratory tells (g/L, mg/L) stays.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

import msgspec

from winebench.model.project import Project
from winebench.model.recipe import FruitLine, SugarLine
from winebench.plan.kitchen import in_pounds
from winebench.plan.outlook import Figure
from winebench.units import Amount, GallonCountry, Size, Volume, trimmed

IN_GALLONS = ("gal", "qt", "pt", "cup", "fl oz")
_OUNCE_G = Amount("1 oz").grams()
_FEW_OUNCES = 4.0
"""Fewer fluid ounces than these, of an ingredient, are told to the tenth."""
FROM_GRAMS = 28.0
"""Less than about an ounce is told in grams: a dose, by spoon or by scale."""


class Household(NamedTuple):
    """How a household tells quantities."""

    gallon: GallonCountry | None
    """Whose gallons it thinks in; None: litres."""
    pounds: bool
    """Whether it weighs in pounds and ounces."""
    fahrenheit: bool
    own_words: tuple[str, ...] = ()
    """Names with a number in them that a person gave: never told in other words."""


METRIC = Household(None, pounds=False, fahrenheit=False)


def household(project: Project) -> Household:
    """Return how the project's household tells quantities: by its size, its weights, its room."""
    gallon = gallons_of(project)
    pounds, fahrenheit = bool(gallon) and _weighs_in_pounds(project), project.room.fahrenheit
    if gallon is None and not fahrenheit:
        return METRIC
    return Household(gallon, pounds, fahrenheit, _own_words(project))


def _own_words(project: Project) -> tuple[str, ...]:
    """Return the vessels' names that tell a size, like "20 L bucket", the longest first."""
    vessels = (vessel.name.strip() for vessel in project.make.vessels)
    names = {name for name in vessels if any(map(str.isdigit, name))}
    return tuple(sorted(names, key=lambda name: (-len(name), name)))


def _weighs_in_pounds(project: Project) -> bool:
    """Return whether a fruit or sugar is written in pounds, or none in kilograms."""
    lines = [line for line in project.recipe.lines if isinstance(line, FruitLine | SugarLine)]
    units = {line.amount.parts[0].unit for line in lines}
    return bool(units & {"lb", "oz"}) or not units & {"kg", "g"}


def gallons_of(project: Project) -> GallonCountry | None:
    """Return whose gallons the batch is told in: of its size, else of the recipe's own volume."""
    size = project.make.size
    return _gallons_in(size if size.dimension == "volume" else project.recipe.basis, project)


def _gallons_in(amount: Amount, project: Project) -> GallonCountry | None:
    part = amount.parts[0]
    return part.country or project.gallon if part.unit in IN_GALLONS else None


def volume_text(litres: float, gallon: GallonCountry | None, *, both: bool = True) -> str:
    """Return a volume for people: "11.7 L", in gallons "3.1 gal (11.7 L)", "1.2 qt (1.1 L)"."""
    return _volume(litres, gallon, f"{litres:.1f} L", both=both)


def _volume(litres: float, gallon: GallonCountry | None, told: str, *, both: bool) -> str:
    words = _gallons(litres, gallon) if gallon else ""
    if not words:
        return told
    return f"{words} ({told})" if both else words


def _gallons(litres: float, gallon: GallonCountry, digits: int = 1) -> str:
    """Return the volume in the largest unit of which there is one; nothing for a mere drop."""
    if round(litres / _unit_l("gal", gallon), 1) >= 1.0:
        return f"{trimmed(litres / _unit_l('gal', gallon), digits)} gal"
    if round(litres / _unit_l("qt", gallon), 1) >= 1.0:
        return f"{trimmed(litres / _unit_l('qt', gallon), digits)} qt"
    ounces = litres / _unit_l("fl oz", gallon)
    if round(ounces) < 1:
        return ""
    return f"{trimmed(ounces, digits - 1 if ounces < _FEW_OUNCES else 0)} fl oz"


@lru_cache(maxsize=16)
def _unit_l(unit: str, gallon: GallonCountry) -> float:
    return Amount(f"1 {unit}").litres(gallon)


def size_of(litres: float, project: Project, like: Volume | None = None) -> Size:
    """Return a size to make, rounded down, so that it fits: in gallons or litres as `like` is."""
    gallon = _gallons_in(like, project) if like else gallons_of(project)
    digits = 3 if gallon else 2
    count = litres / _unit_l("gal", gallon) if gallon else litres
    named = "" if gallon == project.gallon else f" {gallon}"
    unit = f"gal{named}" if gallon else "L"
    share = 10.0**digits
    return Size(f"{trimmed(math.floor(count * share + 1e-6) / share, digits)} {unit}")


def weight_text(grams: float, told: str) -> str:
    """Return grams in pounds and ounces, with `told`, as exact as it is, behind them."""
    ounces = grams / _OUNCE_G
    if ounces >= 16.0 * 10.0 and "." not in told:
        return f"{ounces / 16.0:.0f} lb ({told})"
    return f"{in_pounds(grams).text} ({told})"


def volume_range_text(
    ends: tuple[float, float], gallon: GallonCountry, lead: str = "", joint: str = "–"
) -> str:
    """Return litres from one to another in one unit: "1.3–2.6 gal", as `lead` and `joint` say."""
    unit = next((u for u in ("gal", "qt") if round(ends[1] / _unit_l(u, gallon), 1) >= 1), "fl oz")
    low, high = (end / _unit_l(unit, gallon) for end in ends)
    return f"{lead}{_end(low)}{joint}{_end(high)} {unit}"


def mass_range_text(ends: tuple[float, float], lead: str = "", joint: str = "–") -> str:
    """Return grams from one to another in one unit: "2.2–4.4 lb", "3.2–6.3 oz"."""
    unit, share = ("lb", _OUNCE_G * 16.0) if ends[1] >= _OUNCE_G * 16.0 else ("oz", _OUNCE_G)
    return f"{lead}{_end(ends[0] / share)}{joint}{_end(ends[1] / share)} {unit}"


def _end(value: float) -> str:
    return trimmed(value, 1 if value >= 1.0 else 2)


def unit_words(unit: str, how: Household) -> str:
    """Return what stands in an empty field: its unit; a bare number is °C, so °F is written out."""
    return "such as 68 °F" if unit == "°C" and how.fahrenheit else unit


def figure_of(made: Figure, how: Household, digits: int = 1) -> Figure:
    """Return a figure of litres or kilograms as gallons or pounds are told; others as they are."""
    if made.value is None:
        return made
    if made.unit == "L":
        words = _gallons(made.value, how.gallon, digits) if how.gallon else ""
    elif not how.pounds:
        return made
    elif made.text_unit == "kg" or (made.unit == "g" and made.value >= 16.0 * _OUNCE_G):
        pounds = made.value / (_OUNCE_G * 16.0) * (1.0 if made.unit == "g" else 1000.0)
        words = f"{trimmed(pounds, digits if pounds < 20.0 else digits - 1)} lb"
    elif made.unit == "g" and made.value >= FROM_GRAMS:
        words = f"{trimmed(made.value / _OUNCE_G, 1)} oz"
    else:
        return made
    if not words:
        return made
    text, _, unit = words.partition(" ")
    return msgspec.structs.replace(made, text=text, shown_in=unit)
