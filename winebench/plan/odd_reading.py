"""A reading that can be read and looks odd beside the log: asked about before it is logged."""

from __future__ import annotations

from datetime import datetime

from winebench.model.edits import changed
from winebench.model.log import Reading
from winebench.model.project import Project
from winebench.plan.days import day_words, settled
from winebench.plan.outlook import ReadingOutlook
from winebench.plan.readings import BRIX, HYDROMETER, ROSE, TOO_FAST, readings
from winebench.plan.typed.readings import Question
from winebench.units import Gravity

_LAST_UNTIL = 5
"""Hour up to which a clock time to come is surely that of the evening before."""


def odd(
    reading: Reading, project: Project, now: datetime, written: str, when: str
) -> Question | None:
    """Return what is asked about the reading beside the log's others, or None.

    `written` is its gravity as typed, which may name the hydrometer, `when` its time; a year that
    is written out is meant.
    """
    began = _began(project)
    sure = str(reading.at.year) in f"{written} {when}"
    if not sure and began is not None and settled(reading.at) < began:
        day = day_words(began, settled(now))
        sentence = f"That is before the first step of this batch, {day} at {began:%H:%M}."
        return Question("gravity", f"{sentence} Is the day right?", odd=True)
    seen = seen_beside(reading, project, now)
    if seen is None:
        return None
    if brix_unclear(seen, written):
        return Question("gravity", by_what(seen.raw), f"{written.strip()} refractometer", odd=True)
    if seen.doubt == BRIX and seen.corrected is not None:  # by a hydrometer: is it the gravity?
        in_sg = changed(reading, gravity=Gravity(f"{seen.corrected:.3f}"))
        seen = seen_beside(in_sg, project, now) or seen
    if seen.doubt in (ROSE, TOO_FAST):
        said = seen.sentence.rstrip(".")
        return Question("gravity", f"{said}. {seen.doubt}", odd=True)
    return None


def brix_unclear(seen: ReadingOutlook, written: str) -> bool:
    """Return whether nobody can tell what showed that °Brix; the text may name the hydrometer."""
    return seen.doubt == BRIX and not HYDROMETER.search(written)


def with_instrument(reading: Reading, written: str) -> Reading:
    """Return the reading; a °Brix beside which the hydrometer was named says so in its note."""
    named = HYDROMETER.search(written) and not HYDROMETER.search(reading.note)
    if reading.gravity is None or reading.gravity.scale == "SG" or not named:
        return reading
    return changed(reading, note="; ".join(filter(None, (reading.note, "by a hydrometer"))))


def by_what(written: str) -> str:
    """Return the question what showed a °Brix."""
    return (
        f'"{written.strip()}" after the yeast: was it read by a refractometer? Alcohol misleads '
        'that, so it is kept and is no gravity. By a hydrometer, write "hydrometer" before it.'
    )


def seen_beside(reading: Reading, project: Project, now: datetime) -> ReadingOutlook | None:
    """Return what the reading means beside those of the log, and what looks odd about it."""
    named = changed(reading, id="odd")
    log = tuple(sorted((*project.log, named), key=lambda entry: entry.at))
    log_read = readings(changed(project, log=log), settled(now))
    return next((one.outlook for one in log_read if one.reading.id == "odd"), None)


def _began(project: Project) -> datetime | None:
    """Return when the must was begun: by the first step before the yeast, else as planned."""
    first = min(project.actions, key=lambda tick: tick.at, default=None)
    if first is None:
        return None
    start = settled(project.start) if project.start else None
    return start if first.step == "pitch" else settled(first.at)


def tonight(clock: str, at: datetime, now: datetime) -> str:
    """Return the question about a clock time alone that is still to come today, or ""."""
    if at.date() >= now.date() or now.hour < _LAST_UNTIL:
        return ""
    return f'"{clock}" is still to come today; was it yesterday?'
