"""What has no room is wrapped, or whole in its tooltip and for a screen reader; nothing covers."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from winebench.window.batch.kitchen import KitchenDialog
from winebench.window.parts.breaking import broken
from winebench.window.parts.words import Elided
from winebench.window.theme import theme

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
SAMPLES = ("damson-design", "raspberry-day-3", "pear-under-airlock", "elder-blackberry-bottled")
SIZES = [(1366, 740), (1000, 640), (952, 504)]


def settle(window):
    for _ in range(6):
        QApplication.processEvents()
    window.grab()


@given(st.text("ab cd·,", max_size=200), st.integers(20, 400), st.integers(1, 4))
def test_broken_words_keep_to_their_width_and_say_it_all_or_end_in_dots(qapp, words, width, most):
    font = theme().base_font()
    lines = broken(words, font, width, most)
    metrics = QFontMetricsF(font)
    assert 1 <= len(lines) <= most
    assert all(metrics.horizontalAdvance(line) <= width + 1 for line in lines)
    whole = "".join("".join(lines).split()) == "".join(words.split())
    assert whole or any("…" in line for line in lines)


def test_words_that_fit_in_two_lines_are_not_cut(qtbot):
    shown = Elided("waits for a reading below 1.054: a third of the sugar gone", lines=2)
    qtbot.addWidget(shown)
    shown.resize(220, shown.heightForWidth(220))
    shown.grab()
    assert shown.toolTip() == ""
    assert shown.heightForWidth(220) > shown.heightForWidth(800)
    shown.resize(60, 40)
    shown.grab()
    assert shown.toolTip() == shown.words == shown.accessibleName()


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", SAMPLES)
def test_the_safety_words_are_never_cut(open_window, name, size):
    window = open_window(name)
    window.resize(*size)
    settle(window)
    safety = window.foot.safety
    assert safety.words.endswith("do not sell it.")
    assert safety.toolTip() == ""
    assert safety.height() >= safety.heightForWidth(safety.width())


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", SAMPLES)
def test_today_and_the_cards_time_are_in_full_or_in_the_tooltip(open_window, name, size):
    window = open_window(name)
    window.resize(*size)
    settle(window)
    shown = [each for card in window.strip.cards for each in card.findChildren(Elided)]
    for each in (*shown, window.timeline.card.when, window.timeline.moved):
        if each.isVisible():
            lines = broken(each.words, each._face(), each.width(), 1 + each.hasHeightForWidth())
            cut = any("…" in line for line in lines)
            assert each.toolTip() == (each.words if cut else "")
            assert (
                each.height() >= each.heightForWidth(each.width()) or not each.hasHeightForWidth()
            )


def test_at_1366_the_raspberrys_cards_say_all_they_have_to_say(raspberry):
    settle(raspberry)
    shown = [each for card in raspberry.strip.cards for each in card.findChildren(Elided)]
    assert [each.words for each in shown if each.isVisible() and each.toolTip()] == []


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", ["raspberry-day-3", "elder-blackberry-bottled"])
def test_no_reading_is_covered_by_what_is_written_on_the_curve(open_window, name, size):
    window = open_window(name)
    window.resize(*size)
    settle(window)
    curve = window.timeline.curve
    picture = curve.grab().toImage()
    ink = theme().palette.ink
    for at, gravity in zip(curve.data.read_at, curve.data.gravity, strict=True):
        if not curve.axis.holds(float(at)):
            continue
        x = round(curve.axis.pixel(float(at)))
        y = round(float(curve._pixel_of_gravity(float(gravity))))
        near = [picture.pixelColor(x + dx, y + dy) for dx in range(-6, 7) for dy in range(-6, 7)]
        assert any(abs(c.lightness() - ink.lightness()) < 40 for c in near), (x, y)


def test_rows_of_steps_are_seen_whole(raspberry):
    for size in SIZES:
        raspberry.resize(*size)
        settle(raspberry)
        assert raspberry.timeline.rows.parentWidget().height() % 26 == 0


def test_the_kitchen_sheet_scrolls_where_the_screen_is_low(qtbot, raspberry):
    raspberry.commands.show_kitchen()
    dialog = raspberry.findChild(KitchenDialog)
    dialog.resize(dialog.minimumSizeHint().width(), 400)
    qtbot.waitUntil(dialog.isActiveWindow)
    settle(dialog)
    for _ in range(len(dialog.fields) + len(dialog.choices) + 1):
        QTest.keyClick(dialog.focusWidget(), Qt.Key.Key_Tab)
        here = dialog.focusWidget()
        top = here.mapTo(dialog, QPoint(0, 0))
        assert 0 <= top.y() <= dialog.height() - here.height(), here.accessibleName()
        assert 0 <= top.x() <= dialog.width() - here.width(), here.accessibleName()
    assert dialog.reminders.hasFocus()
    dialog.reject()
