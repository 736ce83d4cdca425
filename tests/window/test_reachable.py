"""Every control is named for a screen reader, reachable by keyboard, and nothing is cut off."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollBar,
    QWidget,
)

from winebench.store import samples
from winebench.window.batch.kitchen import KitchenDialog
from winebench.window.new_dialog import GallonDialog

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
SAMPLES = ("damson-design", "raspberry-day-3", "pear-under-airlock", "elder-blackberry-bottled")


def opened_up(window):
    """Open everything that can be opened over the page."""
    window.reading_bar.open()
    window.reading_bar.more.setChecked(True)
    if not window.recipe.targets.isVisibleTo(window):
        window.recipe.toggle_targets()
    for row in window.recipe.table.rows.values():
        row.toggle_details()
    window.commands.show_kitchen()
    return window


def focusable(window):
    for widget in window.findChildren(QWidget):
        parent = widget.parent()
        view = isinstance(parent, QAbstractScrollArea) and parent.viewport() is widget
        inner = view or widget.objectName().startswith("qt_") or isinstance(widget, QScrollBar)
        if widget.focusPolicy() != Qt.FocusPolicy.NoFocus and not inner:
            yield widget


def nameless(window):
    return [
        f"{type(each).__name__} in {type(each.parent()).__name__}"
        for each in focusable(window)
        if not each.accessibleName() and not (isinstance(each, QAbstractButton) and each.text())
    ]


@pytest.mark.parametrize("name", SAMPLES)
def test_every_control_has_a_name(open_window, name):
    window = opened_up(open_window(name))
    controls = list(focusable(window))
    assert len(controls) > 40
    assert nameless(window) == []


def test_every_control_of_the_empty_project_and_the_gallon_question_has_a_name(empty):
    dialog = GallonDialog("US", empty)
    assert nameless(empty) == []
    assert all(answer.accessibleName() for answer in dialog.answers.values())
    dialog.close()


def test_every_action_of_the_menus_has_words_and_no_key_is_taken_twice(raspberry):
    keys = []
    for menu in raspberry.menuBar().actions():
        for action in menu.menu().actions():
            assert action.isSeparator() or action.text()
            keys += [key.toString() for key in action.shortcuts()]
    keys = [key for key in keys if key]
    assert len(keys) == len(set(keys))
    assert {"F2", "Ctrl+Z", "Ctrl+S", "Ctrl+O", "Ctrl+N"} <= set(keys)


def cut_off(window):
    """Return the words of the controls that have less room than their words need."""
    return [
        str(widget.property("text") or widget.accessibleName())
        for widget in window.findChildren(QWidget)
        if widget.isVisible() and is_cut(widget)
    ]


def is_cut(widget):
    metrics = QFontMetrics(widget.font())
    if isinstance(widget, QAbstractButton):
        return widget.width() < metrics.horizontalAdvance(widget.text())
    if isinstance(widget, QLabel) and widget.wordWrap():
        return widget.heightForWidth(widget.width()) > widget.height() + 1
    if isinstance(widget, QLabel):
        return widget.width() < widget.sizeHint().width() - 1
    return isinstance(widget, (QLineEdit, QComboBox)) and widget.height() < metrics.height()


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_is_cut_off_at_1366_by_768(qtbot, open_window, name):
    window = open_window(name)
    window.resize(1366, 740)
    qtbot.wait(50)
    assert (window.width(), window.height()) == (1366, 740)
    assert cut_off(window) == []
    page = window.recipe.widget()
    assert page.width() <= window.recipe.viewport().width()


@pytest.mark.parametrize("name", SAMPLES)
def test_details_and_targets_open_within_the_recipes_width(qtbot, open_window, name):
    window = open_window(name)
    window.recipe.toggle_targets()
    for row in window.recipe.table.rows.values():
        row.toggle_details()
        qtbot.wait(20)
        assert window.recipe.widget().width() <= window.recipe.viewport().width()
        assert cut_off(row) == []


def test_the_window_is_no_larger_than_half_a_screen_must_be(qtbot, raspberry):
    # At 200 % a 1920 x 1080 screen leaves 960 x 540 of the window's pixels.
    assert raspberry.minimumSizeHint().width() <= 960
    assert raspberry.minimumSize().height() <= 540
    raspberry.resize(960, 540)
    assert (raspberry.width(), raspberry.height()) == (960, 540)
    qtbot.wait(50)
    assert raspberry.recipe.widget().width() <= raspberry.recipe.viewport().width()


def test_the_kitchen_sheet_fits_a_small_screen(raspberry):
    raspberry.commands.show_kitchen()
    dialog = raspberry.findChild(KitchenDialog)
    room = raspberry.screen().availableGeometry()
    assert dialog.height() <= room.height()
    assert dialog.minimumSizeHint().height() <= 500, "a lower screen scrolls it"
    assert cut_off(dialog) == []
    dialog.reject()


def test_there_are_four_samples_to_walk():
    assert set(SAMPLES) <= set(samples.sample_names())


def tab_stops(window, forward=True):
    """Return what Tab passes, from the first thing of today until it is there again."""
    window.strip.focus_first()
    first = window.focusWidget()
    key = Qt.Key.Key_Tab if forward else Qt.Key.Key_Backtab
    stops = [first]
    while len(stops) < 200:
        QTest.keyClick(window.focusWidget(), key)
        if window.focusWidget() is first:
            return stops
        stops.append(window.focusWidget())
    raise AssertionError("Tab never came back")


def test_tab_goes_through_the_page_as_it_is_read(raspberry):
    stops = tab_stops(raspberry)
    amounts = [row.written for row in raspberry.recipe.table.rows.values()]
    bars = list(raspberry.recipe.must.bars.values())
    wanted = [*amounts, raspberry.recipe.new_line.field, *bars, raspberry.timeline.card.tick]
    assert [stop for stop in stops if stop in wanted] == wanted
    back = tab_stops(raspberry, forward=False)
    assert back[1:] == stops[:0:-1]


def test_a_message_moves_nothing_and_its_buttons_come_last_by_tab(raspberry):
    before = [each.geometry() for each in (raspberry.strip, raspberry.panes, raspberry.foot)]
    raspberry.banner.say("The folder cannot be written to.", ("Save as…", lambda: None))
    QTest.qWait(0)
    after = [each.geometry() for each in (raspberry.strip, raspberry.panes, raspberry.foot)]
    assert after == before
    assert raspberry.banner.geometry().bottom() == raspberry.foot.geometry().bottom()
    assert tab_stops(raspberry)[-2] is raspberry.banner.ways[0]


def test_a_batch_with_nothing_due_opens_where_a_key_changes_nothing(open_window):
    window = open_window("elder-blackberry-bottled")
    assert window.strip.cards == []
    before = window.document.project
    QTest.keyClicks(window.focusWidget(), "x")
    assert window.document.project == before
    QTest.keyClick(window.focusWidget(), Qt.Key.Key_Tab)
    assert window.focusWidget().accessibleName() == "Name of the batch"
