"""What is asked of the window as a whole: today's ticks, panes, sheets, colours, workings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from winebench.model.edits import PutEntry, new_id
from winebench.model.log import Action
from winebench.plan.outlook import TodayItem
from winebench.store.settings import load_settings, save_settings
from winebench.window.strip.strip import wants_words
from winebench.window.theme import theme

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from winebench.window.main_window import MainWindow

_COLOURS = {"system": None, "light": False, "dark": True}


class Commands:
    """Do it to one window."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window

    def do(self, item: TodayItem) -> None:
        """Tick the item's step off now, or open its card where something is to be written down."""
        window, document = self._window, self._window.document
        steps = document.outlook.steps if document.outlook else ()
        step = next((step for step in steps if step.key == item.step), None)
        if step is None:
            return
        if wants_words(step):
            window.show_step(step.key)
            window.timeline.card.tick.click()
            return
        action = Action(id=new_id(), at=document.now(), step=step.key)
        document.edit(PutEntry(label=f"tick off: {step.name}", entry=action))
        window.banner.tell(f"{step.name}: done.", ("Undo", document.undo))

    def add_line(self) -> None:
        """Put the keyboard where a line is added."""
        self._window.panes.show_recipe()
        self._window.recipe.focus_new_line()

    def show_targets(self) -> None:
        """Open or close what is wanted of the wine."""
        self._window.panes.show_recipe()
        self._window.recipe.toggle_targets()

    def reach_targets(self) -> None:
        """Open what changes amounts until the targets are reached."""
        from winebench.window.batch.reach import ReachDialog

        ReachDialog(self._window.document, self._window).open()

    def show_kitchen(self) -> None:
        """Open the kitchen, the room and the instruments."""
        from winebench.window.batch.kitchen import KitchenDialog

        KitchenDialog(self._window.document, self._window).open()

    def toggle_full_screen(self) -> None:
        """Fill the screen, or stop filling it."""
        if self._window.isFullScreen():
            self._window.showNormal()
        else:
            self._window.showFullScreen()

    def choose_colours(self, key: str) -> None:
        """Use "light", "dark" or the "system"'s colours from now on."""
        theme().choose(_COLOURS[key])
        save_settings(msgspec.structs.replace(load_settings(), appearance=key))

    def switch_notices(self) -> None:
        """Switch desktop notices on or off from now on."""
        notices = self._window.notices
        wanted = not notices.wanted
        notices.switch(wanted)
        save_settings(msgspec.structs.replace(load_settings(), notices=wanted))

    def explain_focused(self) -> None:
        """Show the workings of the figure or step that has the keyboard, as its F1 does."""
        at: QWidget | None = self._window.focusWidget()
        while at is not None:
            explain = getattr(at, "explain", None)
            if explain is not None:
                explain()
                return
            at = at.parentWidget()
        row = self._window.recipe.table.focused_row
        if row is not None:
            row.scaled.explain()
        else:
            words = "Choose a figure or a step first; F1 then shows its workings."
            self._window.banner.tell(words)

    def show_keys(self) -> None:
        """Show the keys worth knowing."""
        from winebench.window.about import show_keys

        show_keys(self._window)

    def show_about(self) -> None:
        """Say what this is."""
        from winebench.window.about import show_about

        show_about(self._window)
