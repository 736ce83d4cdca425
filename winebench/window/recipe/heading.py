"""The head of the recipe: the batch's name and its style."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from winebench.catalog.styles import styles
from winebench.model.edits import Change, ChangeRecipe
from winebench.model.project import Project
from winebench.units import UnitsError
from winebench.window.parts.choice import Choice
from winebench.window.parts.field import Binding, Field
from winebench.window.recipe.row import draft
from winebench.window.theme import theme

NAME = "name"


def _read_name(text: str) -> str:
    if not text.strip():
        raise UnitsError("Every batch has a name; type one.")
    return text


def _styles() -> list[tuple[str, str]]:
    return [(each.key, each.name) for each in styles().values()]


class Heading(QWidget):
    """The name as a field, the style as a choice."""

    edit_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = Field("Name of the batch", cell=True)
        self.style_choice = Choice("Style of the wine", _styles())
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.name, 1)
        row.addWidget(self.style_choice)
        self._bind()
        self._dress()
        theme().changed.connect(self._dress)

    def _bind(self) -> None:
        def rename(name: str | None) -> Change:
            return Change(label="change the name", fields={"name": name})

        self.name.bind(Binding(NAME, "change the name", _read_name, rename))
        self.name.edit_wanted.connect(self.edit_wanted)
        self.style_choice.chosen.connect(self._choose_style)

    def _dress(self) -> None:
        self.name.setFont(theme().heading_font(16))
        self.name.setMinimumHeight(30)
        self.style_choice.setFont(theme().small_font())
        self.style_choice.setFixedSize(196, 28)

    def _choose_style(self, key: str) -> None:
        self.edit_wanted.emit(ChangeRecipe(label="change the style", fields={"style": key}))

    def show_project(self, project: Project) -> None:
        """Show the name and style as they are now."""
        self.name.show_text(project.name, draft(project, NAME))
        self.style_choice.show_key(project.recipe.style)
