"""The log: readings, steps done and notes, newest first; correct, take out, add a note."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from winebench.model.edits import DropEntry, KeepDraft, PutEntry, Several, changed, new_id, settle
from winebench.model.log import Entry, Note
from winebench.model.project import Project
from winebench.plan.outlook import Outlook
from winebench.window.logging.controls import field
from winebench.window.logging.entry_form import EntryForm
from winebench.window.logging.log_words import Named, named, words_of
from winebench.window.logging.moved_line import MovedLine
from winebench.window.logging.picture_row import PictureRow
from winebench.window.parts.words import button
from winebench.window.parts.words_table import Column, WordsTable

Index = QModelIndex | QPersistentModelIndex
_HEADINGS = ("When", "What", "Says")
_COLUMNS = (Column(0.2, 142), Column(0.25, 128), Column(0.55, 200))
_NOTE = "note"
"""Where the text of a note is kept until it is added."""


class LogModel(QAbstractTableModel):
    """Entries newest first; words are made only for the rows that are looked at."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.entries: tuple[Entry, ...] = ()
        self._names = Named({}, {}, {})
        self.year = 0

    def show_entries(self, entries: tuple[Entry, ...]) -> None:
        """Show another log."""
        self.beginResetModel()
        self.entries = entries
        self.endResetModel()

    def show_now(self, now: datetime) -> None:
        """Leave out the year of `now`, which goes without saying."""
        year, self.year = self.year, now.year
        if year != self.year and self.entries:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.entries) - 1, 0))

    def show_names(self, names: Named) -> None:
        """Use other words for steps and readings."""
        if names == self._names:
            return
        self._names = names
        if self.entries:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.entries) - 1, 2))

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many entries there are."""
        return 0 if parent is not None and parent.isValid() else len(self.entries)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return how many columns there are."""
        return 0 if parent is not None and parent.isValid() else len(_HEADINGS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return a cell's words."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        if role not in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole):
            return None
        return words_of(self.entries[index.row()], self._names, self.year)[index.column()]

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        """Return a column's heading."""
        across = orientation == Qt.Orientation.Horizontal
        return _HEADINGS[section] if across and role == Qt.ItemDataRole.DisplayRole else None


class LogList(QWidget):
    """Show the log; each change leaves as an edit that undo takes back."""

    edit_wanted = Signal(object)
    picture_wanted = Signal(str)
    """The id of the entry that a picture is to be chosen for."""
    pictures_dropped = Signal(str, list)
    """The id of an entry, and the files dropped on it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._now: datetime | None = None
        self._project: Project | None = None
        self._outlook: Outlook | None = None
        self._unsettled = False
        """Whether undo would take back a note that is typed and not added."""
        self.model = LogModel(self)
        self.view = WordsTable("Log, newest first", _COLUMNS)
        self.note = field("Add a note to the log", "A note, then Enter")
        self.correct = button("Correct…", "Correct the chosen entry", self._correct)
        self.delete = button("Delete", "Delete the chosen entry; undo brings it back", self._delete)
        self.add_picture = button(
            "Add a picture…", "Add a picture to the chosen entry", self._add_picture
        )
        self.moved = MovedLine()
        self.pictures = PictureRow()
        self.form = EntryForm()
        self.view.setModel(self.model)
        self._arrange()
        self._connect()
        self._allow()

    def _arrange(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.note, 1)
        row.addWidget(self.add_picture)
        row.addWidget(self.correct)
        row.addWidget(self.delete)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self.view, 1)
        column.addWidget(self.moved)
        column.addWidget(self.pictures)
        column.addWidget(self.form)
        column.addLayout(row)
        self.form.hide()
        self.setAcceptDrops(True)

    def _connect(self) -> None:
        self.note.textEdited.connect(self._keep_note)
        self.note.returnPressed.connect(self._add_note)
        self.view.doubleClicked.connect(self._correct)
        self.view.selectionModel().selectionChanged.connect(self._allow)
        self.pictures.take_out_wanted.connect(self._take_out)
        self.form.edit_wanted.connect(self.edit_wanted)
        self.form.left.connect(self.view.setFocus)

    def show_project(self, project: Project) -> None:
        """Show the project's log; the chosen entry stays chosen while it is there."""
        self._project = project
        typed = next((d.text for d in project.drafts if d.place == _NOTE), "")
        if typed != self.note.text():
            self.note.setText(typed)
        self.form.follow(project)
        entries = tuple(reversed(project.entries))
        if entries == self.model.entries:
            self._ask_what_moved(self._chosen())  # the room or the recipe may have changed
            return
        chosen = self._chosen()
        self._show_names()
        self.model.show_entries(entries)
        if chosen is not None:
            self.select(chosen.id)
        self._allow()

    def show_file(self, path: Path | None) -> None:
        """Take the project's file, beside which its pictures lie."""
        self.pictures.show_pictures(self.pictures.names, path)

    def show_outlook(self, outlook: Outlook) -> None:
        """Take the outlook's words for steps and readings, and its now."""
        self._now = outlook.at
        self._outlook = outlook
        self.model.show_now(outlook.at)
        self._show_names()

    def showEvent(self, event: QShowEvent) -> None:
        """Put into words what came while the log was hidden: no key waits for them."""
        self._show_names()
        super().showEvent(event)
        self._ask_what_moved(self._chosen())

    def hideEvent(self, event: QHideEvent) -> None:
        """Let undo go past a note that is typed but not added: nobody would see it taken back."""
        super().hideEvent(event)
        if self._unsettled and not event.spontaneous():
            self._unsettled = False
            self.edit_wanted.emit(settle(_NOTE))

    def _show_names(self) -> None:
        if self.isVisible() and self._outlook is not None and self._project is not None:
            self.model.show_names(named(self._outlook, self._project))

    def select(self, entry_id: str) -> None:
        """Choose the entry of that id."""
        rows = (row for row, entry in enumerate(self.model.entries) if entry.id == entry_id)
        row = next(rows, None)
        if row is not None:
            self.view.selectRow(row)

    def _chosen(self) -> Entry | None:
        rows = self.view.selectionModel().selectedRows()
        return self.model.entries[rows[0].row()] if rows else None

    def _allow(self) -> None:
        entry = self._chosen()
        chosen = entry is not None
        for each in (self.correct, self.delete, self.add_picture):
            each.setEnabled(chosen)
        # A form is of the entry that is chosen; what is typed in another stays a draft of its own.
        of_it = entry is not None and self.form.entry_id == entry.id
        self.form.setVisible(self.form.isVisible() and of_it)
        self.pictures.show_pictures(entry.pictures if entry else (), self.pictures.file)
        self._ask_what_moved(entry)

    def _ask_what_moved(self, entry: Entry | None) -> None:
        if entry is None or self._project is None or self._now is None or not self.isVisible():
            self.moved.forget()
        else:
            self.moved.ask(self._project, entry.id, self._now)

    def _keep_note(self, text: str) -> None:
        self._unsettled = True
        self.edit_wanted.emit(_note_typed(text))

    def _add_note(self) -> None:
        text = self.note.text().strip()
        if not text or self._now is None:
            return
        note = Note(id=new_id(), at=self._now, text=text)
        put = PutEntry(label="add a note", entry=note)
        self.edit_wanted.emit(Several(label=put.label, edits=(put, _note_typed(""))))

    def _correct(self) -> None:
        chosen = self._chosen()
        if chosen is not None and self._now is not None and self._project is not None:
            self.form.open_for(chosen, self._now, self._project)

    def _delete(self) -> None:
        """Take the chosen entry out; the keyboard goes to the one that takes its row."""
        rows = self.view.selectionModel().selectedRows()
        if not rows:
            return
        row, entries = rows[0].row(), self.model.entries
        if len(entries) > 1:
            self.view.setFocus(Qt.FocusReason.OtherFocusReason)
            self.view.selectRow(row + 1 if row + 1 < len(entries) else row - 1)
        else:
            self.note.setFocus(Qt.FocusReason.OtherFocusReason)
        self.edit_wanted.emit(DropEntry(label="delete an entry", id=entries[row].id))

    def _add_picture(self) -> None:
        chosen = self._chosen()
        if chosen is not None:
            self.picture_wanted.emit(chosen.id)

    def _take_out(self, name: str) -> None:
        chosen = self._chosen()
        if chosen is not None:
            rest = tuple(each for each in chosen.pictures if each != name)
            entry = changed(chosen, pictures=rest)
            self.edit_wanted.emit(PutEntry(label="take out a picture", entry=entry))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files of this computer, while there is an entry to add them to."""
        if self.model.entries and event.mimeData().hasUrls():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Add the files to the entry that they fall on, else to the chosen one."""
        files = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        at = self.view.viewport().mapFrom(self, event.position().toPoint())
        under = self.view.indexAt(at)
        entry = self.model.entries[under.row()] if under.isValid() else self._chosen()
        if entry is not None and files:
            event.acceptProposedAction()
            self.select(entry.id)
            self.pictures_dropped.emit(entry.id, files)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Delete takes the chosen entry out; Enter corrects it."""
        if event.key() == Qt.Key.Key_Delete and self.view.hasFocus():
            self._delete()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.view.hasFocus():
            self._correct()
        else:
            super().keyPressEvent(event)


def _note_typed(text: str) -> KeepDraft:
    return KeepDraft(label="type a note", merges_as=_NOTE, place=_NOTE, text=text)
