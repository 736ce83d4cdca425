"""The list of names under a line that is being typed, the likeliest first."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QStringListModel, Qt
from PySide6.QtWidgets import QAbstractItemView, QCompleter, QWidget


class OfferList(QCompleter):
    """Shows whole lines as they could become; what fits is found and put in order before."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._lines = QStringListModel(self)
        self.setMaxVisibleItems(8)
        self.setFilterMode(Qt.MatchFlag.MatchContains)
        self.setModel(self._lines)
        self.view.setObjectName("offers")
        self.view.setAccessibleName("What the catalog knows")

    @property
    def view(self) -> QAbstractItemView:
        """Return the list that is seen."""
        popup = self.popup()
        assert popup is not None
        return popup

    def splitPath(self, path: str) -> list[str]:
        """Let every line pass: they are found and in order already."""
        del path
        return [""]

    def offer(self, lines: Sequence[str]) -> None:
        """Show these lines, the likeliest first."""
        self._lines.setStringList(list(lines))

    @property
    def is_open(self) -> bool:
        """Return whether the list can be seen."""
        return self.view.isVisible()

    @property
    def chosen(self) -> str:
        """Return the line that was chosen in the open list, or ""."""
        index = self.view.currentIndex()
        return str(index.data()) if self.is_open and index.isValid() else ""

    @property
    def first(self) -> str:
        """Return the likeliest line of the open list, or ""."""
        lines = self._lines.stringList()
        return lines[0] if self.is_open and lines else ""

    def shut(self) -> None:
        """Take the list away; the keyboard goes back to the line."""
        self.view.hide()
