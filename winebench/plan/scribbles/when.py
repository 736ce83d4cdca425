"""The day and the hour of one scribbled line."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from winebench.plan.days import WEEKDAYS, settled
from winebench.plan.scribbles.masked import Masked
from winebench.plan.scribbles.shapes import Offer
from winebench.plan.typed.fields import moment_of
from winebench.plan.typed.when import (
    CLOCK,
    DAY,
    NOON,
    PART,
    DayOrder,
    Hour,
    day_name,
    days_meant,
    hour_meant,
    part_hour,
)

_NAMES = [name.lower() for name in (*WEEKDAYS, *(day[:3] for day in WEEKDAYS))]
_NAMES += ["yesterday", "today"]
_WORD = re.compile(r"[a-z]{3,}", re.ASCII)
COMING = re.compile(
    r"(?:on |by |from |the )?(?:day after )?(?:tomorrow|next (?:week|weekend|month|year|"
    r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?)"
    r"|in (?:an?|\d+|two|three|four) (?:hour|day|week|month)s?)"
    r"(?: (?:morning|noon|afternoon|evening|night))?\b",
    re.ASCII,
)
"""A day that nothing can have happened on yet."""
_ON = re.compile(r"on\s+(?=[a-z])", re.ASCII)
_NOW = re.compile(r"(?:just |right )?now\b(?=[ ,:]*\d)", re.ASCII)
_CLOSE = 0.66
"""One letter out of three to five may be wrong or misplaced."""


@dataclass(frozen=True, slots=True)
class When:
    """When a line happened, or why nobody can tell."""

    at: datetime | None = None
    day: date | None = None
    written: str = ""
    """The day as the line has it; "" where it is that of the lines above."""
    problem: str = ""
    offers: tuple[Offer, ...] = ()
    two_ways: bool = False
    """Whether day and month can be told apart in no way."""
    weekly: bool = False
    """Whether only a weekday is written."""


def read_when(
    line: Masked,
    now: datetime,
    above: date | None,
    pitched: date | None = None,
    order: DayOrder = "",
) -> When:
    """Read the line's day and hour and cover them; without a day it is that of the lines above."""
    if coming := _coming(line):
        return coming
    if found := _NOW.match(line.left, line.first()):
        written = line.cover(*found.span())
        return When(at=settled(now), day=now.date(), written=written)
    if asked := _on_a_weekday(line, now.date()):
        return asked
    days = _days(line, now.date(), pitched, order)
    if coming := _coming(line):
        return coming
    hour = _hour(line)
    if isinstance(days, When):
        return days
    if isinstance(hour, When):
        return hour
    day, written, weekly = days
    if day is None:
        return _without_day(line, now, above, hour)
    part = PART.search(written.lower())  # "last night" is a day and an hour
    return _at(day, hour or (part_hour(part) if part else None), now, written, weekly)


def _coming(line: Masked) -> When | None:
    """Return that the day which the line begins with is still to come, else None."""
    found = COMING.match(line.left, line.first())
    if found is None:
        return None
    words = line.text[slice(*found.span())]
    return When(problem=f"{words[0].upper()}{words[1:]} is still to come; log it then.")


def _on_a_weekday(line: Masked, today: date) -> When | None:
    """Return the question whether "on Friday" is behind or still to come, else None."""
    on = _ON.match(line.left, line.first())
    found = DAY.match(line.left, on.end()) if on else None
    if on is None or found is None or not found["weekday"] or found["last"]:
        return None
    full = day_name(days_meant(found, today)[0])
    words = line.text[on.start() : found.end()]
    return When(
        problem=f'"{words}" may be still to come; log it then. If it was {full}, write that.',
        offers=(Offer(f"It was {full}", line.replaced(on.start(), found.end(), full)),),
    )


def _at(day: date, hour: Hour | None, now: datetime, written: str, weekly: bool) -> When:
    moment = moment_of(day, hour or Hour(*NOON), now)
    if hour is None and day == now.date():
        moment = min(moment, now)
    if moment > now and weekly:
        day -= timedelta(days=7)
        moment = moment_of(day, Hour(moment.hour, moment.minute), now)
    if moment > now:
        said = f"{day_name(day)} {moment.hour:02}:{moment.minute:02}"
        return When(problem=f"{said} is still to come; log it then, or check the day.")
    return When(at=settled(moment), day=day, written=written, weekly=weekly)


def _without_day(line: Masked, now: datetime, above: date | None, hour: Hour | None) -> When:
    slip = misspelt(line)
    if slip is not None:
        return slip
    if above is not None:
        return _at(above, hour, now, "", False)
    today = Offer("Today", f"today {line.text.strip()}")
    return When(
        problem="It names no day; write one before it, such as Mon, 3 Nov or yesterday.",
        offers=(today, _yesterday(line)),
    )


def _yesterday(line: Masked) -> Offer:
    return Offer("Yesterday", f"yesterday {line.text.strip()}")


def misspelt(line: Masked) -> When | None:
    """Return a question where what is left begins with nearly the name of a day, else None."""
    start = line.first()
    word = _WORD.match(line.left, start)
    if word is None or word[0] in _NAMES:
        return None
    near = difflib.get_close_matches(word[0], _NAMES, 1, _CLOSE)
    follows = line.left[word.end() :].lstrip(" ,:")[:1]
    # Half of all words resemble some day: only before a number, or when nearly all letters fit.
    sure = near and difflib.SequenceMatcher(None, word[0], near[0]).ratio() >= 0.8
    if not near or not (sure or (follows.isdigit() and abs(len(word[0]) - len(near[0])) <= 1)):
        return None
    meant = near[0].capitalize()
    return When(
        problem=f'"{line.text[word.start() : word.end()]}" is no day. Did you mean "{meant}"?',
        offers=(Offer(meant, line.replaced(*word.span(), meant)),),
    )


def _days(
    line: Masked, today: date, pitched: date | None, order: DayOrder
) -> tuple[date | None, str, bool] | When:
    """Return the one day that the line names with its words, or the question about it."""
    matches = _day_matches(line)
    if not matches:
        return None, "", False
    covered = [line.cover(*found.span()) for found in matches]
    meant = [days_meant(found, today, pitched, order) for found in matches]
    written = " ".join(covered).strip(" .,")
    for found, days, words in zip(matches, meant, covered, strict=True):
        if not days:
            return When(problem=_no_day(found, words))
    if len(matches) == 2:
        return _both(line, matches, meant, written)
    if len(meant[0]) == 2:
        return _two_ways(line, matches[0], meant[0])
    return meant[0][0], written, bool(matches[0]["weekday"])


def _no_day(found: re.Match[str], words: str) -> str:
    if found["count"]:
        return (
            f'"{words}" counts from the yeast, and no pitch is logged or stands in these lines; '
            "write the date."
        )
    return f'"{words.strip()}" is no day; check it, or write it such as 3 Nov.'


def _both(
    line: Masked, matches: list[re.Match[str]], meant: list[tuple[date, ...]], written: str
) -> tuple[date | None, str, bool] | When:
    """Return the date beside a weekday, "Tue 3/11", where both fit together."""
    named, dated = (0, 1) if matches[0]["weekday"] else (1, 0)
    weekday = meant[named][0].weekday()
    fitting = [day for day in meant[dated] if day.weekday() == weekday]
    if len(fitting) == 1:
        return fitting[0], written, False
    if len(fitting) == 2:
        return _two_ways(line, matches[dated], meant[dated])
    said = " or ".join(day_name(day) for day in meant[dated])
    offers = tuple(
        Offer(day_name(day), line.replaced(matches[0].start(), matches[1].end(), day_name(day)))
        for day in meant[dated]
    )
    problem = f'"{written}" does not fit together: that is {said}; check the day.'
    return When(problem=problem, offers=offers)


def _two_ways(line: Masked, found: re.Match[str], days: tuple[date, ...]) -> When:
    names = [day_name(day).partition(" ")[2] for day in days]
    written = line.text[found.start() : found.end()]
    return When(
        problem=f'"{written}" could be {names[0]} or {names[1]}; which is it?',
        offers=tuple(Offer(name, line.replaced(*found.span(), name)) for name in names),
        two_ways=True,
    )


def _day_matches(line: Masked) -> list[re.Match[str]]:
    """Return the day at the line's beginning, a date beside its weekday, or a day at its end."""
    found = DAY.match(line.left, line.first())
    if found is not None:
        behind = DAY.match(line.left, _past(line.left, found.end()))
        beside = behind is not None and bool(found["weekday"]) != bool(behind["weekday"])
        return [found, behind] if behind is not None and beside else [found]
    end = len(line.left.rstrip(" .,;"))
    for found in DAY.finditer(line.left):
        if found.end() >= end and line.left[: found.start()].endswith((" ", ",")):
            return [found]
    return []


def _past(text: str, start: int) -> int:
    return start + len(text[start:]) - len(text[start:].lstrip(" ,(.-"))


def _hour(line: Masked) -> Hour | When | None:
    """Return the hour, None where none is written, or that a day has no such hour."""
    clock = line.take(CLOCK)
    if clock is not None:
        return hour_meant(clock) or When(
            problem="A day has no such hour; write one such as 18:30 or 8am."
        )
    part = line.take(PART)
    return part_hour(part) if part is not None else None
