"""The person's own recipes: each with its style, size and gravity, or why it cannot be read."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from winebench.model.project import Project
from winebench.plan.work_out import recipe_outlook
from winebench.store.errors import StoreError
from winebench.store.own_recipes import OwnRecipe, own_recipes, recipes_folder
from winebench.window.parts.words import button, label
from winebench.window.parts.wrapped_rows import wrap_rows
from winebench.window.theme import theme

_EMPTY = "No recipe is kept yet: Project, Keep as a recipe of mine puts the open one here."
_CHOOSE = "Choose one, and Enter starts a batch of it."


class RecipesDialog(QDialog):
    """One row a recipe, read one after the other so that the window never stands still."""

    def __init__(self, start: Callable[[Project], bool], parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("My recipes")
        self._start_batch = start
        self.recipes: list[OwnRecipe] = []
        """In the order of the rows."""
        self.list = QTableWidget(0, 4)
        self.said = label(wraps=True)
        self.leave = button("Close", "Close without a new batch", self.reject, "quiet")
        self.start = button("Start a batch", "Start a batch of this recipe", self._start, "act")
        self._coming: Iterator[OwnRecipe] = iter(())
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._next)
        self._arrange()
        self.list.currentCellChanged.connect(self._tell)
        self.list.cellDoubleClicked.connect(self._start)
        self._begin()

    def _arrange(self) -> None:
        view = self.list
        view.setAccessibleName("My recipes")
        view.setHorizontalHeaderLabels(["Recipe", "Style", "Size", "Gravity of the must"])
        wrap_rows(view)
        for place, width in enumerate((260, 220, 120)):
            view.setColumnWidth(place, width)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.said, 1)
        foot.addWidget(self.leave)
        foot.addWidget(self.start)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(label(f"They lie in {recipes_folder()}", "muted", wraps=True))
        column.addWidget(view, 1)
        column.addLayout(foot)
        self.start.setEnabled(False)
        self.start.setDefault(True)  # Enter in the list
        self.resize(820, 520)

    @property
    def busy(self) -> bool:
        """Return whether more recipes are to come."""
        return self._timer.isActive()

    def _begin(self) -> None:
        try:
            self._coming = own_recipes()
        except StoreError as problem:
            self.said.setText(str(problem))
            return
        self._timer.start(0)

    def _next(self) -> None:
        """Read one more recipe and show it."""
        found = next(self._coming, None)
        if found is not None:
            self._add(found)
            return
        self._timer.stop()
        if not self.recipes:
            self.said.setText(_EMPTY)
            self.leave.setFocus()

    def _add(self, found: OwnRecipe) -> None:
        row = self.list.rowCount()
        self.list.insertRow(row)
        self.recipes.append(found)
        cells = _cells(found)
        for column, words in enumerate(cells):
            item = QTableWidgetItem(words)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
            if found.project is None:
                item.setForeground(theme().palette.muted)
            if column == 0:
                whole = ", ".join(filter(None, cells))
                item.setData(Qt.ItemDataRole.AccessibleTextRole, whole)
            self.list.setItem(row, column, item)
        if found.project is None:
            self.list.setSpan(row, 1, 1, 3)
        if row == 0:
            self.list.setCurrentCell(0, 0)
            self.list.setFocus()

    def _chosen(self) -> OwnRecipe | None:
        row = self.list.currentRow()
        return self.recipes[row] if 0 <= row < len(self.recipes) else None

    def _tell(self, *_cells: int) -> None:
        found = self._chosen()
        self.start.setEnabled(found is not None and found.project is not None)
        if found is not None:
            self.said.setText("It cannot be read as it is." if found.trouble else _CHOOSE)

    def _start(self, *_cell: int) -> None:
        found = self._chosen()
        if found is not None and found.project is not None and self._start_batch(found.project):
            self._timer.stop()
            self.accept()


def _cells(found: OwnRecipe) -> tuple[str, ...]:
    project = found.project
    if project is None:
        return (found.path.stem, found.trouble)
    try:
        recipe = recipe_outlook(project)
    except (ValueError, ArithmeticError) as problem:
        return (project.name, "", project.make.size.text.strip(), str(problem))
    return (project.name, recipe.style, recipe.make_text, recipe.must.gravity.text)
