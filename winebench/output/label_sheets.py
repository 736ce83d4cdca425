"""Sheets of labels by their sizes alone; the rest of the geometry follows from them."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QPageSize

from winebench.model.project import Label, Project
from winebench.output.pages import OutputError, page_size


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSheet:
    """A sheet of equal labels, centred on its page; all lengths in mm."""

    key: str
    name: str
    paper: str
    label: tuple[float, float]
    columns: int
    rows: int
    gap: tuple[float, float] = (0.0, 0.0)
    """Between neighbours, across and down."""

    @property
    def page(self) -> tuple[float, float]:
        """Return the width and height of the paper."""
        size = page_size(self.paper).size(QPageSize.Unit.Millimeter)
        return size.width(), size.height()

    @property
    def per_page(self) -> int:
        """Return how many labels a page has."""
        return self.columns * self.rows

    def corner(self, index: int) -> tuple[float, float]:
        """Return the upper left corner of the label, counted along the rows from 0."""
        row, column = divmod(index % self.per_page, self.columns)
        return (
            self._margin(0, self.columns) + column * (self.label[0] + self.gap[0]),
            self._margin(1, self.rows) + row * (self.label[1] + self.gap[1]),
        )

    def _margin(self, axis: int, count: int) -> float:
        taken = count * self.label[axis] + (count - 1) * self.gap[axis]
        return (self.page[axis] - taken) / 2


# The sizes are those that stationers sell; the gaps are common practice. Whoever has other
# paper prints one page on plain paper first and holds it against the sheet.
SHEETS = {
    sheet.key: sheet
    for sheet in (
        LabelSheet(
            key="a4-21",
            name="A4, 21 labels of 63.5 × 38.1 mm",
            paper="A4",
            label=(63.5, 38.1),
            columns=3,
            rows=7,
            gap=(2.5, 0.0),
        ),
        LabelSheet(
            key="letter-10",
            name="US Letter, 10 labels of 4 × 2 in",
            paper="Letter",
            label=(101.6, 50.8),
            columns=2,
            rows=5,
            gap=(4.7625, 0.0),
        ),
        LabelSheet(
            key="letter-6",
            name="US Letter, 6 labels of 4 × 3 1/3 in",
            paper="Letter",
            label=(101.6, 254.0 / 3.0),
            columns=2,
            rows=3,
            gap=(4.7625, 0.0),
        ),
        LabelSheet(
            key="letter-30",
            name="US Letter, 30 labels of 2 5/8 × 1 in",
            paper="Letter",
            label=(66.675, 25.4),
            columns=3,
            rows=10,
            gap=(3.175, 0.0),
        ),
    )
}


def sheet_of(project: Project) -> LabelSheet:
    """Return the project's label sheet; one that nobody has chosen is of the project's paper.

    Raises:
        OutputError: there is no such sheet.

    """
    sheet = label_sheet(project.label.sheet)
    if sheet.key != Label().sheet or sheet.paper == project.paper:
        return sheet
    return next((one for one in SHEETS.values() if one.paper == project.paper), sheet)


def label_sheet(key: str) -> LabelSheet:
    """Return the sheet of that key.

    Raises:
        OutputError: there is none; the message names those that are.

    """
    if key not in SHEETS:
        known = ", ".join(SHEETS)
        raise OutputError(f'There is no label sheet "{key}"; choose one of: {known}.')
    return SHEETS[key]
