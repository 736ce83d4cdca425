"""Ctrl+Z takes back the project's last step, whatever has the keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog

from tests.window.recipe_keys import type_over
from tests.window.test_reachable import focusable
from winebench.model.edits import Change

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
CTRL = Qt.KeyboardModifier.ControlModifier


def deaf(window, stops, page):
    """Return the names of what has the keyboard and does not let undo or redo through."""
    found = []
    document = window.document
    for number, each in enumerate(stops):
        if not each.isVisible() or not each.isEnabled():
            continue
        each.setFocus()
        before = document.project.name
        document.edit(Change(label="x", fields={"name": f"Step {number}"}))
        QTest.keyClick(page.focusWidget(), Qt.Key.Key_Z, CTRL)
        undone = document.project.name == before
        QTest.keyClick(page.focusWidget(), Qt.Key.Key_Y, CTRL)
        if not undone or document.project.name != f"Step {number}":
            found.append(each.accessibleName())
        document.undo()
    return found


@pytest.mark.parametrize("page", ["picture", "table", "log"])
def test_every_control_of_the_window_lets_undo_through(raspberry, page):
    raspberry.timeline.show_page(page)
    raspberry.reading_bar.open()
    raspberry.reading_bar.more.click()
    stops = [each for each in focusable(raspberry) if each.window() is raspberry]
    assert len(stops) > 40
    assert deaf(raspberry, stops, raspberry) == []


@pytest.mark.parametrize("sheet", ["show_kitchen", "reach_targets"])
def test_every_control_of_a_sheet_lets_undo_through(qtbot, raspberry, sheet):
    getattr(raspberry.commands, sheet)()
    dialog = raspberry.findChildren(QDialog)[-1]
    qtbot.waitUntil(dialog.isActiveWindow)
    stops = list(focusable(dialog))
    assert len(stops) > 10
    assert deaf(raspberry, stops, dialog) == []
    dialog.reject()


def test_undo_and_redo_show_in_the_form_that_asks(qtbot, damson):
    damson.strip.focus_first()
    QTest.keyClick(damson.focusWidget(), Qt.Key.Key_Space)
    form = damson.timeline.card.form
    typed = next(iter(form.fields.values()))
    assert typed.hasFocus()
    QTest.keyClicks(typed, "mine")
    QTest.keyClick(typed, Qt.Key.Key_Z, CTRL)
    assert damson.document.project.drafts == ()
    qtbot.waitUntil(lambda: typed.text() == "")
    QTest.keyClick(typed, Qt.Key.Key_Y, CTRL)
    qtbot.waitUntil(lambda: typed.text() == "mine")
    assert [draft.text for draft in damson.document.project.drafts] == ["mine"]


def test_undo_and_redo_show_in_the_correction_of_an_entry(qtbot, raspberry):
    log = raspberry.timeline.log
    raspberry.timeline.show_page("log")
    log.view.selectRow(0)
    log.correct.click()
    note = log.form.fields["note"]
    before = note.text()
    type_over(note, "clean")
    QTest.keyClick(note, Qt.Key.Key_Z, CTRL)
    qtbot.waitUntil(lambda: note.text() == before)
    QTest.keyClick(note, Qt.Key.Key_Y, CTRL)
    qtbot.waitUntil(lambda: note.text() == "clean")


def test_the_entry_that_is_corrected_stays_in_sight(qtbot, raspberry):
    raspberry.resize(1366, 640)
    log = raspberry.timeline.log
    raspberry.timeline.show_page("log")
    view = log.view
    lowest = view.rowAt(view.viewport().height() - 4)
    view.selectRow(lowest)
    view.setFocus()
    shown = view.viewport().rect()
    QTest.keyClick(view, Qt.Key.Key_Return)
    assert log.form.isVisible()
    qtbot.waitUntil(
        lambda: (
            view.viewport().height() < shown.height()
            and view.viewport().rect().contains(view.visualRect(view.currentIndex()))
        )
    )
