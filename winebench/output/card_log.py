"""The card's record: readings, what was done, rackings and losses, and gates overridden."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby

from winebench.model.log import Action, Note, Reading
from winebench.model.project import Project
from winebench.output.canvas import INK, MUTED, RULE, Canvas
from winebench.output.flow import SMALL_MM, Cell, Row, heading, part, table_row
from winebench.output.words import action_words, day, hour, step_name, step_names
from winebench.plan.customary import gallons_of, household, volume_text
from winebench.plan.losses import RACKINGS, litres_lost
from winebench.plan.outlook import Outlook, ReadingOutlook, StepOutlook
from winebench.plan.picture_words import picture_words
from winebench.plan.sparse import sparse
from winebench.plan.spoken import spoken

_READ_SHARES = (20, 15, 14, 15, 38)
_DONE_SHARES = (20, 82)
RULED_LINE_MM = 7.0
REFERENCE = "at 20 °C"
"""Where a gravity means the same to everybody; it is 68 °F."""
_BLANK_COLUMNS = (("Date, time", 24), ("Read", 17), ("Temp.", 15), (REFERENCE, 17), ("Note", 34))


def log_parts(project: Project, outlook: Outlook, width: float) -> list[list[Row]]:
    """Return all that the log holds, part by part, each under its heading."""
    steps = step_names(outlook)
    parts = (
        _reading_rows(project, outlook, width),
        _done_rows(project, outlook, steps, width),
        _note_rows(project, outlook, width),
        _racking_rows(project, outlook, steps, width),
        _override_rows(project, outlook, steps, width),
    )
    return [part(rows) for rows in parts if rows]


def _when(at: datetime, outlook: Outlook) -> Cell:
    return Cell(f"{day(at, outlook.at)} {hour(at)}", size=SMALL_MM, ink=MUTED)


def _reading_rows(project: Project, outlook: Outlook, width: float) -> list[Row]:
    if not project.readings:
        return []
    meant = {reading.id: reading for reading in outlook.readings}
    titles = ("", "read", "at", spoken(REFERENCE, household(project)), "")
    top = [Cell(words, ink=MUTED, size=SMALL_MM) for words in titles]
    rows = [heading("Readings"), table_row(top, _READ_SHARES, width)]
    for entry in sparse(project.log):  # a sensor's thousands say no more than some of them
        if isinstance(entry, Reading):
            rows.append(_reading_row(entry, meant.get(entry.id), outlook, width))
    return rows


def _reading_row(
    reading: Reading, meant: ReadingOutlook | None, outlook: Outlook, width: float
) -> Row:
    corrected = f"{meant.corrected:.4f}" if meant and meant.corrected is not None else "–"
    cells = (
        _when(reading.at, outlook),
        Cell(reading.gravity.text.strip() if reading.gravity else "–"),
        Cell(reading.temperature.text.strip() if reading.temperature else "–"),
        Cell(corrected, bold=corrected != "–"),
        Cell("; ".join(_beside(reading, meant)), size=SMALL_MM),
    )
    return table_row(cells, _READ_SHARES, width)


def _beside(reading: Reading, meant: ReadingOutlook | None) -> Iterator[str]:
    if reading.instrument == "refractometer":
        yield "refractometer"
    if reading.ph is not None:
        yield f"pH {reading.ph:g}"
    if reading.acid_g_per_l is not None:
        yield f"acidity {reading.acid_g_per_l:g} g/L"
    if reading.free_so2_mg_per_l is not None:
        yield f"free SO₂ {reading.free_so2_mg_per_l:g} mg/L"
    if reading.clear is not None:
        yield f"clearness {reading.clear} of 4"
    if reading.note.strip():
        yield reading.note.strip()
    if reading.pictures:
        yield picture_words(reading)
    if meant and meant.doubt:
        yield meant.doubt


def _done_rows(
    project: Project, outlook: Outlook, steps: dict[str, StepOutlook], width: float
) -> list[Row]:
    rows = []
    told: set[str] = set()
    for entry in project.entries:
        if not isinstance(entry, Action) or entry.step in RACKINGS:
            continue
        if entry.step in told:
            continue
        elif entry.step in steps and steps[entry.step].repeats:
            told.add(entry.step)
            ticks = [action for action in project.actions if action.step == entry.step]
            words = _chore_words(ticks, outlook, steps, project)
        else:
            words = _said(step_name(entry.step, steps), action_words(entry, steps, project))
        rows.append(table_row((_when(entry.at, outlook), Cell(words)), _DONE_SHARES, width))
    return [heading("Added and done"), *rows] if rows else []


def _note_rows(project: Project, outlook: Outlook, width: float) -> list[Row]:
    """Return what was noted, apart from what was done: a card's own words may never be done."""
    rows = []
    for entry in project.entries:
        if isinstance(entry, Note):
            said = (f"{entry.text.strip()} {entry.note.strip()}".strip(), picture_words(entry))
            words = "; ".join(filter(None, said))
            rows.append(table_row((_when(entry.at, outlook), Cell(words)), _DONE_SHARES, width))
    return [heading("Notes"), *rows] if rows else []


def _said(name: str, words: str) -> str:
    return f"{name} – {words}" if words else name


def _chore_words(
    ticks: list[Action], outlook: Outlook, steps: dict[str, StepOutlook], project: Project
) -> str:
    """Return all ticks of a chore in one sentence: those of a run that say the same, once."""
    name = step_name(ticks[0].step, steps)
    if len(ticks) == 1:
        return _said(name, action_words(ticks[0], steps, project))
    runs = [
        (said, [day(tick.at, outlook.at) for tick in run])
        for said, run in groupby(ticks, lambda tick: action_words(tick, steps, project))
    ]
    parts = [f"{_days(days)} {said}".strip() for said, days in runs]
    return f"{name}, {len(ticks)} times – {'; '.join(parts)}"


def _days(days: list[str]) -> str:
    return days[0] if days[0] == days[-1] else f"{days[0]} to {days[-1]}"


def _racking_rows(
    project: Project, outlook: Outlook, steps: dict[str, StepOutlook], width: float
) -> list[Row]:
    rows = []
    lost = 0.0
    for action in project.actions:
        if action.step not in RACKINGS:
            continue
        words = _said(step_name(action.step, steps), action_words(action, steps, project))
        rows.append(table_row((_when(action.at, outlook), Cell(words)), _DONE_SHARES, width))
        lost += litres_lost(action, project)
    if not rows:
        return []
    after = f"lost in all: {volume_text(lost, gallons_of(project))}" if lost > 0 else ""
    return [heading("Rackings and losses", after), *rows]


def _override_rows(
    project: Project, outlook: Outlook, steps: dict[str, StepOutlook], width: float
) -> list[Row]:
    rows = [
        table_row(
            (
                _when(action.at, outlook),
                Cell(f"{step_name(action.step, steps)} – “{action.override.strip()}”"),
            ),
            _DONE_SHARES,
            width,
        )
        for action in project.actions
        if action.override.strip()
    ]
    return [heading("Done although held, and why"), *rows] if rows else []


def paint_blank_lines(
    project: Project, canvas: Canvas, x: float, top: float, width: float, bottom: float
) -> None:
    """Draw ruled lines for readings and notes by hand, where there is room for two or more."""
    count = int((bottom - top - 9.6) / RULED_LINE_MM)
    if count < 2:
        return
    heading("To write by hand").draw(canvas, x, top, width)
    y = top + 5.6
    whole = sum(share for _, share in _BLANK_COLUMNS)
    edges = [x]
    for name, share in _BLANK_COLUMNS:
        words = spoken(name, household(project))
        canvas.text(edges[-1] + 0.6, y + 2.8, words, SMALL_MM, ink=MUTED)
        edges.append(edges[-1] + share / whole * width)
    y += 4.0
    for number in range(count + 1):
        line = y + number * RULED_LINE_MM
        canvas.line((x, line), (x + width, line), RULE, 0.15)
    for edge in edges[1:-1]:
        canvas.line((edge, y), (edge, y + count * RULED_LINE_MM), RULE, 0.1)
    canvas.line((x, y), (x + width, y), INK, 0.2)
