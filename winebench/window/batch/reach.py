"""Reach the targets: choose what is held and what may change; the answer follows at once."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from winebench.model.edits import Edit, Several, settle
from winebench.plan.solve import SolveError, solve
from winebench.plan.solve.own_targets import as_targets
from winebench.units import UnitsError
from winebench.window.batch.reach_answer import ReachAnswer
from winebench.window.batch.reach_question import PLACE, ReachQuestion
from winebench.window.document import Document
from winebench.window.parts.scrolled import Scrolled
from winebench.window.parts.settling import settle_at
from winebench.window.parts.undo_keys import undone
from winebench.window.parts.words import button, label

_TEACH = "Hold what the must is to be; tick what may change for it. Nothing changes until “Do it”."


class ReachDialog(QDialog):
    """The question on the left, the answer on the right; one button makes it so."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Reach the targets")
        self._document = document
        self._edit: Edit | None = None
        self.question = ReachQuestion(document.project)
        self.answer = ReachAnswer()
        self.leave = button("Close", "Close and leave the recipe as it is", self.reject, "quiet")
        self.act = button("Do it", "Change the recipe so, in one step", self._do, "act")
        self.act.setDefault(True)
        self._arrange()
        self.question.changed.connect(self._show)
        self.question.edit_wanted.connect(document.edit)
        document.edited.connect(self._follow)
        document.replaced.connect(self.reject)
        settle_at(self.rejected, document, PLACE)
        self._show()
        self.question.focus_first()

    def _arrange(self) -> None:
        area = Scrolled(self.question)
        area.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)
        sides = QHBoxLayout()
        sides.setSpacing(20)
        sides.addWidget(area)
        sides.addWidget(self.answer, 1)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addStretch(1)
        foot.addWidget(self.leave)
        foot.addWidget(self.act)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(12)
        column.addWidget(label(_TEACH, "muted", wraps=True))
        column.addLayout(sides, 1)
        column.addLayout(foot)
        room = self.screen().availableSize()
        self.resize(min(1080, room.width() - 40), min(620, room.height() - 60))

    def _follow(self, _changes: object) -> None:
        self.question.show_project(self._document.project)
        self._show()

    def _show(self) -> None:
        """Work the answer out anew and show it."""
        self._edit = None
        try:
            found = solve(self._document.project, self.question.ask())
        except (SolveError, UnitsError) as problem:
            self.answer.say(str(problem))
        else:
            self.answer.show_answer(found)
            self._edit = found.edit
        self.act.setEnabled(self._edit is not None)

    def _do(self) -> None:
        edit = self._edit
        if edit is None:
            return
        typed, forgotten = self.question.typed(), self.question.forgotten()
        self._document.edit(settle(PLACE))  # undo brings the whole values back, not a last key
        targets = as_targets(self._document.project, typed)
        edits = (edit, *filter(None, (targets,)), *forgotten)
        self._document.edit(Several(label=edit.label, edits=edits))
        self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Undo and redo here too: the dialog stands before the window that else has the keys."""
        if not undone(event, self._document):
            super().keyPressEvent(event)
