"""Something that shows a figure: a click, F1, Enter or Space asks for its workings."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QWidget

from winebench.plan.outlook import Figure

_KEYS = (Qt.Key.Key_F1, Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class Explaining(QWidget):
    """Base of the widgets whose figure can be asked how it was reached."""

    workings_wanted = Signal(object)

    @property
    def shown_figure(self) -> Figure | None:
        """Return the figure that is shown."""
        raise NotImplementedError

    def explain(self) -> None:
        """Ask for the workings, where the figure has any."""
        figure = self.shown_figure
        if figure is not None and figure.workings is not None:
            self.workings_wanted.emit(figure)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Explain on a click."""
        if event.button() == Qt.MouseButton.LeftButton and self.rect().contains(
            event.position().toPoint()
        ):
            self.explain()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Explain by key."""
        if event.key() in _KEYS:
            self.explain()
        else:
            super().keyPressEvent(event)
