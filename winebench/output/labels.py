"""Bottle labels: words fitted to the label, never clipped, and printed by the sheet."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from PySide6.QtGui import QPagedPaintDevice

from winebench.model.project import Project
from winebench.output.canvas import FRUIT, INK, MUTED, Canvas
from winebench.output.fonts import wrapped
from winebench.output.label_sheets import LabelSheet, label_sheet, sheet_of
from winebench.output.pages import OutputError, ready_for_pages, save_pdf
from winebench.plan.label import label_lines, not_final
from winebench.plan.outlook import LabelLine, Outlook
from winebench.plan.vessels import bottles_filled

FRAME_MM = 2.0
"""From the label's edge to its frame: sheets feed a millimetre askew."""
PADDING_MM = 1.8
MOST_LABELS = 2000
_SIZES = {"title": 4.6, "plain": 2.7, "strong": 2.5, "small": 2.3}
"""Height of the em in mm on a label of 63.5 × 38.1 mm."""
_LEADING = 1.28
_SMALLEST = 0.74
"""Share of the wanted size below which words are left out rather than shrunk."""
_LEAST_BASE = 0.8
"""Smaller labels set their words as on one of four fifths: still readable on a bottle."""
_MOST_TITLE_LINES = 3


@dataclass(frozen=True, slots=True)
class FittedLine:
    """One printed line: words, em in mm, and its face."""

    words: str
    size: float
    face: str


@dataclass(frozen=True, slots=True)
class Fitted:
    """A label's lines as they fit, and a sentence for each thing that did not."""

    lines: tuple[FittedLine, ...]
    warnings: tuple[str, ...]

    @property
    def height(self) -> float:
        """Return the height of all lines in mm."""
        return sum(line.size * _LEADING for line in self.lines)


def fitted(lines: tuple[LabelLine, ...], sheet: LabelSheet) -> Fitted:
    """Return the words set as large as fits; at the smallest size whole lines give way."""
    ready_for_pages()
    width, height = (side - 2 * (FRAME_MM + PADDING_MM) for side in sheet.label)
    base = max(min(sheet.label[0] / 63.5, sheet.label[1] / 38.1), _LEAST_BASE)
    least = max(_SMALLEST, min(_SMALLEST / base, 1.0))  # small labels have fewer, not smaller words
    kept, warnings = list(lines), list[str]()
    while True:
        for step in range(14):
            share = 1.0 - step * (1.0 - least) / 13
            found = _set(kept, width, base * share)
            if found.height <= height and not found.warnings:
                return Fitted(found.lines, tuple(warnings))
        first = max(kept, key=lambda line: line.keep)
        if first.keep == 0:
            break
        kept.remove(first)
        warnings.append(f'"{first.words}" does not fit the label and was left out.')
    return _cut(kept, width, height, base * least, warnings)


def _set(lines: list[LabelLine], width: float, scale: float) -> Fitted:
    """Return the lines broken at that scale; a title of too many lines is warned of."""
    made: list[FittedLine] = []
    warnings: tuple[str, ...] = ()
    for line in lines:
        size = _SIZES[line.face] * scale
        pieces = wrapped(line.words, width, size, line.face in ("title", "strong"))
        if line.face == "title" and len(pieces) > _MOST_TITLE_LINES:
            warnings = ("long",)
        made += (FittedLine(piece, size, line.face) for piece in pieces)
    return Fitted(tuple(made), warnings)


def _cut(
    lines: list[LabelLine], width: float, height: float, scale: float, warnings: list[str]
) -> Fitted:
    """Return the label with its title cut short: what else is left must be on it."""
    made = list(_set(lines, width, scale).lines)
    titles = sum(line.face == "title" for line in made)
    while titles > 1 and (titles > _MOST_TITLE_LINES or Fitted(tuple(made), ()).height > height):
        titles -= 1
        del made[titles]
        last = made[titles - 1]
        shorter = f"{last.words.rstrip('…')[:-2].rstrip()}…"
        made[titles - 1] = FittedLine(shorter, last.size, last.face)
    warning = "The title is too long for the label and was cut; give the label a shorter one."
    return Fitted(tuple(made), (*warnings, warning))


def paint_label(canvas: Canvas, corner: tuple[float, float], sheet: LabelSheet, on: Fitted) -> None:
    """Draw one label with its upper left corner there."""
    x, y = corner
    width, height = sheet.label
    canvas.box(
        (x + FRAME_MM, y + FRAME_MM),
        (width - 2 * FRAME_MM, height - 2 * FRAME_MM),
        ink=FRUIT,
        width=0.25,
    )
    spare = height - 2 * (FRAME_MM + PADDING_MM) - on.height
    air = min(max(spare, 0.0) / 3, on.lines[0].size * 0.5)
    breaks = _breaks(on)
    base = y + (height - on.height - air * len(breaks)) / 2
    for number, line in enumerate(on.lines):
        base += line.size * _LEADING + (air if number in breaks else 0.0)
        ink = {"title": FRUIT, "small": MUTED}.get(line.face, INK)
        canvas.text(
            x + width / 2,
            base - line.size * 0.36,
            line.words,
            line.size,
            bold=line.face in ("title", "strong"),
            side="middle",
            ink=ink,
        )


def _breaks(on: Fitted) -> set[int]:
    """Return the lines with some air above: after the title, and before what must be said."""
    faces = [line.face for line in on.lines]
    pairs = enumerate(pairwise(faces), start=1)
    return {
        number
        for number, (before, face) in pairs
        if before != face and before in ("title", "plain")
    }


def label_count(project: Project, outlook: Outlook) -> int:
    """Return one label for each bottle, filled or expected; at least one."""
    return bottles_filled(project) or max(1, outlook.bottles.bottles)


def paint_labels(
    device: QPagedPaintDevice,
    project: Project,
    outlook: Outlook,
    sheet: str | None = None,
    count: int | None = None,
) -> tuple[str, ...]:
    """Draw the labels on whole sheets; return what did not fit or is not final, in sentences.

    Raises:
        OutputError: no such sheet, an impossible count, or a device that cannot be drawn on.

    """
    form = label_sheet(sheet) if sheet else sheet_of(project)
    many = label_count(project, outlook) if count is None else count
    if not 1 <= many <= MOST_LABELS:
        raise OutputError(f"{many} labels cannot be printed; ask for 1 to {MOST_LABELS}.")
    on = fitted(label_lines(project, outlook), form)
    with Canvas(device) as canvas:
        for index in range(many):
            if index and index % form.per_page == 0:
                canvas.new_page()
            paint_label(canvas, form.corner(index), form, on)
    return (*filter(None, (not_final(project, outlook),)), *on.warnings)


def labels_pdf(
    path: Path,
    project: Project,
    outlook: Outlook,
    sheet: str | None = None,
    count: int | None = None,
) -> tuple[str, ...]:
    """Write the labels to a PDF; return what did not fit or is not final, in sentences.

    Raises:
        OutputError: no such sheet, an impossible count, or a file that cannot be written.

    """
    form = label_sheet(sheet) if sheet else sheet_of(project)
    title = f"{project.name}: labels"
    return save_pdf(
        path, form.paper, title, lambda device: paint_labels(device, project, outlook, sheet, count)
    )
