"""What was written down with a tick: what of it cannot be read, and how all of it is shown."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.model.log import Action, Record
from winebench.model.project import Project
from winebench.plan.outlook import RecordField
from winebench.plan.own_doses import own_bounds, sulfite_together
from winebench.plan.record_values import OF_UNIT, read_record, value_of
from winebench.plan.typed.number_words import digits
from winebench.units import Amount, UnitsError, parse_number

COUNTED = ("sulfite-tablet",)
"""Additives of which a bare number may be a count: it is asked about."""
_METRIC = {"g", "kg", "mg", "L", "mL", "cL", "dL"}


class Refused(NamedTuple):
    """The record that cannot be taken as typed, and why, in one sentence."""

    name: str
    sentence: str


def refused(
    records: Iterable[Record], fields: Sequence[RecordField], project: Project
) -> Refused | None:
    """Return the first record that cannot be read, or that no reason opens; None where all can."""
    named = {field.name: field for field in fields}
    noted = tuple(records)
    for record in noted:
        field = named.get(record.name) or unasked_field(record.name, project)
        try:
            value = read_record(field, record.value, project)
        except UnitsError as problem:
            return Refused(record.name, str(problem))
        for bound in field.bounds:
            if bound.never and value is not None and bound.passed_by(value):
                return Refused(record.name, bound.said_of(value))
    never = (found for found in sulfite_together(noted, project) if found[0].never)
    bound_and_mg = next(never, None)
    if bound_and_mg is not None:
        return Refused(noted[-1].name, bound_and_mg[0].said_of(bound_and_mg[1]))
    return None


def unasked_field(name: str, project: Project | None = None) -> RecordField:
    """Return the field of what is written down by an additive's own key, in g; else of words.

    With its bounds in the batch, where that is given.
    """
    known = additives().get(name)
    counted = known is not None and known.key in COUNTED
    return RecordField(
        name=name,
        label=known.name if known else name.replace("-", " ").replace("_", " ").capitalize(),
        unit="g or tablets" if counted else "g" if known else "",
        of=name if known else "",
        bounds=own_bounds(name, project) if known and project is not None else (),
    )


def noted_words(action: Action, fields: Sequence[RecordField], project: Project) -> tuple[str, ...]:
    """Return what was written down with the tick: "Sulfite: 3 tablets (67 mg/L)", "Lost: 0.4 L"."""
    named = {field.name: field for field in fields}
    written = (record for record in action.records if record.value.strip())
    return tuple(
        _words(named.get(one.name) or unasked_field(one.name), one, project) for one in written
    )


def _words(field: RecordField, record: Record, project: Project) -> str:
    text = record.value.strip()
    shown = f"{text}{_unit_behind(field, text, project)}"
    return f"{field.label} {shown}" if field.label.endswith("?") else f"{field.label}: {shown}"


def _unit_behind(field: RecordField, text: str, project: Project) -> str:
    """Return the unit that a bare number leaves out, or what other words come to in that unit."""
    try:
        parse_number(text)
    except UnitsError:
        pass
    else:
        said = field.unit if field.unit not in ("SG", "g or tablets") else ""
        return f" {said.split(' as ')[0]}" if said else ""
    if field.unit not in ("g", "kg", "L", "mg/L") or _is_metric(text):
        return ""
    value = value_of(text, field.unit, project, field.of, field.litres)
    return f" ({_short(value)} {field.unit})" if value else ""


def _is_metric(text: str) -> bool:
    """Return whether the text itself says it in grams, litres or mg/L."""
    try:
        return {part.unit for part in Amount(digits(text)).parts} <= _METRIC
    except UnitsError:
        return OF_UNIT.search(text) is not None


def _short(value: float) -> str:
    return f"{value:.0f}" if value >= 20 else f"{value:.1f}" if value >= 1 else f"{value:.2g}"
