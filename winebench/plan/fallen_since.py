"""A wine that fell again after a day: what the log knows by now of a bottling on that day."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from msgspec.structs import replace

from winebench.model.project import Project
from winebench.plan.days import day_words, settled
from winebench.plan.outlook import StepOutlook
from winebench.plan.readings import readings
from winebench.plan.steps.rule import waits
from winebench.plan.stuck.standstill import EYE, POINT

BOTTLE = "bottle"


class Fall(NamedTuple):
    """Gravity lost after a day: it fermented on."""

    was: float
    """SG, the last reading up to that day."""
    to: float
    """SG, the first reading since that lies so far below."""
    read_at: datetime


def fallen_since(project: Project, at: datetime, by: float = POINT) -> Fall | None:
    """Return how the gravity fell by more than that, as SG, after that moment, or None.

    A point is what an eye and a hydrometer can differ by (common practice).
    """
    at = settled(at)
    latest = max((settled(entry.at) for entry in project.log), default=at)
    pitched = next((settled(one.at) for one in project.actions if one.step == "pitch"), None)
    if pitched is None:
        return None  # of must alone nothing is known that could have fallen in a bottle
    seen = [one for one in readings(project, latest) if one.sg is not None and one.at > pitched]
    before = [one.sg for one in seen if one.at <= at and one.sg is not None]
    if not before:
        return None
    lower = (
        Fall(before[-1], one.sg, one.at)
        for one in seen
        if one.at > at and one.sg is not None and one.sg < before[-1] - by - EYE
    )
    return next(lower, None)


def as_known_since(step: StepOutlook, project: Project, at: datetime) -> StepOutlook:
    """Return the step as it stood then, held where what was read since forbids it.

    A bottling is logged days late at times: what fell again meanwhile fell in the bottles.
    """
    fall = fallen_since(project, at) if step.key == BOTTLE else None
    if fall is None:
        return step
    day = day_words(fall.read_at, settled(at))
    held = waits(
        f"a wine that does not fall again (from {fall.was:.3f} it fell to {fall.to:.3f}, read "
        f"{day})",
        False,
        needs_change=True,
    )
    state = step.state if step.state == "done" else "held"
    conditions = (held, *step.conditions)
    return replace(step, state=state, override="never", conditions=conditions)
