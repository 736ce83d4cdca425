"""The pictures of the chosen entry, small, in a row under the log."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QIcon, QKeyEvent, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QListView, QListWidget, QListWidgetItem, QWidget

from winebench.store.errors import StoreError
from winebench.store.pictures import picture_path
from winebench.window.theme import theme

_ROOM = QSize(120, 84)
_CELL = QSize(140, 122)
_BAR = 16
"""Height of the bar below when there are more than fit."""
_KEPT = 200
"""Small pictures remembered; each is about 40 kB."""
_NAME = Qt.ItemDataRole.UserRole
Seen = tuple[str, int]


class PictureRow(QListWidget):
    """Enter or a double click opens a picture, Delete takes it off the entry.

    They are read one after the other, so that the window never stands still.
    """

    open_wanted = Signal(str)
    take_out_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.names: tuple[str, ...] = ()
        self.file: Path | None = None
        self._small: dict[Seen, QPixmap] = {}
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._show_next)
        self._waiting: list[QListWidgetItem] = []
        self.setAccessibleName("Pictures of the chosen entry")
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setFlow(QListView.Flow.LeftToRight)
        self.setWrapping(False)
        self.setTabKeyNavigation(False)
        self.setIconSize(_ROOM)
        self.setGridSize(_CELL)
        self.setWordWrap(True)
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.setFixedHeight(_CELL.height() + _BAR)
        self.itemActivated.connect(lambda item: self.open_wanted.emit(item.data(_NAME)))
        self.hide()

    @property
    def busy(self) -> bool:
        """Return whether some are still to be read."""
        return self._timer.isActive()

    def show_pictures(self, names: tuple[str, ...], file: Path | None) -> None:
        """Show the pictures of those names beside the project's file."""
        if (names, file) == (self.names, self.file):
            return
        self.names, self.file = names, file
        self._waiting.clear()
        self.clear()
        for name in names:
            item = QListWidgetItem(name.rpartition("/")[2])
            item.setData(_NAME, name)
            item.setToolTip(name)
            item.setSizeHint(_CELL)
            self.addItem(item)
            self._waiting.append(item)
        self.setVisible(bool(names))
        if names:
            self.setCurrentRow(0)
            self._timer.start(0)

    def _show_next(self) -> None:
        if not self._waiting:
            self._timer.stop()
            return
        item = self._waiting.pop(0)
        path = self._path(item.data(_NAME))
        if path is None or not path.is_file():
            item.setText(f"{item.text()} is missing")
            item.setIcon(_empty_frame())
            return
        small = self._read(path)
        if small.isNull():
            item.setText(f"{item.text()} cannot be shown")
            item.setIcon(_empty_frame())
        else:
            item.setIcon(QIcon(small))

    def _path(self, name: str) -> Path | None:
        try:
            return picture_path(self.file, name) if self.file else None
        except StoreError:
            return None

    def _read(self, path: Path) -> QPixmap:
        from winebench.output.pictures import small_copy  # only who has pictures pays for it

        seen = (str(path), path.stat().st_mtime_ns)
        if seen not in self._small:
            if len(self._small) >= _KEPT:
                self._small.clear()
            self._small[seen] = QPixmap.fromImage(small_copy(path, _ROOM))
        return self._small[seen]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Delete takes the picture off the entry; undo brings it back."""
        item = self.currentItem()
        if event.key() == Qt.Key.Key_Delete and item is not None:
            self.take_out_wanted.emit(item.data(_NAME))
        else:
            super().keyPressEvent(event)


def _empty_frame() -> QIcon:
    """Return a dashed frame where a picture would be."""
    frame = QPixmap(_ROOM)
    frame.fill(Qt.GlobalColor.transparent)
    painter = QPainter(frame)
    painter.setPen(QPen(theme().palette.muted, 1, Qt.PenStyle.DashLine))
    painter.drawRect(8, 4, _ROOM.width() - 17, _ROOM.height() - 9)
    painter.end()
    return QIcon(frame)
