"""Nothing moves away, hides or is cut off: rows, cards, forms, tables, and the zoom of a log."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit

from tests.window import hand_outlook as hand
from winebench.window.timeline.axis import DAY


def settle():
    for _ in range(3):
        QApplication.processEvents()


def rows_top(window) -> int:
    return window.timeline.rows.mapTo(window, QPoint(0, 0)).y()


# --- rows and card ---------------------------------------------------------------------------


@pytest.mark.parametrize("sample", ["raspberry-day-3", "pear-under-airlock"])
def test_no_row_moves_while_one_goes_from_step_to_step(open_window, sample):
    window = open_window(sample)
    timeline = window.timeline
    settle()
    heights = set()
    for step in window.document.outlook.steps:
        timeline.rows.select(step.key)
        settle()
        heights.add((timeline.card.parentWidget().height(), timeline.rows.parentWidget().height()))
    assert len(heights) == 1


def test_a_row_that_is_clicked_stays_under_the_pointer(raspberry):
    timeline = raspberry.timeline
    settle()
    area = timeline.rows.parentWidget()
    last = next(
        step
        for step in reversed(timeline.rows.steps)
        if area.rect().contains(
            timeline.rows.mapTo(area, timeline.rows.row_rect(step.key).center().toPoint())
        )
    )
    before = rows_top(raspberry)
    at = timeline.rows.row_rect(last.key).center().toPoint()
    QTest.mouseClick(timeline.rows, Qt.MouseButton.LeftButton, pos=QPoint(40, at.y()))
    settle()
    assert timeline.card.step.key == last.key
    assert rows_top(raspberry) == before


def test_a_card_too_long_for_its_room_is_scrolled_and_shown_from_its_top(raspberry):
    timeline = raspberry.timeline
    timeline.select_step("declare-stable")
    settle()
    bar = timeline._card_area.verticalScrollBar()
    assert bar.maximum() > 0
    bar.setValue(bar.maximum())
    timeline.select_step("stir")
    settle()
    assert bar.value() == 0


def test_a_banner_covers_no_word_of_the_card_and_moves_no_row(raspberry):
    timeline = raspberry.timeline
    settle()
    before = rows_top(raspberry), timeline.rows.parentWidget().height()
    raspberry.banner.tell("A sentence. " * 40, ("Undo", lambda: None))
    settle()
    card = timeline._card_area
    bottom = card.mapTo(raspberry, card.rect().bottomLeft()).y()
    assert bottom < raspberry.banner.mapTo(raspberry, QPoint(0, 0)).y()
    assert (rows_top(raspberry), timeline.rows.parentWidget().height()) == before
    raspberry.banner.put_away()
    settle()
    assert (rows_top(raspberry), timeline.rows.parentWidget().height()) == before


def test_what_a_reading_moved_is_said_without_moving_a_row(raspberry):
    timeline = raspberry.timeline
    settle()
    area = timeline.rows.parentWidget()
    before = area.mapTo(raspberry, QPoint(0, 0)).y(), area.height()
    raspberry.log_reading()
    QTest.keyClicks(raspberry.reading_bar.gravity, "1.059")
    QTest.keyClick(raspberry.reading_bar.gravity, Qt.Key.Key_Return)
    settle()
    assert timeline.moved.isVisible()
    assert (area.mapTo(raspberry, QPoint(0, 0)).y(), area.height()) == before


# --- forms -----------------------------------------------------------------------------------


@pytest.mark.parametrize("width", [504, 810])
@pytest.mark.parametrize("step", ["transfer", "stir"])
def test_the_fields_of_a_tick_have_room_for_words(pane, width, step):
    pane.resize(width, 640)
    pane.select_step(step)
    pane.card.tick.click()
    settle()
    fields = pane.card.form.fields
    assert {"note", "at"} <= set(fields)
    assert min(typed.width() for typed in fields.values()) >= 150
    assert fields["note"].width() >= 300
    captions = [each for each in pane.card.form.findChildren(QLabel) if each.buddy()]
    assert all(said.width() >= said.sizeHint().width() for said in captions)


def test_the_first_field_of_a_tick_is_in_sight_and_takes_the_keys(raspberry):
    timeline = raspberry.timeline
    timeline.select_step("transfer")
    QTest.mouseClick(timeline.card.tick, Qt.MouseButton.LeftButton)
    settle()
    first = next(iter(timeline.card.form.fields.values()))
    assert first.hasFocus()
    area = timeline._card_area
    assert area.viewport().rect().contains(first.mapTo(area.viewport(), first.rect().center()))


def test_an_entry_is_corrected_in_the_fields_that_its_tick_has(raspberry):
    timeline = raspberry.timeline
    timeline.show_page("log")
    stir = next(e for e in reversed(raspberry.document.project.actions) if e.step == "stir")
    timeline.log.select(stir.id)
    timeline.log.view.setFocus()
    QTest.keyClick(timeline.log.view, Qt.Key.Key_Return)
    said = {typed.accessibleName(): typed for typed in timeline.log.form.fields.values()}
    assert set(said) == {"Smell", "Must", "When", "Note"}
    QTest.keyClicks(said["Must"], "70 °F")
    QTest.keyClick(said["Must"], Qt.Key.Key_Return)
    (found,) = (e for e in raspberry.document.project.actions if e.id == stir.id)
    assert {r.name: r.value for r in found.records}["temperature"] == "70 °F"


# --- the log and the table -------------------------------------------------------------------


def elided(view) -> list[str]:
    """Return the shown cells of which some words do not fit."""
    metrics = QFontMetrics(view.font())
    columns = [c for c in range(view.model().columnCount()) if not view.isColumnHidden(c)]
    found = []
    for row in range(view.model().rowCount()):
        for column in columns:
            words = str(view.model().index(row, column).data())
            room = view.visualRect(view.model().index(row, column)).adjusted(9, 4, -6, -4)
            need = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, words)
            if need.height() > room.height() + 1 or need.width() > room.width() + 1:
                found.append(words)
    return found


@pytest.mark.parametrize("size", [(1366, 740), (1000, 640), (952, 504)])
@pytest.mark.parametrize("page", ["log", "table"])
def test_no_cell_of_the_log_or_the_table_is_cut_off(raspberry, size, page):
    raspberry.resize(*size)
    raspberry.timeline.show_page(page)
    settle()
    view = raspberry.timeline.log.view if page == "log" else raspberry.timeline.table
    assert view.model().rowCount() > 10
    assert elided(view) == []
    assert view.horizontalScrollBar().maximum() == 0


def test_a_deletion_leaves_the_keyboard_on_the_next_entry_and_undo_takes_it_back(raspberry):
    log = raspberry.timeline.log
    raspberry.timeline.show_page("log")
    before = log.model.entries
    log.select(before[2].id)
    log.delete.setFocus()
    QTest.keyClick(log.delete, Qt.Key.Key_Return)
    settle()
    assert log.view.hasFocus()
    assert log._chosen() == before[3]
    QTest.keyClick(log.view, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    settle()
    assert log.model.entries == before


def test_the_last_entries_are_deleted_key_by_key(pane):
    pane.show_page("log")
    count = len(pane.log.model.entries)
    pane.log.select(pane.log.model.entries[-1].id)
    pane.log.view.setFocus()
    for _ in range(count):
        QTest.keyClick(pane.log.view, Qt.Key.Key_Delete)
    assert pane.log.model.entries == ()
    assert pane.log.note.hasFocus()


# --- the zoom --------------------------------------------------------------------------------


def test_the_zoom_is_only_offered_where_it_does_something(pane):
    for page, shown in (("picture", True), ("table", False), ("log", False)):
        pane.show_page(page)
        assert {zoom.isVisible() for zoom in pane.heading.zooms.values()} == {shown}


def test_a_back_dated_entry_brings_its_day_into_view(empty):
    timeline = empty.timeline
    settle()
    three_weeks = empty.document.now() - timedelta(days=22)
    empty.log_reading()
    bar = empty.reading_bar
    QTest.keyClicks(bar.gravity, f"1.090 {three_weeks:%Y-%m-%d} 18:00")
    QTest.keyClick(bar.gravity, Qt.Key.Key_Return)
    settle()
    assert timeline.axis.holds(three_weeks.timestamp())
    assert timeline.axis.holds(empty.document.now().timestamp())
    assert timeline.heading.zooms["to bottling"].isChecked()


def test_a_view_moved_by_hand_stays_when_something_is_logged(raspberry):
    timeline = raspberry.timeline
    timeline.axis.pan(0.3)
    before = timeline.axis.start, timeline.axis.end
    raspberry.log_reading()
    QTest.keyClicks(raspberry.reading_bar.gravity, "1.050")
    QTest.keyClick(raspberry.reading_bar.gravity, Qt.Key.Key_Return)
    settle()
    assert (timeline.axis.start, timeline.axis.end) == before


@pytest.mark.parametrize("days", [5, 8, 9])
def test_two_weeks_reach_back_to_what_was_logged_last(pane, days):
    pane.show_outlook(hand.outlook(at=hand.NOW + timedelta(days=days)))
    pane.zoom_to("two weeks")
    readings = sorted(reading.at for reading in pane._outlook.readings)
    assert pane.axis.holds(readings[-1].timestamp())
    assert pane.axis.holds((hand.NOW + timedelta(days=days)).timestamp())
    assert pane.axis.span == pytest.approx(14 * DAY)


def test_the_fields_of_a_form_keep_their_order_for_the_tab_key(pane):
    pane.select_step("transfer")
    pane.card.tick.click()
    names = list(pane.card.form.fields)
    first = pane.card.form.fields[names[0]]
    first.setFocus()
    seen = []
    for _ in names:
        focus = QApplication.focusWidget()
        assert isinstance(focus, QLineEdit)
        seen.append(focus)
        QTest.keyClick(focus, Qt.Key.Key_Tab)
    assert seen == list(pane.card.form.fields.values())


def test_an_error_while_a_note_is_painted_leaves_the_window_alive(qtbot, raspberry, monkeypatch):
    def fails(*_):
        raise RuntimeError("a note that cannot be painted")

    monkeypatch.setattr("winebench.window.timeline.curve.Callout.paint", fails)
    with qtbot.captureExceptions() as told:
        raspberry.timeline.curve.grab()
    assert [str(each[1]) for each in told] == ["a note that cannot be painted"] * len(told)
    assert told
    assert raspberry.isVisible()
