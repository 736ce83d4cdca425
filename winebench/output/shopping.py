"""The shopping list on paper: boxes to tick in the shop, what is in stock, what it comes to."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from PySide6.QtGui import QPagedPaintDevice

from winebench.model.project import Project
from winebench.output.canvas import FAINT, FRUIT, INK, MUTED, Canvas
from winebench.output.flow import LEADING, Flow, Row, heading, part
from winebench.output.fonts import text_width, wrapped
from winebench.output.label_count import labels_sentence
from winebench.output.pages import save_pdf
from winebench.plan.days import full_day
from winebench.plan.outlook import LaterDose, Outlook, ShoppingItem
from winebench.plan.shopping.text import (
    LATER,
    NOTHING,
    stock_words,
    to_buy,
    to_look_at,
    why_bought,
)

MARGIN_MM = 15.0
TITLE_MM, NAME_MM, WORDS_MM = 6.0, 3.4, 2.7
BOX_MM = 4.2
_AFTER_BOX_MM = BOX_MM + 2.6
_COST_MM = 34.0
_NAME_SHARE = 0.52


def shopping_pdf(path: Path, project: Project, outlook: Outlook, paper: str) -> None:
    """Write the shopping list to a PDF on "A4" or "Letter".

    Raises:
        OutputError: no such paper, or a file that cannot be written.

    """
    title = f"{project.name}: shopping list"
    save_pdf(path, paper, title, lambda device: paint_shopping(device, project, outlook))


def paint_shopping(device: QPagedPaintDevice, project: Project, outlook: Outlook) -> None:
    """Draw the list on the device's own paper.

    Raises:
        OutputError: the device cannot be drawn on.

    """
    with Canvas(device) as canvas:
        flow = Flow(
            canvas,
            MARGIN_MM,
            lambda page: _paint_head(page, project, outlook),
            lambda page: page.height - MARGIN_MM,
        )
        buy = [item for item in outlook.shopping if item.buy_text]
        there = [item for item in outlook.shopping if not item.buy_text]
        day = outlook.at.date()
        rows = [_to_buy(item, day, flow.width) for item in buy]
        later = [_later(dose, day, flow.width) for dose in outlook.later]
        flow.put(part([heading("To buy"), *(rows or [_words(NOTHING, flow.width)])]))
        flow.put(_section("In stock already", [_there(item) for item in there], flow.width))
        flow.put(part([heading(LATER), *later]) if later else [])
        looks = [*to_look_at(outlook), labels_sentence(project, outlook.bottles.bottles)]
        flow.put(_section("Look at", list(filter(None, looks)), flow.width))
        cost = outlook.bottles.cost
        flow.put(_section("What it comes to", [cost.sentence] if cost else [], flow.width))


def _section(title: str, sentences: Sequence[str], width: float) -> list[Row]:
    rows = [_words(words, width) for words in sentences]
    return part([heading(title), *rows]) if rows else []


def _there(item: ShoppingItem) -> str:
    return f"{item.name}: {stock_words(item)}"


def _words(words: str, width: float) -> Row:
    lines = wrapped(words, width, WORDS_MM)
    height = len(lines) * WORDS_MM * LEADING + 1.0

    def draw(canvas: Canvas, x: float, y: float, whole: float) -> None:
        for number, line in enumerate(lines):
            canvas.text(x, y + WORDS_MM * (1.0 + number * LEADING), line, WORDS_MM)

    return Row(height, draw)


def _to_buy(item: ShoppingItem, day: date, width: float) -> Row:
    """Return a row to tick; below it why that much."""
    reckoned = item.stock_text or item.left_text
    below = stock_words(item) if reckoned else ""
    words = why_bought(item, day)
    return _ticked(item, item.buy_text, " · ".join(filter(None, (words, below))), width)


def _later(dose: LaterDose, day: date, width: float) -> Row:
    """Return a row to tick where something is to be bought; below it how much goes in when."""
    how = f" ({dose.measure})" if dose.measure else ""
    below = f"{dose.amount}{how} {dose.when}: {dose.why}"
    below += f" · {dose.had}" if dose.had else ""
    buy = to_buy(dose, day)
    return _ticked(dose, buy or "nothing to buy", below, width, tick=bool(buy))


def _ticked(item: ShoppingItem, buy: str, why: str, width: float, *, tick: bool = True) -> Row:
    """Return a box to tick, the thing, how much of it to buy, its cost, and words below."""
    room = width - _AFTER_BOX_MM - _COST_MM
    name_room = room * _NAME_SHARE
    names = wrapped(item.name, name_room - 2.0, NAME_MM)
    buys = wrapped(buy, room - name_room - 2.0, NAME_MM, tick)
    below = wrapped(why, room + _COST_MM, WORDS_MM) if why else []
    first = max(len(names), len(buys)) * NAME_MM * LEADING
    height = max(2.4 + first + len(below) * WORDS_MM * LEADING, BOX_MM + 2.4)

    def draw(canvas: Canvas, x: float, y: float, whole: float) -> None:
        base = y + 1.2 + NAME_MM
        if tick:
            canvas.box((x, y + 1.2), (BOX_MM, BOX_MM), ink=INK, width=0.3)
        left = x + _AFTER_BOX_MM
        for at, lines, bold in (
            (left, names, False),
            (left + name_room, buys, tick),
        ):
            for number, line in enumerate(lines):
                canvas.text(at, base + number * NAME_MM * LEADING, line, NAME_MM, bold=bold)
        canvas.text(x + whole, base, item.cost_text, NAME_MM, side="right")
        for number, line in enumerate(below):
            at = base + first + (number - 0.1) * WORDS_MM * LEADING
            canvas.text(left, at, line, WORDS_MM, ink=MUTED)
        canvas.line((x, y + height), (x + whole, y + height), FAINT, 0.15)

    return Row(height, draw)


def _paint_head(canvas: Canvas, project: Project, outlook: Outlook) -> float:
    """Draw the top of a page and return where the list may begin."""
    right = canvas.width - MARGIN_MM
    said = f"Shopping list · {full_day(outlook.at)}"
    if canvas.page > 1:
        said += f" · page {canvas.page}"
    base = MARGIN_MM + 4.6
    canvas.text(right, base, said, WORDS_MM, side="right", ink=MUTED)
    room = right - MARGIN_MM - text_width(said, WORDS_MM) - 6.0
    name, size = project.name.strip() or "Fruit wine", TITLE_MM
    while len(wrapped(name, room, size, True)) > 1 and size > 3.0:
        size -= 0.2
    for number, words in enumerate(wrapped(name, room, size, True)):
        base = MARGIN_MM + 4.6 + number * size * 1.2
        canvas.text(MARGIN_MM, base, words, size, bold=True, ink=FRUIT)
    for words in wrapped(
        f"Makes {outlook.make_text}. {outlook.bottles.sentence}", right - MARGIN_MM, WORDS_MM
    ):
        base += WORDS_MM * LEADING + 1.0
        canvas.text(MARGIN_MM, base, words, WORDS_MM)
    return base + 4.0
