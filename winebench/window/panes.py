"""Recipe and timeline side by side; either can have the whole window."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QWidget

_RECIPE, _TIMELINE = 40, 60
_LEAST_RECIPE, _LEAST = 468, 420
LEAST_FOR_BOTH = _LEAST_RECIPE + _LEAST + 1
"""In a narrower window one pane has all the room, and F6 goes to the other, px."""


class Panes(QSplitter):
    """A splitter that remembers the shares while one pane has all the room.

    Where there is no room for both, the one is shown that was asked for last.
    """

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
        self._wanted, self._alone, self._narrow = "both", "recipe", False
        recipe.setMinimumWidth(_LEAST_RECIPE)
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
        self._wanted = to
        if to != "both":
            self._alone = to
        self._show()

    def _show(self) -> None:
        shown = self._alone if self._narrow and self._wanted == "both" else self._wanted
        self._recipe.setVisible(shown != "timeline")
        self._timeline.setVisible(shown != "recipe")

    def minimumSizeHint(self) -> QSize:
        """Return the room for one pane: a narrower window than both need shows one."""
        return QSize(_LEAST_RECIPE, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show both panes where there is room for them."""
        super().resizeEvent(event)
        narrow = self.width() < LEAST_FOR_BOTH
        if narrow != self._narrow:
            self._narrow = narrow
            self._show()

    def show_recipe(self) -> None:
        """Make sure that the recipe can be seen."""
        self._see("recipe")

    def show_timeline(self) -> None:
        """Make sure that the timeline can be seen."""
        self._see("timeline")

    def _see(self, pane: str) -> None:
        self._alone = pane
        if self._wanted != pane:
            self._wanted = "both"
        self._show()

    def change_pane(self) -> None:
        """Put the keyboard into the other pane."""
        focus = self.window().focusWidget()
        in_recipe = focus is not None and self._recipe.isAncestorOf(focus)
        if self._wanted == "both" and self._narrow:
            in_recipe = self._alone == "recipe"
            self._see("timeline" if in_recipe else "recipe")
        there = self._timeline if in_recipe else self._recipe
        if not there.isVisibleTo(self):
            return
        for child in there.findChildren(QWidget):
            if child.isVisible() and child.focusPolicy() & Qt.FocusPolicy.TabFocus:
                child.setFocus(Qt.FocusReason.TabFocusReason)
                return
