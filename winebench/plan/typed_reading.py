"""A reading as typed in its parts, turned into an entry or into one question."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, NamedTuple

from winebench.model.log import Reading
from winebench.plan.typed import (
    Instrument,
    Scale,
    Slip,
    check_against_pitch,
    read_gravity,
    read_moment,
    read_temperature,
)
from winebench.units import UnitsError, parse_number

Place = Literal["gravity", "temperature", "time", "ph"]
Clearness = Literal[0, 1, 2, 3, 4]
LOWEST_PH, HIGHEST_PH = 2.0, 6.0
"""No must or wine is outside these; common practice rejects far narrower ones."""
CLEARNESS = (
    "cannot see a lamp through it",
    "a lamp shows as a glow",
    "a lamp shows sharply",
    "can see print through it",
    "can read print through it",
)


class Question(NamedTuple):
    """What cannot be logged as typed, where, and what was probably meant ("" if unknown)."""

    place: Place
    sentence: str
    meant: str = ""


@dataclass(frozen=True)
class TypedReading:
    """The parts of a reading as they stand in their fields."""

    gravity: str = ""
    temperature: str = ""
    time: str = ""
    instrument: Instrument = "hydrometer"
    ph: str = ""
    degassed: bool = False
    clear: Clearness | None = None
    note: str = ""


def reading_from(
    typed: TypedReading,
    entry_id: str,
    now: datetime,
    scale: Scale,
    pitched: datetime | None = None,
) -> Reading | Question:
    """Return the reading typed, or the first question about it; `pitched` is when yeast went in."""
    gravity = read_gravity(typed.gravity, typed.instrument) if typed.gravity.strip() else None
    if isinstance(gravity, Slip):
        return Question("gravity", *gravity)
    temperature = read_temperature(typed.temperature, scale) if typed.temperature.strip() else None
    if isinstance(temperature, Slip):
        return Question("temperature", *temperature)
    at = read_moment(typed.time, now)
    if isinstance(at, Slip):
        return Question("time", *at)
    if slip := check_against_pitch(typed.time, at, pitched):
        return Question("time", *slip)
    ph = _read_ph(typed.ph)
    if isinstance(ph, Question):
        return ph
    if gravity is None and ph is None and typed.clear is None and temperature is None:
        return Question("gravity", "Type the gravity as read, such as 1.064.")
    return Reading(
        id=entry_id,
        at=at,
        gravity=gravity,
        temperature=temperature,
        instrument=typed.instrument,
        degassed=typed.degassed,
        ph=ph,
        clear=typed.clear,
        note=typed.note.strip(),
    )


def _read_ph(text: str) -> float | Question | None:
    if not text.strip():
        return None
    try:
        ph = parse_number(text)
    except UnitsError as error:
        return Question("ph", str(error))
    if LOWEST_PH <= ph <= HIGHEST_PH:
        return ph
    meant = f"{ph / 10:g}" if LOWEST_PH <= ph / 10 <= HIGHEST_PH else ""
    ask = f' Did you mean "{meant}"?' if meant else " Measure it again."
    return Question("ph", f"No must has a pH of {text.strip()}.{ask}", meant)


def measured_words(reading: Reading) -> str:
    """Return what was measured, as typed: "Read 1.064 at 22 °C pH 3.4"."""
    parts = []
    if reading.gravity is not None:
        parts.append(f"Read {reading.gravity.text.strip()}")
    if reading.temperature is not None:
        parts.append(f"at {reading.temperature.text.strip()}")
    if reading.ph is not None:
        parts.append(f"pH {reading.ph:g}")
    if reading.clear is not None:
        parts.append(CLEARNESS[reading.clear])
    return " ".join(parts) or "Reading"
