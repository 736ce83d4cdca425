"""The person's own recipes: each with its style, size and gravity, or why it cannot be read."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from winebench.model.project import Project
from winebench.plan.work_out import recipe_outlook
from winebench.store.errors import StoreError
from winebench.store.own_recipes import OwnRecipe, own_recipes, recipes_folder
from winebench.window.parts.fitting import fit_to_screen
from winebench.window.parts.listing import Listing
from winebench.window.theme import theme

_COLUMNS = {"Recipe": 260, "Style": 220, "Size": 120, "Gravity of the must": 0}
_EMPTY = "No recipe is kept yet: Project, Keep as a recipe of mine puts the open one here."
_CHOOSE = "Choose one, and Enter starts a batch of it."


class RecipesDialog(Listing[OwnRecipe]):
    """One row a recipe."""

    def __init__(self, start: Callable[[Project], bool], parent: QWidget) -> None:
        super().__init__("My recipes", _COLUMNS, f"They lie in {recipes_folder()}", parent)
        self._start_batch = start
        self.take.setText("Start a batch")
        self.take.setAccessibleName("Start a batch of this recipe")
        fit_to_screen(self, 820, 520)
        try:
            self.begin(own_recipes())
        except StoreError as problem:
            self.said.setText(str(problem))

    def add(self, found: OwnRecipe) -> None:
        """Show one more recipe, or why its file cannot be read."""
        cells = _cells(found)
        row, items = self.add_row(cells)
        self.found[row] = found
        whole = ", ".join(filter(None, cells))
        items[0].setData(Qt.ItemDataRole.AccessibleTextRole, whole)
        if found.project is None:
            for item in items:
                item.setForeground(theme().palette.muted)
            self.list.setSpan(row, 1, 1, 3)
        self.choose_first(row)

    def end(self) -> None:
        """Say where recipes come from, where there is none."""
        if not self.found:
            self.said.setText(_EMPTY)
            self.leave.setFocus()

    def can_take(self, found: OwnRecipe) -> bool:
        """Return whether it could be read."""
        return found.project is not None

    def words_of(self, found: OwnRecipe) -> str:
        """Return what can be done with it."""
        return "It cannot be read as it is." if found.trouble else _CHOOSE

    def taken(self, found: OwnRecipe) -> bool:
        """Start a batch of it."""
        return found.project is not None and self._start_batch(found.project)


def _cells(found: OwnRecipe) -> tuple[str, ...]:
    project = found.project
    if project is None:
        return (found.path.stem, found.trouble)
    try:
        recipe = recipe_outlook(project)
    except (ValueError, ArithmeticError) as problem:
        return (project.name, "", project.make.size.text.strip(), str(problem))
    return (project.name, recipe.style, recipe.make_text, recipe.must.gravity.text)
