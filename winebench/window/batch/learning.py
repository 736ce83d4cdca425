"""The finished batches that the forecast learns from: what each says, to be taken in and out."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from winebench.model.project import Project
from winebench.plan.learning.learn_from import NotLearnedError, lesson
from winebench.plan.learning.lessons import Lesson, lessons_of, take_in, take_out, told_lesson
from winebench.plan.learning.own_ferments import NOTHING_LEARNED, learned_words
from winebench.plan.learning.own_losses import pooled_words
from winebench.session import Changes
from winebench.store import recent
from winebench.store.errors import StoreError
from winebench.store.project_file import SUFFIX, read
from winebench.window.document import Document
from winebench.window.file_dialog import ask_for_files
from winebench.window.parts.listing import Listing
from winebench.window.parts.undo_keys import undone
from winebench.window.parts.words import button, label
from winebench.window.theme import theme

_COLUMNS = {"Batch": 250, "Learned from": 120, "How it went": 0}
_TEACH = (
    "What your own finished ferments share, such as their pace, moves the forecast of this batch "
    "a part of the way, and what their rackings cost moves its losses. Each can be taken out again."
)
_NONE = "No other batch was opened lately: choose a file."


class Taught(NamedTuple):
    """A batch that is listed: what it says, or why it says nothing."""

    name: str
    lesson: Lesson | None
    why: str = ""


class LearningDialog(Listing[Taught]):
    """One row a batch: those learned from, then the files opened lately and those chosen here."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__("Learn from finished batches", _COLUMNS, _TEACH, parent)
        self._document = document
        self._at_hand: list[Taught] = []
        """What was read of files or taken out here, whether it is learned from or not."""
        self._files: deque[tuple[Path, bool]] = deque()
        """Still to be read, and whether to learn from it at once."""
        self.going_by = label(role="strong", wraps=True)
        self.losing_by = label(role="muted", wraps=True)
        self.another = button("&Add a file…", "Learn from a batch in another file", self.ask)
        self._arrange_more()
        self.list.currentCellChanged.connect(self._name_button)
        document.edited.connect(self._edited)
        document.refused.connect(self.said.setText)
        document.replaced.connect(self.reject)
        mine = document.session.path
        self._files.extend((path, False) for path in recent.recent_files() if path != mine)
        self._show_all()
        self.begin(self._read())

    def _arrange_more(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.going_by, 1)
        row.addWidget(self.another, 0, Qt.AlignmentFlag.AlignTop)
        column = self.layout()
        assert isinstance(column, QVBoxLayout)
        column.insertLayout(1, row)
        column.insertWidget(2, self.losing_by)
        room = self.screen().availableSize()
        self.resize(min(860, room.width() - 20), min(520, room.height() - 40))

    # --- what is listed ----------------------------------------------------------------------

    def _read(self) -> Iterator[Taught]:
        """Give what each waiting file teaches, one at a time."""
        while self._files:
            path, wanted = self._files.popleft()
            found = _taught(path, self._document.project, self._document.now())
            if found not in self._at_hand:
                self._at_hand.append(found)
                yield found
            if wanted:
                self._take_in(found)

    def _take_in(self, found: Taught) -> None:
        """Learn from the batch of a file that was chosen, or say why not."""
        if found.lesson is not None and not self._learned(found):
            self._document.edit(take_in(self._document.project, found.lesson))
        self._choose(found)
        self.list.setFocus()

    def add(self, found: Taught) -> None:
        """Show one more batch, unless it is learned from as it is and stands above already."""
        if not self._learned(found):
            self._show_row(found)

    def end(self) -> None:
        """Say where batches come from, where there is none."""
        if not self.found:
            self.said.setText(_NONE)
            self.another.setFocus()

    def _show_all(self) -> None:
        """List what is learned from, then what else is at hand, and say what comes of it."""
        project, before = self._document.project, self.chosen
        self.list.setRowCount(0)
        self.found.clear()
        for one in lessons_of(project):
            self._show_row(Taught(one.name, one))
        for found in self._at_hand:
            self.add(found)
        self.going_by.setText(learned_words(project) or NOTHING_LEARNED)
        self.losing_by.setText(pooled_words(project))
        if before is not None:
            self._choose(before)

    def _choose(self, wanted: Taught) -> None:
        """Choose the row of that batch, or the first where it stands no more."""
        row = next((row for row, found in self.found.items() if found == wanted), 0)
        if self.found:
            self.list.setCurrentCell(row, 0)

    def _show_row(self, found: Taught) -> None:
        said = told_lesson(found.lesson) if found.lesson else found.why
        cells = (found.name, self._state(found), said)
        row, items = self.add_row(cells)
        self.found[row] = found
        items[0].setData(Qt.ItemDataRole.AccessibleTextRole, ", ".join(cells))
        for item in items:
            if not self._learned(found):
                item.setForeground(theme().palette.muted)
        self.choose_first(row)

    def _learned(self, found: Taught) -> bool:
        return found.lesson in lessons_of(self._document.project)

    def _state(self, found: Taught) -> str:
        if self._learned(found):
            return "yes"
        known = {one.batch for one in lessons_of(self._document.project)}
        changed = found.lesson is not None and found.lesson.batch in known
        return "not as it is now" if changed else "no"

    def _edited(self, changes: Changes) -> None:
        if changes.touches("own_ferments") or changes.touches("own_losses"):
            self._show_all()

    # --- what is done with it ----------------------------------------------------------------

    def can_take(self, found: Taught) -> bool:
        """Return whether it can be learned from, or taken out."""
        return found.lesson is not None

    def words_of(self, found: Taught) -> str:
        """Return what can be done with it, or why nothing can."""
        if found.lesson is None:
            return found.why
        way = "takes it out again" if self._learned(found) else "learns from it"
        return f"Enter {way}; it can be undone."

    def _name_button(self, *_cells: int) -> None:
        found = self.chosen
        words = "Take out" if found is not None and self._learned(found) else "Learn from it"
        self.take.setText(words)
        self.take.setAccessibleName(f"{words}: {found.name}" if found else words)

    def taken(self, found: Taught) -> bool:
        """Learn from it or take it out, and stay open."""
        project = self._document.project
        if found.lesson is None:
            return False
        if not self._learned(found):
            self._document.edit(take_in(project, found.lesson))
            return False
        if found not in self._at_hand:
            self._at_hand.append(found)
        self._document.edit(take_out(project, (found.lesson,)))
        return False

    def ask(self) -> None:
        """Ask for files with batches to learn from."""
        ask_for_files(
            self,
            "Learn from a finished batch",
            f"Winebench projects (*{SUFFIX});;All files (*)",
            lambda paths: self.learn_from(*paths),
            wanted="some",
            project=self._document.session.path,
        )

    def learn_from(self, *paths: Path) -> None:
        """Read those files and learn from each that can be learned from."""
        self._files.extendleft((path, True) for path in reversed(paths))
        if not self.busy:
            self.begin(self._read())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Undo and redo as in the window."""
        if not undone(event, self._document):
            super().keyPressEvent(event)


def _taught(path: Path, project: Project, now: datetime) -> Taught:
    """Return what the batch of that file teaches the project, or why it does not."""
    try:
        other = read(path)
    except StoreError as problem:
        return Taught(path.stem, None, str(problem))
    try:
        return Taught(other.name, lesson(project, other, now))
    except NotLearnedError as problem:
        return Taught(other.name, None, str(problem))
