"""Read one cell of a table of readings: a time, a gravity, a temperature or an event."""

from __future__ import annotations

import re
from datetime import datetime

from winebench.forecast.api import Event

HOURS_IN = {"h": 1.0, "hr": 1.0, "hour": 1.0, "hours": 1.0, "d": 24.0, "day": 24.0, "days": 24.0}
LOWEST_SG, HIGHEST_SG = 0.980, 1.200
COLDEST_C, HOTTEST_C = 0.0, 45.0
YEARS = range(1900, 2201)
_NUMBER = re.compile(r"\s*([+-]?\d+(?:[.,]\d+)?)\s*(.*)")
_EVENT_HELP = (
    'write "pitch", "rack", "nutrient", "repitch", "sugar 20 g/L", "dilution 1.10" or "room 15 °C"'
)


class TableError(ValueError):
    """A table that gives no forecast: one sentence that says what, where and what to do."""


def number(text: str, what: str) -> tuple[float, str]:
    """Return the number that opens `text` and what follows it, such as (24.0, "Brix")."""
    match = _NUMBER.fullmatch(text)
    if not match:
        raise TableError(f'{what} "{text}" is not a number')
    return float(match[1].replace(",", ".")), match[2].strip()


def moment(text: str) -> float | datetime:
    """Return hours from the pitch ("30 h", "1.5 d") or a moment (ISO 8601)."""
    try:
        at = datetime.fromisoformat(text.strip())
    except ValueError:
        return _hours(text)
    if at.year not in YEARS:
        raise TableError(f'time "{text}" is in the year {at.year}; check it')
    return at


def _hours(text: str) -> float:
    help_ = 'write 2026-10-06T18:30, or "30 h" or "1.5 d" from the pitch'
    match = _NUMBER.fullmatch(text)
    if not match or match[2].strip().lower() not in HOURS_IN:
        raise TableError(f'time "{text}" is not a time; {help_}')
    return float(match[1].replace(",", ".")) * HOURS_IN[match[2].strip().lower()]


def gravity(text: str) -> float:
    """Return a specific gravity; refuse what only looks like one."""
    value, unit = number(text, "gravity")
    if unit and unit.lower() not in ("sg",):
        raise TableError(
            f'gravity "{text}" is not a specific gravity; a refractometer does not show gravity '
            "while alcohol is there, so read a hydrometer and write it as 1.045"
        )
    if 900 <= value <= 1200:
        raise TableError(f'gravity "{text}" is out of range; write it as {value / 1000:.3f}')
    if -5 <= value <= 40 and not LOWEST_SG <= value <= HIGHEST_SG:
        raise TableError(
            f'gravity "{text}" looks like Brix, not a specific gravity; read a hydrometer and '
            "write it as 1.045"
        )
    if not LOWEST_SG <= value <= HIGHEST_SG:
        raise TableError(
            f'gravity "{text}" is out of range; write a specific gravity between '
            f"{LOWEST_SG:.3f} and {HIGHEST_SG:.3f}"
        )
    return value


def celsius(text: str, what: str) -> float:
    """Return °C; a bare number is °C, "70 °F" is converted."""
    value, unit = number(text, what)
    unit = unit.lower().replace("°", "").replace("deg", "").strip()
    if unit in ("f", "fahrenheit"):
        value = (value - 32) / 1.8
    elif unit not in ("", "c", "celsius"):
        raise TableError(f'{what} "{text}" has an unknown unit; write "21 °C" or "70 °F"')
    if not COLDEST_C <= value <= HOTTEST_C:
        hint = f'; if it is °F, write "{value:g} °F"' if not unit else ""
        raise TableError(f'{what} "{text}" is outside 0 to 45 °C{hint or "; check it"}')
    return value


def event(text: str, hours: float) -> Event | None:
    """Return the event that `text` tells; None for the pitch itself."""
    word, _, rest = text.strip().lower().partition(" ")
    plain = {"rack": "rack", "racked": "rack", "nutrient": "nutrient", "repitch": "repitch"}
    if word == "pitch" and not rest:
        return None
    if word in plain and not rest:
        kind = plain[word]
        if kind == "rack":
            return Event(hours, "rack")
        return Event(hours, "nutrient") if kind == "nutrient" else Event(hours, "repitch")
    if word in ("room", "temperature") and rest:
        return Event(hours, "temperature", celsius(rest, "room"))
    if word == "sugar" and rest:
        return Event(hours, "sugar", _sugar(text, rest))
    if word == "dilution" and rest:
        return Event(hours, "dilution", _dilution(text, rest))
    raise TableError(f'event "{text}" is not known; {_EVENT_HELP}')


def _sugar(text: str, rest: str) -> float:
    amount, unit = number(rest, "sugar")
    if unit.replace(" ", "") != "g/l" or not 0 < amount <= 300:
        raise TableError(
            f'event "{text}" is unclear; write grams added to each litre: sugar 20 g/L'
        )
    return amount


def _dilution(text: str, rest: str) -> float:
    ratio, unit = number(rest, "dilution")
    if unit or not 0.5 <= ratio <= 3:
        raise TableError(
            f'event "{text}" is unclear; write volume after over volume before: dilution 1.10'
        )
    return ratio
