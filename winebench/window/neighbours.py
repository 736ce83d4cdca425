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
    """Look once at each opening, a file at a time; say what is found when nothing else is said,
    and take it back once it holds no more."""

    def __init__(self, document: Document, banner: Banner, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._banner = banner
        self._waiting: list[Path] = []
        self._others: list[tuple[Project, Outlook]] = []
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._next)
        self._said = ""
        document.replaced.connect(self._begin)
        document.edited.connect(self._check)

    @property
    def busy(self) -> bool:
        """Return whether files are still to be looked at."""
        return self._timer.isActive()

    def _begin(self) -> None:
        mine = self._document.session.path
        self._waiting = [path for path in recent.recent_files() if path != mine]
        self._others = []
        self._said = ""
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
        self._said = self._found()
        if self._said:
            self._banner.say(self._said)

    def _check(self) -> None:
        """Take back what was told once an edit has settled it."""
        if self._said and self._banner.sentence == self._said and not self._found():
            self._banner.retract(self._said)
            self._said = ""

    def _found(self) -> str:
        """Return what there is to say of this batch's vessels, or ""."""
        project, outlook = self._document.project, self._document.outlook
        if outlook is None:
            return ""
        both = clashes([(project, outlook), *self._others])
        mine = [one for one in both if any(stay.batch == project.id for stay in one.stays)]
        return _words(mine) if mine else ""


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
