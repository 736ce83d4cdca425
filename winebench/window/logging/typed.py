"""What a person types into a log field, read without guessing: a slip is asked about."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from typing import Literal, NamedTuple

from winebench.units import Gravity, Temperature, UnitsError, gravity_meant, parse_number

Instrument = Literal["hydrometer", "refractometer"]
Scale = Literal["C", "F"]
_BARE = re.compile(r"\s*[-−]?\d{1,3}(?:[.,]\d{1,3})?\s*°?\s*", re.ASCII)
_NUMBER = re.compile(r"[-−]?\d{1,3}(?:[.,]\d{1,3})?", re.ASCII)
_CLOCK = re.compile(r"(?P<hour>\d{1,2})[:.h](?P<minute>\d{2})", re.ASCII)
_ISO_DAY = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)
_NAMED_DAY = re.compile(r"(\d{1,2})\s+([a-z]{3})[a-z]*\.?(?:\s+(\d{4}))?", re.ASCII)
_SURE = re.compile(r"yesterday|\b\d{4}\b", re.ASCII)
_MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]
COOLEST_MUST, WARMEST_MUST = -2.0, 45.0
"""A must outside these, °C, is asked about: it is likelier that the scale was meant otherwise."""


class Slip(NamedTuple):
    """Why a field cannot be taken as typed, and what was probably meant ("" if unknown)."""

    sentence: str
    meant: str = ""


def read_gravity(text: str, instrument: Instrument = "hydrometer") -> Gravity | Slip:
    """Return the gravity as typed; a refractometer's bare number is °Brix."""
    try:
        if instrument == "refractometer" and _is_brix(text):
            return Gravity(f"{text.strip()} brix")
        return Gravity(text)
    except UnitsError as error:
        meant = _meant(text)
        told = str(error).partition(" Did you mean")[0]
        return Slip(f'{told} Did you mean "{meant}"?', meant) if meant else Slip(str(error))


def _is_brix(text: str) -> bool:
    try:
        return 2.0 <= parse_number(text) <= 50.0
    except UnitsError:
        return False


def _meant(text: str) -> str:
    try:
        value = parse_number(text)
    except UnitsError:
        return ""
    if 46 <= value < 200 and value == int(value):  # the points alone: 64 for 1.064
        return f"{1 + value / 1000:.3f}"
    return gravity_meant(value) or ""


def read_temperature(text: str, scale: Scale) -> Temperature | Slip:
    """Return the temperature as typed; a bare number is in `scale`.

    A figure that no must has is asked about, with the other scale where that would fit.
    """
    written = f"{text.strip(' °')} °{scale}" if _BARE.fullmatch(text) else text
    other = _in_other_scale(written)
    ask = f' Did you mean "{other}"?' if other else ""
    try:
        temperature = Temperature(written)
    except UnitsError as error:
        return Slip(f"{error}{ask}", other)
    if COOLEST_MUST <= temperature.celsius <= WARMEST_MUST:
        return temperature
    ask = ask or " Read the thermometer again."
    return Slip(f"A must is not at {written.strip()}.{ask}", other)


def _in_other_scale(text: str) -> str:
    """Return the same number in the other scale where a must can have that, else ""."""
    number = _NUMBER.search(text)
    scale = "C" if "f" in text.lower() else "F"
    try:
        other = Temperature(f"{number[0]} °{scale}") if number else None
    except UnitsError:
        return ""
    fits = other is not None and COOLEST_MUST <= other.celsius <= WARMEST_MUST
    return other.text if other is not None and fits else ""


def read_moment(text: str, now: datetime) -> datetime | Slip:
    """Return the time meant by "", "now", "18:30", "yesterday 18:30" or "6 Oct 18:30".

    A clock time later than `now` is yesterday's: nothing is logged before it happened.
    """
    plain = " ".join(text.lower().replace("at ", " ").split())
    if plain in ("", "now"):
        return now
    clock = _CLOCK.search(plain)
    rest = (plain[: clock.start()] + plain[clock.end() :]).strip(" ,") if clock else plain
    try:
        day = _day(rest, now)
        hour, minute = (int(clock["hour"]), int(clock["minute"])) if clock else (12, 0)
        moment = (day or now).replace(hour=hour, minute=minute, second=0, microsecond=0)
    except ValueError:
        return Slip(f'"{text.strip()}" is not a time; write 18:30, yesterday 18:30 or 6 Oct 18:30.')
    if day is None and moment > now:
        return moment - timedelta(days=1)
    if clock is None and moment.date() == now.date():
        return min(moment, now)
    if moment > now:
        return Slip(f'"{text.strip()}" is still to come; log it then.')
    return moment


def check_against_pitch(text: str, at: datetime, pitched: datetime | None) -> Slip | None:
    """Return a slip where a day without its year fell more than a day before the pitch.

    A must can be read before its yeast goes in: "yesterday" or the year written out is taken.
    """
    sure = _SURE.search(text.lower())
    if pitched is None or at >= pitched - timedelta(days=1) or sure:
        return None
    meant = f"{at.day} {_MONTHS[at.month - 1].capitalize()} {at.year}"
    yeast = f"{pitched.day} {_MONTHS[pitched.month - 1].capitalize()} {pitched.year}"
    return Slip(
        f'"{text.strip()}" is read as {meant}. That is before the yeast went in on {yeast}; '
        "check the date, or write it with its year."
    )


def _day(text: str, now: datetime) -> datetime | None:
    """Return the day named, None where no day is; ValueError where it is no day."""
    if not text:
        return None
    if text in ("today", "yesterday"):
        return now - timedelta(days=text == "yesterday")
    if iso := _ISO_DAY.fullmatch(text):
        return now.replace(year=int(iso[1]), month=int(iso[2]), day=int(iso[3]))
    named = _NAMED_DAY.fullmatch(text)
    if named is None:
        raise ValueError(text)
    month = _MONTHS.index(named[2]) + 1
    day = now.replace(year=int(named[3] or now.year), month=month, day=int(named[1]))
    if named[3] is None and day > now + timedelta(days=1):
        return day.replace(year=now.year - 1)
    return day
