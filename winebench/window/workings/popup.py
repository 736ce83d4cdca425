"""The workings of a figure: rule, what went in, what came out, and the source."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QCursor, QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QVBoxLayout, QWidget

from winebench.plan.outlook import Figure
from winebench.window.parts.figure import figure_words, tabular
from winebench.window.parts.words import heading, label
from winebench.window.theme import theme

_WIDTH = 380


class WorkingsPopup(QFrame):
    """Opens at the figure; Escape, F1 or a click elsewhere closes it."""

    def __init__(self, figure: Figure, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("workings")
        palette = theme().palette
        self.setStyleSheet(
            f"#workings {{ background: {palette.card.name()};"
            f" border: 1px solid {palette.fruit.name()}; }}"
        )
        self.setFixedWidth(_WIDTH)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(16, 12, 16, 12)
        self._column.setSpacing(6)
        self._fill(figure)
        self.setAccessibleName("Workings")
        self.setAccessibleDescription(self.spoken)

    @property
    def spoken(self) -> str:
        """Return all that is shown, as one text."""
        return "\n".join(each.text() for each in self.findChildren(QLabel) if each.text())

    def _fill(self, figure: Figure) -> None:
        workings = figure.workings
        assert workings is not None
        shown = figure_words(figure)
        self._column.addWidget(heading(shown, 16))
        if figure.low is not None and figure.high is not None and figure.low != figure.high:
            unit = f" {figure.unit}" if figure.unit and figure.unit != "SG" else ""
            ends = f"{_like(figure, figure.low)} to {_like(figure, figure.high)}{unit}"
            self._column.addWidget(label(f"likely between {ends}", "muted", small=True))
        self._column.addWidget(label(workings.words, wraps=True))
        self._column.addLayout(self._inputs(figure))
        result = " ".join(part for part in (workings.result, workings.unit) if part)
        self._column.addWidget(label(f"= {result}", "strong", wraps=True))
        self._column.addWidget(label(f"Source: {workings.source}", "muted", wraps=True, small=True))

    def _inputs(self, figure: Figure) -> QGridLayout:
        grid = QGridLayout()
        grid.setVerticalSpacing(2)
        grid.setHorizontalSpacing(12)
        grid.setColumnStretch(0, 1)
        assert figure.workings is not None
        for row, given in enumerate(figure.workings.inputs):
            grid.addWidget(label(given.name, "muted", wraps=True), row, 0)
            value = label(given.value)
            value.setFont(tabular(theme().base_font()))
            value.setAlignment(Qt.AlignmentFlag.AlignRight)
            grid.addWidget(value, row, 1)
            grid.addWidget(label(given.unit, "muted"), row, 2)
        return grid

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Close on Escape, F1 and Enter."""
        keys = (Qt.Key.Key_Escape, Qt.Key.Key_F1, Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.key() in keys:
            self.close()
        else:
            super().keyPressEvent(event)


def _like(figure: Figure, value: float) -> str:
    """Return another value of the figure with as many digits as the figure has."""
    digits = len(figure.text.partition(".")[2]) if figure.text.replace(".", "").isdigit() else 1
    return f"{value:.{digits}f}"


def show_workings(figure: Figure, parent: QWidget) -> WorkingsPopup | None:
    """Open the figure's workings beside what asked for them, all of it on the screen."""
    if figure.workings is None:
        return None
    popup = WorkingsPopup(figure, parent)
    popup.resize(_WIDTH, popup.heightForWidth(_WIDTH))  # adjustSize cuts long words short
    asked = parent.focusWidget()
    corner = QCursor.pos() + QPoint(12, 12)
    if asked is not None and not asked.rect().contains(asked.mapFromGlobal(QCursor.pos())):
        corner = asked.mapToGlobal(asked.rect().bottomLeft()) + QPoint(0, 4)
    area = parent.screen().availableGeometry()
    size = popup.size()
    corner.setX(max(min(corner.x(), area.right() - size.width()), area.left()))
    corner.setY(max(min(corner.y(), area.bottom() - size.height()), area.top()))
    popup.move(corner)
    popup.show()
    popup.setFocus(Qt.FocusReason.PopupFocusReason)
    return popup
