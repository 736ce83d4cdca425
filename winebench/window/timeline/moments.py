"""Outlook shapes as seconds on the axis: what the curve and the rows are drawn from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime

import numpy as np
import numpy.typing as npt

from winebench.plan.outlook import Outlook, StepOutlook
from winebench.window.timeline.axis import DAY

Floats = npt.NDArray[np.float64]


def seconds(moment: datetime | None) -> float | None:
    """Return seconds since 1970, or None where there is no moment."""
    return None if moment is None else moment.timestamp()


def step_moment(step: StepOutlook) -> datetime | None:
    """Return the one moment that stands for a step: when done, else when likely."""
    return step.done_at or step.likely or step.earliest or step.latest


def step_span(step: StepOutlook) -> tuple[datetime, datetime] | None:
    """Return the earliest and latest time of a step that has a window."""
    moments = [m for m in (step.earliest, step.likely, step.latest) if m is not None]
    return (min(moments), max(moments)) if moments else None


def done_seconds(step: StepOutlook, times: Mapping[str, datetime]) -> Floats:
    """Return when the step was done, s since 1970, in order; `times` is of the log's entries."""
    done = [times[entry] for entry in step.entry_ids if entry in times]
    if not done and step.done_at is not None:
        done = [step.done_at]
    return np.sort(np.array([moment.timestamp() for moment in done], dtype=float))


def _first(outlook: Outlook) -> float:
    past = [s for s in map(seconds, _starts(outlook)) if s is not None]
    return min([*past, outlook.at.timestamp()])


def _starts(outlook: Outlook) -> Iterable[datetime | None]:
    yield from (reading.at for reading in outlook.readings)
    yield from (step.done_at for step in outlook.steps)


def two_weeks(outlook: Outlook) -> tuple[float, float]:
    """Return fourteen days with now among them, from the batch's start where that is near.

    Where little was logged of late, it reaches as far back as shows the last two things logged.
    """
    now = outlook.at.timestamp()
    past = sorted(s for s in map(seconds, _starts(outlook)) if s is not None and s <= now)
    shown = [s for s in past[-2:] if s >= now - 11 * DAY]
    start = max(_first(outlook), min([*shown, now - 5 * DAY])) - DAY
    return start, start + 14 * DAY


def to_bottling(outlook: Outlook) -> tuple[float, float]:
    """Return the time from the batch's start to a little after its bottling."""
    start = _first(outlook)
    bottling = next((step for step in outlook.steps if step.key == "bottle"), None)
    span = step_span(bottling) if bottling else None
    end = seconds(bottling.done_at if bottling and bottling.done_at else span[1] if span else None)
    end = max(end or start + 120 * DAY, start + 14 * DAY)
    margin = 0.04 * (end - start)
    return start - margin, end + margin


def a_year(outlook: Outlook) -> tuple[float, float]:
    """Return the first year of the batch."""
    start = _first(outlook) - 7 * DAY
    return start, start + 366 * DAY


def best_view(outlook: Outlook) -> str:
    """Return the zoom that shows most of what matters now: a key of ZOOMS."""
    if any(step.key == "bottle" and step.state == "done" for step in outlook.steps):
        return "a year"
    return "two weeks" if outlook.at.timestamp() - _first(outlook) < 21 * DAY else "to bottling"


ZOOMS = {"two weeks": two_weeks, "to bottling": to_bottling, "a year": a_year}
"""What the pane's zoom buttons show, by what is written on them."""


def step_in_focus(outlook: Outlook) -> str:
    """Return the key of the step to show first: due, late, held or to come."""
    asked = next((item.step for item in outlook.today if item.step), "")
    if outlook.stuck is not None and asked:
        return asked
    for states in (("due",), ("missed",), ("held",), ("expected",), ("later",)):
        for step in outlook.steps:
            if step.state in states:
                return step.key
    done = [step for step in outlook.steps if step.done_at is not None]
    return done[-1].key if done else ""
