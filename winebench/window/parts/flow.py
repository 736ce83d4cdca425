"""Controls beside each other, on as many lines as the width asks for."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class Flow(QLayout):
    """Lay out like words: what has no room on a line goes to the next."""

    def __init__(self, parent: QWidget | None = None, gap: int = 4) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._gap = gap
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        """Take the item in as the last one."""
        self._items.append(item)

    def count(self) -> int:
        """Return how many items there are."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """Return the item of that place, or None."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Take the item of that place out and return it, or None."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """Return that it wants no more room than it needs."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """Return that a narrow one is higher."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height of all lines at that width."""
        return self._placed(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        """Put the items where they go."""
        super().setGeometry(rect)
        self._placed(rect, move=True)

    def sizeHint(self) -> QSize:
        """Return the size of all items on one line."""
        sizes = [item.sizeHint() for item in self._shown()]
        width = sum(size.width() + self._gap for size in sizes) - self._gap
        return self._with_margins(max(width, 0), sizes)

    def minimumSize(self) -> QSize:
        """Return the size of the widest item."""
        sizes = [item.minimumSize() for item in self._shown()]
        width = max((size.width() for size in sizes), default=0)
        return self._with_margins(width, sizes)

    def _with_margins(self, width: int, sizes: list[QSize]) -> QSize:
        margins = self.contentsMargins()
        high = max((size.height() for size in sizes), default=0)
        return QSize(width, high).grownBy(margins)

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _placed(self, rect: QRect, *, move: bool) -> int:
        """Place the items, or only reckon; return the height that they take."""
        margins = self.contentsMargins()
        inner = rect.marginsRemoved(margins)
        x, y, high = inner.x(), inner.y(), 0
        for item in self._shown():
            size = item.sizeHint()
            if x > inner.x() and x + size.width() > inner.right() + 1:
                x, y, high = inner.x(), y + high + self._gap, 0
            if move:
                width = min(size.width(), inner.width())
                item.setGeometry(QRect(QPoint(x, y), QSize(width, size.height())))
            x += size.width() + self._gap
            high = max(high, size.height())
        return y + high - rect.y() + margins.bottom()
