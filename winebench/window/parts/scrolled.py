"""A page as large as it would like to be, scrolled up and down where there is less room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget


class Scrolled(QScrollArea):
    """Never narrower than its page: nothing is cut off at the side."""

    def __init__(self, page: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._page = page
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(page)

    def _with_bar(self, page: QSize) -> QSize:
        return QSize(page.width() + self.verticalScrollBar().sizeHint().width(), page.height())

    def sizeHint(self) -> QSize:
        """Return the page's size, and room for the scroll bar."""
        return self._with_bar(self._page.sizeHint())

    def minimumSizeHint(self) -> QSize:
        """Return the page's least width; its height may be scrolled."""
        return QSize(self._with_bar(self._page.minimumSizeHint()).width(), 80)
