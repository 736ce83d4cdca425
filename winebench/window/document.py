"""The open document for the window: edits go in, the outlook comes out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import QObject, QTimer, Signal

from winebench.model.edits import Edit
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.model.stock import PantryItem
from winebench.plan.outlook import Outlook
from winebench.session import Changes, Session
from winebench.store.errors import StoreError
from winebench.store.local_zone import LOCAL_ZONE
from winebench.window.forecasts import Forecasts

_MINUTE_MS = 60_000


def local_now() -> datetime:
    """Return this moment in the local zone, with its clock changes to come."""
    return datetime.now(LOCAL_ZONE).replace(microsecond=0)


class Document(QObject):
    """Hold the session, work the outlook out after each change and as time goes on."""

    outlook_changed = Signal(object)
    """A new Outlook; comes after every change, every minute, and with a new forecast."""
    replaced = Signal()
    """Another project is open now."""
    state_changed = Signal()
    """Saved, unsaved, undo, redo or the name of the file changed."""
    edited = Signal(object)
    """What an edit, undo or redo changed (Changes)."""
    refused = Signal(str)
    """Why an edit could not be made; one sentence."""

    def __init__(
        self, session: Session, at: datetime | None = None, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._at = at
        self.session = session
        self.forecasts = Forecasts(self)
        self.forecasts.arrived.connect(self.work_out)
        self.outlook: Outlook | None = None
        self._log_before: tuple[Entry, ...] | None = None
        """The log as it was before its last edit; None where that is not known."""
        self._counted: tuple[PantryItem, ...] = ()
        """The stock that the outlook counts."""
        self._timer = QTimer(self)
        self._timer.setInterval(_MINUTE_MS)
        self._timer.timeout.connect(self.work_out)
        if at is None:
            self._timer.start()

    @property
    def project(self) -> Project:
        """Return the project as it is now."""
        return self.session.project

    def now(self) -> datetime:
        """Return the moment that the window shows."""
        return self._at or local_now()

    def replace(self, session: Session, at: datetime | None = None) -> None:
        """Show another document; `at` fixes its moment, None lets time run."""
        self._at = at
        self.session = session
        self._log_before = None
        self.forecasts.forget()
        if at is None:
            self._timer.start()
        else:
            self._timer.stop()
        self.replaced.emit()
        self.work_out()
        self.state_changed.emit()

    def edit(self, edit: Edit) -> None:
        """Make the edit; where the project could then not be saved, say why and change nothing."""
        self._step(lambda: self.session.apply(edit))
        if edit.settles:
            self.state_changed.emit()  # what undo takes back is another step now

    def undo(self) -> None:
        """Take the last step back."""
        self._step(self.session.undo)

    def redo(self) -> None:
        """Make the step taken back again."""
        self._step(self.session.redo)

    def _step(self, step: Callable[[], Changes]) -> None:
        before = self.project.log
        try:
            changes = step()
        except StoreError as problem:
            self.refused.emit(str(problem))
        else:
            if changes.touches("log"):
                self._log_before = before
            self._tell(changes)

    def take_in(self) -> None:
        """Show what another program wrote to the file; undo leads back to the work before.

        Raises:
            StoreError: it cannot be read, or is another batch; nothing was changed.

        """
        self._tell(self.session.take_in())

    def _tell(self, changes: Changes) -> None:
        if changes:
            if (
                changes.fields == {"drafts"}
                and self.outlook is not None
                and self._counts_the_same()
            ):
                # Text that cannot be read yet changes nothing else that is worked out.
                self.outlook_changed.emit(self.outlook)
            else:
                self.work_out()
            self.edited.emit(changes)
            self.state_changed.emit()

    def _counts_the_same(self) -> bool:
        """Return whether the stock that can be read is what it was: a draft takes it out."""
        from winebench.plan.shopping.pantry_typed import counted

        return counted(self.project).pantry == self._counted

    def work_out(self) -> None:
        """Work the outlook out anew and tell of it."""
        from winebench.plan.shopping.pantry_typed import counted
        from winebench.plan.work_out import outlook

        self._counted = counted(self.project).pantry
        self.forecasts.begin()
        try:
            self.outlook = outlook(self.project, self.now(), self.forecasts, self._log_before)
        except (ValueError, ArithmeticError) as problem:
            # A must outside what the trade's rules know: the typing goes on, the figures wait.
            reason = str(problem).rstrip(".")
            self.refused.emit(
                f"This cannot be worked out as it stands ({reason}); the figures are those of "
                "before. What you typed is kept."
            )
        if self.outlook is not None:
            self.outlook_changed.emit(self.outlook)
