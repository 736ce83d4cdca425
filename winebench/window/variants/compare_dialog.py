"""The open batch beside another: what differs, and what that does to the wine."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from winebench.model.project import Project
from winebench.plan.compare import PARTS, Comparison, Difference, alike_words, compare
from winebench.session import Session
from winebench.store import recent
from winebench.store.project_file import SUFFIX, read
from winebench.window.document import Document
from winebench.window.file_dialog import ask_for_files
from winebench.window.parts.choice import Choice
from winebench.window.parts.words import button, label
from winebench.window.parts.wrapped_rows import wrap_rows
from winebench.window.theme import theme

_TEACH = (
    "Only what differs by more than can be measured stands here. Each recipe is taken as the log "
    "says that it was made."
)
_NONE = "No other batch was opened lately: choose a file."


class CompareDialog(QDialog):
    """Choose a batch at the top; the table below follows at once."""

    def __init__(self, document: Document, aside: Sequence[Session], parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Compare with another batch")
        self._document = document
        self._aside = tuple(one for one in aside if one is not document.session)
        self.choice = Choice("Compare with", self._options())
        self.choice.setMinimumWidth(320)
        self.choice.setMinimumHeight(28)
        self.another = button("Another file…", "Choose another file to compare with", self._ask)
        self.table = QTableWidget(0, 4)
        self.said = label(wraps=True)
        self.alike = label("", "muted", wraps=True)
        self.leave = button("Close", "Close the comparison", self.reject)
        self._arrange()
        self.choice.chosen.connect(self._chosen)
        document.replaced.connect(self.reject)
        self._begin()

    def _options(self) -> list[tuple[str, str]]:
        """Return the batches to choose from: unnamed work of this run, then files opened lately."""
        mine = self._document.session.path
        unnamed = [(f"aside {place}", f"{one.project.name} (not in a file)")
                   for place, one in reversed(list(enumerate(self._aside)))
                   if one.path is None]  # fmt: skip
        files = [path for path in recent.recent_files() if path != mine]
        return [*unnamed, *((str(path), f"{path.stem}  ({path.parent})") for path in files)]

    def _arrange(self) -> None:
        top = QHBoxLayout()
        top.setSpacing(8)
        caption = label("Compare &with", "muted")
        caption.setBuddy(self.choice)
        top.addWidget(caption)
        top.addWidget(self.choice, 1)
        top.addWidget(self.another)
        self.table.setAccessibleName("Differences")
        self.table.setHorizontalHeaderLabels(["What", "This", "That", "What it does to this wine"])
        wrap_rows(self.table)
        for place, width in enumerate((190, 150, 150)):
            self.table.setColumnWidth(place, width)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(label(_TEACH, "muted", wraps=True))
        column.addLayout(top)
        column.addWidget(self.said)
        column.addWidget(self.table, 1)
        column.addWidget(self.alike)
        column.addWidget(self.leave, 0, Qt.AlignmentFlag.AlignRight)
        room = self.screen().availableSize()
        self.resize(min(960, room.width() - 20), min(640, room.height() - 40))

    def _begin(self) -> None:
        if self.choice.count():
            self._chosen(self.choice.key)
            self.choice.setFocus()
        else:
            self.choice.setEnabled(False)
            self.said.setText(_NONE)
            self.another.setFocus()

    # --- choosing ----------------------------------------------------------------------------

    def _ask(self) -> None:
        """Ask for a file to compare with."""
        ask_for_files(
            self,
            "Compare with a project",
            f"Winebench projects (*{SUFFIX});;All files (*)",
            lambda paths: self.compare_with(paths[0]),
            project=self._document.session.path,
        )

    def compare_with(self, path: Path) -> None:
        """Compare with that file, which is among the choices from now on."""
        key = str(path.absolute())
        if self.choice.findData(key) < 0:
            self.choice.addItem(f"{path.stem}  ({path.parent})", key)
            self.choice.setEnabled(True)
        self.choice.show_key(key)
        self._chosen(key)
        self.table.setFocus()

    def _chosen(self, key: str) -> None:
        """Show the comparison, or say why there is none."""
        try:
            other = self._project(key)
            found = compare(self._document.project, other, self._document.now())
        except (ValueError, ArithmeticError) as problem:
            self._clear()
            self.said.setText(str(problem))
            return
        self._show(found)

    def _project(self, key: str) -> Project:
        word, _, place = key.partition(" ")
        if word == "aside" and place.isdigit():
            return self._aside[int(place)].project
        return read(Path(key))

    # --- the table ---------------------------------------------------------------------------

    def _clear(self) -> None:
        self.table.setRowCount(0)
        self.table.clearSpans()
        self.alike.setText("")

    def _show(self, found: Comparison) -> None:
        self._clear()
        self.said.setText(f"This: {found.this}\nThat: {found.that}")
        for part, title in PARTS.items():
            rows = [each for each in found.differences if each.part == part]
            if rows:
                self._add_heading(title)
            for each in rows:
                self._add(each)
        if found.differences:
            self.table.setCurrentCell(1, 0)
        self.alike.setText(alike_words(found))

    def _add_heading(self, title: str) -> None:
        item = QTableWidgetItem(title)
        item.setFont(theme().heading_font(13))
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setForeground(theme().palette.ink)
        row = self._new_row()
        self.table.setItem(row, 0, item)
        self.table.setSpan(row, 0, 1, 4)

    def _add(self, each: Difference) -> None:
        does = f"{each.does} ({each.source})" if each.does else ""
        row = self._new_row()
        for column, words in enumerate((each.what, each.this, each.that, does)):
            item = QTableWidgetItem(words)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
            if column == 0:
                whole = f"{each.what}: this {each.this}; that {each.that}. {does}".strip()
                item.setData(Qt.ItemDataRole.AccessibleTextRole, whole)
            self.table.setItem(row, column, item)

    def _new_row(self) -> int:
        row = self.table.rowCount()
        self.table.insertRow(row)
        return row
