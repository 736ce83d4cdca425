"""Dates, entries and figures in the short words that fit a printed page."""

from __future__ import annotations

from datetime import datetime

from winebench.model.log import Action
from winebench.model.project import Project
from winebench.plan.days import MONTHS
from winebench.plan.outlook import Figure, Outlook, StepOutlook
from winebench.plan.picture_words import picture_words
from winebench.plan.records import noted_words


def day(at: datetime, beside: datetime | None = None) -> str:
    """Return like "9 Oct", with the year where it is not that of `beside`."""
    short = f"{at.day} {MONTHS[at.month - 1][:3]}"
    return short if beside is not None and beside.year == at.year else f"{short} {at.year}"


def month(at: datetime, beside: datetime) -> str:
    """Return like "Oct", with the year where it is not that of `beside`."""
    short = MONTHS[at.month - 1][:3]
    return short if beside.year == at.year else f"{short} {at.year}"


def hour(at: datetime) -> str:
    """Return like "18:30"."""
    return f"{at.hour:02}:{at.minute:02}"


def figure_words(figure: Figure, *, ranged: bool = False) -> str:
    """Return like "12.5 % vol" or, with its range, "12.5 (12.0–13.1) % vol"."""
    if figure.value is None:
        return figure.text
    words = figure.text
    if ranged and figure.low is not None and figure.high is not None and figure.low < figure.high:
        places = len(figure.text.partition(".")[2])
        low, high = f"{figure.low:.{places}f}", f"{figure.high:.{places}f}"
        if low != high:
            words = f"{words} ({low}–{high})"
    return words if figure.text_unit in ("SG", "") else f"{words} {figure.text_unit}"


def step_names(outlook: Outlook) -> dict[str, StepOutlook]:
    """Return the steps by their keys."""
    return {step.key: step for step in outlook.steps}


def step_name(key: str, steps: dict[str, StepOutlook]) -> str:
    """Return what the plan calls the step; an unknown key is its own name."""
    return steps[key].name if key in steps else key.replace("-", " ").capitalize()


def action_words(action: Action, steps: dict[str, StepOutlook], project: Project) -> str:
    """Return all that was written down when it was done, its note, and how many pictures."""
    step = steps.get(action.step)
    parts = noted_words(action, step.record if step else (), project)
    return "; ".join(filter(None, (*parts, action.note.strip(), picture_words(action))))
