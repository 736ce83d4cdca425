"""Scribbled entries held against the plan as it stood then, and against the other readings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import lru_cache

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note, Reading
from winebench.model.project import Project
from winebench.plan.days import hour_words, settled
from winebench.plan.fallen_since import as_known_since
from winebench.plan.outlook import StepOutlook
from winebench.plan.readings import readings
from winebench.plan.records import noted_words, refused
from winebench.plan.scribbles.shapes import Scribble
from winebench.plan.steps import rules
from winebench.plan.steps.noting import needs_reason, still_held
from winebench.plan.steps.sweeten import KEY as SWEETEN
from winebench.plan.typed.fields import OG_WITHIN, check_against_pitch
from winebench.plan.typed.readings import measured_words
from winebench.plan.work_out import outlook

_LONG_BEFORE = timedelta(days=60)
"""Fruit may be crushed days before its yeast, and frozen weeks before that."""


@dataclass(frozen=True, slots=True)
class Held:
    """What the plan says of a line's deeds."""

    trouble: str = ""
    doubts: tuple[str, ...] = ()
    needed: bool = False
    """Whether the reason given was needed."""


def why_held(
    project: Project,
    entries: tuple[Entry, ...],
    log: list[Entry],
    doubtful: Sequence[Entry] = (),
) -> Held:
    """Return why a step could not be done then, as the log was then, and what is odd about it.

    Of `doubtful`, what other lines tell and are asked about, a step itself opens and repeats
    nothing of its own: a refused bottling is no bottling.
    """
    doubts = []
    needed = False
    so_far = tuple(e for e in (*log, *doubtful) if e.at <= entries[0].at) if entries else ()
    for entry in entries:
        if isinstance(entry, Action):
            of_it = [e for e in doubtful if isinstance(e, Action) and e.step == entry.step]
            sure = tuple(e for e in so_far if e not in of_it)
            step = _step_then(changed(project, log=sure, drafts=()), entry.at, entry.step)
            step = as_known_since(step, project, entry.at)
            unread = refused(entry.records, step.record, project)
            if unread is not None:
                return Held(unread.sentence)
            held = still_held(step, entry.records, project)
            waits = "; ".join(c.text for c in held) or step.reason
            called = _called(step, entry)
            if step.override == "never":
                return Held(f"{called} could not be done then and no reason opens it: {waits}.")
            if needs_reason(step, entry.records, project) and not entry.override:
                return Held(
                    f"{called} was held then ({waits}); if it was done all the same, write why "
                    f'behind "because". {step.unopened}'.rstrip()
                )
            needed = needed or needs_reason(step, entry.records, project)
            if step.state == "done" and not step.repeats and step.done_at is not None:
                doubts.append(
                    f"{step.name} is in the log already, {hour_words(step.done_at, entry.at)}."
                )
        so_far = (*so_far, entry)
    return Held(doubts=tuple(doubts), needed=needed)


def _called(step: StepOutlook, tick: Action) -> str:
    """Return the step's name; where sugar went in that of a sweetening, also of a dry wine."""
    sugared = any(record.name == "grams" for record in tick.records)
    return rules()[SWEETEN].name if step.key == SWEETEN and sugared else step.name


@lru_cache(maxsize=1024)
def _step_then(project: Project, at: datetime, key: str) -> StepOutlook:
    """Return the step as it stood then; typing on asks for the same lines again and again."""
    return next(one for one in outlook(project, at, lambda *_: None).steps if one.key == key)


def step_at(project: Project, at: datetime, key: str) -> StepOutlook:
    """Return the step as it stood then, by what the log holds up to that time.

    What it holds since counts where that shows it to have been dangerous.
    """
    so_far = tuple(entry for entry in project.log if settled(entry.at) <= at)
    then = _step_then(changed(project, log=so_far, drafts=()), at, key)
    return as_known_since(then, project, at)


def why_old(written: str, at: datetime, pitched: datetime | None, *, reading: bool) -> str:
    """Return the question about a day without a year that fell long before the yeast, or ""."""
    before = OG_WITHIN if reading else _LONG_BEFORE
    slip = check_against_pitch(written, at, pitched, before) if written else None
    return slip.sentence if slip else ""


def odd_readings(project: Project, lines: list[Scribble], now: datetime) -> Iterator[Scribble]:
    """Give the lines, each reading with what looks odd about it among all the others."""
    added = tuple(e for s in lines if not s.trouble and not s.known for e in s.entries)
    odd = {
        seen.reading.id: seen.outlook.doubt
        for seen in readings(changed(project, log=project.log + added), settled(now))
    }
    for line in lines:
        doubts = tuple(odd[e.id] for e in line.entries if isinstance(e, Reading) and odd.get(e.id))
        yield replace(line, doubts=(*line.doubts, *doubts)) if doubts and not line.known else line


def entry_words(entry: Entry, project: Project) -> str:
    """Return the entry as the preview shows it."""
    if isinstance(entry, Reading):
        words = [measured_words(entry), entry.note]
    elif isinstance(entry, Note):
        words = [f"Note: {entry.text}"]
    else:
        rule = rules().get(entry.step)  # a file may name a step that is none here
        said = list(noted_words(entry, rule.record if rule else (), project))
        said += [f"done all the same: {entry.override}"] if entry.override else []
        words = [rule.name if rule else entry.step, *said, entry.note]
    return " · ".join(filter(None, words))
