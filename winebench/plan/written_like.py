"""A worked-out amount in words, in the units in which the maker wrote the line."""

from __future__ import annotations

from winebench.units import Amount, GallonCountry, Part

_OUNCE_G = Amount("1 oz").grams()
_TONNE_G = 1e6


def mass_like(grams: float, like: Amount | None = None) -> str:
    """Return a mass written as `like` is: pounds and ounces, kilograms, else grams."""
    unit = like.parts[0].unit if like is not None else "g"
    if unit in ("lb", "oz"):
        return _pounds(grams / _OUNCE_G)
    if grams >= _TONNE_G:
        return f"{grams / 1000:.1f} kg"
    if unit == "kg" and grams >= 100:
        return f"{trimmed(grams / 1000, 3)} kg"
    return f"{grams:.0f} g" if grams >= 100 else f"{trimmed(grams, 2 if grams < 10 else 1)} g"


def _pounds(ounces: float) -> str:
    ounces = round(ounces, 1 if ounces >= 4 else 2)
    pounds, rest = divmod(ounces, 16)
    small = f"{trimmed(rest, 1 if ounces >= 4 else 2)} oz"
    if not pounds:
        return small
    return f"{pounds:.0f} lb {small}" if rest else f"{pounds:.0f} lb"


def volume_like(litres: float, like: Amount, gallon: GallonCountry | None) -> str:
    """Return a volume written as `like` is: gallons and fluid ounces, litres, cups, spoons."""
    part = like.parts[0]
    country = f" {part.country}" if part.country else ""
    if part.unit == "gal":
        ounce = Amount("1 fl oz").litres(part.country or gallon)
        in_one = round(Amount("1 gal").litres(part.country or gallon) / ounce)
        gallons, rest = divmod(round(litres / ounce, 1), in_one)
        pieces = [f"{gallons:.0f} gal"] if gallons else []
        pieces += [f"{trimmed(rest, 1)} fl oz"] if rest or not gallons else []
        return " ".join(pieces) + country
    count = litres / Amount(f"1 {part.unit}").litres(part.country or gallon)
    digits = 3 if part.unit == "L" and count < 10 else 0 if part.unit == "mL" and count > 100 else 2
    return f"{trimmed(count, digits)} {_plural(part, count)}{country}"


def _plural(part: Part, count: float) -> str:
    return "cups" if part.unit == "cup" and count > 1 else part.unit


def trimmed(value: float, digits: int) -> str:
    """Return the number with at most so many decimals."""
    text = f"{value + 0.0:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
