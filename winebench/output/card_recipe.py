"""The card's recipe, its cautions, and the must beside what was wanted of it."""

from __future__ import annotations

from winebench.output.canvas import BAND, INK, MUTED, PAPER, RULE, Canvas, Side
from winebench.output.flow import SMALL_MM, Cell, Row, heading, table_row
from winebench.output.words import figure_words
from winebench.plan.outlook import Figure, LineOutlook, Must, Outlook, Want

_SHARES = (64, 32, 30, 4, 50)
"""Name, as written, as made, a gap, and the kitchen measure."""
_SEVERITIES = {"stop": "Stop", "hold": "Held", "caution": "Caution"}
_OFF_FROM_PERCENT = 0.05
WANT_MM = 5.6
FIGURE_MM = 3.7


def recipe_rows(outlook: Outlook, width: float) -> list[Row]:
    """Return the recipe as a table: as written, as made, and how to measure it."""
    if not outlook.lines:
        return [heading("Recipe"), _one("Nothing is in the recipe yet.", width)]
    as_large = outlook.basis_text == outlook.make_text
    top = (
        _title(""),
        _title("as written" if as_large else f"written for {outlook.basis_text}", "right"),
        _title(f"for {outlook.make_text}", "right"),
        _title(""),
        _title("measure"),
    )
    rows = [heading("Recipe"), table_row(top, _SHARES, width)]
    return rows + [_line(line, width) for line in outlook.lines]


def _title(words: str, side: Side = "left") -> Cell:
    return Cell(words, ink=MUTED, size=SMALL_MM, side=side)


def _line(line: LineOutlook, width: float) -> Row:
    measure = line.measure
    off = line.measure_error_percent
    if off is not None and abs(off) >= _OFF_FROM_PERCENT:
        measure += f" ({off:+.1f} %)".replace("-", "−")
    return table_row(
        (
            Cell(line.name, bold=True),
            Cell(line.as_written, side="right"),
            Cell(figure_words(line.scaled), side="right"),
            Cell(""),
            Cell(measure),
        ),
        _SHARES,
        width,
    )


def _one(words: str, width: float) -> Row:
    return table_row((Cell(words, ink=MUTED),), (1,), width, ruled=False)


def caution_rows(outlook: Outlook, width: float) -> list[Row]:
    """Return what to watch out for, most severe first; mere notes stay on the screen."""
    rows = [
        table_row(
            (Cell(_SEVERITIES[caution.severity], bold=True), Cell(caution.sentence)),
            (14, 166),
            width,
            ruled=False,
        )
        for caution in outlook.cautions
        if caution.severity in _SEVERITIES
    ]
    return [heading("Watch out"), *rows] if rows else []


def must_figures(outlook: Outlook) -> list[tuple[str, Figure]]:
    """Return the must's other figures by name, those that are known."""
    must = outlook.must
    named = [
        ("Gravity at once, juice still in the fruit", must.gravity_day_0),
        *([("Gravity when the yeast goes in", must.gravity)] if _is_fed(must) else []),
        ("Gravity when dry", must.dry_gravity),
        *([("May stop sweet at", must.stops_at)] if must.stops_at else []),
        ("Liquid", must.liquid),
        ("In the pail, with the fruit", must.pail),
        ("Sulfite at crushing", must.sulfite),
        ("Wine to bottle", outlook.bottles.finished),
    ]
    return [(name, figure) for name, figure in named if figure.value is not None]


def _is_fed(must: Must) -> bool:
    """Return whether sugar is kept back, so that the bar shows another gravity than the start's."""
    return must.gravity.value != must.gravity_whole.value


def must_height(outlook: Outlook) -> float:
    """Return the height that `paint_must` needs, in mm."""
    return 5.6 + WANT_MM * len(outlook.must.wants) + FIGURE_MM * len(must_figures(outlook)) + 4.0


def paint_must(canvas: Canvas, x: float, y: float, width: float, outlook: Outlook) -> None:
    """Draw the must: each wanted figure on its bar, the others below."""
    heading("The must").draw(canvas, x, y, width)
    y += 5.6
    for want in outlook.must.wants:
        _paint_want(canvas, x, y, width, want)
        y += WANT_MM
    for name, figure in must_figures(outlook):
        canvas.text(x, y + 3.2, name, SMALL_MM, ink=MUTED)
        canvas.text(x + width, y + 3.2, figure_words(figure), SMALL_MM, side="right")
        y += FIGURE_MM
    canvas.text(x, y + 3.2, _basis(outlook.must), SMALL_MM, ink=MUTED)


def _basis(must: Must) -> str:
    if must.measured:
        return "Worked out with your own measure of the fruit."
    return "Worked out from table figures; measure the fruit."


def _paint_want(canvas: Canvas, x: float, y: float, width: float, want: Want) -> None:
    canvas.text(x, y + 3.0, _name(want), 2.45, bold=True)
    canvas.text(x + width, y + 3.0, figure_words(want.actual), 2.45, bold=True, side="right")
    middle = x + width * 0.62
    canvas.text(middle, y + 3.0, want.want_text, SMALL_MM, side="right", ink=MUTED)
    _paint_bar(canvas, x, y + 4.6, width, want)


def _name(want: Want) -> str:
    """Return the name without a unit, which stands with the figure."""
    name = want.name
    for part in want.actual.unit.split():
        name = name.removesuffix(f" {part}")
    return name


def _paint_bar(canvas: Canvas, x: float, y: float, width: float, want: Want) -> None:
    def place(value: float) -> float:
        share = (value - want.scale_low) / (want.scale_high - want.scale_low)
        return x + width * min(max(share, 0.0), 1.0)

    if want.scale_high <= want.scale_low:
        return
    if want.want_low is not None or want.want_high is not None:
        low = place(want.scale_low if want.want_low is None else want.want_low)
        high = place(want.scale_high if want.want_high is None else want.want_high)
        canvas.box((low, y - 0.8), (max(high - low, 0.4), 1.6), fill=BAND)
        for edge in (low, high):
            canvas.line((edge, y - 0.8), (edge, y + 0.8), MUTED, 0.15)
    canvas.line((x, y), (x + width, y), RULE, 0.2)
    actual = want.actual
    if actual.value is None:
        return
    if actual.low is not None and actual.high is not None:
        canvas.line((place(actual.low), y), (place(actual.high), y), INK, 0.5)
    at = place(actual.value)
    diamond = ((at, y - 0.9), (at + 0.9, y), (at, y + 0.9), (at - 0.9, y))
    canvas.shape(diamond, INK, PAPER)
