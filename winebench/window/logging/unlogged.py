"""A reading that is typed but not logged yet, kept with its project so that nothing is lost."""

from __future__ import annotations

from typing import get_args

from winebench.model.edits import Change
from winebench.model.project import Draft, Project
from winebench.plan.typed.readings import CLEARNESS, Clearness, TypedReading

PLACE = "reading:"
_LABEL = "type a reading"


def keep_unlogged(project: Project, typed: TypedReading) -> Change:
    """Return the edit that keeps what is typed in place of what was kept of a reading before."""
    said = {
        "gravity": typed.gravity,
        "temperature": typed.temperature,
        "time": typed.time,
        "instrument": "" if typed.instrument == "hydrometer" else typed.instrument,
        "ph": typed.ph,
        "acid": typed.acid,
        "free_so2": typed.free_so2,
        "degassed": "yes" if typed.degassed else "",
        "clear": "" if typed.clear is None else CLEARNESS[typed.clear],
        "note": typed.note,
    }
    others = tuple(d for d in project.drafts if not d.place.startswith(PLACE))
    mine = tuple(Draft(place=PLACE + part, text=text) for part, text in said.items() if text)
    return Change(label=_LABEL, merges_as=PLACE, fields={"drafts": others + mine})


def unlogged(project: Project) -> TypedReading:
    """Return what is kept of a reading; all empty where there is nothing."""
    mine = [draft for draft in project.drafts if draft.place.startswith(PLACE)]
    said = {draft.place.removeprefix(PLACE): draft.text for draft in mine}
    clearness: dict[str, Clearness] = dict(zip(CLEARNESS, get_args(Clearness), strict=True))
    return TypedReading(
        gravity=said.get("gravity", ""),
        temperature=said.get("temperature", ""),
        time=said.get("time", ""),
        instrument="refractometer" if said.get("instrument") == "refractometer" else "hydrometer",
        ph=said.get("ph", ""),
        acid=said.get("acid", ""),
        free_so2=said.get("free_so2", ""),
        degassed=said.get("degassed") == "yes",
        clear=clearness.get(said.get("clear", "")),
        note=said.get("note", ""),
    )
