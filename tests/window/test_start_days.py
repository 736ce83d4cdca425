"""Days to start on: each day in words, and one key to start on it."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.test_reachable import cut_off, nameless
from winebench.model.edits import Change
from winebench.model.log import Away
from winebench.window.batch.start_days import WEEKS, StartDaysDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


@pytest.fixture
def planned(damson):
    """Return the damson design with five days away, nine days after its natural moment."""
    first = damson.document.now().date() + timedelta(days=9)
    away = (Away(first=first, last=first + timedelta(days=4)),)
    damson.document.edit(Change(label="days away", fields={"away": away}))
    return damson


def opened(qtbot, window):
    action = next(each for menu in window.menuBar().actions() for each in menu.menu().actions()
                  if "start on" in each.text())  # fmt: skip
    action.trigger()
    dialog = window.findChild(StartDaysDialog)
    assert dialog.isVisible()
    qtbot.waitUntil(lambda: not dialog.busy, timeout=30_000)
    return dialog


def row_of(dialog, day):
    return next(row for row, found in dialog.found.items() if found.day == day)


def test_each_day_says_in_words_whether_it_is_free(qtbot, planned):
    dialog = opened(qtbot, planned)
    assert len(dialog.found) == WEEKS * 7
    away = planned.document.project.away[0]
    gone = row_of(dialog, away.first)
    assert dialog.list.item(gone, 1).text() == "not free"
    assert dialog.list.item(gone, 2).text() == "You are away that day."
    before = row_of(dialog, away.first - timedelta(days=2))
    assert "stir" in dialog.list.item(before, 2).text().lower()
    after = row_of(dialog, away.last + timedelta(days=1))
    assert dialog.list.item(after, 1).text() == "free"
    assert nameless(dialog) == []
    assert cut_off(dialog) == []
    dialog.reject()


def test_enter_on_a_day_starts_there_and_undo_takes_it_back(qtbot, planned):
    dialog = opened(qtbot, planned)
    before = planned.document.project.start
    day = planned.document.project.away[0].last + timedelta(days=1)
    dialog.list.setCurrentCell(row_of(dialog, day), 0)
    assert "frozen until" in dialog.said.text()
    QTest.keyClick(dialog.take, Qt.Key.Key_Space)
    assert planned.document.project.start.date() == day
    cautions = planned.document.outlook.cautions
    assert [one for one in cautions if one.key.startswith("away-")] == []
    planned.document.undo()
    assert planned.document.project.start == before


def test_months_are_named_and_cannot_be_started_on(qtbot, planned):
    dialog = opened(qtbot, planned)
    months = [row for row in range(dialog.list.rowCount()) if row not in dialog.found]
    assert dialog.list.item(months[0], 0).text() == "October 2026"
    assert not dialog.list.item(months[0], 0).flags() & Qt.ItemFlag.ItemIsSelectable
    dialog.reject()


def test_a_batch_under_way_says_that_its_start_stands(qtbot, raspberry):
    dialog = opened(qtbot, raspberry)
    assert "its start stands" in dialog.said.text()
    assert not dialog.take.isEnabled()
    assert dialog.found == {}
    dialog.reject()


def test_without_days_away_it_says_where_to_note_them(qtbot, damson):
    damson.document.edit(Change(label="days away", fields={"away": ()}))
    dialog = opened(qtbot, damson)
    assert all(found.free for found in dialog.found.values())
    assert dialog.found[1].day == damson.document.now().date() == date(2026, 10, 1)
    dialog.reject()
