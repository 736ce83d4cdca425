"""The main window: it paints the document's outlook and hands edits back."""

from __future__ import annotations

from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

import shiboken6
from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QMainWindow, QVBoxLayout, QWidget

from winebench.plan.outlook import Figure, Outlook
from winebench.session import Session
from winebench.window.banner import Banner
from winebench.window.commands import Commands
from winebench.window.document import Document
from winebench.window.files import Files
from winebench.window.foot import Foot
from winebench.window.keeping import Keeper
from winebench.window.notices import Notices
from winebench.window.panes import LEAST_FOR_BOTH, Panes
from winebench.window.recipe.pane import RecipePane
from winebench.window.room import remember_room, restore_room
from winebench.window.strip.strip import TodayStrip
from winebench.window.tab_order import neighbour
from winebench.window.watching import Watcher
from winebench.window.workings.popup import WorkingsPopup, show_workings

if TYPE_CHECKING:
    from winebench.window.logging.reading_bar import ReadingBar
    from winebench.window.printing import Printing
    from winebench.window.timeline.pane import TimelinePane


class MainWindow(QMainWindow):
    """One window, one document."""

    def __init__(self, session: Session, at: datetime | None = None) -> None:
        super().__init__()
        from winebench.window.menus import Menus

        self.document = Document(session, at, self)
        self.document.forecasts.hold()
        self._page = QWidget()
        self.banner = Banner(self._page)
        self.strip = TodayStrip()
        self.recipe = RecipePane(session.project)
        self.panes = Panes(self.recipe)
        self.foot = Foot()
        self.keeper = Keeper(self.document, self)
        self.watcher = Watcher(self.document, self)
        self.files = Files(self)
        self.notices = Notices(self.document, self)
        self.commands = Commands(self)
        self.workings: WorkingsPopup | None = None
        self._kept_once = False
        self._before_reading: QWidget | None = None
        self._painted = False
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self._show_timeline)
        self._arrange()
        self._connect()
        self.menus = Menus(self)
        restore_room(self, self.panes)
        self.strip.installEventFilter(self)

    @cached_property
    def timeline(self) -> TimelinePane:
        """Return the timeline, made at first use: the rest of the window is painted first.

        What it plots with takes half of the start-up time to load.
        """
        from winebench.window.logging.log_pictures import LogPictures
        from winebench.window.timeline.pane import TimelinePane

        made = TimelinePane()
        made.edit_wanted.connect(self.document.edit)
        made.workings_wanted.connect(self.show_workings)
        made.reading_wanted.connect(self.log_reading)
        self.panes.put_timeline(made)
        LogPictures(self.document, made.log, self.banner, self.files.save_as)
        if not self.banner.isHidden():
            made.keep_clear(max(self.banner.height() - self.foot.height(), 0))
        if self.document.outlook is not None:
            made.set_project(self.document.project)
            made.show_outlook(self.document.outlook)
        return made

    @cached_property
    def reading_bar(self) -> ReadingBar:
        """Return the bar for a reading, made when the first one is logged."""
        from winebench.window.logging.reading_bar import ReadingBar

        made = ReadingBar()
        made.hide()
        column = self._page.layout()
        assert isinstance(column, QVBoxLayout)
        column.insertWidget(1, made)
        made.edit_wanted.connect(self.document.edit)
        made.closed.connect(self._leave_reading)
        made.set_project(self.document.project)
        made.set_now(self.document.now())
        return made

    @property
    def _has_reading_bar(self) -> bool:
        return "reading_bar" in self.__dict__

    @cached_property
    def printing(self) -> Printing:
        """Return what prints; made at first use, because loading it slows the start."""
        from winebench.window.printing import Printing

        return Printing(self.document, self.banner, self)

    def _arrange(self) -> None:
        self._page.setObjectName("page")
        column = QVBoxLayout(self._page)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.strip)
        column.addWidget(self.panes, 1)
        column.addWidget(self.foot)
        self.setCentralWidget(self._page)
        self.menuBar().setNativeMenuBar(True)
        room = self.screen().availableGeometry()
        self.setMinimumSize(min(LEAST_FOR_BOTH, room.width()), min(520, room.height() - 40))

    def _connect(self) -> None:
        document = self.document
        document.outlook_changed.connect(self._show_outlook)
        document.replaced.connect(self._show_replaced)
        document.state_changed.connect(self._show_title)
        document.refused.connect(self.banner.say)
        self.recipe.edit_wanted.connect(document.edit)
        self.recipe.workings_wanted.connect(self.show_workings)
        self.recipe.reach_wanted.connect(self.commands.reach_targets)
        self.recipe.card_wanted.connect(self.files.read_card)
        self.strip.reading_wanted.connect(self.log_reading)
        self.strip.done_wanted.connect(self.commands.do)
        self.strip.show_wanted.connect(self.show_step)
        self.strip.workings_wanted.connect(self._explain_step)
        self.keeper.told.connect(self.foot.show_saved)
        self.keeper.told.connect(lambda _words: self.watcher.know())
        self.keeper.failed.connect(self.files.offer_elsewhere)
        self.keeper.solved.connect(self.banner.retract)
        self.keeper.returned.connect(self.banner.say)
        self.banner.covers.connect(self._keep_clear)
        self.keeper.overtaken.connect(self.files.offer_overtaken)
        self.watcher.taken_in.connect(self.files.tell_taken_in)
        self.watcher.puzzled.connect(self.files.offer_overtaken)
        self.notices.step_wanted.connect(self.show_step)

    def open_session(self, session: Session, at: datetime | None = None) -> None:
        """Show that document; `at` fixes its moment."""
        self.document.replace(session, at)
        self.strip.setFocus()  # where Enter or Space does nothing; Tab goes to today's first thing

    # --- showing -----------------------------------------------------------------------------

    def _show_outlook(self, outlook: Outlook) -> None:
        project = self.document.project
        self.recipe.show_outlook(project, outlook)
        self._later.start()
        self.strip.show_outlook(outlook)
        if self._has_reading_bar:
            self.reading_bar.set_project(project)
            self.reading_bar.set_now(outlook.at)
        self.foot.show_safety(outlook.safety)

    def _show_timeline(self) -> None:
        """Show the newest outlook over time: a moment later, so that typing is painted first."""
        if not self._painted:
            return
        if self.document.outlook is not None:
            self.timeline.set_project(self.document.project)
            self.timeline.show_outlook(self.document.outlook)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Begin with the timeline when the strip above it has been painted once."""
        if event.type() == QEvent.Type.Paint and not self._painted:
            self._painted = True
            self.document.forecasts.release()
            self.strip.removeEventFilter(self)
            self._later.start()
        return super().eventFilter(watched, event)

    def _keep_clear(self, covered: int) -> None:
        """Let nothing of the timeline lie under the banner, which is higher than the foot."""
        if self._has_timeline:
            self.timeline.keep_clear(max(covered - self.foot.height(), 0))

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Go with Tab through the page as it is read; the banner, while shown, comes last.

        Qt asks for it also where what had the keyboard is gone: then it stays in its pane.
        """
        focus = self.focusWidget()
        if focus is not None and not (focus.isVisible() and focus.isEnabled()):
            self._rest(focus)
            return True
        found = neighbour((self._page, self.banner), focus, forward)
        if found is None:
            return False
        reason = Qt.FocusReason.TabFocusReason if forward else Qt.FocusReason.BacktabFocusReason
        found.setFocus(reason)
        return True

    def _rest(self, gone: QWidget) -> None:
        """Put the keyboard where no key does anything by itself, in the pane of what is gone."""
        if self.recipe.isAncestorOf(gone) and self.recipe.isVisible():
            self.recipe.focus_new_line()
        elif self._has_timeline and self.timeline.isAncestorOf(gone) and self.timeline.isVisible():
            self.timeline.rest()
        else:
            self.strip.setFocus()

    @property
    def _has_timeline(self) -> bool:
        return "timeline" in self.__dict__

    def _show_replaced(self) -> None:
        if self._has_reading_bar:
            self.reading_bar.hide()
        self.banner.clear()

    def _show_title(self) -> None:
        session = self.document.session
        self.setWindowTitle(f"{session.project.name}[*] — Winebench")
        self.setWindowModified(session.dirty and session.path is not None)
        self.setWindowFilePath(str(session.path) if session.path else "")

    def show_workings(self, figure: Figure) -> None:
        """Open the workings of a figure over the page."""
        self.workings = show_workings(figure, self)

    def show_step(self, key: str) -> None:
        """Show the step of that key in the timeline."""
        if key:
            self._later.stop()
            self._painted = True
            self._show_timeline()
            self.panes.show_timeline()
            self.timeline.select_step(key)

    def _explain_step(self, key: str) -> None:
        """Show what dates the step of that key, the keyboard on it."""
        self.show_step(key)
        self.timeline.card.workings.setFocus(Qt.FocusReason.OtherFocusReason)
        self.timeline.card.explain()

    def log_reading(self) -> None:
        """Open the reading bar, the keyboard in its gravity field."""
        if not self.reading_bar.isVisible():
            self._before_reading = self.focusWidget()
        if self.banner.passing:
            self.banner.put_away()
        self.reading_bar.open()

    def _leave_reading(self) -> None:
        """Put the keyboard back where it was before the reading."""
        before = self._before_reading
        if before is not None and shiboken6.isValid(before) and before.isVisible():
            before.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.strip.setFocus()

    # --- closing -----------------------------------------------------------------------------

    def closeEvent(self, event: QCloseEvent) -> None:
        """Keep the work and close; only work that cannot be kept anywhere is asked about."""
        safe = self.keeper.keep()
        if not safe and not self._kept_once:
            self._kept_once = True
            self.banner.say(
                "The work cannot be kept anywhere: free some space, or save it elsewhere. "
                "Closing again loses it.",
                ("Save as…", self.files.save_as),
            )
            event.ignore()
            return
        remember_room(self, self.panes)
        self.document.forecasts.finish()
        if self._has_timeline:
            self.timeline.log.moved.finish()
        super().closeEvent(event)
