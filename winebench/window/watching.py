"""Look whether another program changed the open file: another window, a sync, an editor."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from winebench.store.errors import StoreError
from winebench.window.document import Document

LOOK_MS = 2000
_Seen = tuple[int, int, int]


class Watcher(QObject):
    """Take in what another program wrote while nothing here is unsaved; undo leads back.

    While something is unsaved, the next save finds the change and asks.
    """

    taken_in = Signal(str)
    """What another program wrote is shown now."""
    puzzled = Signal(str)
    """What another program wrote cannot be shown; the work here is as it was."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._known: _Seen | None = None
        """The file as it was when it was last looked into."""
        self._before: _Seen | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.look)
        document.replaced.connect(self._begin)

    def _begin(self) -> None:
        self.know()
        self._timer.start()

    def know(self) -> None:
        """Take the file as it is now for what was read or saved here: it need not be read again.

        Should another program have written in between, the next save finds that out.
        """
        session = self._document.session
        if not session.dirty:
            self._known = self._before = _seen(session.path) if session.path else None

    def look(self) -> None:
        """Look once; a file that is just being written is left until it is quiet."""
        session = self._document.session
        if session.path is None or session.dirty:
            return
        seen, before = _seen(session.path), self._before
        self._before = seen
        if seen is None or seen == self._known or seen != before:
            return
        self._known = seen
        if not session.changed_on_disk():
            return
        try:
            self._document.take_in()
        except StoreError as problem:
            self.puzzled.emit(
                f"Another program changed the file that is open here. {problem} "
                "The work here is as it was."
            )
        else:
            self.taken_in.emit(
                f'"{session.path.name}" was changed by another program; this is how it is now.'
            )


def _seen(path: Path) -> _Seen | None:
    """Return what tells one writing of the file from another, None where it is gone."""
    try:
        about = path.stat()
    except OSError:
        return None
    return about.st_mtime_ns, about.st_size, about.st_ino
