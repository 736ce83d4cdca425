"""A form that says what is wrong moves nothing from under the pointer, and says all of it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QCursor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

SIZES = [(1366, 740), (1000, 640), (952, 504)]


def settle():
    for _ in range(4):
        QApplication.processEvents()


def places(form):
    """Return where the fields and buttons of a form are on the screen."""
    takes = getattr(form, "accept", None) or form.keep
    shown = (*form.fields.values(), form.leave_it, takes)
    return [each.mapToGlobal(QPoint(0, 0)) for each in shown]


def in_sight(area, *widgets):
    seen = area.viewport().rect()
    return all(
        seen.contains(each.mapTo(area.viewport(), each.rect().topLeft()))
        and seen.contains(each.mapTo(area.viewport(), each.rect().bottomRight()))
        for each in widgets
    )


def said_whole(form):
    return form.refusal.heightForWidth(form.refusal.width()) <= form.refusal.height()


@pytest.mark.parametrize("size", SIZES[:2])
@pytest.mark.parametrize(("step", "field", "typed"), [
    ("transfer", "at", "soon"), ("transfer", "record:lost", "some"), ("transfer", "override", ""),
    ("stir", "record:temperature", "warmish"), ("stir", "at", "1 March"),
])  # fmt: skip
def test_no_field_or_button_moves_when_a_tick_is_refused(raspberry, size, step, field, typed):
    raspberry.resize(*size)
    raspberry.show_step(step)
    card, area = raspberry.timeline.card, raspberry.timeline._card_area
    card.tick.click()
    settle()
    assert in_sight(area, card.form.accept, card.form.leave_it)
    QTest.keyClicks(card.form.fields[field], typed)
    settle()
    before = places(card.form)
    QTest.mouseClick(card.form.accept, Qt.MouseButton.LeftButton)
    settle()
    assert card.form.refusal.isVisible()
    assert said_whole(card.form)
    assert places(card.form) == before
    assert card.form.fields[field].hasFocus()


def test_where_the_form_is_scrolled_its_button_stays_under_the_pointer(qtbot, raspberry):
    raspberry.resize(*SIZES[2])
    raspberry.show_step("transfer")
    card, area = raspberry.timeline.card, raspberry.timeline._card_area
    card.tick.click()
    settle()
    area.ensureWidgetVisible(card.form.accept)
    qtbot.wait(250)  # a hand is not quicker
    at = card.form.accept.mapToGlobal(card.form.accept.rect().center())
    QCursor.setPos(at)
    QTest.mouseClick(card.form.accept, Qt.MouseButton.LeftButton)
    settle()
    assert card.form.accept.mapToGlobal(card.form.accept.rect().center()) == at
    assert in_sight(area, card.form.refusal)


@pytest.mark.parametrize("size", SIZES)
def test_no_field_or_button_moves_when_a_correction_is_refused(raspberry, size):
    raspberry.resize(*size)
    log = raspberry.timeline.log
    raspberry.timeline.show_page("log")
    stir = next(e for e in reversed(raspberry.document.project.actions) if e.step == "stir")
    log.select(stir.id)
    log.correct.click()
    log.form.fields["time"].setText("soon")
    settle()
    before = places(log.form)
    QTest.mouseClick(log.form.keep, Qt.MouseButton.LeftButton)
    settle()
    assert log.form.refusal.isVisible()
    assert said_whole(log.form)
    assert places(log.form) == before


def test_on_a_magnified_screen_field_and_refusal_are_seen_together(raspberry):
    # At 200 % a 1920 x 1080 screen leaves 960 x 540 of the window's pixels.
    raspberry.resize(*SIZES[2])
    raspberry.show_step("transfer")
    card, area = raspberry.timeline.card, raspberry.timeline._card_area
    card.tick.click()
    settle()
    QTest.keyClick(card.form.fields["override"], Qt.Key.Key_Return)
    settle()
    assert in_sight(area, card.form.refusal, card.form.fields["override"], card.form.accept)
    card.form.leave_it.click()
    settle()
    assert raspberry.timeline.curve.isVisible()


def test_a_tick_of_a_day_past_says_what_held_it_then(raspberry):
    raspberry.log_reading()
    QTest.keyClicks(raspberry.reading_bar.gravity, "1.028")
    for _ in range(2):  # so fast a fall is asked about first
        QTest.keyClick(raspberry.reading_bar.gravity, Qt.Key.Key_Return)
    raspberry.show_step("transfer")
    form = raspberry.timeline.card.form
    raspberry.timeline.card.tick.click()
    QTest.keyClicks(form.fields["at"], "yesterday 18:00")
    QTest.keyClick(form.fields["at"], Qt.Key.Key_Return)
    assert form.refusal.text().startswith("Rack to glass was held then: a reading below 1.030")
    assert "Write why you did it all the same." in form.refusal.text()


def test_a_form_opened_again_takes_the_keyboard(raspberry):
    raspberry.show_step("transfer")
    card = raspberry.timeline.card
    card.tick.click()
    settle()
    QTest.keyClicks(card.form.fields["note"], "cold")
    card.form.fields["note"].setFocus()
    card.tick.click()
    settle()
    assert next(iter(card.form.fields.values())).hasFocus()
    assert card.form.fields["note"].text() == "cold"
    log = raspberry.timeline.log
    raspberry.timeline.show_page("log")
    log.select(raspberry.document.project.log[0].id)
    for _ in range(2):
        log.correct.click()
        settle()
        assert next(iter(log.form.fields.values())).hasFocus()


def test_a_form_opened_with_the_pointer_is_seen_whole(raspberry):
    raspberry.resize(*SIZES[1])
    raspberry.show_step("transfer")
    card, area = raspberry.timeline.card, raspberry.timeline._card_area
    settle()
    QCursor.setPos(card.tick.mapToGlobal(card.tick.rect().center()))
    QTest.mouseClick(card.tick, Qt.MouseButton.LeftButton)
    settle()
    assert in_sight(area, *card.form.fields.values(), card.form.accept)
