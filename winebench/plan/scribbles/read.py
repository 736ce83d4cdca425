"""Scribbled lines, read one by one, then put in order of time and held against the plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note, Reading
from winebench.model.project import Project
from winebench.model.recipe import SugarLine
from winebench.plan.measured import STEP as FRUIT
from winebench.plan.odd_reading import brix_unclear, by_what, seen_beside, with_instrument
from winebench.plan.scribbles.answers import (
    asked,
    denied,
    kept,
    slipped,
    to_come,
    unread,
    with_year,
)
from winebench.plan.scribbles.body import offers_for, reading_of
from winebench.plan.scribbles.deeds import IN_WORDS, TABLETS, UNCOUNTED, Deeds, deeds_of
from winebench.plan.scribbles.fruit import fruit_measured
from winebench.plan.scribbles.gates import entry_words, odd_readings, why_held, why_old
from winebench.plan.scribbles.lines import Line, read_lines
from winebench.plan.scribbles.shapes import Offer, Scribble, Scribbles
from winebench.plan.scribbles.sugary import as_sugar, does_it_bring
from winebench.plan.steps.noting import reason_as_note
from winebench.plan.steps.sugar_added import KEY as ADDED
from winebench.plan.steps.sugar_feed import KEY as FEED
from winebench.plan.steps.sweeten import KEY as SWEETEN
from winebench.plan.typed.fields import Scale
from winebench.plan.typed.readings import Question
from winebench.plan.typed.when import DayOrder, day_name
from winebench.units import UnitsError

_WEEK = timedelta(days=7)
MOST_LINES = 400
"""A season's notebook has fewer; more is some other text."""


def scribbles(project: Project, text: str, now: datetime, order: DayOrder = "") -> Scribbles:
    """Return each line of the text beside the entries it makes, or the question about it.

    Days are the latest ones not after `now`; a line without a day has that of the lines above.
    Steps are held against the plan as it stood at the line's own time.

    Raises:
        ValueError: `now` has no offset, or the text has far too many lines.

    """
    if now.utcoffset() is None:
        raise ValueError("The moment needs its offset from UTC.")
    rows = text.splitlines()
    if len(rows) > MOST_LINES:
        raise ValueError(f"These are {len(rows)} lines; {MOST_LINES} at a time can be read.")
    pitched = _first_pitch(project.entries)
    lines = read_lines(rows, now, pitched.date() if pitched else None, order)
    if pitched is None:  # the yeast may stand among the lines: "day 3" counts from there
        pitched = next((line.when.at for line in lines if _tells_of_pitch(line, project)), None)
        if pitched is not None:
            lines = read_lines(rows, now, pitched.date(), order)
    found = list(_in_order(lines, _settled(project, lines, pitched)))
    return Scribbles(
        lines=tuple(odd_readings(project, found, now)),
        order_asked=any(line.when.two_ways for line in lines),
    )


def keep_unread(project: Project, text: str, now: datetime, order: DayOrder = "") -> str:
    """Return the text with each line that cannot be logged kept word for word as a note.

    A line may lean on one before it, as a stirring on the pitch; both are then kept as notes.
    """
    rows = text.splitlines()
    found = scribbles(project, text, now, order)
    while found.open:
        for line in found.open:
            rows[line.number - 1] = line.offers[-1].line
        found = scribbles(project, "\n".join(rows), now, order)
    return "\n".join(rows)


def _first_pitch(entries: tuple[Entry, ...]) -> datetime | None:
    return next((e.at for e in entries if isinstance(e, Action) and e.step == "pitch"), None)


def _tells_of_pitch(line: Line, project: Project) -> bool:
    deeds = deeds_of(line.body, line.masked, lambda _key: False, project)
    return line.when.at is not None and line.note is None and "pitch" in deeds.done


def _settled(project: Project, lines: list[Line], pitched: datetime | None) -> list[Scribble]:
    """Return the lines in the order of the text, each settled in the order of time."""
    log = list(project.log)
    doubtful: list[Entry] = []
    made: dict[int, Scribble] = {}
    for line in lines:
        if line.when.at is None:
            made[line.number] = asked(line, line.when.problem, line.when.offers)
    dated = [line for line in lines if line.when.at is not None]
    # Without hours a day's reading counts for the day's deeds, above or below them in the text.
    order = {line.number: not _only_read(line, project) for line in dated}
    for line in sorted(dated, key=lambda one: (one.when.at, order[one.number], one.number)):
        scribble, entries = _one(project, line, log, doubtful, pitched)
        made[line.number] = scribble
        # What is only asked about still happened, so it holds up nothing after it.
        (doubtful if scribble.trouble else log).extend(entries)
    return [made[line.number] for line in lines]


def _only_read(line: Line, project: Project) -> bool:
    """Return whether the line is a gravity without anything done."""
    return bool(line.body.typed.gravity) and not (
        deeds_of(line.body, line.masked, lambda _key: True, project).done
    )


def _in_order(lines: list[Line], found: list[Scribble]) -> Iterator[Scribble]:
    """Give the lines, a weekday that would stand in order a week before saying so."""
    before: datetime | None = None
    for place, (line, scribble) in enumerate(zip(lines, found, strict=True)):
        at = line.when.at
        after = lines[place + 1].when.at if place + 1 < len(lines) else None
        if line.when.weekly and at and after and at > after >= at - _WEEK:
            week_before = day_name((at - _WEEK).date())
            if before is None or before <= at - _WEEK:
                doubt = f"It is later than the next line; if you mean {week_before}, write that."
                scribble = replace(scribble, doubts=(*scribble.doubts, doubt))
        before = at or before
        yield scribble


def _one(
    project: Project,
    line: Line,
    log: list[Entry],
    doubtful: list[Entry],
    pitched: datetime | None,
) -> tuple[Scribble, tuple[Entry, ...]]:
    """Return what the line makes, and the entries that later lines may build on.

    `log` has what is logged or will be, `doubtful` what earlier lines tell and are asked about.
    """
    at = line.when.at
    assert at is not None
    if line.note is not None:
        note = Note(id=line.entry_id(0), at=at, text=line.note)
        made = kept(line, (note,), log, project) if line.note else asked(line, "It is empty.")
        return made, ()
    if question := slipped(line) or denied(line) or to_come(line):
        return question, ()
    reading = _reading(project, line, at)
    if isinstance(reading, Scribble):
        return reading, ()
    happened = log + doubtful
    deeds = _deeds(project, line, happened, at)
    if deeds.sweet:
        return asked(line, does_it_bring(deeds.sweet), (as_sugar(line.text, deeds.sweet),)), ()
    if problem := unread(line, deeds, has_reading=reading is not None):
        return problem, ()
    if reading is not None and FRUIT not in deeds.done:
        so_far = tuple(entry for entry in happened if entry.at <= at)
        seen = seen_beside(reading, changed(project, log=so_far), at)
        if seen is not None and brix_unclear(seen, line.text):
            return asked(line, by_what(seen.raw), _by_which(line)), ()
    told = _entries(line, deeds, reading, at)
    if isinstance(told, Scribble):
        return told, ()
    entries, doubts = told
    if slip := why_old(line.when.written, at, pitched, reading=reading is not None):
        return asked(line, slip, with_year(line, at)), ()
    scribble = kept(line, entries, log, project)
    scribble = replace(scribble, doubts=(*scribble.doubts, *doubts))
    return _against_plan(project, line, scribble, entries, (log, doubtful)), entries


def _reading(project: Project, line: Line, at: datetime) -> Reading | Scribble | None:
    """Return what the line measures, None where nothing, or the question about it."""
    if line.body.problem:
        return asked(line, line.body.problem)
    if not line.body.measured:
        return None
    scale: Scale = "F" if project.room.fahrenheit else "C"
    answer = reading_of(line.body, at, line.entry_id(0), scale)
    if isinstance(answer, Question):
        return asked(line, answer.sentence, offers_for(answer, line.body, line.masked))
    return answer if answer is None else with_instrument(answer, line.text)


def _by_which(line: Line) -> tuple[Offer, ...]:
    """Return the line with the instrument that showed its °Brix."""
    start, end = line.body.places["gravity"]
    written = line.text[start:end]
    return (
        Offer("By a refractometer", line.masked.replaced(start, end, f"{written} refractometer")),
        Offer("By a hydrometer", line.masked.replaced(start, end, f"hydrometer {written}")),
    )


def _deeds(project: Project, line: Line, happened: list[Entry], at: datetime) -> Deeds:
    """Return what the line tells was done; sugar goes in as the batch stood at that time."""
    before = {e.step for e in happened if isinstance(e, Action) and e.at < at}
    deeds = deeds_of(line.body, line.masked, before.__contains__, project)
    if "stabilise" in before:
        deeds.rename(FEED, SWEETEN)
    elif not keeps_sugar_back(project):
        deeds.rename(FEED, ADDED)
    return deeds


def _entries(
    line: Line, deeds: Deeds, reading: Reading | None, at: datetime
) -> tuple[tuple[Entry, ...], tuple[str, ...]] | Scribble:
    """Return the line's entries and what looks odd about them, or the question about it."""
    if deeds.unclear:
        return asked(line, deeds.unclear)
    doubts = [UNCOUNTED] if deeds.loss else []
    doubts += [TABLETS] if deeds.tablets else []
    doubts += [IN_WORDS.format(words) for words in deeds.in_words if deeds.done]
    if FRUIT in deeds.done:
        try:
            doubts += filter(None, [fruit_measured(deeds.done[FRUIT], reading)])
        except UnitsError as problem:
            return asked(line, str(problem))
        reading = None  # of the juice alone: no gravity of the must
    why = line.body.why
    if why and not deeds.done:
        deeds.notes.append(f"because {why}")
    return deeds.entries(reading, at, line.entry_id, why), tuple(doubts)


def _against_plan(
    project: Project,
    line: Line,
    scribble: Scribble,
    entries: tuple[Entry, ...],
    before: tuple[list[Entry], list[Entry]],
) -> Scribble:
    """Return the line held against the plan as it stood then; what is known already stays.

    `before` is what is logged and what is only told.
    """
    if scribble.known:
        return scribble
    held = why_held(project, entries, *before)
    if held.trouble:
        return asked(line, held.trouble)
    new = _without_idle_reasons(scribble.entries, held.needed)
    what = tuple(entry_words(entry, project) for entry in new)
    return replace(scribble, entries=new, what=what, doubts=scribble.doubts + held.doubts)


def keeps_sugar_back(project: Project) -> bool:
    """Return whether part of the recipe's sugar is to go in later."""
    lines = project.recipe.lines
    return any(isinstance(line, SugarLine) and line.when == "feed" for line in lines)


def _without_idle_reasons(entries: tuple[Entry, ...], needed: bool) -> tuple[Entry, ...]:
    """Return the entries; a reason that no gate asked for is a note, not an override."""
    if needed:
        return entries
    return tuple(reason_as_note(one) if isinstance(one, Action) else one for one in entries)
