"""What somebody who comes in meanwhile has to know: each day in two lines, and when to telephone.

The words are for a person who makes no wine: look, stir, smell, cover. Every step that wants
judgement is left to the maker, by telephone. All of it is common practice.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal

from winebench.model.project import Project
from winebench.plan.customary import household
from winebench.plan.household.away import OPEN_STATES
from winebench.plan.outlook import Outlook, Shape, StepOutlook
from winebench.plan.spoken import spoken

Phase = Literal["must", "pail", "glass", "bottles"]
DAYS_WITHOUT_TRIP = 7
MOST_DAYS = 42
_BY_ANYBODY = {
    "sign-of-life": "Is there foam, a cap of fruit or a hiss? Write down yes or no.",
    "lift-fruit": "Clean hands; let it drip, do not wring it; no more stirring.",
    "upright": "Leave the bottles standing; look for a drip under each cork.",
    "lie-down": "Lay the bottles on their sides in the dark.",
}
"""What a stand-in can do alone, beside the stirring, and how."""
_STIR_HOW = "Clean spoon, down to the bottom; smell it; lid back on loosely."
_LOOK: dict[Phase, tuple[str, str]] = {
    "must": ("Only look", "Is the lid on, loosely? Then leave it alone."),
    "pail": ("Only look", "Is the lid on, loosely? Nothing runs over or leaks? Then leave it."),
    "glass": (
        "Only look",
        "Is there water in the lock? If it is low, fill it up.",
    ),
    "bottles": ("Nothing to do", "No bottle leaks and no cork rises? Then leave them."),
}
_NORMAL: dict[Phase, str] = {
    "must": "Still, sweet and fruity; perhaps a whiff of struck matches.",
    "pail": "Foam, hissing, fruit that floats up again; a smell of bread, fruit and young wine; "
    "quieter from day to day.",
    "glass": "A bubble now and then, or none for a while; a layer of mud at the bottom.",
    "bottles": "Nothing happens at all.",
}
_CALL: dict[Phase, str] = {
    "must": "Fur or spots on the fruit",
    "pail": "White, green or black fur on the fruit; a smell of vinegar, nail varnish or rotten "
    "eggs; foam that runs over; a pail that feels warm (over 30 °C), or is silent from one day to "
    "the next",
    "glass": "Foam in the lock; a lock that ran dry; a skin on the wine; a smell of vinegar",
    "bottles": "A cork that rises, a bottle that leaks (stay away from it: it may burst)",
}
_SULFITE = "Sulfite (white powder, tablets, a sharp smell): not for people with asthma."
_WHILE_OPEN = (
    "The gas takes the place of air: open a window first, never put your head over the pail, and "
    "go out at once if you feel dizzy.",
    _SULFITE,
    "Never shut a lid or a bottle tight. Keep children and animals away. It is no wine yet: do "
    "not taste it.",
)
_MIND: dict[Phase, tuple[str, ...]] = {
    "must": _WHILE_OPEN,
    "pail": _WHILE_OPEN,
    "glass": (
        "The gas takes the place of air: open a window first, and go out at once if you feel "
        "dizzy.",
        _SULFITE,
        "Never shut a lid or a bottle tight: the lock stays on. Do not lift or shift a full jug. "
        "Keep children and animals away. It is no wine yet: do not taste it.",
    ),
    "bottles": (
        "A bottle that ferments again can burst: stay away from one that leaks or whose cork "
        "rises, and keep children and animals away from all of them.",
        "Do not shake or warm them, and open none.",
    ),
}


class StandInDay(Shape, frozen=True, kw_only=True):
    """One day in two lines."""

    day: date
    hour: str = ""
    """About when, like "18:30"; "" where any hour will do."""
    todo: str
    how: str
    call: str = ""
    """Why the maker is to be telephoned before anything is done, or ""."""


class StandIn(Shape, frozen=True, kw_only=True):
    """The whole half page."""

    first: date
    last: date
    days: tuple[StandInDay, ...]
    normal: str
    """What is as it should be."""
    call: str
    """When to telephone."""
    title: str
    """Like "For whoever stirs meanwhile"."""
    mind: tuple[str, ...]
    """What could hurt somebody."""


class StandInError(ValueError):
    """No page for those days; one sentence."""


def stand_in(
    project: Project, outlook: Outlook, first: date | None = None, last: date | None = None
) -> StandIn:
    """Return the page for those days: by default the next days away, or the coming week.

    Raises:
        StandInError: the last day comes before the first, or there are too many.

    """
    begin, end = _span(project, outlook, first, last)
    if end < begin:
        raise StandInError(f"{end:%Y-%m-%d} comes before {begin:%Y-%m-%d}; check the days.")
    if (end - begin).days >= MOST_DAYS:
        raise StandInError(f"At most {MOST_DAYS} days fit; ask for fewer.")
    days = [begin + timedelta(days=count) for count in range((end - begin).days + 1)]
    phase = phase_on(outlook, begin)
    return StandIn(
        first=begin,
        last=end,
        days=tuple(_day(outlook, day, phase) for day in days),
        normal=_NORMAL[phase],
        title=f"For whoever {'stirs' if phase in ('must', 'pail') else 'looks in'} meanwhile",
        mind=_MIND[phase],
        call=f"{spoken(_CALL[phase], household(project))}; and whenever you are not sure.",
    )


def _span(
    project: Project, outlook: Outlook, first: date | None, last: date | None
) -> tuple[date, date]:
    today = outlook.at.date()
    trips = sorted((a.first, a.last) for a in project.away if a.last >= today)
    if first is None and last is None and trips:
        return max(trips[0][0], today), trips[0][1]
    begin = first or today
    return begin, last or begin + timedelta(days=DAYS_WITHOUT_TRIP - 1)


def phase_on(outlook: Outlook, day: date) -> Phase:
    """Return what the wine is in when the maker leaves: nobody else moves it on."""
    steps = {step.key: step for step in outlook.steps}
    if _before(steps["bottle"], day):
        return "bottles"
    if _before(steps["transfer"], day) and not _fruit_overdue(outlook):
        return "glass"
    return "pail" if _before(steps["pitch"], day) else "must"


def _before(step: StepOutlook, day: date) -> bool:
    """Return whether the step is done, or lies before that day in the plan."""
    if step.done_at is not None:
        return True
    return step.state in OPEN_STATES and step.likely is not None and step.likely.date() < day


def _fruit_overdue(outlook: Outlook) -> bool:
    """Return whether the fruit should be out by now and is not: it is stirred until it is."""
    lift = next(step for step in outlook.steps if step.key == "lift-fruit")
    late = lift.likely is not None and lift.likely.date() < outlook.at.date()
    return lift.state in OPEN_STATES and (late or lift.state == "missed")


def _day(outlook: Outlook, day: date, phase: Phase) -> StandInDay:
    todo, how, calls = [], [], []
    hour = ""
    for step in outlook.steps:
        if step.state not in OPEN_STATES:
            continue
        if step.key == "stir":
            times = [at for at in step.repeat_times if at.date() == day]
            if times or _fruit_overdue(outlook):
                usual = bool(times) and times[0] > outlook.at  # overdue, it is the minute of asking
                hour = f"{times[0].hour:02}:{times[0].minute:02}" if usual else ""
                todo.append(step.name)
                how.append(_STIR_HOW)
        elif step.likely is not None and step.likely.date() == day and not step.repeats:
            if step.key in _BY_ANYBODY:
                todo.append(step.name)
                how.append(_BY_ANYBODY[step.key])
            elif step.slip_class != "later":
                calls.append(_lower(step.name))
    if not todo:
        look, look_how = _LOOK[phase]
        todo, how = [look], [look_how]
    return StandInDay(
        day=day,
        hour=hour,
        todo="; ".join([todo[0], *(_lower(one) for one in todo[1:])]),
        how=" ".join(how),
        call=f"Telephone me first: {' and '.join(calls)} may fall due today." if calls else "",
    )


def _lower(words: str) -> str:
    return f"{words[:1].lower()}{words[1:]}"
