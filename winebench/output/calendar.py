"""The coming steps and chores as an iCalendar file (RFC 5545) for any household calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

from icalendar import Alarm, Calendar, Event, vText

from winebench.model.project import Project
from winebench.output.words import day, hour
from winebench.plan.outlook import Condition, Outlook, StepOutlook

COMING = ("due", "held", "expected", "missed")
TAKES = timedelta(minutes=30)
STEP_WARNING = timedelta(hours=2)
"""Steps ask for clean gear, so they are announced ahead; chores are announced on the hour."""


def calendar_ics(project: Project, outlook: Outlook) -> bytes:
    """Return the calendar of all steps to come; importing it again updates what moved.

    An event stands at the likely time and tells the window in words. What waits for something
    is tentative. Steps are written in UTC, which every calendar turns into its own wall time;
    chores repeat at a wall time of their own, so that a clock change does not move them.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//Winebench//Winebench//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    # Without its type icalendar would not escape the value of a property it does not know.
    calendar.add("x-wr-calname", vText(_name(project)))
    for step in outlook.steps:
        if step.state in COMING:
            for event in _events(step, project, outlook):
                calendar.add_component(event)
    return bytes(calendar.to_ical())


def _events(step: StepOutlook, project: Project, outlook: Outlook) -> Iterator[Event]:
    if not (step.repeats and step.repeat_times):
        if step.likely is not None:
            yield _event(step, project, outlook, _from_now(step.likely, outlook), "")
        return
    # A late chore comes once at its own hour, then at the usual one.
    alone, run = _runs(step.repeat_times)
    for number, at in enumerate(alone):
        part = f"-{number}" if run or number else ""
        yield _event(step, project, outlook, _from_now(at, outlook), part)
    if run:
        yield _chore(step, project, outlook, run)


def _from_now(at: datetime, outlook: Outlook) -> datetime:
    """Return the time in UTC; what should have been done already is for now."""
    return max(at, outlook.at).astimezone(UTC)


def _runs(times: tuple[datetime, ...]) -> tuple[tuple[datetime, ...], tuple[datetime, ...]]:
    """Return the times that stand alone, and the last ones that are equally many days apart."""
    start = len(times) - 1
    while start > 0 and _days(times[start - 1], times[start]) is not None:
        apart = _days(times[start - 1], times[start])
        if start + 1 < len(times) and apart != _days(times[start], times[start + 1]):
            break
        start -= 1
    run = times[start:]
    return (times[:start], run) if len(run) > 1 else (times, ())


def _days(one: datetime, other: datetime) -> int | None:
    """Return how many whole days of wall time lie between, or None where it is no whole number."""
    apart = other.replace(tzinfo=None) - one.replace(tzinfo=None)
    return apart.days if apart.days > 0 and not apart.seconds else None


def _chore(
    step: StepOutlook, project: Project, outlook: Outlook, run: tuple[datetime, ...]
) -> Event:
    wall = [at.replace(tzinfo=None) for at in run]
    event = _event(step, project, outlook, wall[0], "")
    # RFC 5545 3.3.10: UNTIL has the form of DTSTART, here wall time without a zone.
    rule: dict[str, Any] = {"freq": "daily", "until": wall[-1]}
    if (wall[1] - wall[0]).days > 1:
        rule["interval"] = (wall[1] - wall[0]).days
    event.add("rrule", rule)
    return event


def _event(step: StepOutlook, project: Project, outlook: Outlook, at: datetime, part: str) -> Event:
    waits = [condition for condition in step.conditions if not condition.met]
    held = step.state == "held" or bool(waits)
    event = Event()
    event.add("uid", f"{project.id}-{step.key}{part}@winebench")
    event.add("dtstamp", outlook.at.astimezone(UTC))
    event.add("dtstart", at)
    event.add("duration", TAKES)
    name = f"{_name(project)}: {step.name}"
    event.add("summary", f"{name} ({waits[0].waiting})" if waits else name)
    event.add("description", "\n".join(_description(step, waits, outlook)))
    event.add("status", "TENTATIVE" if held else "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    event.add("categories", ["Winebench"])
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", f"{name}. {step.reminder}")
    alarm.add("trigger", timedelta(0) if step.repeats else -STEP_WARNING)
    event.add_component(alarm)
    return event


def _name(project: Project) -> str:
    """Return the batch's name on one line."""
    return " ".join(project.name.split()) or "Fruit wine"


def _description(step: StepOutlook, waits: list[Condition], outlook: Outlook) -> Iterator[str]:
    yield step.reminder
    if step.earliest is not None and step.latest is not None and not step.repeats:
        early, late = (f"{day(t, outlook.at)} {hour(t)}" for t in (step.earliest, step.latest))
        yield f"Not before {early}, best by {late}."
    for wait in waits:
        yield wait.text if wait.is_sentence else f"Waits for: {wait.text}."
    if waits and step.override == "never":
        yield "Do not do it before that, whatever the date says."
    if step.reason:
        yield step.reason
    if step.risk:
        yield f"Left out: {step.risk}"
