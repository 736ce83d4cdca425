"""An invented damson batch, told step by step, for tests of the plan."""

from __future__ import annotations

from datetime import datetime

import msgspec

from winebench.forecast import Evidence, Learned
from winebench.model.log import Action, Entry, Reading, Record
from winebench.model.project import Project
from winebench.model.recipe import (
    AdditiveLine,
    FruitLine,
    Line,
    Make,
    Recipe,
    SugarLine,
    WaterLine,
    YeastLine,
)
from winebench.plan.outlook import Outlook, StepOutlook
from winebench.plan.work_out import outlook
from winebench.units import Amount, Gravity, Mass, Size, Temperature, Volume

LINES: tuple[Line, ...] = (
    FruitLine(id="fruit", fruit="damson", amount=Mass("9 kg"), form="frozen"),
    SugarLine(id="sugar", sugar="white-sugar", amount=Mass("3.4 kg")),
    WaterLine(id="water"),
    AdditiveLine(id="enzyme", additive="pectic-enzyme", amount=Amount("5 tsp")),
    AdditiveLine(id="nutrient", additive="yeast-nutrient", amount=Amount("5 tsp")),
    AdditiveLine(id="sulfite", additive="sulfite-tablet", amount=Amount("4 tablets")),
    YeastLine(id="yeast", amount=Amount("1 packet")),
)


def at(text: str) -> datetime:
    """Return a time of the batch; without an offset it is +02:00, summer where it stands."""
    return datetime.fromisoformat(text if text[-6] in "+-" and text[-3] == ":" else f"{text}+02:00")


def damson(*log: Entry, drop: tuple[str, ...] = (), **fields: object) -> Project:
    """Return the batch with that log, without the recipe lines of those ids."""
    lines = tuple(line for line in LINES if line.id not in drop)
    project = Project(
        id="damson",
        name="Hedge damson",
        gallon="US",
        start=at("2026-10-01T18:00"),
        recipe=Recipe(lines=lines, basis=Volume("5 gal US")),
        make=Make(size=Size("5 gal US")),
        log=log,
    )
    return msgspec.structs.replace(project, **fields)


def ticked(step: str, when: str, **records: str) -> Action:
    """Return the tick of a step."""
    made = tuple(Record(name=name, value=value) for name, value in records.items())
    return Action(id=f"{step}@{when}", at=at(when), step=step, records=made)


def stabilised(when: str, **records: str) -> Action:
    """Return the tick of the stabilising with its pH and sulfite noted, which the bottles want."""
    return ticked("stabilise", when, **{"mg-per-l": "40", "ph": "3.4"} | records)


def read(sg: str, when: str, temperature: str | None = "20 °C", **fields: object) -> Reading:
    """Return a reading."""
    warm = Temperature(temperature) if temperature else None
    return Reading(id=f"{sg}@{when}", at=at(when), gravity=Gravity(sg), temperature=warm, **fields)


PITCHED: tuple[Entry, ...] = (
    ticked("fruit-accepted", "2026-10-01T17:00"),
    ticked("sugar-water", "2026-10-01T18:00"),
    ticked("sulfite-must", "2026-10-01T18:00"),
    ticked("enzyme", "2026-10-02T08:00"),
    read("1.091", "2026-10-02T18:00"),
    ticked("pitch", "2026-10-02T18:30"),
)
IN_GLASS: tuple[Entry, ...] = (
    *PITCHED,
    read("1.066", "2026-10-05T18:30"),
    ticked("lift-fruit", "2026-10-08T20:00"),
    read("1.024", "2026-10-09T18:00"),
    ticked("transfer", "2026-10-09T19:00"),
)
NEARLY_STABLE: tuple[Entry, ...] = (
    *IN_GLASS,
    read("0.996", "2026-10-30T18:00+01:00"),
    read("0.993", "2026-11-06T18:00+01:00"),
    ticked("second-rack", "2026-11-07T10:00+01:00"),
    read("0.993", "2026-11-15T18:00+01:00"),
)
THIRD_READING = read("0.993", "2026-11-21T18:00+01:00", degassed=True, clear=3)
STABLE: tuple[Entry, ...] = (
    *NEARLY_STABLE,
    THIRD_READING,
    ticked("declare-stable", "2026-11-21T19:00+01:00"),
)


def no_forecast(evidence: Evidence, below: tuple[float, ...], learned: Learned | None) -> None:
    """Stand for a forecast that is not there yet: dates then come from the clock."""


def seen(project: Project, now: str) -> Outlook:
    """Return the outlook without any forecast."""
    return outlook(project, at(now), no_forecast)


def step(found: Outlook, key: str) -> StepOutlook:
    """Return one step of an outlook."""
    return next(one for one in found.steps if one.key == key)


def planned(project: Project, now: str, key: str) -> StepOutlook:
    """Return one step, without any forecast."""
    return step(seen(project, now), key)


def waiting(found: StepOutlook) -> list[str]:
    """Return what the step still waits for."""
    return [condition.text for condition in found.conditions if not condition.met]
