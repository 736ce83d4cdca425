"""What a person types into a log field, read without guessing: a slip is asked about."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from typing import Literal, NamedTuple

from winebench.plan.days import MONTHS
from winebench.plan.typed.when import CLOCK, DAY, NOON, Hour, days_meant, hour_meant
from winebench.units import Gravity, Temperature, UnitsError, gravity_meant, parse_number

Instrument = Literal["hydrometer", "refractometer"]
Scale = Literal["C", "F"]
_BARE = re.compile(r"\s*[-−]?\d{1,3}(?:[.,]\d{1,3})?\s*°?\s*", re.ASCII)
_NUMBER = re.compile(r"[-−]?\d{1,3}(?:[.,]\d{1,3})?", re.ASCII)
_POINT_CLOCK = re.compile(r"(?<![\d.])(\d{1,2})\.(\d{2})(?![\d.])", re.ASCII)
_SURE = re.compile(r"yesterday|\b\d{4}\b", re.ASCII)
OG_WITHIN = timedelta(hours=36)
"""Before its yeast a must may be read: it waits 24 h for sulfite and 12 h for enzyme (common
practice)."""
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


def in_scale(text: str, scale: Scale) -> str:
    """Return the text; a bare number has the scale put behind it."""
    return f"{text.strip(' °')} °{scale}" if _BARE.fullmatch(text) else text


def read_temperature(text: str, scale: Scale) -> Temperature | Slip:
    """Return the temperature as typed; a bare number is in `scale`.

    A figure that no must has is asked about, with the other scale where that would fit.
    """
    written = in_scale(text, scale)
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
    """Return the time meant by "", "now", "18:30", "yesterday 18:30", "Mon 8am" or "6 Oct 18:30".

    A clock time later than `now` is yesterday's: nothing is logged before it happened.
    """
    plain = " ".join(re.sub(r"\bat\b", " ", text.lower()).split())
    if plain in ("", "now"):
        return now
    plain = _POINT_CLOCK.sub(r"\1:\2", plain)
    clock = CLOCK.search(plain)
    rest = (plain[: clock.start()] + plain[clock.end() :]).strip(" ,") if clock else plain
    found = DAY.fullmatch(rest)
    days = days_meant(found, now.date()) if found else ()
    hour = hour_meant(clock) if clock else Hour(*NOON)
    if hour is None or (rest and len(days) != 1):
        return Slip(f'"{text.strip()}" is not a time; write 18:30, yesterday 18:30 or 6 Oct 18:30.')
    moment = moment_of(days[0] if days else now.date(), hour, now)
    if not days and moment > now:
        return moment - timedelta(days=1)
    if clock is None and moment.date() == now.date():
        return min(moment, now)
    if moment > now:
        return Slip(f'"{text.strip()}" is still to come; log it then.')
    return moment


def moment_of(day: date, hour: Hour, now: datetime) -> datetime:
    """Return that hour of that day on the wall clock of `now`."""
    return now.replace(
        year=day.year, month=day.month, day=day.day, hour=hour.hour, minute=hour.minute,
        second=0, microsecond=0,
    )  # fmt: skip


def check_against_pitch(
    text: str,
    at: datetime,
    pitched: datetime | None,
    before: timedelta = OG_WITHIN,
) -> Slip | None:
    """Return a slip where a day without its year fell more than `before` the pitch.

    A must can be read before its yeast goes in: "yesterday" or the year written out is taken.
    """
    sure = _SURE.search(text.lower())
    if pitched is None or at >= pitched - before or sure:
        return None
    meant = f"{at.day} {MONTHS[at.month - 1][:3]} {at.year}"
    yeast = f"{pitched.day} {MONTHS[pitched.month - 1][:3]} {pitched.year}"
    return Slip(
        f'"{text.strip()}" is read as {meant}. That is before the yeast went in on {yeast}; '
        "check the date, or write it with its year."
    )


def check_year(text: str, at: datetime, now: datetime) -> Slip | None:
    """Return a slip where a day without its year fell half a year back or more.

    It is likelier that a coming day was typed, and nothing is logged before it happened.
    """
    if now - at < timedelta(days=183) or _SURE.search(text.lower()):
        return None
    return Slip(
        f'"{text.strip()}" is read as {at.day} {MONTHS[at.month - 1][:3]} {at.year}. A day to come '
        "cannot be logged yet; if it was that day, write it with its year."
    )
