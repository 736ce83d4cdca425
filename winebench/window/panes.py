"""Recipe and timeline side by side; either can have the whole window."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QWidget

_RECIPE, _TIMELINE = 40, 60


class Panes(QSplitter):
    """A splitter that remembers the shares while one pane has all the room."""

    def __init__(self, recipe: QWidget, timeline: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._recipe = recipe
        self._timeline = timeline
        self.addWidget(recipe)
        self.addWidget(timeline)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(1)
        self.setStretchFactor(0, _RECIPE)
        self.setStretchFactor(1, _TIMELINE)
        self.setSizes([_RECIPE * 20, _TIMELINE * 20])
        recipe.setMinimumWidth(468)
        timeline.setMinimumWidth(420)

    def give_room(self, to: str) -> None:
        """Give the window to "recipe", "timeline" or "both"."""
        self._recipe.setVisible(to != "timeline")
        self._timeline.setVisible(to != "recipe")

    def show_recipe(self) -> None:
        """Make sure that the recipe can be seen."""
        self._recipe.show()

    def show_timeline(self) -> None:
        """Make sure that the timeline can be seen."""
        self._timeline.show()

    def change_pane(self) -> None:
        """Put the keyboard into the other pane."""
        focus = self.window().focusWidget()
        in_recipe = focus is not None and self._recipe.isAncestorOf(focus)
        there = self._timeline if in_recipe else self._recipe
        if not there.isVisibleTo(self):
            return
        for child in there.findChildren(QWidget):
            if child.isVisible() and child.focusPolicy() & Qt.FocusPolicy.TabFocus:
                child.setFocus(Qt.FocusReason.TabFocusReason)
                return
