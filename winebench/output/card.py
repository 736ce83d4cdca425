"""The batch card: recipe, must, curve, record and steps of one batch on one page.

A long log goes on to a second page. The card is the same from the window and from the
command line: both draw it with `paint_card`.
"""

from __future__ import annotations

import re
from functools import partial
from itertools import chain, product
from pathlib import Path

from PySide6.QtGui import QPagedPaintDevice

from winebench.model.project import Project
from winebench.output.canvas import FRUIT, INK, MUTED, RULE, Canvas
from winebench.output.card_log import log_parts, paint_blank_lines
from winebench.output.card_plot import paint_plot, shown_crossings
from winebench.output.card_recipe import caution_rows, must_height, paint_must, recipe_rows
from winebench.output.card_steps import step_rows
from winebench.output.flow import LEADING, SMALL_MM, Flow, Row, fitting, heading, height_of, part
from winebench.output.fonts import text_width, wrapped
from winebench.output.pages import save_pdf
from winebench.output.words import figure_words
from winebench.plan.days import full_day
from winebench.plan.outlook import Outlook

MARGIN_MM = 12.0
_GAP_MM = 7.0
_TITLE_MM = 6.0
_SEPARATOR = "\N{NO-BREAK SPACE}· "
_BEFORE_A_UNIT = re.compile(r"(?<=\d) (?=(?:gal|qt|fl|L)\b)")
_ZOOMS = (1.0, 0.96, 0.92, 0.88)
"""At the last one the running text is 6 points high, as small as is still read with ease."""


def card_pdf(path: Path, project: Project, outlook: Outlook, paper: str) -> None:
    """Write the batch card to a PDF on "A4" or "Letter".

    Raises:
        OutputError: no such paper, or a file that cannot be written.

    """
    title = f"{project.name}: batch card"
    save_pdf(path, paper, title, lambda device: paint_card(device, project, outlook))


def paint_card(device: QPagedPaintDevice, project: Project, outlook: Outlook) -> None:
    """Draw the card on the device's own paper.

    Raises:
        OutputError: the device cannot be drawn on.

    """
    with Canvas(device) as canvas:
        flow = Flow(
            canvas,
            MARGIN_MM,
            lambda page: _paint_head(page, project, outlook),
            lambda page: _paint_foot(page, outlook),
        )
        flow.put(part(recipe_rows(outlook, flow.width)))
        flow.put(part([_must_and_curve(outlook, flow.width)]))
        flow.put(part(caution_rows(outlook, flow.width)))
        _put_record(flow, project, outlook)


def _put_record(flow: Flow, project: Project, outlook: Outlook) -> None:
    """Draw log and steps: smaller, or some of the longer below the shorter, on one page."""
    room = flow.bottom - flow.y
    for share, zoom in (*product((_apart, _log_under, _steps_under), _ZOOMS), (_apart, 1.0)):
        widths = _columns(flow.width / zoom)
        log, steps = share(project, outlook, widths, room / zoom)
        if max(height_of(log), height_of(steps)) * zoom <= room:
            break
    fill = None if project.done("bottle") else partial(paint_blank_lines, project)
    flow.put_columns(log, steps, widths, fill, zoom)


_Columns = tuple[list[Row], list[Row]]


def _apart(project: Project, outlook: Outlook, widths: tuple[float, float], _: float) -> _Columns:
    """Return the log at the left and the steps at the right."""
    return [*chain(*log_parts(project, outlook, widths[0]))], step_rows(outlook, widths[1])


def _log_under(
    project: Project, outlook: Outlook, widths: tuple[float, float], room: float
) -> _Columns:
    """Return them with the log's last parts under the steps."""
    parts, narrow = (log_parts(project, outlook, width) for width in widths)
    stays = len(parts)
    while stays > 1 and height_of([*chain(*parts[:stays])]) > room:
        stays -= 1
    steps = [*part(step_rows(outlook, widths[1])), *chain(*narrow[stays:])]
    return [*chain(*parts[:stays])], steps


def _steps_under(
    project: Project, outlook: Outlook, widths: tuple[float, float], room: float
) -> _Columns:
    """Return them with the last steps under the log."""
    log, steps = _apart(project, outlook, widths, room)
    stay, _end = fitting(steps, 0.0, room)
    later = step_rows(outlook, widths[0])[stay:]
    return [*log, *part([heading("Later steps"), *later])], steps[:stay]


def _columns(width: float) -> tuple[float, float]:
    left = (width - _GAP_MM) * 0.56
    return left, width - _GAP_MM - left


def _must_and_curve(outlook: Outlook, width: float) -> Row:
    """Return must and curve side by side as one row."""
    left = (width - _GAP_MM) * 0.4
    right = width - _GAP_MM - left
    sentences = _curve_words(outlook, right)
    height = max(must_height(outlook), 52.0 + len(sentences) * SMALL_MM * LEADING)

    def draw(canvas: Canvas, x: float, y: float, whole: float) -> None:
        paint_must(canvas, x, y, left, outlook)
        start = x + left + _GAP_MM
        heading("Gravity").draw(canvas, start, y, right)
        room = height - 7.0 - len(sentences) * SMALL_MM * LEADING
        paint_plot(canvas, (start, y + 6.0), (right, room), outlook)
        for number, words in enumerate(reversed(sentences)):
            base = y + height - 0.6 - number * SMALL_MM * LEADING
            canvas.text(start, base, words, SMALL_MM, ink=INK)

    return Row(height, draw)


def _curve_words(outlook: Outlook, width: float) -> list[str]:
    if outlook.forecast is None:
        return []
    said = outlook.forecast.sentence
    coming = (c for c in shown_crossings(outlook) if not c.passed)
    # The forecast's own sentence tells of the next threshold already.
    sentences = [said, *(c.sentence for c in coming if f"{c.below:.3f}" not in said)]
    return [line for sentence in sentences for line in wrapped(sentence, width, SMALL_MM)]


def _paint_head(canvas: Canvas, project: Project, outlook: Outlook) -> float:
    """Draw the top of a page and return where the rest may begin."""
    right = canvas.width - MARGIN_MM
    said = f"Batch card · as of {full_day(outlook.at)}"
    if canvas.page > 1:
        said += f" · page {canvas.page}"
    canvas.text(right, MARGIN_MM + 4.6, said, SMALL_MM, side="right", ink=MUTED)
    room = right - MARGIN_MM - text_width(said, SMALL_MM) - 6.0
    size = _TITLE_MM if canvas.page == 1 else _TITLE_MM * 0.7
    name = project.name.strip() or "Fruit wine"
    while len(wrapped(name, room, size, True)) > 1 and size > 3.0:
        size -= 0.2
    base = MARGIN_MM + 4.6
    for number, words in enumerate(wrapped(name, room, size, True)):
        base = MARGIN_MM + 4.6 + number * size * 1.2
        canvas.text(MARGIN_MM, base, words, size, bold=True, ink=FRUIT)
    if canvas.page == 1:
        for words in wrapped(
            _BEFORE_A_UNIT.sub("\N{NO-BREAK SPACE}", _SEPARATOR.join(_facts(project, outlook))),
            right - MARGIN_MM,
            2.45,
        ):
            base += 4.0
            canvas.text(MARGIN_MM, base, words, 2.45)
    canvas.line((MARGIN_MM, base + 2.0), (right, base + 2.0), FRUIT, 0.4)
    return base + 3.6


def _facts(project: Project, outlook: Outlook) -> list[str]:
    pitch = project.done("pitch")
    bottle = project.done("bottle")
    style = outlook.style[:1].upper() + outlook.style[1:]
    facts = [style, f"makes {outlook.make_text}"]
    if pitch is not None:
        facts.append(f"yeast in {full_day(pitch.at)}")
    elif project.start is not None:
        facts.append(f"to be started {full_day(project.start)}")
    else:
        facts.append("not started")
    if pitch is not None and outlook.strength_now.value is not None:
        sure = "about" if bottle is not None else "so far"
        facts.append(f"{sure} {figure_words(outlook.strength_now, ranged=True)}")
    if bottle is not None:
        facts.append(f"bottled {full_day(bottle.at)}")
    facts += [f"{v.name}: {v.headline}" for v in outlook.vessels if bottle is None]
    if bottle is None and outlook.bottles.sentence:
        facts.append(outlook.bottles.sentence.rstrip("."))
    return [fact for fact in facts if fact]


def _paint_foot(canvas: Canvas, outlook: Outlook) -> float:
    """Draw the safety words at the foot of a page and return where the rest must end."""
    width = canvas.width - 2 * MARGIN_MM
    lines = wrapped("  ".join(outlook.safety), width, SMALL_MM)
    bottom = canvas.height - MARGIN_MM
    top = bottom - len(lines) * SMALL_MM * LEADING
    for number, words in enumerate(lines):
        base = top + SMALL_MM + number * SMALL_MM * LEADING
        canvas.text(MARGIN_MM, base, words, SMALL_MM, ink=INK)
    canvas.line((MARGIN_MM, top - 1.0), (canvas.width - MARGIN_MM, top - 1.0), RULE, 0.2)
    return top - 3.0
