"""The open document: one project, its file, and the way back."""

from __future__ import annotations

import hashlib
import os
import secrets
from datetime import datetime
from pathlib import Path
from typing import Self

from winebench.model.edits import Edit
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.session.changes import Changes
from winebench.session.history import History
from winebench.store.backups import keep_previous
from winebench.store.errors import ChangedOnDiskError, StoreError
from winebench.store.pictures import copy_pictures
from winebench.store.project_file import read_with_data, to_bytes, write_data
from winebench.store.recovery import Unsaved, forget_copy, keep_copy
from winebench.store.soundness import faults


class Session:
    """An open project. It can always be saved: an edit that would break that is refused."""

    def __init__(self, project: Project, path: Path | None = None) -> None:
        """Start with this project as it is; `path` is where a save puts it."""
        self._project = project
        self._path = path
        self._saved: Project | None = project
        self._on_disk = _mark_of(path)
        self._disk = _disk_of(path)
        self._proven: tuple[Entry, ...] = ()
        """Entries that are known to read back from a file as they are."""
        self._history = History()
        self._key = secrets.token_hex(8)

    @classmethod
    def open(cls, path: Path) -> Self:
        """Return a session on that file; StoreError says what is wrong with it."""
        project, data = read_with_data(path)
        session = cls(project, path)
        session._on_disk = _mark(data)
        session._proven = project.log
        return session

    @classmethod
    def unsaved(cls, project: Project) -> Self:
        """Return a session on a new project that no file holds: dirty, so that it is kept."""
        session = cls(project)
        session._saved = None
        return session

    @classmethod
    def recover(cls, unsaved: Unsaved) -> Self:
        """Return a session on work found after a crash: dirty, its copy its own."""
        session = cls(unsaved.project, unsaved.path)
        session._saved = None
        session._on_disk = unsaved.on_disk
        session._disk = None
        session._proven = unsaved.project.log
        session._key = unsaved.key
        return session

    @property
    def project(self) -> Project:
        """Return the project as it is now."""
        return self._project

    @property
    def key(self) -> str:
        """Return the key that a copy of its unsaved work is kept under."""
        return self._key

    @property
    def path(self) -> Path | None:
        """Return the project's file, or None where it has none yet."""
        return self._path

    @property
    def dirty(self) -> bool:
        """Return whether the project holds more than was saved (or than it began with)."""
        return self._project is not self._saved and self._project != self._saved

    # --- edits and the way back ------------------------------------------------------------

    def apply(self, edit: Edit) -> Changes:
        """Make the edit and return what it changed; one that changes nothing is not kept.

        Raises:
            StoreError: the project could then not be saved, as with a gallon of no country;
                nothing was changed.

        """
        before = self._project
        begun = self._history.before(edit.takes_back) if edit.takes_back else None
        after = edit.apply(before if begun is None else begun)
        if after != before:
            for fault in faults(after, before):
                raise StoreError(f"{fault}.")
            self._history.push(before, after, edit.label, edit.merges_as)
        if edit.settles:
            self._history.settle(after, edit.settles)
        return self._go_to(after if after != before else None)

    def undo(self) -> Changes:
        """Take the last step back; return what changed, or nothing at the beginning."""
        return self._go_to(self._history.back(self._project))

    def redo(self) -> Changes:
        """Make the step taken back again; return what changed, or nothing at the end."""
        return self._go_to(self._history.forth(self._project))

    @property
    def can_undo(self) -> bool:
        """Return whether there is a step to take back."""
        return self._history.can_undo

    @property
    def can_redo(self) -> bool:
        """Return whether there is a step to make again."""
        return self._history.can_redo

    @property
    def undo_label(self) -> str:
        """Return the label of the step that undo takes back, or empty."""
        return self._history.undo_label

    @property
    def redo_label(self) -> str:
        """Return the label of the step that redo makes again, or empty."""
        return self._history.redo_label

    def _go_to(self, project: Project | None) -> Changes:
        if project is None:
            return Changes()
        changes = Changes.between(self._project, project)
        self._project = project
        return changes

    # --- the file --------------------------------------------------------------------------

    def save(self, path: Path | None = None, *, force: bool = False) -> None:
        """Write the project to its file, or to `path`, which is its file from then on.

        Pictures of its entries are copied along.

        Raises:
            ChangedOnDiskError: another program wrote the file since; `force` overwrites it, and
                what that program wrote is kept among the earlier versions.
            StoreError: it cannot be written; the file is as it was, the project is unsaved.

        """
        target = path or self._path
        if target is None:
            raise StoreError("This project has no file yet; choose where to save it.")
        if target == self._path and not force and self.changed_on_disk():
            raise ChangedOnDiskError(
                f'"{target}" was changed by another program since it was read; '
                "open it again, save under another name, or overwrite it."
            )
        if target == self._path and not force and self._unplugged():
            raise StoreError(
                f'"{target}" is not there: its folder is gone or on another disk. '
                "Plug the disk in again, or save elsewhere."
            )
        data = to_bytes(self._project, self._proven)
        self._proven = self._project.log
        if force:
            keep_previous(target, spacing_s=0.0)
        if self._path is not None and target != self._path:
            copy_pictures(self._project, self._path, target)
        write_data(target, data)
        self._path, self._on_disk, self._disk = target, _mark(data), _disk_of(target)
        self._saved = self._project
        self._history.part()
        forget_copy(self._key)

    def changed_on_disk(self) -> bool:
        """Return whether the file is there and holds other than when it was read or saved."""
        mark = _mark_of(self._path)
        return mark != "" and mark != self._on_disk

    def gone(self) -> bool:
        """Return whether its file was moved or deleted since it was read or saved."""
        return self._path is not None and self._on_disk != "" and not self._path.exists()

    def _unplugged(self) -> bool:
        """Return whether the file is gone with its disk, and its folder only what is left of it."""
        return self.gone() and self._disk is not None and _disk_of(self._path) != self._disk

    def take_in(self) -> Changes:
        """Go on from what another program wrote to the file; undo leads back to the work before.

        Raises:
            StoreError: it cannot be read, or is another batch; nothing was changed.

        """
        if self._path is None:
            return Changes()
        project, data = read_with_data(self._path)
        if project.id != self._project.id:
            raise StoreError(f'"{self._path}" holds another batch than before.')
        if project != self._project:
            self._history.push(self._project, project, "change by another program", "")
        self._saved, self._on_disk, self._proven = project, _mark(data), project.log
        forget_copy(self._key)
        return self._go_to(project)

    # --- copies of unsaved work ------------------------------------------------------------

    def autosave(self, now: datetime) -> None:
        """Keep a copy of unsaved work, or drop it where nothing is unsaved any more.

        Raises:
            StoreError: it cannot be kept; worth telling once, the work goes on.

        """
        if self.dirty:
            keep_copy(self._key, self._project, self._path, now, self._on_disk, proven=self._proven)
            self._proven = self._project.log
        else:
            forget_copy(self._key)

    def close(self) -> None:
        """Drop the copy of unsaved work: the document is closed on purpose."""
        forget_copy(self._key)


def _mark(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _disk_of(path: Path | None) -> int | None:
    """Return the system's number of the disk that the file's folder is on, None where unknown."""
    try:
        return os.stat(path.absolute().parent).st_dev if path else None
    except OSError:
        return None


def _mark_of(path: Path | None) -> str:
    """Return the mark of what the file holds, or "" where there is none to read."""
    try:
        return _mark(path.read_bytes()) if path else ""
    except OSError:
        return ""
