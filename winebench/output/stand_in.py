"""A half page for whoever stirs meanwhile: to be cut off and laid beside the pail."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtGui import QPagedPaintDevice

from winebench.model.project import Project
from winebench.output.canvas import FAINT, FRUIT, INK, MUTED, RULE, Canvas
from winebench.output.flow import LEADING, Row, height_of
from winebench.output.fonts import text_width, wrapped
from winebench.output.pages import save_pdf
from winebench.output.words import day as short_day
from winebench.plan.days import WEEKDAYS
from winebench.plan.household.stand_in import StandIn, StandInDay, stand_in
from winebench.plan.outlook import Outlook

MARGIN_MM = 10.0
TITLE_MM, TODO_MM, HOW_MM = 4.8, 3.1, 2.7
_SMALL_MM = 2.1
BOX_MM = 4.2
_DAY_MM = 22.0
_WRITE_MM = 26.0
_SIDE_SHARE = 0.34
_GAP_MM = 6.0
_TO_WRITE = ("From", "Telephone", "It stands")
_AIR, _LITTLE_AIR = (1.2, 1.4), (0.6, 0.5)
"""What stands above and below a day's words, mm; the little where that saves a half page."""


def stand_in_pdf(
    path: Path,
    project: Project,
    outlook: Outlook,
    paper: str,
    first: date | None = None,
    last: date | None = None,
) -> None:
    """Write the half page to a PDF on "A4" or "Letter".

    Raises:
        StandInError: days that make no page.
        OutputError: no such paper, or a file that cannot be written.

    """
    page = stand_in(project, outlook, first, last)
    title = f"{project.name}: {page.title[:1].lower()}{page.title[1:]}"
    save_pdf(path, paper, title, lambda device: paint_stand_in(device, project, page))


def paint_stand_in(device: QPagedPaintDevice, project: Project, page: StandIn) -> None:
    """Draw the half pages on the device's own paper, two on a sheet where the days want it.

    Raises:
        OutputError: the device cannot be drawn on.

    """
    with Canvas(device) as canvas:
        half = canvas.height / 2
        width = canvas.width - 2 * MARGIN_MM
        left = (width - _GAP_MM) * (1.0 - _SIDE_SHARE)
        rest: list[Row] = []
        drawn = 0
        while rest or not drawn:
            if drawn and drawn % 2 == 0:
                canvas.new_page()
            top = half * (drawn % 2)
            if drawn % 2 == 0:
                _paint_cut(canvas, half)
            y = _paint_head(canvas, top + MARGIN_MM, project, page)
            _paint_side(canvas, (MARGIN_MM + left + _GAP_MM, y), width - left - _GAP_MM, page)
            top_row = _write_row()
            top_row.draw(canvas, MARGIN_MM, y, left)
            y += top_row.height
            room = top + half - MARGIN_MM - y
            if not drawn:
                rest = _rows(page, left, room)
            count = _fitting(rest, room)
            for row in rest[:count]:
                row.draw(canvas, MARGIN_MM, y, left)
                y += row.height
            rest = rest[count:]
            drawn += 1


def _rows(page: StandIn, width: float, room: float) -> list[Row]:
    """Return the days' rows, nearer to each other where all of them then fit one half page."""
    airy, near = ([_day_row(day, width, air) for day in page.days] for air in (_AIR, _LITTLE_AIR))
    return near if height_of(near) <= room < height_of(airy) else airy


def _fitting(rows: list[Row], room: float) -> int:
    count = 0
    while count < len(rows) and height_of(rows[: count + 1]) <= room:
        count += 1
    return max(count, 1)


def _day_row(day: StandInDay, width: float, air: tuple[float, float]) -> Row:
    """Return the day's row: a box to tick, what to do, how, and room to write."""
    above, below = air
    room = width - BOX_MM - 2.0 - _DAY_MM
    todo = wrapped(day.todo, room - _WRITE_MM, TODO_MM, True)
    call = wrapped(day.call, room, HOW_MM, True)
    lines = [*call, *wrapped(day.how, room, HOW_MM)]
    height = above + len(todo) * TODO_MM * LEADING + len(lines) * HOW_MM * LEADING + below

    def draw(canvas: Canvas, x: float, y: float, whole: float) -> None:
        base = y + above + TODO_MM
        canvas.box((x, base - TODO_MM * 0.86), (BOX_MM, BOX_MM), ink=INK, width=0.3)
        at, words = x + BOX_MM + 2.0, x + BOX_MM + 2.0 + _DAY_MM
        canvas.text(at, base, _day_words(day.day), TODO_MM)
        canvas.line((x + whole - _WRITE_MM, base + 0.8), (x + whole, base + 0.8), RULE, 0.2)
        for line in todo:
            canvas.text(words, base, line, TODO_MM, bold=True)
            base += TODO_MM * LEADING
        if day.hour:
            canvas.text(at, base, f"about {day.hour}", HOW_MM, ink=MUTED)
        for number, line in enumerate(lines):
            calls = number < len(call)
            canvas.text(words, base, line, HOW_MM, bold=calls, ink=FRUIT if calls else INK)
            base += HOW_MM * LEADING
        canvas.line((x, y + height), (x + whole, y + height), FAINT, 0.15)

    return Row(height, draw)


def _write_row() -> Row:
    """Return the small words over the lines to write on."""

    def draw(canvas: Canvas, x: float, y: float, width: float) -> None:
        canvas.text(x, y + 2.6, "done", _SMALL_MM, ink=MUTED)
        start = x + width - _WRITE_MM
        canvas.text(start, y + 2.6, "hour, smell, odd things", _SMALL_MM, ink=MUTED)

    return Row(2.8, draw)


def _day_words(day: date) -> str:
    at = datetime(day.year, day.month, day.day)
    return f"{WEEKDAYS[day.weekday()][:3]} {short_day(at, at)}"


def _paint_cut(canvas: Canvas, at: float) -> None:
    edge = MARGIN_MM / 2
    canvas.line((edge, at), (canvas.width - edge, at), RULE, 0.2, dash=2.0)
    canvas.text(canvas.width - MARGIN_MM, at + 3.0, "cut here", 2.0, side="right", ink=MUTED)


def _paint_head(canvas: Canvas, top: float, project: Project, page: StandIn) -> float:
    """Draw title, days and the lines to fill in; return where the days may begin."""
    right = canvas.width - MARGIN_MM
    span = f"{_day_words(page.first)} to {_day_words(page.last)}"
    if page.first == page.last:
        span = _day_words(page.first)
    base = top + TITLE_MM * 0.9
    canvas.text(right, base, span, TODO_MM, bold=True, side="right")
    room = right - MARGIN_MM - text_width(span, TODO_MM, True) - 6.0
    name = project.name.strip() or "Fruit wine"
    title = f"{page.title}: {name}"
    size = TITLE_MM
    while size > 2.6 and len(wrapped(title, room, size, True)) > 1:
        size -= 0.2
    first, *cut = wrapped(title, room, size, True)
    title = f"{first}…" if cut else first
    canvas.text(MARGIN_MM, base, title, size, bold=True, ink=FRUIT)
    base += 6.6
    each = (right - MARGIN_MM) / len(_TO_WRITE)
    for number, words in enumerate(_TO_WRITE):
        x = MARGIN_MM + number * each
        canvas.text(x, base, words, HOW_MM, ink=MUTED)
        start = x + text_width(words, HOW_MM) + 1.5
        canvas.line((start, base + 0.6), (x + each - 4.0, base + 0.6), RULE, 0.2)
    base += 2.6
    canvas.line((MARGIN_MM, base), (right, base), FRUIT, 0.4)
    return base + 1.0


def _paint_side(canvas: Canvas, corner: tuple[float, float], width: float, page: StandIn) -> None:
    """Draw what is normal, when to telephone and what to mind, beside the days."""
    x, y = corner
    y += 1.2
    parts = (
        ("That is normal", (page.normal,)),
        ("Telephone me", (page.call,)),
        ("Mind", page.mind),
    )
    for title, sentences in parts:
        canvas.text(x, y + TODO_MM, title, TODO_MM, bold=True, ink=FRUIT)
        canvas.line((x, y + TODO_MM + 1.2), (x + width, y + TODO_MM + 1.2), FRUIT, 0.25)
        y += TODO_MM + 2.0
        for sentence in sentences:
            for line in wrapped(sentence, width, HOW_MM):
                y += HOW_MM * LEADING
                canvas.text(x, y - 0.5, line, HOW_MM)
            y += 0.6
        y += 1.8
