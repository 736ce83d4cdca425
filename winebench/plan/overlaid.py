"""Another batch laid over this one by the time since each one's pitch."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from winebench.model.project import Project
from winebench.plan.days import full_day, settled
from winebench.plan.readings import readings
from winebench.plan.steps import rules
from winebench.plan.typed.fields import OG_WITHIN

MILESTONES = ("lift-fruit", "sugar-feed", "transfer", "restart", "second-rack", "third-rack",
              "declare-stable", "stabilise", "sweeten", "bottle")  # fmt: skip
"""Steps by which one batch is held against another."""


class OverlayError(ValueError):
    """Why a batch cannot be laid over another: what is missing and what to do."""


@dataclass(frozen=True, slots=True)
class Moment:
    """A reading or a step done, counted from its own batch's pitch."""

    since_pitch: timedelta
    day: int
    """Calendar days since the pitch."""
    on: str
    """The day it was, like "9 October 2025"."""
    words: str
    """The gravity as read, or the step's name."""


@dataclass(frozen=True, slots=True)
class OtherReading:
    """A gravity of the other batch."""

    moment: Moment
    sg: float
    """Corrected, SG 20/20."""


@dataclass(frozen=True, slots=True)
class OtherBatch:
    """What is shown of a batch that lies over another one: nothing of it can be changed."""

    name: str
    readings: tuple[OtherReading, ...]
    """In order of time; never empty."""
    milestones: tuple[Moment, ...]
    """In order of time."""


def other_batch(project: Project) -> OtherBatch:
    """Return what of that batch can be laid over another, by all that its log holds.

    Raises:
        OverlayError: its yeast was not ticked, or no gravity since can be trusted.

    """
    pitch = next((a for a in project.actions if a.step == "pitch"), None)
    if pitch is None:
        raise OverlayError(
            f"{project.name} has no pitched yeast in its log, so its days cannot be counted; "
            "tick the pitch there first."
        )
    pitched, newest = settled(pitch.at), settled(project.entries[-1].at)
    found = tuple(
        OtherReading(_moment(seen.at, pitched, seen.outlook.raw), seen.sg)
        for seen in readings(project, newest)
        if seen.sg is not None and seen.at >= pitched - OG_WITHIN
    )
    if not found:
        raise OverlayError(
            f"{project.name} has no gravity that could be drawn: log one of its readings first."
        )
    return OtherBatch(project.name, found, _milestones(project, pitched))


def _milestones(project: Project, pitched: datetime) -> tuple[Moment, ...]:
    names = rules()
    done: dict[str, Moment] = {}
    for action in project.actions:
        if action.step in MILESTONES:
            done[action.step] = _moment(settled(action.at), pitched, names[action.step].name)
    return tuple(sorted(done.values(), key=lambda moment: moment.since_pitch))


def _moment(at: datetime, pitched: datetime, words: str) -> Moment:
    days = (at.date() - pitched.date()).days
    return Moment(at - pitched, days, full_day(at), words)


def over_this(moment: Moment, pitch: datetime) -> datetime:
    """Return when it would be in a batch pitched then: both pitches coincide."""
    return settled(pitch) + moment.since_pitch


def in_words(other: OtherBatch) -> str:
    """Return what lies over the batch, as one would tell it."""
    first, last = other.readings[0], other.readings[-1]
    count = len(other.readings)
    read = (
        f"read once, {first.sg:.3f} on day {first.moment.day}"
        if count == 1
        else f"{count} readings, from {first.sg:.3f} on day {first.moment.day} "
        f"to {last.sg:.3f} on day {last.moment.day}"
    )
    steps = "; ".join(f"{each.words.lower()} on day {each.day}" for each in other.milestones)
    told = f"{read}; {steps}" if steps else read
    return f"Laid over it, dashed, by days since the yeast: {other.name}, {told}."
