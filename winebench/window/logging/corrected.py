"""An entry as corrected by hand: its fields as text, and the entry they make."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note, Reading, Record
from winebench.plan.typed import Scale, Slip, read_moment
from winebench.plan.typed_reading import Question, TypedReading, reading_from


class Written(NamedTuple):
    """One field of an entry: its name, the words before it, and what is in it."""

    name: str
    label: str
    text: str


class Trouble(NamedTuple):
    """Which field cannot be read, and why."""

    field: str
    sentence: str


def fields_of(entry: Entry) -> tuple[Written, ...]:
    """Return the entry's fields as text, to be corrected."""
    at = Written("time", "When", f"{entry.at:%Y-%m-%d %H:%M}")
    note = Written("note", "Note", entry.note)
    if isinstance(entry, Reading):
        gravity = entry.gravity.text if entry.gravity else ""
        temperature = entry.temperature.text if entry.temperature else ""
        ph = "" if entry.ph is None else f"{entry.ph:g}"
        return (
            Written("gravity", "Gravity", gravity),
            Written("temperature", "at", temperature),
            Written("ph", "pH", ph),
            at,
            note,
        )
    if isinstance(entry, Action):
        records = (
            Written(f"record:{record.name}", record.name.replace("_", " "), record.value)
            for record in entry.records
        )
        why = (Written("override", "Why all the same", entry.override),) if entry.override else ()
        return (*records, *why, at, note)
    return Written("text", "Note", entry.text), at


def corrected(
    entry: Entry, texts: Mapping[str, str], now: datetime, scale: Scale
) -> Entry | Trouble:
    """Return the entry with what was typed; what has no field keeps its value."""
    if isinstance(entry, Reading):
        return _reading(entry, texts, now, scale)
    at = _moment(entry, texts, now)
    if isinstance(at, Trouble):
        return at
    if isinstance(entry, Note):
        text = texts["text"].strip()
        return changed(entry, at=at, text=text) if text else Trouble("text", "Write the note.")
    if entry.override and not texts["override"].strip():
        return Trouble("override", "This step was held; write why it was done all the same.")
    records = ((r.name, texts[f"record:{r.name}"].strip()) for r in entry.records)
    return changed(
        entry,
        at=at,
        records=tuple(Record(name=name, value=value) for name, value in records if value),
        override=texts.get("override", "").strip(),
        note=texts["note"].strip(),
    )


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
    typed = TypedReading(
        gravity=texts["gravity"],
        temperature=texts["temperature"],
        instrument=entry.instrument,
        ph=texts["ph"],
        clear=entry.clear,
    )
    read = reading_from(typed, entry.id, now, scale)
    if isinstance(read, Question):
        return Trouble(read.place, read.sentence)
    return changed(
        entry,
        at=at,
        gravity=read.gravity,
        temperature=read.temperature,
        ph=read.ph,
        note=texts["note"].strip(),
    )
