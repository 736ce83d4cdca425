"""Amounts as typed: a mass, a volume or a count, converted to g or L when asked."""

from __future__ import annotations

from typing import ClassVar

from winebench.factors import factor
from winebench.units.names import COUNTRY_UNITS, DIMENSIONS, FIXED_UNITS, GallonCountry
from winebench.units.numbers import UnitsError
from winebench.units.parts import Part, parse
from winebench.units.typed import Typed


class Amount(Typed):
    """A quantity readable as grams, litres or a count; subclasses name what they accept."""

    __slots__ = ("parts",)
    accepts: ClassVar[tuple[str, ...]] = ("mass", "volume", "count")
    example: ClassVar[str] = "3 lb, 1.5 L or 1 packet"
    parts: tuple[Part, ...]

    def __init__(self, text: str) -> None:
        parts = parse(text)
        dimension = DIMENSIONS[parts[0].unit]
        if dimension not in self.accepts:
            raise UnitsError(
                f'"{text.strip()}" is a {dimension}; this wants one such as {self.example}.'
            )
        super().__init__(text)
        object.__setattr__(self, "parts", parts)

    @property
    def dimension(self) -> str:
        """Return "mass", "volume" or "count"."""
        return DIMENSIONS[self.parts[0].unit]

    @property
    def needs_country(self) -> bool:
        """Return whether the text has a bare gallon, quart, pint, cup or fluid ounce."""
        return any(p.unit in COUNTRY_UNITS and p.country is None for p in self.parts)

    def grams(self) -> float:
        """Return the mass in g.

        Raises:
            UnitsError: the amount is not a mass.

        """
        return self._sum("mass", "gram", None)

    def litres(self, gallon: GallonCountry | None) -> float:
        """Return the volume in L; `gallon` says whose gallon a bare one is.

        Raises:
            UnitsError: not a volume, or a bare gallon where no country is known.

        """
        return self._sum("volume", "liter", gallon)

    def count(self) -> float:
        """Return how many packets, tablets or bottles.

        Raises:
            UnitsError: the amount is not counted.

        """
        if self.dimension != "count":
            raise UnitsError(f'"{self.text.strip()}" is not a count.')
        return sum(part.number for part in self.parts)

    def _sum(self, dimension: str, to: str, gallon: GallonCountry | None) -> float:
        if self.dimension != dimension:
            raise UnitsError(f'"{self.text.strip()}" is a {self.dimension}, not a {dimension}.')
        return sum(p.number * factor(_pint_name(p, gallon, self.text), to) for p in self.parts)


def _pint_name(part: Part, gallon: GallonCountry | None, text: str) -> str:
    if part.unit in FIXED_UNITS:
        return FIXED_UNITS[part.unit]
    country = part.country or gallon
    if country is None:
        raise UnitsError(
            f'"{text.strip()}" could be US or imperial, which differ by a fifth; '
            f'say which for the project, or write "{text.strip()} US" or "{text.strip()} imperial".'
        )
    return COUNTRY_UNITS[part.unit][country == "imperial"]


class Mass(Amount):
    """A mass as typed, such as "3 lb 4 oz"."""

    __slots__ = ()
    accepts = ("mass",)
    example = "3 lb 4 oz or 1.5 kg"


class Volume(Amount):
    """A volume as typed, such as "1 gal" or "3.8 L"."""

    __slots__ = ()
    accepts = ("volume",)
    example = "1 gal or 3.8 L"


class Size(Amount):
    """How much wine to make: a volume, or a number of bottles."""

    __slots__ = ()
    accepts = ("volume", "count")
    example = "5 gal, 19 L or 24 bottles"
