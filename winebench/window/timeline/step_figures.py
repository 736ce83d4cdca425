"""What was worked out for a step, such as a dose: each figure with its workings one click away."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from winebench.plan.outlook import NamedFigure
from winebench.window.parts.figure import FigureLabel
from winebench.window.parts.flow import Flow
from winebench.window.parts.words import label


class StepFigures(QWidget):
    """Names and figures in a row, or in as many rows as they need."""

    workings_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.labels: list[FigureLabel] = []
        self._shown: tuple[NamedFigure, ...] = ()
        self._flow = Flow(self)

    def show_figures(self, figures: tuple[NamedFigure, ...]) -> None:
        """Show other figures; labels are made anew only where the names change."""
        if [each.name for each in figures] != [each.name for each in self._shown]:
            self._make(figures)
        self._shown = figures
        for shown, each in zip(self.labels, figures, strict=True):
            shown.show_figure(each.figure)
            shown.setFixedWidth(shown.sizeHint().width())

    def _make(self, figures: tuple[NamedFigure, ...]) -> None:
        while self._flow.count():
            gone = self._flow.takeAt(0)
            widget = gone.widget() if gone is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.labels = []
        for each in figures:
            figure = FigureLabel(each.name, left=True, by_tab=True)
            figure.workings_wanted.connect(self.workings_wanted)
            figure.setFixedHeight(19)
            pair = QWidget()
            row = QHBoxLayout(pair)
            row.setContentsMargins(0, 0, 0, 0)
            row.setSpacing(4)
            row.addWidget(label(each.name, "muted"))
            row.addWidget(figure)
            self._flow.addWidget(pair)
            self.labels.append(figure)
