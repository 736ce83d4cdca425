"""An entry as corrected by hand: its fields as text, and the entry they make."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import NamedTuple, cast, get_args

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note, Reading, Record
from winebench.model.project import Project
from winebench.plan.corrections import judged
from winebench.plan.customary import Household, household, unit_words
from winebench.plan.records import unasked_field
from winebench.plan.steps import rules
from winebench.plan.typed.fields import Instrument, Scale, Slip, read_moment
from winebench.plan.typed.numbers import number_text
from winebench.plan.typed.readings import (
    CLEARNESS,
    Clearness,
    Question,
    TypedReading,
    reading_from,
)

_EASILY_MIXED = (
    ("first-nitrogen", "second-nitrogen"),
    ("transfer", "second-rack", "third-rack"),
    ("sugar-feed", "sugar-added"),
)
"""Steps of which one is logged for another; any other change would go round that step's gate."""
_BECAUSE = re.compile(r"(?i)\bbecause\b\s*(?P<why>\S.*)$", re.ASCII)


class Written(NamedTuple):
    """One field of an entry: its name, the words before it, what is in it, or is asked for."""

    name: str
    label: str
    text: str
    hint: str = ""


class Trouble(NamedTuple):
    """Which field cannot be read, and why."""

    field: str
    sentence: str


def fields_of(entry: Entry, project: Project) -> tuple[Written, ...]:
    """Return the entry's fields as text, to be corrected, their units as the household's."""
    hint = "18:30, yesterday 18:30, 6 Oct 18:30"
    at = Written("time", "When", f"{entry.at:%Y-%m-%d %H:%M}", hint)
    note = Written("note", "Note", entry.note)
    if isinstance(entry, Reading):
        gravity = entry.gravity.text if entry.gravity else ""
        temperature = entry.temperature.text if entry.temperature else ""
        return (
            Written("gravity", "Gravity", gravity),
            Written("temperature", "Temperature", temperature),
            Written("ph", "pH", number_text(entry.ph)),
            Written("acid", "Acid, g/L", number_text(entry.acid_g_per_l)),
            Written("free_so2", "Free SO₂, mg/L", number_text(entry.free_so2_mg_per_l)),
            Written("instrument", "Read with", entry.instrument, "hydrometer or refractometer"),
            Written("degassed", "Degassed", "yes" if entry.degassed else "no"),
            Written("clear", "Clear, 0 to 4", number_text(entry.clear)),
            at,
            note,
        )
    if isinstance(entry, Action):
        records = _records_written(entry, household(project))
        why = (Written("override", "Why all the same", entry.override),) if entry.override else ()
        alike = _alike(entry.step)
        step = (Written("step", "Step", alike[entry.step]),) if alike else ()
        return (*records, *why, *step, at, note)
    return Written("text", "Note", entry.text), at


def _records(entry: Action) -> tuple[Record, ...]:
    """Return what was written down, and what the step asks for besides, still empty."""
    written = {record.name for record in entry.records}
    rule = rules().get(entry.step)
    asked = (record.name for record in rule.record) if rule else ()
    return (*entry.records, *(Record(name=n, value="") for n in asked if n not in written))


def _records_written(entry: Action, how: Household) -> Iterator[Written]:
    """Yield the records, called as in the form that ticks the step off, each with its unit."""
    rule = rules().get(entry.step)
    asked = {each.name: each for each in rule.record} if rule else {}
    for place, record in enumerate(_records(entry)):
        field = asked.get(record.name) or unasked_field(record.name)
        hint = unit_words(field.unit, how)
        # Where degrees are written out, as "68 °F", the unit is in the field and not before it.
        unit = field.unit if hint == field.unit and record.name in asked else ""
        said = ", ".join(filter(None, (field.label, unit)))
        yield Written(f"record:{place}", said, record.value, hint)


def corrected(
    entry: Entry, texts: Mapping[str, str], now: datetime, project: Project
) -> Entry | Trouble:
    """Return the entry with what was typed; what has no field keeps its value."""
    if isinstance(entry, Reading):
        scale: Scale = "F" if project.room.fahrenheit else "C"
        return _reading(entry, texts, now, scale)
    at = _moment(entry, texts, now)
    if isinstance(at, Trouble):
        return at
    if isinstance(entry, Note):
        text = texts["text"].strip()
        return changed(entry, at=at, text=text) if text else Trouble("text", "Write the note.")
    step = _step(entry, texts.get("step", ""))
    if isinstance(step, Trouble):
        return step
    if entry.override and not texts["override"].strip():
        return Trouble("override", "This step was held; write why it was done all the same.")
    records = tuple(
        Record(name=record.name, value=texts[f"record:{place}"].strip())
        for place, record in enumerate(_records(entry))
    )
    made = changed(
        entry,
        at=at,
        step=step,
        records=tuple(one for one in records if one.value),
        override=texts.get("override", "").strip(),
        note=texts["note"].strip(),
    )
    return _judged(entry, made, records, project)


def _judged(
    entry: Action, made: Action, records: tuple[Record, ...], project: Project
) -> Action | Trouble:
    """Return the correction, or what of it cannot be so; a reason may stand in the note."""
    problem = judged(entry, made, project)
    because = _BECAUSE.search(made.note)
    if problem is not None and problem.reason_opens and because is not None:
        note = made.note[: because.start()].strip(" ,;")
        made = changed(made, override=because["why"].strip(), note=note)
        problem = judged(entry, made, project)
    if problem is None:
        return made
    place = next(place for place, one in enumerate(records) if one.name == problem.name)
    return Trouble(f"record:{place}", problem.sentence)


def _alike(step: str) -> dict[str, str]:
    """Return the steps that one is easily logged for, by their keys with their names; or none."""
    found = next((steps for steps in _EASILY_MIXED if step in steps), ())
    return {key: rules()[key].name for key in found}


def _step(entry: Action, text: str) -> str | Trouble:
    """Return the key of the step written, by its name or the beginning of one."""
    alike, plain = _alike(entry.step), text.strip().lower()
    if not alike:
        return entry.step
    begins = [key for key, name in alike.items() if plain and name.lower().startswith(plain)]
    if len(begins) == 1:
        return begins[0]
    return Trouble("step", f"Write which one it was: {', '.join(alike.values())}.")


def _moment(entry: Entry, texts: Mapping[str, str], now: datetime) -> datetime | Trouble:
    """Return the time typed; one left as it was keeps its seconds and its offset."""
    if texts["time"].strip() == f"{entry.at:%Y-%m-%d %H:%M}":
        return entry.at
    at = read_moment(texts["time"], now)
    return Trouble("time", at.sentence) if isinstance(at, Slip) else at


def _reading(
    entry: Reading, texts: Mapping[str, str], now: datetime, scale: Scale
) -> Reading | Trouble:
    at = _moment(entry, texts, now)
    if isinstance(at, Trouble):
        return at
    instrument = _word(texts["instrument"], get_args(Instrument))
    degassed = _word(texts["degassed"], ("yes", "no"))
    clear = _word(texts["clear"], ("0", "1", "2", "3", "4", ""))
    if instrument is None:
        return Trouble("instrument", "Write hydrometer or refractometer.")
    if degassed is None:
        return Trouble("degassed", "Write yes or no.")
    if clear is None:
        return Trouble("clear", f"Write 0 ({CLEARNESS[0]}) to 4 ({CLEARNESS[4]}), or nothing.")
    typed = TypedReading(
        gravity=texts["gravity"],
        temperature=texts["temperature"],
        instrument=cast("Instrument", instrument),
        ph=texts["ph"],
        acid=texts["acid"],
        free_so2=texts["free_so2"],
        degassed=degassed == "yes",
        clear=cast("Clearness", int(clear)) if clear else None,
    )
    read = reading_from(typed, entry.id, now, scale)
    if isinstance(read, Question):
        return Trouble(read.place, read.sentence)
    kept = {"id": entry.id, "at": at, "note": texts["note"].strip(), "pictures": entry.pictures}
    return changed(read, calibrated=entry.calibrated, **kept)


def _word(text: str, words: Sequence[str]) -> str | None:
    """Return which of the words is meant, by its beginning; None where none is."""
    plain = text.strip().lower()
    if not plain:
        return "" if "" in words else None
    return next((word for word in words if word and word.startswith(plain)), None)
