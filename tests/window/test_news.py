"""The line of news over the card: what was logged or corrected just now moved."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from winebench.model.log import Reading
from winebench.window.logging.scribbles import ScribblesDialog

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def test_a_corrected_old_reading_tells_what_the_correction_moved(qtbot, raspberry):
    timeline = raspberry.timeline
    timeline.show_page("log")
    readings = [e for e in timeline.log.model.entries if isinstance(e, Reading) and e.gravity]
    timeline.log.select(readings[-2].id)  # newest first: this is the second that was read
    timeline.log.view.setFocus()
    QTest.keyClick(timeline.log.view, Qt.Key.Key_Return)
    gravity = timeline.log.form.fields["gravity"]
    gravity.selectAll()
    QTest.keyClicks(gravity, f"{readings[-2].gravity.value + 0.006:.3f}")
    QTest.keyClick(gravity, Qt.Key.Key_Return)
    assert timeline.log.form.isHidden(), timeline.log.form.refusal.text()
    qtbot.waitUntil(lambda: not raspberry.document.forecasts.busy, timeout=20_000)
    assert timeline.moved.isVisible()
    assert "was corrected to" in timeline.moved.words
    assert " without it" not in timeline.moved.words


def test_days_logged_at_once_tell_what_they_moved_together(qtbot, raspberry):
    QTest.keyClick(raspberry, Qt.Key.Key_F2, Qt.KeyboardModifier.ShiftModifier)
    dialog = raspberry.findChild(ScribblesDialog)
    QTest.keyClicks(dialog.text, "Tue 12:00 1.059 16C")
    QTest.keyClick(dialog.text, Qt.Key.Key_Return)
    QTest.keyClicks(dialog.text, "Tue 17:00 1.059 16C")
    qtbot.waitUntil(lambda: len(dialog.found.entries) == 2, timeout=5000)
    assert dialog.log.isEnabled(), dialog.question.text()
    QTest.keyClick(dialog.log, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: raspberry.findChild(ScribblesDialog) is None)
    qtbot.waitUntil(lambda: not raspberry.document.forecasts.busy, timeout=20_000)
    assert raspberry.timeline.moved.isVisible()
    assert "because 2 entries were logged at once" in raspberry.timeline.moved.words
