"""The damson batch run to its end at a pace known beforehand, for tests of learning from it."""

from __future__ import annotations

from datetime import timedelta

import numpy as np

from tests.plan.damson import PITCHED, at, damson
from winebench.model.log import Reading
from winebench.model.project import Project
from winebench.plan.work_out import outlook
from winebench.units import Gravity, Temperature

PITCH = at("2026-10-02T18:30")
OVER = PITCH + timedelta(days=90)
NEW_YEAR = at("2027-09-20T10:00+02:00")


def usual_fall(day: float) -> float:
    """Return the gravity that the forecast itself expects of an unread batch after those days."""
    forecast = outlook(damson(*PITCHED), PITCH + timedelta(hours=1)).forecast
    assert forecast is not None
    days = [(time - PITCH).total_seconds() / 86400 for time in forecast.times]
    return float(np.interp(day, days, forecast.middle))


def run_at(pace: float, name: str = "Hedge damson", days: int = 20) -> Project:
    """Return a finished batch that fell as a usual one, but so many times as fast.

    A reading of it on day d is what a usual batch shows on day d x pace, so the pace is known by
    construction and not by any fit.
    """
    readings = tuple(
        Reading(
            id=f"day-{day}",
            at=PITCH + timedelta(days=day / pace),
            gravity=Gravity(f"{usual_fall(day):.3f}"),
            temperature=Temperature("20 °C"),
        )
        for day in range(1, days + 1)
    )
    return damson(*PITCHED, *readings, id=f"{name} at {pace}", name=name)
