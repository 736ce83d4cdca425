"""Rows that flow down a page, in one column or two, and on to the next page when it is full."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from winebench.output.canvas import FAINT, FRUIT, INK, Canvas, Side
from winebench.output.fonts import wrapped

BODY_MM = 2.45
"""Em of the running text: about 7 points."""
SMALL_MM = 2.15
LEADING = 1.36
CELL_GAP_MM = 1.6
ROW_GAP_MM = 0.6
PART_GAP_MM = 2.4


@dataclass(frozen=True, slots=True)
class Row:
    """Something of a known height that can draw itself at a place of a given width."""

    height: float
    draw: Callable[[Canvas, float, float, float], None]
    """Takes the canvas, the left edge, the top edge and the width, in mm."""
    keep: bool = False
    """Whether it must not be the last thing on a page, as a heading."""


@dataclass(frozen=True, slots=True)
class Cell:
    """Words of one cell of a table."""

    words: str
    bold: bool = False
    side: Side = "left"
    ink: str = INK
    size: float = BODY_MM


def space(height: float) -> Row:
    """Return an empty row."""
    return Row(height, lambda canvas, x, y, width: None)


def part(rows: Sequence[Row]) -> list[Row]:
    """Return a part's rows with some air below, or nothing for an empty part."""
    return [*rows, space(PART_GAP_MM)] if rows else []


def heading(words: str, after: str = "") -> Row:
    """Return the heading of a part, with small words at its right end."""

    def draw(canvas: Canvas, x: float, y: float, width: float) -> None:
        canvas.text(x, y + 3.4, words, 3.0, bold=True, ink=FRUIT)
        if after:
            canvas.text(x + width, y + 3.4, after, SMALL_MM, side="right", ink=INK)
        canvas.line((x, y + 4.6), (x + width, y + 4.6), FRUIT, 0.25)

    return Row(5.6, draw, keep=True)


def table_row(
    cells: Sequence[Cell], shares: Sequence[float], width: float, *, ruled: bool = True
) -> Row:
    """Return a row of cells; `shares` are parts of the width, and long words wrap."""
    widths = [share / sum(shares) * width for share in shares]
    lines = [
        wrapped(cell.words, cell_width - CELL_GAP_MM, cell.size, cell.bold)
        for cell, cell_width in zip(cells, widths, strict=True)
    ]
    height = max(
        [cell.size * LEADING * len(some) for cell, some in zip(cells, lines, strict=True)]
        + [BODY_MM * LEADING]
    )

    def draw(canvas: Canvas, x: float, y: float, whole: float) -> None:
        left = x
        for cell, cell_width, some in zip(cells, widths, lines, strict=True):
            at = left if cell.side == "left" else left + cell_width - CELL_GAP_MM
            for number, words in enumerate(some):
                # One baseline for the first line of all cells, whatever their sizes.
                base = y + 0.3 + BODY_MM * 0.98 + number * cell.size * LEADING
                canvas.text(
                    at, base, words, cell.size, bold=cell.bold, side=cell.side, ink=cell.ink
                )
            left += cell_width
        if ruled:
            canvas.line((x, y + height + 0.35), (x + whole, y + height + 0.35), FAINT, 0.15)

    return Row(height + ROW_GAP_MM, draw)


class Flow:
    """The card's pages: a head and a foot on each, rows between them."""

    def __init__(
        self,
        canvas: Canvas,
        margin: float,
        head: Callable[[Canvas], float],
        foot: Callable[[Canvas], float],
    ) -> None:
        self.canvas = canvas
        self.left = margin
        self.width = canvas.width - 2 * margin
        self._head = head
        self._foot = foot
        self.y = head(canvas)
        self._top = self.y
        self.bottom = foot(canvas)

    def new_page(self) -> None:
        """Go on at the top of a new page."""
        self.canvas.new_page()
        self.y = self._top = self._head(self.canvas)
        self.bottom = self._foot(self.canvas)

    def put(self, rows: Sequence[Row]) -> None:
        """Draw the rows over the whole width."""
        rest = list(rows)
        while rest:
            count, end = fitting(rest, self.y, self.bottom)
            if count == 0 and self.y > self._top:
                self.new_page()
                continue
            count = max(count, 1)  # higher than a page: better cut off than never printed
            _draw(self.canvas, rest[:count], self.left, self.y, self.width)
            self.y = end if end > self.y else self.y + rest[0].height
            rest = rest[count:]

    def put_columns(
        self,
        left: Sequence[Row],
        right: Sequence[Row],
        widths: tuple[float, float],
        fill: Callable[[Canvas, float, float, float, float], None] | None = None,
        zoom: float = 1.0,
    ) -> None:
        """Draw two columns side by side, each going on where it stopped on the next page.

        `fill` draws what remains under the left column: it gets left, top, width and bottom.
        All is drawn at `zoom`: widths and rows are those before it.
        """
        rest = [list(left), list(right)]
        starts = (0.0, self.width / zoom - widths[1])
        while True:
            ends = [0.0, 0.0]
            bottom = (self.bottom - self.y) / zoom
            with self.canvas.zoomed(zoom, (self.left, self.y)):
                for side in (0, 1):
                    count, ends[side] = fitting(rest[side], 0.0, bottom)
                    if count == 0 and rest[side] and self.y == self._top:
                        count = 1
                    _draw(self.canvas, rest[side][:count], starts[side], 0.0, widths[side])
                    rest[side] = rest[side][count:]
                if fill is not None and not rest[0]:
                    fill(self.canvas, starts[0], ends[0], widths[0], bottom)
                    fill = None
            self.y += max(ends) * zoom
            if not any(rest):
                return
            self.new_page()


def height_of(rows: Sequence[Row]) -> float:
    """Return the height of the rows in mm."""
    return sum(row.height for row in rows)


def fitting(rows: Sequence[Row], top: float, bottom: float) -> tuple[int, float]:
    """Return how many rows fit, headings not left behind, and where they end."""
    y = top
    ends = []
    for row in rows:
        y += row.height
        if y > bottom + 0.01:
            break
        ends.append(y)
    count = len(ends)
    if count < len(rows):
        while count and rows[count - 1].keep:
            count -= 1
    return count, ends[count - 1] if count else top


def _draw(canvas: Canvas, rows: Sequence[Row], x: float, y: float, width: float) -> None:
    for row in rows:
        row.draw(canvas, x, y, width)
        y += row.height
