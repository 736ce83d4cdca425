"""Read what is typed for a rule's argument: "30 degC", "5 gal US", "1.090 +- 0.002", "20-25"."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from winebench.trade.measured import Measured
from winebench.trade.ranges import NotKnown
from winebench.units import (
    Amount,
    Gravity,
    Temperature,
    UnitsError,
    gravity_meant,
    parse_number,
)

_HEAVIEST_SG = 1.45
_EITHER_WAY = re.compile(r"(?P<middle>.+?)\s*(?:\+\s*/?\s*-|±)\s*(?P<off>.+)")
_DIGIT = r"\d¼½¾⅓⅔⅛⅜⅝⅞"
# A hyphen is "to" only between two numbers or set off by blanks: "-3" is below nothing, "1e-6" one.
_FROM_TO = re.compile(
    rf"(?P<low>.*?[{_DIGIT}].*?)"
    rf"(?:\s*(?:\bto\b|\.\.|–)\s*|(?<=[{_DIGIT}])\s*[-‐‑−]\s*(?=[-−]?[{_DIGIT}.])|\s[-‐‑−]\s+)"
    r"(?P<high>.+)"
)
_PARTS = re.compile(
    rf"\s*(?P<number>[-−]?[{_DIGIT}.,/⁄ ]*[{_DIGIT}](?:[eE][-+]?\d+\b)?)\s*(?P<unit>.*)"
)

# Other words and units for the unit that a rule wants, with their factor.
_ALSO: dict[str, dict[str, float]] = {
    "°Brix": {"brix": 1, "bx": 1, "°bx": 1, "plato": 1, "°plato": 1, "°p": 1},
    "°Baumé": {"baume": 1, "baumé": 1, "be": 1, "°be": 1, "bé": 1, "°bé": 1},
    "°Oechsle": {"oechsle": 1, "oe": 1, "°oe": 1},
    "% vol": {"%": 1, "vol": 1, "% abv": 1, "abv": 1},
    "% mass": {"%": 1},
    "g/L": {"%": 10, "g/100 ml": 10, "g/hl": 0.01},
    "mg/L": {"ppm": 1, "g/hl": 10},
    "mg N/L": {"mg/l": 1, "ppm": 1, "g/l": 1000},
    "kg/m³": {"kg/m3": 1, "g/cm³": 1000, "g/cm3": 1000},
    "mol/L": {"m": 1, "n": 1, "mol": 1, "molar": 1, "normal": 1},
    "°F": {"f": 1, "degf": 1},
    "tsp": {"teaspoon": 1, "teaspoons": 1, "tbsp": 3, "tablespoon": 3, "tablespoons": 3},
    "mm": {"cm": 10, "in": 25.4, "inch": 25.4, '"': 25.4},
    "m³": {"m3": 1, "m^3": 1, "ft³": 0.028316846592, "ft3": 0.028316846592},
}
_MASS_BY_VOLUME = {"g/L": 1.0, "mg/L": 1000.0, "kg/m³": 1.0}
_PH = re.compile(r"(?<![a-z])ph(?![a-z])", re.IGNORECASE)
ANY = "any"
"""The unit of arguments that share whatever scale they are given in."""


def check_one_scale(texts: Mapping[str, str]) -> None:
    """Refuse arguments of the unit `ANY` that are typed in two units, or in pH.

    Raises:
        NotKnown: pH, which is a logarithm and does not blend by shares, or a second unit.

    """
    units: dict[str, tuple[str, str]] = {}
    for name, text in texts.items():
        if _PH.search(text):
            raise NotKnown("pH does not blend by shares: mix a glass of the two and measure it.")
        for unit in _units_in(text.strip()):
            units.setdefault(_scale(unit), (name, unit))
    if len(units) > 1:
        (name, unit), (other, second) = list(units.values())[:2]
        where = f' but {other} in "{second}"' if other != name else f' and "{second}"'
        raise NotKnown(f'{name} is in "{unit}"{where}; write all in one unit.')


def _units_in(text: str) -> list[str]:
    """Return each unit that a number, an uncertain one or a range is written with."""
    found = _EITHER_WAY.fullmatch(text) or _FROM_TO.fullmatch(text)
    parts = found.groups() if found else (text,)
    if found and "off" in found.groupdict() and found["off"].endswith("%"):
        parts = parts[:1]  # so many percent of the figure itself
    return [unit for unit in (_split(part)[1] for part in parts) if unit]


def _scale(unit: str) -> str:
    """Return one name for all the words that a unit is written with."""
    wanted = unit.casefold()
    for base, words in _ALSO.items():
        if wanted == base.casefold() or words.get(wanted) == 1:
            return base
    return wanted


def read(unit: str, text: str) -> float | Measured:
    """Return a typed argument in that unit; one with an uncertainty or a range as `Measured`.

    Raises:
        UnitsError: the text cannot be read in that unit.
        NotKnown: a range that ends below where it begins.

    """
    text = text.strip()
    if unit in ("SG", "pH"):
        text = re.sub(rf"^{unit}\s*", "", text, flags=re.IGNORECASE)
    around = _EITHER_WAY.fullmatch(text)
    if around:
        return _around(unit, around["middle"], around["off"])
    between = _FROM_TO.fullmatch(text)
    if between:
        low, high = _alike(between["low"], between["high"])
        return _measured(text, _number(unit, low), _number(unit, high))
    return _number(unit, text)


def _around(unit: str, middle: str, off: str) -> Measured:
    value, off_text = _alike(middle, off)
    if off.endswith("%") and "%" not in middle + unit:
        centre = _number(unit, middle)
        away = abs(centre) * parse_number(off[:-1]) / 100.0
    elif unit in ("SG", "°C"):
        # A step of 2 °F or of 0.2 °Brix is no reading of its own: read both ends instead.
        return _ends(unit, value, off_text)
    else:
        centre, away = _number(unit, value), _number(unit, off_text)
    return _measured(f"{middle} ± {off}", centre - away, centre + away)


def _ends(unit: str, value: str, off: str) -> Measured:
    number, said = _split(value)
    step, step_said = _split(off)
    if said.casefold() != step_said.casefold():
        raise UnitsError(f'"{value} ± {off}" is in two units; write both in one.')
    if _plain_number(step) < 0.0:
        raise NotKnown(f'"{value} ± {off}" ends below where it begins.')
    low, high = (
        _number(unit, f"{round(_plain_number(number) + sign * _plain_number(step), 6):.10g} {said}")
        for sign in (-1, 1)
    )
    return Measured(_number(unit, value), low, high)


def _measured(text: str, low: float, high: float) -> Measured:
    if low > high:
        raise NotKnown(f'"{text}" ends below where it begins.')
    return Measured((low + high) / 2.0, low, high)


def _alike(first: str, second: str) -> tuple[str, str]:
    """Give the one unit that is written to whichever of the two has none."""
    unit_1, unit_2 = _split(first)[1], _split(second)[1]
    if unit_1 and not unit_2:
        return first, f"{second} {unit_1}"
    if unit_2 and not unit_1:
        return f"{first} {unit_2}", second
    return first, second


def _split(text: str) -> tuple[str, str]:
    found = _PARTS.fullmatch(text)
    return (found["number"], found["unit"].strip()) if found else (text, "")


def _plain_number(text: str) -> float:
    """Return a number with its sign; one copied from full precision too."""
    text = text.strip().replace("−", "-")
    if re.fullmatch(r"[-+]?\d*\.?\d+(?:[eE][-+]?\d+)?", text, re.ASCII):
        return float(text)
    return -parse_number(text[1:]) if text.startswith("-") else parse_number(text)


def _number(unit: str, text: str) -> float:
    text = text.strip()
    lettered = bool(re.search(r"[A-Za-z]\W*$", text))
    special = _SPECIAL.get(unit)
    if special and (lettered or unit == "SG"):
        return special(text)
    number, said = _split(text)
    if not said:
        return _plain_number(text)
    base = unit.split(" as ")[0].split(" at ")[0]
    wanted = said.casefold()
    if unit == ANY or {wanted, f"{wanted}s"} & {unit.casefold(), base.casefold()}:
        return _plain_number(number)
    factor = _ALSO.get(base, {}).get(wanted)
    if factor is not None:
        return _plain_number(number) * factor
    if base in _MASS_BY_VOLUME and "/" in said:
        return _mass_by_volume(text) * _MASS_BY_VOLUME[base]
    raise UnitsError(f'"{said}" is no unit for it; write the number, or "{number} {base}".')


def _mass_by_volume(text: str) -> float:
    """Return g/L of "2 oz/gal US" or "983 g/L"."""
    mass, volume = text.rsplit("/", 1)
    return Amount(mass).grams() / Amount(f"1 {volume}").litres(None)


def _gravity(text: str) -> float:
    """Return SG of "1.090", "1,090 SG" or "22 brix"; a syrup may be thicker than any must."""
    from winebench.trade.gravity import brix_from_sg, sg_from_brix  # it declares rules itself

    number, said = _split(text)
    if said.casefold() in _ALSO["°Brix"] or said.casefold() == "°brix":
        brix = _plain_number(number)
        if brix < 0.0:  # as hydrometers are marked below water
            slope = brix_from_sg(1.0) - brix_from_sg(0.999)
            return 1.0 + 0.001 * brix / slope
        return sg_from_brix(brix)
    if said.casefold() in ("°oe", "oe", "oechsle", "°oechsle"):
        return 1.0 + _plain_number(number) / 1000.0
    if (said and said.casefold() != "sg") or not re.search(r"\d", text):
        return Gravity(text).value  # which says what a gravity looks like
    value = _plain_number(number)
    meant = gravity_meant(value)
    if value > _HEAVIEST_SG and meant:
        raise UnitsError(f'"{text}" is no gravity. Did you mean "{meant}"?')
    return value


_SPECIAL: dict[str, Callable[[str], float]] = {
    "SG": _gravity,
    "°C": lambda text: Temperature(text).celsius,
    "L": lambda text: Amount(text).litres(None),
    "mL": lambda text: Amount(text).litres(None) * 1000.0,
    "m³": lambda text: Amount(text).litres(None) / 1000.0,
    "g": lambda text: Amount(text).grams(),
    "kg": lambda text: Amount(text).grams() / 1000.0,
}
