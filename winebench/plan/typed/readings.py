"""A reading as typed in its parts, turned into an entry or into one question."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal, NamedTuple

from winebench.model.log import Reading
from winebench.plan.typed.acidity import HIGHEST_PH, LOWEST_PH, MOST_ACID_OF_MUST
from winebench.plan.typed.fields import (
    Instrument,
    Scale,
    Slip,
    check_against_pitch,
    read_gravity,
    read_moment,
    read_temperature,
)
from winebench.units import UnitsError, parse_number

Place = Literal["gravity", "temperature", "time", "ph", "acid", "free_so2"]
Clearness = Literal[0, 1, 2, 3, 4]
MOST_FREE_SO2_MG_PER_L = 500.0
"""No must or wine has more; common practice rejects far less."""
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
    odd: bool = False
    """Whether it can be read and only looks odd: asked twice, it is meant as it stands."""


@dataclass(frozen=True)
class TypedReading:
    """The parts of a reading as they stand in their fields."""

    gravity: str = ""
    temperature: str = ""
    time: str = ""
    instrument: Instrument = "hydrometer"
    ph: str = ""
    acid: str = ""
    free_so2: str = ""
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
    acid = _read_amount(typed.acid, "acid", MOST_ACID_OF_MUST, "g/L of acid")
    so2 = _read_amount(typed.free_so2, "free_so2", MOST_FREE_SO2_MG_PER_L, "mg/L of free sulfite")
    for measured in (ph, acid, so2):
        if isinstance(measured, Question):
            return measured
    assert not isinstance(ph, Question)
    assert not isinstance(acid, Question)
    assert not isinstance(so2, Question)
    if all(found is None for found in (gravity, temperature, ph, acid, so2, typed.clear)):
        return Question("gravity", "Type the gravity as read, such as 1.064.")
    return Reading(
        id=entry_id,
        at=at,
        gravity=gravity,
        temperature=temperature,
        instrument=typed.instrument,
        degassed=typed.degassed,
        ph=ph,
        acid_g_per_l=acid,
        free_so2_mg_per_l=so2,
        clear=typed.clear,
        note=typed.note.strip(),
    )


def _read_amount(text: str, place: Place, most: float, unit: str) -> float | Question | None:
    if not text.strip():
        return None
    try:
        value = parse_number(text)
    except UnitsError as error:
        return Question(place, str(error))
    if 0.0 <= value <= most:
        return value
    return Question(place, f"No wine has {text.strip()} {unit}. Measure it again.")


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
    if reading.degassed:
        parts.append("de-gassed")
    if reading.ph is not None:
        parts.append(f"pH {reading.ph:g}")
    if reading.acid_g_per_l is not None:
        parts.append(f"acid {reading.acid_g_per_l:g} g/L")
    if reading.free_so2_mg_per_l is not None:
        parts.append(f"free SO2 {reading.free_so2_mg_per_l:g} mg/L")
    if reading.clear is not None:
        parts.append(CLEARNESS[reading.clear])
    return " ".join(parts) or "Reading"
