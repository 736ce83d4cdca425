"""Time is moved through by buttons, keys, wheel and hand; another outlook moves nothing."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QApplication

from tests.window import hand_outlook as hand


def test_zoom_buttons_show_which_is_in_force_until_the_view_is_moved(pane, qtbot):
    zooms = pane.heading.zooms
    qtbot.mouseClick(zooms["a year"], Qt.MouseButton.LeftButton)
    assert pane.axis.span == 366 * 86400
    assert zooms["a year"].isChecked()
    assert not zooms["two weeks"].isChecked()
    qtbot.keyClick(pane.curve, Qt.Key.Key_Right)
    assert not zooms["a year"].isChecked()


def test_keys_pan_and_zoom_on_curve_and_rows(pane, qtbot):
    for widget in (pane.curve, pane.rows):
        start, span = pane.axis.start, pane.axis.span
        qtbot.keyClick(widget, Qt.Key.Key_Left)
        assert pane.axis.start < start
        qtbot.keyClick(widget, Qt.Key.Key_Plus)
        assert pane.axis.span < span


def test_a_wheel_turn_zooms_about_the_pointer(pane):
    about = pane.axis.seconds(400)
    span = pane.axis.span
    event = QWheelEvent(
        QPointF(400, 80),
        pane.curve.mapToGlobal(QPointF(400, 80)),
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(pane.curve.viewport(), event)
    assert pane.axis.span < span
    assert pane.axis.pixel(about) == pytest.approx(400)


def test_a_drag_takes_the_time_along(pane, qtbot):
    held = pane.axis.seconds(300)
    viewport = pane.curve.viewport()
    qtbot.mousePress(viewport, Qt.MouseButton.LeftButton, pos=QPoint(300, 80))
    qtbot.mouseMove(viewport, QPoint(420, 80))
    QApplication.processEvents()
    qtbot.mouseRelease(viewport, Qt.MouseButton.LeftButton, pos=QPoint(420, 80))
    assert pane.axis.pixel(held) == pytest.approx(420)


def test_view_and_chosen_step_stay_when_the_outlook_changes(pane, qtbot):
    pane.select_step("lift-fruit")
    qtbot.keyClick(pane.curve, Qt.Key.Key_Right)
    view = pane.axis.start, pane.axis.end
    later = hand.outlook(at=hand.NOW + timedelta(hours=1))
    pane.show_outlook(later)
    assert (pane.axis.start, pane.axis.end) == view
    assert pane.card.step.key == "lift-fruit"
