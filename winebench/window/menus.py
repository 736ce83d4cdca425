"""The menus: every action of the window, each with its key."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property, partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QMenu

from winebench.store import recent, samples
from winebench.store.errors import StoreError
from winebench.window.main_window import MainWindow
from winebench.window.overlaying import Overlaying
from winebench.window.theme import theme

if TYPE_CHECKING:
    from winebench.window.printing import Pages
    from winebench.window.variants.actions import Variants

Key = QKeySequence.StandardKey | str | None


class Menus:
    """Make the menus of one window; the lists in them are filled when they open."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        self.undo: QAction
        self.redo: QAction
        self.notices: QAction
        self._project()
        self._edit()
        self._batch()
        self._print()
        self._view()
        self._help()
        window.document.state_changed.connect(self.show_state)
        self.show_state()

    def _menu(self, title: str) -> QMenu:
        menu = self._window.menuBar().addMenu(title)
        menu.setToolTipsVisible(True)
        return menu

    def _add(self, menu: QMenu, words: str, act: Callable[[], object], key: Key = None) -> QAction:
        action = menu.addAction(words)
        action.triggered.connect(lambda _checked=False: act())
        if key is not None:
            action.setShortcut(QKeySequence(key))
        return action

    def _project(self) -> None:
        files, menu = self._window.files, self._menu("&Project")
        standard = QKeySequence.StandardKey
        self._add(menu, "&New", files.new, standard.New)
        self._add(menu, "New from my rec&ipes…", lambda: self._variants.new_from_recipes())
        self._add(menu, "&Open…", files.open, standard.Open)
        self._filled(menu.addMenu("Open &recent"), self._fill_recent)
        self._filled(menu.addMenu("Open a sa&mple"), self._fill_samples)
        self._filled(menu.addMenu("&Kept work"), self._fill_kept)
        self._add(menu, "&Read a recipe card…", files.read_card, "Ctrl+R")
        menu.addSeparator()
        self._add(menu, "&Save", files.save, standard.Save)
        self._add(menu, "Save &as…", files.save_as, "Ctrl+Shift+S")
        self._add(menu, "Keep as a recipe o&f mine", lambda: self._variants.keep_as_recipe())
        menu.addSeparator()
        self._add(menu, "Make this a&gain…", lambda: self._variants.make_again())
        self._add(menu, "Copy as a &variant", lambda: self._variants.copy_as_variant())
        self._add(menu, "&Compare with…", lambda: self._variants.compare())
        menu.addSeparator()
        self._add(menu, "&Quit", self._window.close, standard.Quit)

    @cached_property
    def _variants(self) -> Variants:
        """Return what makes batches of batches; made at first use, as it slows the start."""
        from winebench.window.variants.actions import Variants

        return Variants(self._window)

    def _filled(self, menu: QMenu, fill: Callable[[QMenu], None]) -> None:
        def refill() -> None:
            menu.clear()
            fill(menu)
            if menu.isEmpty():
                menu.addAction("none").setEnabled(False)

        menu.aboutToShow.connect(refill)

    def _fill_recent(self, menu: QMenu) -> None:
        for path in recent.recent_files():
            words = f"{path.stem}  ({path.parent})".replace("&", "&&")
            self._add(menu, words, partial(self._window.files.open_path, path))

    def _fill_samples(self, menu: QMenu) -> None:
        try:
            found = samples.samples()
        except (StoreError, OSError):
            return
        for each in found:
            name = each.name
            action = self._add(menu, each.title, partial(self._window.files.open_sample, name))
            action.setToolTip(each.about)
        menu.setToolTipsVisible(True)

    def _fill_kept(self, menu: QMenu) -> None:
        for words, take_up in self._window.files.kept_work():
            self._add(menu, words.replace("&", "&&"), take_up)

    def _edit(self) -> None:
        document, menu = self._window.document, self._menu("&Edit")
        standard = QKeySequence.StandardKey
        self.undo = self._add(menu, "&Undo", document.undo, standard.Undo)
        self.redo = self._add(menu, "&Redo", document.redo, standard.Redo)
        keys = QKeySequence.keyBindings(standard.Redo)
        extra = [key for key in (QKeySequence("Ctrl+Y"),) if key not in keys]
        self.redo.setShortcuts([*keys, *extra])

    def show_state(self) -> None:
        """Say what undo and redo would do."""
        session = self._window.document.session
        self.undo.setEnabled(session.can_undo)
        self.undo.setText(f"&Undo: {session.undo_label}" if session.can_undo else "&Undo")
        self.redo.setEnabled(session.can_redo)
        self.redo.setText(f"&Redo: {session.redo_label}" if session.can_redo else "&Redo")

    def _batch(self) -> None:
        window, menu = self._window, self._menu("&Batch")
        recipe = window.recipe
        self._add(menu, "&Log a reading", window.log_reading, "F2")
        self._add(menu, "Log &several days…", self._log_several_days, "Shift+F2")
        self._add(menu, "&Readings from a table…", self._log_a_table)
        self._add(menu, "&Do what is first today", window.strip.do_first, "Ctrl+D")
        menu.addSeparator()
        self._add(menu, "&Add a line", window.commands.add_line, "Ctrl+L")
        # These keys work in the lines themselves; a window shortcut would take them from fields.
        self._add(menu, "Line: de&tails\tF4", recipe.toggle_details)
        self._add(menu, "Line: take &out\tCtrl+Delete", recipe.remove_line)
        self._add(menu, "Line: move &up\tAlt+Up", lambda: recipe.move_line(-1))
        self._add(menu, "Line: move do&wn\tAlt+Down", lambda: recipe.move_line(1))
        menu.addSeparator()
        self._add(menu, "Tar&gets", window.commands.show_targets, "Ctrl+T")
        self._add(menu, "R&each the targets…", window.commands.reach_targets, "Ctrl+Shift+T")
        self._add(menu, "&Kitchen, room and instruments…", window.commands.show_kitchen, "Ctrl+K")
        self._add(menu, "S&hopping and pantry…", self._show_shopping, "Ctrl+B")
        self._add(menu, "Da&ys to start on…", self._show_start_days)
        self._add(menu, "Learn &from finished batches…", self._show_learning)

    def _log_several_days(self) -> None:
        from winebench.window.logging.scribbles import ScribblesDialog

        dialog = ScribblesDialog(self._window.document, self._window)
        dialog.accepted.connect(self._window.timeline.rest)  # what was logged is seen there
        dialog.open()

    def _log_a_table(self) -> None:
        from winebench.window.logging.sensor_table import choose_table

        choose_table(self._window.document, self._window, self._window.banner.say)

    def _show_shopping(self) -> None:
        from winebench.window.batch.shopping import ShoppingDialog

        ShoppingDialog(self._window.document, self._window).open()

    def _show_start_days(self) -> None:
        from winebench.window.batch.start_days import StartDaysDialog

        StartDaysDialog(self._window.document, self._window).open()

    def _show_learning(self) -> None:
        from winebench.window.batch.learning import LearningDialog

        LearningDialog(self._window.document, self._window).open()

    def _print(self) -> None:
        window, menu = self._window, self._menu("P&rint")
        pages: tuple[tuple[str, Pages], ...] = (
            ("&Batch card", "card"),
            ("&Labels", "labels"),
            ("&Shopping list", "shopping"),
            ("Half a page for &whoever stirs", "stand-in"),
        )
        for words, page in pages:
            self._print_page(menu.addMenu(words), page)
        menu.addSeparator()
        self._add(menu, "Calendar &file…", lambda: window.printing.calendar())
        self._add(menu, "Readings as &table…", lambda: window.printing.readings())

    def _print_page(self, menu: QMenu, page: Pages) -> None:
        # What prints slows the start, so it is loaded when one of these is chosen.
        window, first = self._window, page == "card"
        printed = QKeySequence.StandardKey.Print if first else None
        self._add(menu, "&Print…", lambda: window.printing.print(page), printed)
        seen = "Ctrl+Alt+P" if first else None
        self._add(menu, "Pre&view…", lambda: window.printing.preview(page), seen)
        self._add(menu, "As P&DF…", lambda: window.printing.pdf(page))

    def _view(self) -> None:
        window, menu = self._window, self._menu("&View")
        self._exclusive(
            menu,
            (
                ("&Both panes", "both", "Ctrl+1"),
                ("&Recipe alone", "recipe", "Ctrl+2"),
                ("&Timeline alone", "timeline", "Ctrl+3"),
            ),
            "both",
            window.panes.give_room,
        )
        menu.addSeparator()
        self._add(menu, "&Go to the other pane", window.panes.change_pane, "F6")
        self._add(menu, "&Full screen", window.commands.toggle_full_screen, "F11")
        menu.addSeparator()
        over = Overlaying(window)
        self._filled(menu.addMenu("&Lay another batch over this one"), over.fill)
        away = self._add(menu, "Take it &away again", over.take_away)
        menu.aboutToShow.connect(lambda: away.setEnabled(over.lies))
        menu.addSeparator()
        chosen = {None: "system", True: "dark", False: "light"}[theme().chosen]
        self._exclusive(
            menu.addMenu("&Colours"),
            (
                ("as the &system", "system", ""),
                ("&light", "light", ""),
                ("&dark", "dark", ""),
            ),
            chosen,
            window.commands.choose_colours,
        )
        self.notices = self._add(menu, "Desktop &notices", window.commands.switch_notices)
        self.notices.setCheckable(True)
        self.notices.setChecked(window.notices.wanted)

    def _exclusive(
        self,
        menu: QMenu,
        options: tuple[tuple[str, str, str], ...],
        chosen: str,
        choose: Callable[[str], object],
    ) -> None:
        group = QActionGroup(menu)
        for words, key, shortcut in options:
            action = self._add(menu, words, partial(choose, key), shortcut or None)
            action.setCheckable(True)
            action.setChecked(key == chosen)
            group.addAction(action)

    def _help(self) -> None:
        window, menu = self._window, self._menu("&Help")
        self._add(menu, "&Workings of the figure or step\tF1", window.commands.explain_focused)
        self._add(menu, "&Keys", window.commands.show_keys)
        self._add(menu, "&About Winebench", window.commands.show_about)
