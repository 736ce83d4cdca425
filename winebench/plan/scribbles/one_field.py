"""A reading written in one field as people say it: "1,038 72F" or "1.038 at 72F, yesterday 8pm"."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import datetime

from winebench.model.log import Reading
from winebench.model.project import Project
from winebench.plan.odd_reading import odd, tonight, with_instrument
from winebench.plan.scribbles.body import Body, offers_for, read_body, take_because
from winebench.plan.scribbles.deeds import EMPTY
from winebench.plan.scribbles.masked import Masked
from winebench.plan.scribbles.slipped import mistyped
from winebench.plan.scribbles.when import misspelt
from winebench.plan.typed.fields import Scale, Slip, read_gravity
from winebench.plan.typed.readings import Place, Question, TypedReading, reading_from
from winebench.plan.typed.when import CLOCK, DAY, PART, part_hour

_NUMBER = re.compile(r"\s*[\d.,]*\s*", re.ASCII)
_STARTS = re.compile(r"(?<![^\s,;])[a-z0-9]", re.ASCII)
_TWICE: tuple[tuple[Place, str], ...] = (
    ("temperature", "temperature"),
    ("time", "time"),
    ("ph", "pH"),
    ("acid", "acidity"),
)


def example(scale: Scale) -> str:
    """Return a reading written in one field, for whoever wants to see how."""
    return f"1.038 {'72F' if scale == 'F' else '22C'} yesterday 8pm"


def typed_reading(
    typed: TypedReading,
    entry_id: str,
    now: datetime,
    scale: Scale,
    pitched: datetime | None = None,
    project: Project | None = None,
    *,
    sure: bool = False,
) -> Reading | Question:
    """Return the reading typed, or the first question about it, as `reading_from` does.

    What stands beside the gravity in its field is read as if it stood in its own. What looks odd
    beside the log of `project` is asked about too, unless whoever typed it is `sure`.
    """
    answer = _typed(typed, entry_id, now, scale, pitched)
    if isinstance(answer, Question):
        return answer
    answer = with_instrument(answer, typed.gravity)
    if project is None:
        return answer
    if question := _yesterday(typed, answer, now):
        return question
    return (None if sure else odd(answer, project, now, typed.gravity, typed.time)) or answer


def _yesterday(typed: TypedReading, reading: Reading, now: datetime) -> Question | None:
    """Return the question about a clock time alone that lies ahead: it is taken for yesterday's."""
    place: Place = "time" if typed.time.strip() else "gravity"
    text = getattr(typed, place).strip()
    clock = text if place == "time" else _take_time(Masked(text))
    if not clock or CLOCK.sub("", clock.lower()).strip(" ,"):
        return None
    sentence = tonight(clock, reading.at, now)
    return Question(place, sentence, f"{text} yesterday", odd=True) if sentence else None


def _typed(
    typed: TypedReading,
    entry_id: str,
    now: datetime,
    scale: Scale,
    pitched: datetime | None,
) -> Reading | Question:
    text = typed.gravity
    if _NUMBER.fullmatch(text) or not isinstance(read_gravity(text, typed.instrument), Slip):
        return reading_from(typed, entry_id, now, scale, pitched)
    line = Masked(text)
    if slip := mistyped(line):
        return Question(
            "gravity",
            f'"{text.strip()}" has a letter among its digits. Did you mean "{slip.meant}"?',
            line.replaced(slip.start, slip.end, slip.meant),
        )
    why = take_because(line)
    time = _take_time(line)
    body = read_body(line)
    body.why = why
    if not body.typed.gravity and body.typed.clear is None:
        return reading_from(typed, entry_id, now, scale, pitched)
    if question := _unclear(line, body, f"Write it like {example(scale)}."):
        return question
    found = replace(body.typed, time=time, note=_words(line, body))
    for place, name in _TWICE:
        here, there = getattr(found, place), getattr(typed, place)
        if here.strip() and there.strip():
            return Question(
                place, f'The {name} stands twice, "{here}" and "{there}"; take one out.'
            )
    answer = reading_from(_together(typed, found), entry_id, now, scale, pitched)
    if isinstance(answer, Question) and (getattr(found, answer.place)):
        offers = offers_for(answer, body, line)
        return Question("gravity", answer.sentence, offers[0].line if offers else "")
    return answer


def _take_time(line: Masked) -> str:
    """Cover the day and the hour and return them as the field of the time has them."""
    parts = []
    for start in [found.start() for found in _STARTS.finditer(line.left)]:
        day = DAY.match(line.left, start)
        if day is not None:
            parts.append(line.cover(*day.span()))
            break
    clock = line.take(CLOCK)
    if clock is not None:
        return " ".join((*parts, line.text[slice(*clock.span())]))
    part = PART.search(parts[0].lower()) if parts else None
    part = part or line.take(PART)
    if part is None:
        return " ".join(parts)
    hour = part_hour(part)
    days = ("yesterday" if word.lower().startswith("last") else word for word in parts)
    days = ("today" if PART.search(word.lower()) else word for word in days)
    return " ".join((*days, f"{hour.hour}:{hour.minute:02}"))


def _unclear(line: Masked, body: Body, like: str) -> Question | None:
    """Return the question about what is left of the field and cannot be told."""
    if body.problem:
        return Question("gravity", f"{body.problem.partition(';')[0]}. {like}")
    slip = misspelt(line)
    if slip is not None:
        return Question("gravity", slip.problem, slip.offers[0].line)
    words = _words(line, body)
    if "tomorrow" in words.lower():
        return Question("gravity", "Tomorrow is still to come; log it then.")
    if any(letter.isdigit() for letter in words.partition("because")[0]):
        return Question("gravity", f'What "{words}" means cannot be told. {like}')
    return None


def _words(line: Masked, body: Body) -> str:
    said = (line.text[start:end] for start, end in body.clauses)
    words = [one for one in said if one.lower() not in EMPTY and any(map(str.isalnum, one))]
    return ", ".join((*words, *([f"because {body.why}"] if body.why else [])))


def _together(typed: TypedReading, found: TypedReading) -> TypedReading:
    """Return what stands in the fields, with what the one field says of them."""
    refractometer = "refractometer" in (typed.instrument, found.instrument)
    return replace(
        typed,
        gravity=found.gravity,
        temperature=found.temperature or typed.temperature,
        time=found.time or typed.time,
        instrument="refractometer" if refractometer else "hydrometer",
        ph=found.ph or typed.ph,
        acid=found.acid or typed.acid,
        degassed=typed.degassed or found.degassed,
        clear=typed.clear if found.clear is None else found.clear,
        note=", ".join(filter(None, (typed.note.strip(), found.note))),
    )
