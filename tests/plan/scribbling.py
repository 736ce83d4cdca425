"""Lines of a notebook for the tests of what is scribbled: one line, and what it makes."""

from __future__ import annotations

from datetime import datetime

from tests.plan.damson import PITCHED, at, damson
from winebench.model.log import Action, Reading
from winebench.plan.scribbles import Scribble, scribbles

NOW = at("2026-10-09T20:00")  # a Friday


def one(text: str, *log, now: datetime = NOW, order="") -> Scribble:
    (line,) = scribbles(damson(*(log or PITCHED)), text, now, order).lines
    return line


def entries(text: str, *log, now: datetime = NOW) -> tuple:
    line = one(text, *log, now=now)
    assert line.trouble == "", line.trouble
    return line.entries


def reading(text: str, **more) -> Reading:
    (found,) = entries(text, **more)
    assert isinstance(found, Reading)
    return found


def records(action: Action) -> dict[str, str]:
    return {record.name: record.value for record in action.records}
