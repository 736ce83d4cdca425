"""Whether the open batch wants a vessel that another of the recent batches holds."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, QTimer

from winebench.model.project import Project
from winebench.plan.household.clashes import Clash, clashes
from winebench.plan.outlook import Outlook
from winebench.store import recent
from winebench.store.errors import StoreError
from winebench.store.project_file import read
from winebench.units import UnitsError
from winebench.window.banner import Banner
from winebench.window.document import Document

_FIRST_MS, _EACH_MS = 1500, 60
"""After the window stands, and between two files, so that typing goes before."""


class Neighbours(QObject):
    """Look once at each opening, a file at a time; say what is found when nothing else is said."""

    def __init__(self, document: Document, banner: Banner, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._banner = banner
        self._waiting: list[Path] = []
        self._others: list[tuple[Project, Outlook]] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._next)
        document.replaced.connect(self._begin)

    @property
    def busy(self) -> bool:
        """Return whether files are still to be looked at."""
        return self._timer.isActive()

    def _begin(self) -> None:
        mine = self._document.session.path
        self._waiting = [path for path in recent.recent_files() if path != mine]
        self._others = []
        if self._waiting and self._document.project.make.vessels:
            self._timer.start(_FIRST_MS)
        else:
            self._timer.stop()

    def _next(self) -> None:
        """Look at one more file, or tell where all are looked at."""
        if not self._waiting:
            self._tell()
            return
        found = _seen(self._waiting.pop(0), self._document)
        if found is not None:
            self._others.append(found)
        self._timer.start(_EACH_MS)

    def _tell(self) -> None:
        if self._document.outlook is None:
            return
        if self._banner.isVisible():  # what it says matters more; this can wait
            self._timer.start(_FIRST_MS)
            return
        project = self._document.project
        both = clashes([(project, self._document.outlook), *self._others])
        mine = [one for one in both if any(stay.batch == project.id for stay in one.stays)]
        if mine:
            self._banner.say(_words(mine))


def _words(found: list[Clash]) -> str:
    first = found[0]
    more = len(found) - 1
    also = f" So {'is' if more == 1 else 'are'} {more} more." if more else ""
    return f"{first.sentence} {first.detail}{also}"


def _seen(path: Path, document: Document) -> tuple[Project, Outlook] | None:
    """Return that file's batch by the usual course, or None where it cannot be read."""
    from winebench.plan.work_out import outlook

    try:
        project = read(path)
        if project.id == document.project.id or not project.make.vessels:
            return None
        return project, outlook(project, document.now(), lambda *_: None)
    except (StoreError, UnitsError, ValueError, ArithmeticError):
        return None  # it is told when it is opened
