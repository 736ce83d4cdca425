"""A project as it was known at an earlier moment."""

from __future__ import annotations

from datetime import datetime

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.plan.days import full_day, settled


def known_at(project: Project, at: datetime) -> Project:
    """Return the project with what its log holds up to that moment, and nothing logged for later.

    The log alone has times: the recipe, its size and the days away are those of today.

    Raises:
        ValueError: `at` has no offset.

    """
    until = settled(at)
    log = tuple(entry for entry in project.log if settled(entry.at) <= until)
    return project if len(log) == len(project.log) else changed(project, log=log)


def looking_back_words(project: Project, at: datetime) -> str:
    """Return that the plan is seen from that moment, and what of the log it leaves out; else ""."""
    left_out = len(project.log) - len(known_at(project, at).log)
    if not left_out:
        return ""
    entries = (
        "1 later entry of the log is"
        if left_out == 1
        else f"{left_out} later entries of the log are"
    )
    return (
        f"Looking back to {full_day(at)} at {at:%H:%M}: {entries} left out; the recipe is as it is "
        "written today."
    )
