"""The timeline pane: curve, steps, the chosen step's card; or the table, or the log."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.model.in_order import difference, in_order
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.plan.moves import by_importance, moves_dates
from winebench.plan.outlook import Outlook
from winebench.plan.overlaid import OtherBatch
from winebench.window.logging.log_list import LogList
from winebench.window.parts.words import Elided
from winebench.window.theme import theme
from winebench.window.timeline.axis import TimeAxis
from winebench.window.timeline.card_area import CardArea
from winebench.window.timeline.curve_data import curve_data
from winebench.window.timeline.heading import Heading
from winebench.window.timeline.moments import ZOOMS, best_view, step_in_focus
from winebench.window.timeline.other_data import other_data, pitch_of
from winebench.window.timeline.pages import Pages
from winebench.window.timeline.picture import Picture
from winebench.window.timeline.rows_area import RowsArea
from winebench.window.timeline.step_card import StepCard
from winebench.window.timeline.step_rows import StepRows
from winebench.window.timeline.table import FactsTable

_NARROWEST, _WIDEST, _NAMES = 108, 188, 0.29
"""Room for the steps' names, px, and the share of a wide pane that they may take."""


class TimelinePane(QWidget):
    """Show an outlook over time; every change leaves as an edit."""

    edit_wanted = Signal(object)
    reading_wanted = Signal()
    workings_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        # pyqtgraph takes a fifth of a second to import: only the pane that plots pays it.
        from winebench.window.timeline.curve import GravityCurve

        self._outlook: Outlook | None = None
        self._entries: tuple[Entry, ...] = ()
        self._log_changed = False
        self._announces = False
        self._batch = ""
        self._zoom, self._zoomed = "", (0.0, 0.0)
        self._covered = 0
        self._zoom_chosen = False
        """Whether somebody pressed the zoom that is in force."""
        self.other: OtherBatch | None = None
        """The batch laid over this one; it is of this sight only, nothing keeps it."""
        self.axis = TimeAxis(self)
        self.heading = Heading()
        self.curve = GravityCurve(self.axis)
        self.rows = StepRows(self.axis)
        self.moved = Elided(role="muted", lines=2)
        self.card = StepCard()
        self.table = FactsTable()
        self.log = LogList()
        self.setAccessibleName("Timeline")
        self._arrange()
        self._connect()

    def keep_clear(self, pixels: int) -> None:
        """Leave the lowest pixels free for what lies over them; no row moves for it."""
        self._covered = pixels
        self._whole.setContentsMargins(16, 8, 12, 8 + pixels)
        self._shorten_card()

    def _shorten_card(self) -> None:
        """Let the card give the room that a message or the line over it takes: no row moves."""
        said = self.moved.sizeHint().height() + self._whole.spacing()
        self._card_area.clear = self._covered + (0 if self.moved.isHidden() else said)
        self._card_area.updateGeometry()

    def _arrange(self) -> None:
        self._scroll = RowsArea(self.rows)
        picture = self._picture = Picture(self.curve, self._scroll)
        self._pages = Pages({"picture": picture, "table": self.table, "log": self.log})
        self._card_area = CardArea(self.card)
        self.moved.hide()
        whole = self._whole = QVBoxLayout(self)
        whole.setContentsMargins(16, 8, 12, 8)
        whole.setSpacing(8)
        whole.addWidget(self.heading)
        whole.addWidget(self._pages, 1)
        whole.addWidget(self.moved)
        whole.addWidget(self._card_area)

    def _connect(self) -> None:
        self.heading.zoom_wanted.connect(self._choose_zoom)
        self.heading.page_wanted.connect(self.show_page)
        self.heading.reading_wanted.connect(self.reading_wanted)
        self.heading.workings_wanted.connect(self.workings_wanted)
        self.rows.selected.connect(self._show_selected)
        self.rows.selected.connect(self._card_area.show_top)
        self.rows.chosen.connect(lambda _key: self.card.tick.setFocus())
        self.card.edit_wanted.connect(self.edit_wanted)
        self.card.reading_wanted.connect(self.reading_wanted)
        self.card.workings_wanted.connect(self.workings_wanted)
        self.card.log_wanted.connect(self._show_entry)
        self._card_area.asking.connect(self._share_room)
        self.card.left.connect(self.rows.setFocus)
        self.log.edit_wanted.connect(self.edit_wanted)
        self.table.selectionModel().currentRowChanged.connect(self._select_from_table)
        self.axis.changed.connect(self._forget_zoom)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the card its share of another height."""
        super().resizeEvent(event)
        self._share_room()
        if self._outlook is not None:
            self.curve.set_gutter(self._gutter(self._outlook))

    def _share_room(self) -> None:
        """Let the curve and the rows make do with less in a low pane, and while a card asks."""
        edges = self._whole.contentsMargins()
        taken = edges.top() + edges.bottom() + 2 * self._whole.spacing()
        taken += self.heading.sizeHint().height() + self._card_area.sizeHint().height()
        self._picture.fit(self.height(), taken, asks=self.card.asks)
        self._card_area.updateGeometry()

    def set_project(self, project: Project) -> None:
        """Take the project, for its log; show the outlook of it next."""
        change = difference(self._entries, project.log)
        if change.gone or change.come:
            self._log_changed = True
            if any(map(moves_dates, change.come)):
                self._announces = project.id == self._batch
            elif change.gone:  # taken back
                self._announces = False
        self._entries = project.log
        if project.id != self._batch:
            self._batch, self._outlook, self._announces = project.id, None, False
            self.other = None
            self.rows.current = ""
            self.card.form.hide()
        self.card.project = project
        self.card.form.follow(project)
        self.log.show_project(project)

    def show_outlook(self, outlook: Outlook) -> None:
        """Show what is worked out; view and chosen step stay while the batch is the same.

        What did not change is not painted again: a keystroke in the recipe seldom moves time.
        """
        before, self._outlook = self._outlook, outlook
        self.axis.zone = outlook.at.tzinfo or self.axis.zone
        if before is None or _curve_of(before) != _curve_of(outlook):
            self._draw_curve(outlook)
        logged = self._log_changed
        if before is None or _steps_of(before) != _steps_of(outlook) or self._log_changed:
            self._log_changed = False
            self.curve.set_gutter(self._gutter(outlook))
            self.rows.show_steps(outlook.steps, outlook.at, self._times(outlook))
            self._scroll.take_room()
        self._announce_move(outlook)
        self.heading.show_strength(outlook.strength_now)
        self.log.show_outlook(outlook)
        if self.table.isVisible():
            self.table.facts.show_outlook(outlook, self.other)
        if before is None or logged:
            self._zoom_anew(outlook, another=before is None)
        if not self.rows.current:
            self.rows.select(step_in_focus(outlook))
        self._show_selected(self.rows.current)

    def _draw_curve(self, outlook: Outlook) -> None:
        pitch = pitch_of(outlook)
        laid = other_data(self.other, pitch) if self.other and pitch else None
        self.curve.show_data(curve_data(outlook, laid))

    def lay_over(self, other: OtherBatch | None) -> None:
        """Lay another batch over this one by the days since both pitches; None takes it away."""
        self.other = other
        if self._outlook is not None:
            self._draw_curve(self._outlook)
            self.table.facts.show_outlook(self._outlook, other)

    def _times(self, outlook: Outlook) -> dict[str, datetime]:
        """Return when each entry was that a step can be done by."""
        times = {reading.id: reading.at for reading in outlook.readings}
        ticks = in_order(self._entries).actions
        return times | {action.id: action.at for action in ticks}

    def _announce_move(self, outlook: Outlook) -> None:
        """Say what was logged or corrected just now moved, also with another step on the card."""
        moves = (f"{s.name}: {s.moved.sentence}" for s in by_importance(outlook.steps) if s.moved)
        words = next(moves, "") if self._announces else ""
        self.moved.say(words)
        self.moved.setVisible(bool(words))
        self._shorten_card()

    def _gutter(self, outlook: Outlook) -> int:
        metrics = QFontMetrics(theme().heading_font(theme().base_font().pixelSize()))
        widest = max((metrics.horizontalAdvance(s.name) for s in outlook.steps), default=0)
        most = max(_WIDEST, round(self.width() * _NAMES))
        return min(max(widest + 18, _NARROWEST), most)

    def _zoom_anew(self, outlook: Outlook, *, another: bool) -> None:
        """Show what matters of another batch, or of a log that grew, as by a back-dated entry.

        A view moved by hand stays, and so does the zoom that somebody pressed.
        """
        if another:
            self._zoom_chosen = False
        elif (self.axis.start, self.axis.end) != self._zoomed:
            return
        self.zoom_to(self._zoom if self._zoom_chosen else best_view(outlook))

    def _choose_zoom(self, name: str) -> None:
        self._zoom_chosen = True
        self.zoom_to(name)

    def zoom_to(self, name: str) -> None:
        """Show "two weeks", "to bottling" or "a year"."""
        if self._outlook is None:
            return
        start, end = ZOOMS[name](self._outlook)
        self._zoom = name
        self._zoomed = start, end
        self.axis.show(start, end)
        self._zoomed = self.axis.start, self.axis.end
        self.heading.show_zoom(name)

    def _forget_zoom(self) -> None:
        """Show no zoom as chosen once the view was moved by hand."""
        if (self.axis.start, self.axis.end) != self._zoomed:
            self.heading.show_zoom("")

    def show_page(self, page: str) -> None:
        """Show "picture", "table" or "log"."""
        if page == "table" and self._outlook is not None:
            self.table.facts.show_outlook(self._outlook, self.other)
            self.table.choose(self.rows.current)
        self._pages.show_page(page)
        self._card_area.setVisible(page != "log")
        self.heading.show_page(page)

    def rest(self) -> None:
        """Put the keyboard where no key logs anything: what it was on is gone."""
        places = {"picture": self.rows, "table": self.table, "log": self.log.view}
        places[self._pages.shown].setFocus(Qt.FocusReason.OtherFocusReason)

    def select_step(self, key: str) -> None:
        """Show the step of that key in the rows and on the card."""
        self.show_page("picture")
        self.rows.select(key)

    def explain(self) -> None:
        """Show what dates the step that is chosen, where its card is to be seen."""
        if self.card.isVisible():
            self.card.explain()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F1 shows the workings of the step that is chosen."""
        if event.key() == Qt.Key.Key_F1:
            self.explain()
        else:
            super().keyPressEvent(event)

    def _show_selected(self, key: str) -> None:
        if self._outlook is None:
            return
        step = next((step for step in self._outlook.steps if step.key == key), None)
        standstill = self._outlook.stuck
        clues = tuple(c for c in standstill.clues if c.step == key) if standstill else ()
        self.card.show_step(step, self._outlook.at, clues)

    def _select_from_table(self, current: QModelIndex, _previous: QModelIndex) -> None:
        key = self.table.step_at(current.row())
        if key:
            self.rows.select(key)

    def _show_entry(self, entry_id: str) -> None:
        self.show_page("log")
        self.log.select(entry_id)


def _minute(outlook: Outlook) -> datetime:
    """Return now to the minute: seconds do not move anything by a pixel."""
    return outlook.at.replace(second=0, microsecond=0)


def _curve_of(outlook: Outlook) -> tuple[object, ...]:
    return _minute(outlook), outlook.readings, outlook.forecast, pitch_of(outlook)


def _steps_of(outlook: Outlook) -> tuple[object, ...]:
    return _minute(outlook), outlook.steps
