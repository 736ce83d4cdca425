"""The command that adds to the log: a reading, an action or a note."""

from __future__ import annotations

import argparse
from datetime import datetime, timedelta
from typing import Literal, cast

from winebench.catalog.additives import additives
from winebench.cli.arguments import CommandError
from winebench.cli.projects import now, plan, read, write
from winebench.model.edits import PutEntry, new_id
from winebench.model.log import Action, Entry, Note, Reading, Record
from winebench.model.project import Project
from winebench.plan.days import settled
from winebench.plan.measured import STEP as MEASURE_FRUIT
from winebench.plan.measured import measured_from
from winebench.plan.moves import by_importance
from winebench.plan.outlook import Outlook, StepOutlook
from winebench.plan.records import refused
from winebench.plan.scribbles.gates import step_at
from winebench.plan.steps.noting import needs_reason, reason_as_note, still_held
from winebench.plan.typed.fields import OG_WITHIN
from winebench.units import Gravity, Temperature, UnitsError, parse_number


def log(arguments: argparse.Namespace) -> int:
    """Add the entry, re-plan, and say what it did."""
    project = read(arguments.file)
    at = settled(arguments.at or now())
    if at > now() + timedelta(hours=1):
        raise CommandError(f"{at:%Y-%m-%d %H:%M} is still to come; check --at")
    try:
        entry = _entry(project, arguments, at)
    except UnitsError as problem:
        raise CommandError(str(problem)) from problem
    after = PutEntry(label="log", entry=entry).apply(project)
    seen = plan(after, max(at, now()))
    write(arguments.file, after)
    print(f'Logged in "{arguments.file}".')
    for reading in seen.readings:
        if reading.id == entry.id:
            print(reading.words)
    for step in by_importance(seen.steps):
        if step.moved is not None:
            print(f"{step.name}: {step.moved.sentence}")
    _say_void(entry, seen)
    return 0


def _say_void(entry: Entry, seen: Outlook) -> None:
    """Say of a tick with a reason that it opened nothing, where it stands for nothing."""
    if isinstance(entry, Action) and entry.override:
        for step in seen.steps:
            if step.key == entry.step and entry.id not in step.entry_ids:
                print(f"{step.name}: this opens nothing; it is still asked for. {step.reason}")


def _entry(project: Project, arguments: argparse.Namespace, at: datetime) -> Entry:
    if arguments.what == "note":
        if not arguments.text.strip():
            raise CommandError("a note needs some words")
        return Note(id=new_id(), at=at, text=arguments.text)
    if arguments.what == "action":
        return _action(project, arguments, at)
    return _reading(project, arguments, at)


def _reading(project: Project, arguments: argparse.Namespace, at: datetime) -> Reading:
    pitch = project.done("pitch")
    if pitch and at < pitch.at - OG_WITHIN:
        raise CommandError(
            f"a reading at {at:%Y-%m-%d %H:%M} is more than a day and a half before the yeast went "
            f"in ({pitch.at:%Y-%m-%d %H:%M}); check --at"
        )
    clear = int(arguments.clear) if arguments.clear else None
    reading = Reading(
        id=new_id(),
        at=at,
        gravity=None if arguments.sg is None else Gravity(arguments.sg),
        temperature=None if arguments.temp is None else Temperature(arguments.temp),
        instrument="refractometer" if arguments.refractometer else "hydrometer",
        degassed=arguments.degassed,
        ph=_number(arguments.ph, "pH", 2.0, 6.0),
        acid_g_per_l=_number(arguments.acid, "acidity", 0.0, 60.0),
        free_so2_mg_per_l=_number(arguments.free_so2, "free sulfite", 0.0, 500.0),
        clear=cast("Literal[0, 1, 2, 3, 4] | None", clear),
    )
    measured = (reading.gravity, reading.temperature, reading.ph, reading.acid_g_per_l,
                reading.free_so2_mg_per_l, reading.clear)  # fmt: skip
    if all(value is None for value in measured):
        raise CommandError("a reading needs a number: --sg, --temp, --ph, --acid or --clear")
    return reading


def _number(text: str | None, name: str, low: float, high: float) -> float | None:
    if text is None:
        return None
    value = parse_number(text)
    if not low <= value <= high:
        raise CommandError(f"{name} {text} is outside {low:g} to {high:g}; measure again")
    return value


def _action(project: Project, arguments: argparse.Namespace, at: datetime) -> Action:
    steps = {step.key: step for step in plan(project, at).steps}
    step = steps.get(arguments.step)
    if step is None:
        raise CommandError(f'there is no step "{arguments.step}"; the steps are {", ".join(steps)}')
    step = step_at(project, at, step.key)
    records = _records(step, arguments.record)
    unread = refused(records, step.record, project)
    if unread is not None:
        raise CommandError(f"--record {unread.name}: {unread.sentence}")
    waits = "; ".join(c.text for c in still_held(step, records, project)) or step.reason
    if step.override == "never":
        raise CommandError(f"{step.name} cannot be done yet and no reason opens it: {waits}")
    needed = needs_reason(step, records, project)
    if needed and not arguments.because.strip():
        raise CommandError(
            f"{step.name} is held ({waits}); "
            'if it was done all the same, say why with --because "..."'
            f"{f'. {step.unopened}' if step.unopened else ''}"
        )
    if step.key == MEASURE_FRUIT:
        measured_from(records)  # what cannot be read is refused, not kept for nothing
    tick = Action(
        id=new_id(),
        at=at,
        step=step.key,
        records=tuple(records),
        override=arguments.because.strip(),
    )
    return tick if needed else reason_as_note(tick)


def _records(step: StepOutlook, pairs: list[str]) -> list[Record]:
    """Return what was written down; a name that the step does not ask for would mean nothing."""
    records = []
    known = [record.name for record in step.record]
    for pair in pairs:
        name, equals, value = pair.partition("=")
        if not equals or not name:
            raise CommandError(f'"{pair}" is not NAME=VALUE, such as lost="0.4 L"')
        if name not in known and name not in additives():
            asked = f"it asks for {', '.join(known)}" if known else "it asks for none"
            raise CommandError(f'{step.name} has no record "{name}"; {asked}')
        records.append(Record(name=name, value=value))
    return records
