"""Kitchen quantities: read them as written, keep them as typed, convert them once.

pint's own expression parser is never given typed text (it reads "1 1/2 tsp" as half a
spoon and can hang on "9**9**9 kg"): a small grammar splits the number from the unit, a
closed table names the unit, and only then does pint convert.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import ClassVar, Literal, NamedTuple, Self

from winebench.factors import factor

GallonCountry = Literal["US", "imperial"]

# Spellings a cook would write. A bare gallon (pint, cup, fluid ounce, spoon) belongs to the
# project's country; the value is then (US unit, imperial unit). Imperial spoons are the
# metric ones sold beside them.
_COUNTRY_UNITS: dict[str, tuple[str, str]] = {
    "gal": ("gallon", "imperial_gallon"),
    "qt": ("quart", "imperial_quart"),
    "pt": ("pint", "imperial_pint"),
    "cup": ("cup", "imperial_cup"),
    "fl oz": ("fluid_ounce", "imperial_fluid_ounce"),
}
_FIXED_UNITS: dict[str, str] = {
    "L": "liter",
    "dL": "deciliter",
    "cL": "centiliter",
    "mL": "milliliter",
    "kg": "kilogram",
    "g": "gram",
    "mg": "milligram",
    "lb": "pound",
    "oz": "ounce",
    "tsp": "teaspoon",
    "tbsp": "tablespoon",
}
SPELLINGS: dict[str, str] = {
    "gal": "gal", "gals": "gal", "gallon": "gal", "gallons": "gal",
    "qt": "qt", "qts": "qt", "quart": "qt", "quarts": "qt",
    "pt": "pt", "pts": "pt", "pint": "pt", "pints": "pt",
    "cup": "cup", "cups": "cup",
    "fl oz": "fl oz", "floz": "fl oz", "fl. oz": "fl oz", "fl.oz": "fl oz",
    "fluid ounce": "fl oz", "fluid ounces": "fl oz",
    "l": "L", "liter": "L", "liters": "L", "litre": "L", "litres": "L",
    "dl": "dL", "cl": "cL", "ml": "mL", "milliliter": "mL", "milliliters": "mL",
    "millilitre": "mL", "millilitres": "mL",
    "kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "kilogramme": "kg", "kilogrammes": "kg",
    "g": "g", "gm": "g", "gram": "g", "grams": "g", "gramme": "g", "grammes": "g",
    "mg": "mg", "milligram": "mg", "milligrams": "mg",
    "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb",
    "oz": "oz", "ounce": "oz", "ounces": "oz",
    "tsp": "tsp", "tsps": "tsp", "teaspoon": "tsp", "teaspoons": "tsp",
    "tbsp": "tbsp", "tbsps": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
    "packet": "packet", "packets": "packet", "sachet": "packet", "sachets": "packet",
    "pkt": "packet", "pkts": "packet", "pkg": "packet", "pkgs": "packet",
    "envelope": "packet", "envelopes": "packet",
    "tablet": "tablet", "tablets": "tablet", "tab": "tablet", "tabs": "tablet",
    "bottle": "bottle", "bottles": "bottle",
    "cork": "cork", "corks": "cork", "piece": "piece", "pieces": "piece",
}  # fmt: skip
LOWEST_SG, HIGHEST_SG = 0.970, 1.200
"""No wine is thinner, no must that yeast could start in thicker (common practice)."""
_COUNTED = ("packet", "tablet", "bottle", "cork", "piece")
_DIMENSION = (
    dict.fromkeys((*_COUNTRY_UNITS, "L", "dL", "cL", "mL", "tsp", "tbsp"), "volume")
    | dict.fromkeys(("kg", "g", "mg", "lb", "oz"), "mass")
    | dict.fromkeys(_COUNTED, "count")
)
_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅙": "1/6",
    "⅚": "5/6",
}  # fmt: skip
_COUNTRY_WORDS: dict[str, GallonCountry] = {
    "us": "US", "u.s": "US", "usa": "US", "american": "US",
    "imp": "imperial", "imperial": "imperial", "uk": "imperial", "british": "imperial",
}  # fmt: skip
# "1-1/2" is how many recipes print 1 1/2.
NUMBER = r"\d{1,7}(?:\s+|-)\d{1,4}\s*/\s*\d{1,4}|\d{1,4}\s*/\s*\d{1,4}|\d{0,7}[.,]\d{1,6}|\d{1,7}"
# A point followed by a digit starts the next number: "3 lb .5 oz".
_PART = re.compile(
    rf"(?P<number>{NUMBER})\s*(?P<words>(?:[^\d+.,]|[.,](?!\d))*)(?:\+\s*(?=[\d.]))?", re.ASCII
)


class UnitsError(ValueError):
    """A quantity that cannot be read or converted; the message is for the person."""


def parse_number(text: str) -> float:
    """Return the number written as "3", "2,5", "2.5", "3/4", "1 1/2" or "1½".

    One comma or point is always the decimal sign: a kitchen writes no thousands.

    Raises:
        UnitsError: the text is not one such number.

    """
    plain = plain_text(text)
    if not re.fullmatch(NUMBER, plain, re.ASCII):
        raise UnitsError(f'"{text.strip()}" is not a number; write 3, 2.5, 2,5, 3/4 or 1 1/2.')
    whole = Fraction(0)
    for piece in re.sub(r"\s*/\s*", "/", plain.replace(",", ".").replace("-", " ")).split():
        if re.search(r"/0+$", piece):
            raise UnitsError(f'"{text.strip()}" divides by nothing.')
        whole += Fraction(piece)
    return float(whole)


def plain_text(text: str) -> str:
    """Return the text with ½ as 1/2 and with single plain spaces."""
    for sign, written in _VULGAR.items():
        text = text.replace(sign, f" {written} ")
    return " ".join(text.replace("⁄", "/").replace("\u00a0", " ").split())


class Part(NamedTuple):
    """One number with its unit, as in the "4 oz" of "3 lb 4 oz"."""

    number: float
    unit: str
    country: GallonCountry | None


@lru_cache(maxsize=4096)
def _parse(text: str) -> tuple[Part, ...]:
    plain = plain_text(text)
    if not plain:
        raise UnitsError("Nothing is written here; write an amount such as 3 lb or 1.5 L.")
    if re.search(r"\([^)]*\d", plain):  # "3 lb (1.4 kg)" is not the sum of both
        raise UnitsError(f'"{text.strip()}" gives an amount twice; write one of them.')
    parts: list[Part] = []
    position = 0
    while position < len(plain):
        found = _PART.match(plain, position)
        if found is None or (parts and plain[position] == ","):  # "3 lb ,5 oz": 5 or 0.5?
            raise UnitsError(f'"{text.strip()}" is not an amount; write one such as 3/4 lb.')
        parts.append(_part(found, text))
        position = found.end()
    if len({_DIMENSION[part.unit] for part in parts}) > 1:
        raise UnitsError(f'"{text.strip()}" adds weight to volume; write one or the other.')
    if len({part.unit for part in parts if part.unit in _COUNTED}) > 1:
        raise UnitsError(f'"{text.strip()}" counts two kinds of thing; write one of them.')
    return _with_country(tuple(parts))


def _part(found: re.Match[str], text: str) -> Part:
    written = found["words"].lower().replace("(", " ").replace(")", " ")
    more = found.end() < len(found.string)
    words = (re.sub(r"(?:\band|&)\s*$", "", written) if more else written).split()
    countries = {_COUNTRY_WORDS[w] for w in map(_undotted, words) if w in _COUNTRY_WORDS}
    name = _undotted(" ".join(w for w in words if _undotted(w) not in _COUNTRY_WORDS))
    unit = SPELLINGS.get(name)
    if not name and more:
        raise UnitsError(f'"{text.strip()}" is not an amount; write one such as 3/4 lb.')
    if not name:
        raise UnitsError(f'"{text.strip()}" has no unit; write one such as lb, kg, L, gal or tsp.')
    if unit is None:
        raise UnitsError(
            f'"{name}" in "{text.strip()}" is not a unit known here; '
            "use lb, oz, kg, g, L, mL, gal, qt, pt, cup, fl oz, tbsp or tsp, or packets, tablets, "
            "bottles."
        )
    if len(countries) > 1:
        raise UnitsError(f'"{text.strip()}" names two countries; say US or imperial.')
    country = next(iter(countries), None)
    return Part(parse_number(found["number"]), unit, country if unit in _COUNTRY_UNITS else None)


def _undotted(word: str) -> str:
    return word.rstrip(".,;")


def _with_country(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Let the one country named in "1 gal 2 qt US" hold for all of it."""
    named = {part.country for part in parts if part.country}
    if len(named) != 1:
        return parts
    country = named.pop()
    return tuple(p._replace(country=country) if p.unit in _COUNTRY_UNITS else p for p in parts)


class Typed:
    """A quantity exactly as typed: immutable, equal by its text, pickled as its text."""

    __slots__ = ("text",)
    text: str

    def __init__(self, text: str) -> None:
        object.__setattr__(self, "text", text)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__} cannot be changed")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and self.text == getattr(other, "text", None)

    def __hash__(self) -> int:
        return hash((type(self), self.text))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.text!r})"

    def __reduce__(self) -> tuple[type[Self], tuple[str]]:
        return type(self), (self.text,)


class Amount(Typed):
    """A quantity readable as grams, litres or a count; subclasses name what they accept."""

    __slots__ = ("parts",)
    accepts: ClassVar[tuple[str, ...]] = ("mass", "volume", "count")
    example: ClassVar[str] = "3 lb, 1.5 L or 1 packet"
    parts: tuple[Part, ...]

    def __init__(self, text: str) -> None:
        parts = _parse(text)
        dimension = _DIMENSION[parts[0].unit]
        if dimension not in self.accepts:
            raise UnitsError(
                f'"{text.strip()}" is a {dimension}; this wants one such as {self.example}.'
            )
        super().__init__(text)
        object.__setattr__(self, "parts", parts)

    @property
    def dimension(self) -> str:
        """Return "mass", "volume" or "count"."""
        return _DIMENSION[self.parts[0].unit]

    @property
    def needs_country(self) -> bool:
        """Return whether the text has a bare gallon, quart, pint, cup or fluid ounce."""
        return any(p.unit in _COUNTRY_UNITS and p.country is None for p in self.parts)

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
    if part.unit in _FIXED_UNITS:
        return _FIXED_UNITS[part.unit]
    country = part.country or gallon
    if country is None:
        raise UnitsError(
            f'"{text.strip()}" could be US or imperial, which differ by a fifth; '
            f'say which for the project, or write "{text.strip()} US" or "{text.strip()} imperial".'
        )
    return _COUNTRY_UNITS[part.unit][country == "imperial"]


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


class Temperature(Typed):
    """A temperature as typed: "68 °F", "20 C", "20 degC". Immutable, equal by text."""

    __slots__ = ("celsius",)
    celsius: float
    _FORM: ClassVar[re.Pattern[str]] = re.compile(
        r"\s*([-−]?\d{1,3}(?:[.,]\d{1,3})?)\s*(?:[°º˚]|deg\.?|degrees?)?\s*"
        r"(C|F|celsius|fahrenheit)\.?\s*",
        re.IGNORECASE | re.ASCII,
    )

    def __init__(self, text: str) -> None:
        found = self._FORM.fullmatch(text.replace("℃", "°C").replace("℉", "°F"))
        if found is None:
            raise UnitsError(f'"{text.strip()}" is not a temperature; write 68 °F or 20 °C.')
        degrees = float(found[1].replace(",", ".").replace("−", "-"))
        celsius = degrees if found[2][0] in "cC" else (degrees - 32.0) / 1.8
        if not -30.0 <= celsius <= 110.0:
            raise UnitsError(f'"{text.strip()}" is not a kitchen temperature; check °F or °C.')
        super().__init__(text)
        object.__setattr__(self, "celsius", celsius)

    @property
    def fahrenheit(self) -> bool:
        """Return whether it was typed in °F."""
        return "f" in self.text.lower() or "℉" in self.text


class Gravity(Typed):
    """A gravity as typed: "1.090", "1,090" or "22 brix". Immutable, equal by text.

    Only what a wine or must can be is accepted: SG 0.970-1.200, 0-50 °Brix. Anything else
    raises with what was probably meant, for the person to confirm.
    """

    __slots__ = ("scale", "value")
    most_brix: ClassVar[float] = 50.0
    value: float
    scale: Literal["SG", "Brix"]

    def __init__(self, text: str) -> None:
        found = re.fullmatch(
            r"\s*(?:SG\s*)?(\d{1,5}(?:[.,]\d{1,6})?|[.,]\d{1,6})\s*(?:°|deg)?\s*(SG|brix|bx)?\s*",
            text,
            re.IGNORECASE | re.ASCII,
        )
        if found is None:
            raise UnitsError(f'"{text.strip()}" is not a gravity; write one such as 1.090.')
        value = float(found[1].replace(",", "."))
        scale: Literal["SG", "Brix"] = "Brix" if (found[2] or "")[:1] in ("b", "B") else "SG"
        if scale == "Brix" and not 0.0 <= value <= self.most_brix:
            most = f"{self.most_brix:g}"
            raise UnitsError(f'"{text.strip()}" is outside 0-{most} °Brix; read it again.')
        if scale == "SG" and not LOWEST_SG <= value <= HIGHEST_SG:
            raise UnitsError(_gravity_hint(text.strip(), value))
        super().__init__(text)
        object.__setattr__(self, "value", value)
        object.__setattr__(self, "scale", scale)


class Juice(Gravity):
    """The gravity of a fruit's juice: as `Gravity`, and a concentrate's label up to 84 °Brix."""

    __slots__ = ()
    most_brix = 84.0


def gravity_meant(value: float) -> str | None:
    """Return what a slip such as 1096, 0.0998 or 24 was probably meant to be, or None."""
    if 970 <= value <= 1200:
        return f"{value / 1000:.3f}"
    if 97 <= value <= 120:
        return f"{value / 100:.3f}"
    if 0.097 <= value <= 0.12:
        return f"{value * 10:.3f}"
    if 1.2 < value < 2 and 1.0 <= 1 + (value - 1) / 10 <= 1.2:
        return f"{1 + (value - 1) / 10:.3f}"
    if 2 <= value <= 45:
        return f"{value:g} brix"
    return None


def _gravity_hint(text: str, value: float) -> str:
    meant = gravity_meant(value)
    ask = f' Did you mean "{meant}"?' if meant else " Read the hydrometer again."
    return f'"{text}" is not a gravity a wine can have ({LOWEST_SG:.3f} to {HIGHEST_SG:.3f}).{ask}'
