"""What the rackings cost, as the log tells it."""

from __future__ import annotations

from winebench.model.log import Action
from winebench.model.project import Project
from winebench.units import UnitsError, Volume

RACKINGS = ("transfer", "second-rack", "third-rack", "bottle")


def litres_lost(action: Action, project: Project) -> float:
    """Return what a racking cost in L, as written or before less after; 0 where neither is."""
    written = {record.name: _litres(record.value, project) for record in action.records}
    lost = written.get("lost")
    before, after = written.get("before"), written.get("after")
    if lost is not None:
        return lost
    return max(before - after, 0.0) if before is not None and after is not None else 0.0


def _litres(words: str, project: Project) -> float | None:
    for text in (words, f"{words} L"):
        try:
            return Volume(text).litres(project.gallon)
        except UnitsError:
            continue
    return None
