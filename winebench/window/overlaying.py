"""Lay another batch over the open one: choose its file, or one opened lately; take it away."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QMenu

from winebench.plan.overlaid import OverlayError, other_batch
from winebench.store import recent
from winebench.store.errors import StoreError
from winebench.store.project_file import SUFFIX, read
from winebench.window.file_dialog import ask_for_files

if TYPE_CHECKING:
    from winebench.window.main_window import MainWindow


class Overlaying(QObject):
    """Read the other batch, once and only to look at it, and hand it to the timeline."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window

    @property
    def lies(self) -> bool:
        """Return whether a batch lies over the open one."""
        return self._window.timeline.other is not None

    def fill(self, menu: QMenu) -> None:
        """Fill the menu: choose a file, or one opened lately."""
        menu.addAction("&Choose a file…").triggered.connect(lambda _checked=False: self.choose())
        opened = self._window.document.session.path
        others = [path for path in recent.recent_files() if path != opened]
        if others:
            menu.addSeparator()
        for path in others:
            action = menu.addAction(f"{path.stem}  ({path.parent})".replace("&", "&&"))
            action.triggered.connect(partial(self._lay, path))

    def choose(self) -> None:
        """Ask for the other batch's file."""
        ask_for_files(
            self._window,
            "Lay another batch over this one",
            f"Winebench projects (*{SUFFIX})",
            lambda paths: self.lay(paths[0]),
            project=self._window.document.session.path,
        )

    def _lay(self, path: Path, _checked: bool = False) -> None:
        self.lay(path)

    def lay(self, path: Path) -> None:
        """Lay the batch of that file over the open one; where it cannot be, say why."""
        window = self._window
        try:
            other = other_batch(read(path))
        except (StoreError, OverlayError) as problem:
            window.banner.say(str(problem))
            return
        window.panes.show_timeline()
        window.timeline.show_page("picture")
        window.timeline.lay_over(other)
        words = f"{other.name} lies over this batch, dashed, by days since the yeast."
        window.banner.tell(words, ("Take it away", self.take_away))

    def take_away(self) -> None:
        """Show the open batch alone again."""
        self._window.timeline.lay_over(None)
