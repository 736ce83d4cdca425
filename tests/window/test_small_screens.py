"""A laptop at 200 %: 1920 x 1080 has room for 960 x 540 px, and nothing is cut off there."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from winebench.window.panes import LEAST_FOR_BOTH
from winebench.window.parts.fitting import fit_to_screen

AT_200 = (952, 504)
"""960 x 540 without the frame that a system puts round a window."""


def settle():
    for _ in range(4):
        QApplication.processEvents()


def squeezed(parent: QWidget) -> list[str]:
    """Return the words of the buttons that have less room than their words."""
    shown = [each for each in parent.findChildren(QPushButton) if each.isVisible() and each.text()]
    return [each.text() for each in shown if each.width() < each.minimumSizeHint().width()]


def cut_off(parent: QWidget) -> list[str]:
    """Return the names of what reaches beyond the window."""
    window = parent.window()
    found = []
    for each in parent.findChildren(QPushButton):
        right = each.mapTo(window, QPoint(each.width(), 0)).x()
        if each.isVisible() and right > window.width():
            found.append(each.accessibleName())
    return found


@pytest.mark.parametrize("size", [AT_200, (LEAST_FOR_BOTH, 504), (1000, 640)])
@pytest.mark.parametrize("page", ["picture", "table", "log"])
def test_no_button_of_the_timeline_is_squeezed_or_cut_off(raspberry, size, page):
    raspberry.resize(*size)
    raspberry.timeline.show_page(page)
    settle()
    assert squeezed(raspberry.timeline) == []
    assert cut_off(raspberry.timeline) == []
    assert raspberry.timeline.card.width() <= raspberry.timeline._card_area.viewport().width()


@pytest.mark.parametrize("reading", [False, True])
def test_curve_rows_and_card_lie_beside_each_other_in_a_low_window(raspberry, reading):
    raspberry.resize(*AT_200)
    if reading:
        raspberry.log_reading()
    settle()
    timeline = raspberry.timeline
    card = timeline._card_area
    foot = raspberry.foot.mapTo(raspberry, QPoint(0, 0)).y()
    assert card.mapTo(raspberry, QPoint(0, card.height())).y() <= foot
    curve = timeline.curve
    below = curve.mapTo(raspberry, QPoint(0, curve.height())).y()
    area = timeline.rows.parentWidget()
    assert below <= area.mapTo(raspberry, QPoint(0, 0)).y()
    assert area.height() >= 2 * 26
    assert (
        area.mapTo(raspberry, QPoint(0, area.height())).y() <= card.mapTo(raspberry, QPoint()).y()
    )


def test_the_reading_bar_breaks_into_rows_and_cuts_nothing_off(raspberry):
    raspberry.resize(*AT_200)
    raspberry.log_reading()
    bar = raspberry.reading_bar
    bar.more.click()
    settle()
    for each in bar.findChildren(QWidget):
        if each.isVisible() and each.parentWidget() is not None:
            right = each.mapTo(raspberry, QPoint(each.width(), 0)).x()
            assert right <= raspberry.width(), each.accessibleName()
    assert squeezed(bar) == []


def test_where_both_panes_have_no_room_f6_goes_from_one_to_the_other(raspberry):
    raspberry.setMinimumSize(400, 300)
    raspberry.resize(683, 504)
    settle()
    assert (raspberry.recipe.isVisible(), raspberry.timeline.isVisible()) == (True, False)
    QTest.keyClick(raspberry, Qt.Key.Key_F6)
    settle()
    assert (raspberry.recipe.isVisible(), raspberry.timeline.isVisible()) == (False, True)
    assert raspberry.timeline.isAncestorOf(QApplication.focusWidget())
    assert raspberry.timeline.width() <= 683
    raspberry.show_step("stir")
    assert raspberry.timeline.isVisible()
    raspberry.resize(1366, 740)
    settle()
    assert (raspberry.recipe.isVisible(), raspberry.timeline.isVisible()) == (True, True)


def test_a_window_is_never_larger_than_its_screen(qtbot):
    window = QWidget()
    qtbot.addWidget(window)
    room = QGuiApplication.primaryScreen().availableGeometry()
    fit_to_screen(window, room.width() * 2, room.height() * 2)
    assert window.width() < room.width()
    assert window.height() < room.height()
    fit_to_screen(window, 300, 200)
    assert (window.width(), window.height()) == (300, 200)
