"""The card's steps: done with their day, coming with their window, held with what for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from winebench.output.canvas import INK, MUTED, Canvas
from winebench.output.flow import BODY_MM, LEADING, SMALL_MM, Cell, Row, heading, table_row
from winebench.output.words import day, month
from winebench.plan.outlook import Outlook, StepOutlook

Say = Callable[[datetime, datetime], str]

_SHARES = (44, 34)
_ROUGH = timedelta(days=31)
"""A window longer than this is told by its months."""
MARK_MM = 4.2


def step_rows(outlook: Outlook, width: float) -> list[Row]:
    """Return the steps that this batch needs, each with a box to tick, in the order of their days.

    What was done comes first, and what has no day yet last.
    """
    rows = [
        _marked(step, table_row(_cells(step, outlook), _SHARES, width - MARK_MM))
        for step in sorted(outlook.steps, key=_by_day)
        if step.state != "skipped"
    ]
    return [heading("Steps"), *rows] if rows else []


def _by_day(step: StepOutlook) -> tuple[int, float]:
    at = step.done_at if step.state == "done" else step.likely
    if at is None:
        return (2, 0.0)
    return (0 if step.state == "done" else 1, at.timestamp())


def _cells(step: StepOutlook, outlook: Outlook) -> tuple[Cell, Cell]:
    held = [condition.waiting for condition in step.conditions if not condition.met]
    name = step.name
    if step.state == "held" and held:
        name += f" – {held[0]}"
        name += f" (and {len(held) - 1} more)" if len(held) > 1 else ""
    ink = MUTED if step.state == "done" else INK
    return Cell(name, ink=ink), Cell(step_days(step, outlook), size=SMALL_MM, side="right", ink=ink)


def step_days(step: StepOutlook, outlook: Outlook) -> str:
    """Return like "done 2 Oct", "9 Oct (8–12 Oct)", "late, by 4 Oct" or "no date yet"."""
    if step.state == "done" and step.done_at is not None:
        return f"done {day(step.done_at, outlook.at)}"
    if step.likely is None or step.earliest is None or step.latest is None:
        return "no date yet"
    if step.state == "missed":
        return f"late, was due by {day(step.latest, outlook.at)}"
    say = month if step.latest - step.earliest > _ROUGH else day
    likely = say(step.likely, outlook.at)
    window = _window(step.earliest, step.latest, outlook.at, say)
    # A window that begins with the likely day says it all.
    return window if likely == say(step.earliest, outlook.at) else f"{likely} ({window})"


def _window(early: datetime, late: datetime, now: datetime, say: Say) -> str:
    """Return like "7–10 Oct", "30 Sep–2 Oct", "Dec–Mar 2027" or "9 Oct"."""
    end = say(late, now)
    if say(early, now) == end:
        return end
    if say is day and (early.year, early.month) == (late.year, late.month):
        return f"{early.day}–{end}"
    return f"{say(early, late if early.year == late.year else now)}–{end}"


def _marked(step: StepOutlook, row: Row) -> Row:
    """Return the row with a box before it, ticked where the step is done."""

    def draw(canvas: Canvas, x: float, y: float, width: float) -> None:
        row.draw(canvas, x + MARK_MM, y, width - MARK_MM)
        top = y + 0.3 + BODY_MM * (LEADING - 1.0) / 2
        canvas.box((x + 0.2, top), (2.2, 2.2), ink=INK, width=0.2)
        if step.state == "done":
            tick = ((x + 0.6, top + 1.1), (x + 1.1, top + 1.7), (x + 2.1, top + 0.4))
            canvas.path(tick, INK, 0.4)

    return Row(row.height, draw)
