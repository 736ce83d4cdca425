"""Keep the work safe without being asked: files are saved, unnamed work is kept aside."""

from __future__ import annotations

from time import perf_counter

from PySide6.QtCore import QObject, QTimer, Signal

from winebench.store.errors import ChangedOnDiskError, StoreError
from winebench.store.settings import remember_last
from winebench.window.document import Document, local_now

QUIET_MS = 300
"""So long after the first key that is not kept yet is the work kept."""
_SHARE = 10
"""Where keeping takes a while (a long log, a slow disk), it is done less often: a tenth of the
time at most."""
_AGAIN_MS = 5000
"""So long after a save that failed it is tried again: a disk may be plugged in, or have room."""


class Keeper(QObject):
    """Save a project that has a file shortly after each edit; keep a copy of one that has none."""

    told = Signal(str)
    """The state of the work for the foot of the window."""
    failed = Signal(str)
    """Why the work could not be kept; told once, until it can be kept again."""
    returned = Signal(str)
    """Another program moved or deleted the file; it is written anew in its place."""
    overtaken = Signal(str)
    """Another program changed the file; the work is kept aside meanwhile."""
    solved = Signal(str)
    """What was told of in `failed` or `overtaken` is over: the file holds the work."""

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._complaint = ""
        """What was told and still holds."""
        self._words = ""
        self._again = QTimer(self)
        self._again.setSingleShot(True)
        self._again.setInterval(_AGAIN_MS)
        self._again.timeout.connect(self.keep)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(QUIET_MS)
        self._timer.timeout.connect(self.keep)
        document.edited.connect(lambda _changes: self._wait())
        document.replaced.connect(self._begin)

    def _begin(self) -> None:
        self._timer.stop()
        self._again.stop()
        self._complaint = ""
        session = self._document.session
        if session.path is not None and not session.dirty:
            self._tell(f"Saved in {session.path.name}")
        else:
            self._tell("Kept; not yet in a file of its own")
            if session.dirty:
                self._wait()

    def _wait(self) -> None:
        if not self._timer.isActive():  # steady typing must not put the keeping off for ever
            self._timer.start()

    def keep(self) -> bool:
        """Keep the work now; return whether it is safe."""
        begun = perf_counter()
        safe = self._keep()
        took = round((perf_counter() - begun) * 1000)
        self._timer.setInterval(max(QUIET_MS, _SHARE * took))
        return safe

    def _keep(self) -> bool:
        self._timer.stop()
        session = self._document.session
        if session.path is None:
            return self._keep_aside()
        if not session.dirty:
            session.autosave(local_now())  # undone to what the file holds: no copy is needed
            self._solve()
            return True
        gone = session.gone()
        try:
            session.save()
        except ChangedOnDiskError as problem:
            return self._keep_aside(str(problem), overtaken=True)
        except StoreError as problem:
            self._again.start()
            return self._keep_aside(str(problem))
        self.tell_saved()
        self._document.state_changed.emit()
        if gone:
            self.returned.emit(
                f'"{session.path}" was moved or deleted by another program; the work is saved '
                "there anew. Save it elsewhere if the other place is the right one."
            )
        return True

    def tell_saved(self) -> None:
        """Say that the file holds the work."""
        now = local_now()
        path = self._document.session.path
        name = f" in {path.name}" if path else ""
        self._again.stop()
        self._solve()
        self._tell(f"Saved {now.hour:02d}:{now.minute:02d}{name}")

    def _keep_aside(self, why: str = "", *, overtaken: bool = False) -> bool:
        """Keep a copy; `why` says what is wrong with the project's own file, if anything is."""
        session = self._document.session
        try:
            session.autosave(local_now())
        except StoreError as problem:
            self._again.start()
            self._complain(" ".join(filter(None, (why, str(problem)))), overtaken=overtaken)
            self._tell("Not kept anywhere")
            return False
        if session.path is None:
            self._solve()
            self._tell("Kept; not yet in a file of its own")
        else:
            self._complain(f"{why} Your work is kept aside meanwhile.", overtaken=overtaken)
            self._tell(f"Kept aside, not in {session.path.name}")
        return True

    def _complain(self, sentence: str, *, overtaken: bool = False) -> None:
        """Tell what is wrong, once for as long as it stays the same."""
        if sentence == self._complaint:
            return
        self._solve()
        self._complaint = sentence
        (self.overtaken if overtaken else self.failed).emit(sentence)

    def _solve(self) -> None:
        if self._complaint:
            self.solved.emit(self._complaint)
            self._complaint = ""

    def _tell(self, words: str) -> None:
        remember_last(self._document.session.path)  # of two windows the one worked in last
        self._words = words
        self.told.emit(words)

    @property
    def words(self) -> str:
        """Return what was told last."""
        return self._words
