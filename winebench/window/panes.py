"""Recipe and timeline side by side; either can have the whole window."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QWidget

_RECIPE, _TIMELINE = 40, 60
_LEAST = 420


class Panes(QSplitter):
    """A splitter that remembers the shares while one pane has all the room."""

    def __init__(self, recipe: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._recipe = recipe
        self._timeline = QWidget()
        self.addWidget(recipe)
        self.addWidget(self._timeline)
        self.setChildrenCollapsible(False)
        self.setHandleWidth(1)
        self.setStretchFactor(0, _RECIPE)
        self.setStretchFactor(1, _TIMELINE)
        self.setSizes([_RECIPE * 20, _TIMELINE * 20])
        recipe.setMinimumWidth(468)
        self._timeline.setMinimumWidth(_LEAST)

    def put_timeline(self, timeline: QWidget) -> None:
        """Put the timeline into the room that was kept for it."""
        sizes, shown = self.sizes(), self._timeline.isVisibleTo(self)
        self.replaceWidget(1, timeline)
        self._timeline.deleteLater()
        self._timeline = timeline
        timeline.setMinimumWidth(_LEAST)
        timeline.setVisible(shown)
        self.setCollapsible(1, False)
        self.setStretchFactor(1, _TIMELINE)
        self.setSizes(sizes)

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
