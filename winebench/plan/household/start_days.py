"""Which days the must can be made up on so that nothing which cannot wait falls in days away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta

from winebench.model.edits import Change, changed
from winebench.model.project import Project
from winebench.plan.days import day_words, days_words, settled, short_date
from winebench.plan.gravity_forecast import Forecaster, forecaster
from winebench.plan.household.away import on_days_away
from winebench.plan.outlook import Shape
from winebench.plan.steps.fruit_accepted import FRESH_FRUIT_DAYS
from winebench.plan.typed.fields import moment_of
from winebench.plan.typed.when import Hour
from winebench.plan.work_out import outlook

WEEKS, MOST_WEEKS = 6, 52
EVENING = Hour(18, 0)
"""When a must is made up where nobody said: after work (common practice)."""
_MADE_UP = ("sugar-water", "sulfite-must", "enzyme", "pitch")


class Missed(Shape, frozen=True, kw_only=True):
    """A step that cannot wait, and on which days away it falls."""

    step: str
    name: str
    days: tuple[date, ...]


class StartDay(Shape, frozen=True, kw_only=True):
    """What starting on one day would come to."""

    day: date
    start: datetime
    free: bool
    """Whether somebody is there for everything that cannot wait."""
    missed: tuple[Missed, ...] = ()
    sentence: str
    """Like "Free.", or what falls in the days away."""
    fruit: str = ""
    """What to do with the fruit until then; "" where it can simply wait."""


class StartDayError(ValueError):
    """No day to start can be looked for; one sentence."""


def start_days(
    project: Project,
    now: datetime,
    first: date | None = None,
    weeks: int = WEEKS,
    forecaster: Forecaster = forecaster,
) -> Iterator[StartDay]:
    """Give each day from `first` (or today) for so many weeks, as the outlook would see it.

    Raises:
        StartDayError: the must is made up already, the first day has passed, or there are too few
            or too many weeks.
        ValueError: `now` has no offset, or the recipe cannot be worked out.

    """
    done = next((action for action in project.actions if action.step in _MADE_UP), None)
    if done is not None:
        raise StartDayError(
            f"The must was made up on {short_date(done.at)}; its start stands. Ask somebody to "
            "come in for the days away."
        )
    if not 1 <= weeks <= MOST_WEEKS:
        raise StartDayError(f"{weeks} weeks cannot be looked at; ask for 1 to {MOST_WEEKS}.")
    today = now.date()
    begin = first or today
    if begin < today:
        raise StartDayError(
            f"{day_words(_midnight(begin), _midnight(today))} has passed; look from today on."
        )
    for count in range(weeks * 7):
        yield start_day(project, now, begin + timedelta(days=count), forecaster)


def start_day(
    project: Project, now: datetime, day: date, forecaster: Forecaster = forecaster
) -> StartDay:
    """Return what starting on that day, at the project's own hour, would come to."""
    hour = Hour(project.start.hour, project.start.minute) if project.start else EVENING
    start = settled(max(moment_of(day, hour, now), now))  # today it may be late already
    steps = outlook(changed(project, start=start), now, forecaster).steps
    missed = []
    for away in project.away:
        for step in steps:
            days = on_days_away(step, away)
            if days:
                missed.append(Missed(step=step.key, name=step.name, days=days))
    gone = any(away.first <= day <= away.last for away in project.away)
    return StartDay(
        day=day,
        start=start,
        free=not missed and not gone,
        missed=tuple(missed),
        sentence=_sentence(missed, gone),
        fruit=_fruit(project, day, now.date()),
    )


def _midnight(day: date) -> datetime:
    return datetime.combine(day, datetime.min.time())


def start_edit(found: StartDay) -> Change:
    """Return the edit that starts the batch on that day."""
    return Change(label=f"start on {short_date(found.start)}", fields={"start": found.start})


def _sentence(missed: Sequence[Missed], gone: bool) -> str:
    if gone:
        return "You are away that day."
    if not missed:
        return "Free."
    falls = "; ".join(f"{one.name.lower()} ({days_words(one.days)})" for one in missed)
    return f"{falls[0].upper()}{falls[1:]}."


def _fruit(project: Project, day: date, today: date) -> str:
    """Return how the fruit keeps until then: fresh fruit does for a day or two."""
    forms = {fruit.form for fruit in project.fruits}
    if (day - today).days <= FRESH_FRUIT_DAYS:
        return ""
    until = short_date(datetime.combine(day, datetime.min.time()))
    said = []
    if "fresh" in forms:
        said.append(f"Pick or buy the fruit a day or two before {until}, or freeze it until then.")
    if "frozen" in forms:
        said.append(f"Keep the fruit frozen until {until}.")
    return " ".join(said)
