"""The recipe pane: the head, what to make, the lines, and the must that they make."""

from __future__ import annotations

import shiboken6
from PySide6.QtCore import QPoint, Qt, QTimer, Signal
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from winebench.model.project import Project
from winebench.plan.outlook import Outlook
from winebench.plan.typed.offers import offers
from winebench.window.recipe.empty import EmptyRecipe
from winebench.window.recipe.heading import Heading
from winebench.window.recipe.make_row import MakeRow
from winebench.window.recipe.must import MustView
from winebench.window.recipe.new_line import NewLine
from winebench.window.recipe.table import LineTable
from winebench.window.recipe.targets import TargetsPanel

_EDGE = 20
"""Pixels at the edge within which a dragged line scrolls the pane."""


class RecipePane(QScrollArea):
    """Shows a project with its outlook, and asks for edits."""

    edit_wanted = Signal(object)
    workings_wanted = Signal(object)
    reach_wanted = Signal()
    card_wanted = Signal(str)
    """Read this text, typed in a row, as a recipe card."""

    def __init__(self, project: Project, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.heading = Heading()
        self.make = MakeRow(project)
        self.table = LineTable()
        self.empty = EmptyRecipe()
        self.new_line = NewLine(offers)
        self.targets = TargetsPanel()
        self.must = MustView()
        self._before_targets: QWidget | None = None
        self._arrange()
        self._connect()

    def _arrange(self) -> None:
        page = QWidget()
        page.setObjectName("page")
        column = QVBoxLayout(page)
        column.setContentsMargins(16, 6, 16, 8)
        column.setSpacing(4)
        for widget in (
            self.heading, self.make, self.table, self.empty, self.new_line, self.targets, self.must,
        ):  # fmt: skip
            column.addWidget(widget)
        column.addStretch(1)
        self.targets.hide()
        self.setWidget(page)
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("Recipe")

    def _connect(self) -> None:
        for part in (
            self.heading, self.make, self.table, self.new_line, self.targets, self.must,
        ):  # fmt: skip
            part.edit_wanted.connect(self.edit_wanted)
        for part in (self.table, self.targets, self.must):
            part.workings_wanted.connect(self.workings_wanted)
        self.table.after_last_wanted.connect(self.focus_new_line)
        self.table.dragged.connect(self._scroll_along)
        self.new_line.back_wanted.connect(self._go_to_last)
        self.new_line.card_wanted.connect(self.card_wanted)
        self.new_line.used.connect(lambda: self._bring_into_view(self.new_line))
        self.must.targets_wanted.connect(self.toggle_targets)
        self.targets.told.connect(self._bring_into_view)
        self.must.reach_wanted.connect(self.reach_wanted)
        self.empty.try_wanted.connect(self._try)

    def show_outlook(self, project: Project, outlook: Outlook) -> None:
        """Show the project as it is now."""
        self.heading.show_project(project)
        self.targets.show_project(project)
        self.targets.show_outlook(outlook)
        self.make.show_outlook(project, outlook)
        self.table.show_outlook(project, outlook)
        self.new_line.show_project(project)
        has_lines = bool(project.recipe.lines)
        self.table.setVisible(has_lines)
        self.empty.setVisible(not has_lines)
        self.must.setVisible(has_lines)
        self.must.show_outlook(outlook)

    def focus_new_line(self) -> None:
        """Put the keyboard where a line is added."""
        field = self.new_line.field
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        field.end(False)  # chosen, the next key would take what is typed there
        self.ensureWidgetVisible(self.new_line)

    def toggle_targets(self) -> None:
        """Open or close what is wanted of the wine."""
        is_open = not self.targets.isVisibleTo(self)
        focus = self.window().focusWidget()
        inside = focus is not None and self.targets.isAncestorOf(focus)
        self.targets.setVisible(is_open)
        self.must.show_targets_open(is_open)
        if not is_open and inside:
            self._go_back()
        if is_open:
            self._before_targets = focus
            self.targets.focus_first()
            self._bring_into_view(self.targets)

    def _bring_into_view(self, widget: QWidget) -> None:
        """Scroll to what was just shown, once it has its place."""
        QTimer.singleShot(0, self, lambda: self.ensureWidgetVisible(widget))

    def _scroll_along(self, screen_y: int) -> None:
        """Scroll on while a line is dragged to the edge of what is seen."""
        y, height = self.viewport().mapFromGlobal(QPoint(0, screen_y)).y(), self.viewport().height()
        bar = self.verticalScrollBar()
        if y < _EDGE or y > height - _EDGE:
            bar.setValue(bar.value() + (_EDGE if y > height - _EDGE else -_EDGE))

    def _go_back(self) -> None:
        """Put the keyboard where it was before the targets were opened."""
        before = self._before_targets
        if before is not None and shiboken6.isValid(before) and before.isVisible():
            before.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.focus_new_line()

    def _go_to_last(self) -> None:
        if self.table.rows:
            self.table.focus_row(list(self.table.rows)[-1])

    def _try(self, words: str) -> None:
        self.new_line.field.setText(words)
        self.new_line.submit()

    # --- the row that has the keyboard, for the Batch menu ----------------------------------

    def toggle_details(self) -> None:
        """Open or close the details of the row that has the keyboard."""
        row = self.table.focused_row
        if row is not None:
            row.toggle_details()

    def remove_line(self) -> None:
        """Take out the row that has the keyboard."""
        row = self.table.focused_row
        if row is not None:
            row.remove()

    def move_line(self, by: int) -> None:
        """Move the row that has the keyboard down, or up for a negative number."""
        row = self.table.focused_row
        if row is not None:
            row.move_wanted.emit(row.line.id, by)
