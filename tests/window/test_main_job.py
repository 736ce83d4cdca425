"""The main job by keys: today's strip, a reading, workings, undo, panes."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog

from tests.window.recipe_keys import type_over
from tests.window.test_kitchen_sheet import sheet_of
from winebench.model.log import Action, Reading

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def entries(window, kind):
    return [entry for entry in window.document.project.log if isinstance(entry, kind)]


def card(window, kind):
    return next(card for card in window.strip.cards if card.item.kind == kind)


def test_a_reading_is_one_key_a_number_and_enter(qtbot, raspberry):
    before = len(entries(raspberry, Reading))
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    field = raspberry.focusWidget()
    QTest.keyClicks(field, "1.050")
    QTest.keyClick(field, Qt.Key.Key_Return)
    readings = entries(raspberry, Reading)
    assert len(readings) == before + 1
    assert readings[-1].gravity.value == 1.050
    assert readings[-1].at == raspberry.document.now()
    assert not raspberry.reading_bar.isVisible()
    qtbot.waitUntil(lambda: not raspberry.document.forecasts.busy, timeout=20_000)
    assert raspberry.document.outlook.readings[-1].raw.startswith("1.050")


def test_a_reading_moves_the_racking_and_undo_moves_it_back(qtbot, raspberry):
    def racking():
        steps = raspberry.document.outlook.steps
        return next(step.likely for step in steps if step.key == "transfer")

    before = racking()
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.focusWidget(), "1.050")
    QTest.keyClick(raspberry.focusWidget(), Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: not raspberry.document.forecasts.busy, timeout=20_000)
    assert racking() < before
    QTest.keySequence(raspberry, "Ctrl+Z")
    assert racking() == before


def test_the_strips_done_ticks_a_chore_off_and_undo_brings_it_back(raspberry, open_window):
    from winebench.model.edits import DropEntry

    stirred = max((a for a in entries(raspberry, Action) if a.step == "stir"), key=lambda a: a.at)
    raspberry.document.edit(DropEntry(label="x", id=stirred.id))
    from datetime import timedelta

    window = open_window(raspberry.document.project, raspberry.document.now() + timedelta(days=1))
    stir = next(each for each in window.strip.cards if each.item.step == "stir")
    count = len(entries(window, Action))
    QTest.keyClick(stir.button, Qt.Key.Key_Space)
    assert len(entries(window, Action)) == count + 1
    assert entries(window, Action)[-1].step == "stir"
    assert all(each.item.step != "stir" for each in window.strip.cards)
    QTest.keySequence(window, "Ctrl+Z")
    assert len(entries(window, Action)) == count
    assert any(each.item.step == "stir" for each in window.strip.cards)


def test_a_step_that_wants_something_written_down_opens_its_card(damson):
    first = card(damson, "do")
    assert first.asks
    QTest.keyClick(damson, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert damson.timeline.card.step.key == first.item.step
    assert damson.timeline.card.form.isVisible()
    assert entries(damson, Action) == []


def test_what_is_held_shows_why_in_the_timeline(raspberry):
    held = card(raspberry, "held")
    QTest.keyClick(held.button, Qt.Key.Key_Space)
    assert raspberry.timeline.card.step.key == held.item.step
    assert "waits for" in held.item.detail


def test_cards_without_room_are_in_the_menu(raspberry):
    raspberry.resize(900, 640)
    shown = [each for each in raspberry.strip.cards if each.isVisible()]
    hidden = len(raspberry.strip.cards) - len(shown)
    assert shown
    assert hidden > 0
    assert raspberry.strip.more.text() == f"{hidden} more ›"


def test_f1_shows_the_workings_of_the_amount_with_its_source(damson):
    row = damson.recipe.table.rows["sugar"]
    row.written.setFocus()
    QTest.keyClick(row.written, Qt.Key.Key_F1)
    popup = damson.workings
    assert popup.isVisible()
    assert row.scaled.words in popup.spoken
    assert "Source: " in popup.spoken
    QTest.keyClick(popup, Qt.Key.Key_Escape)
    assert not popup.isVisible()


def test_a_click_on_a_figure_of_the_must_shows_its_workings(damson):
    bar = damson.recipe.must.bars["gravity"]
    QTest.mouseClick(bar, Qt.MouseButton.LeftButton)
    popup = damson.workings
    assert bar.want.actual.text in popup.spoken
    assert bar.want.actual.workings.words in popup.spoken
    popup.close()


def test_every_figure_shown_has_workings(damson, raspberry):
    for window in (damson, raspberry):
        outlook = window.document.outlook
        figures = [line.scaled for line in outlook.lines if line.scaled.value is not None]
        figures += [want.actual for want in outlook.must.wants]
        assert all(figure.workings is not None for figure in figures)


def test_either_pane_can_have_the_whole_window(raspberry):
    QTest.keyClick(raspberry, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    assert not raspberry.timeline.isVisible()
    QTest.keyClick(raspberry, Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
    assert (raspberry.recipe.isVisible(), raspberry.timeline.isVisible()) == (False, True)
    QTest.keyClick(raspberry, Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
    assert raspberry.recipe.isVisible()
    assert raspberry.timeline.isVisible()


def test_f6_goes_from_pane_to_pane(raspberry):
    raspberry.recipe.heading.name.setFocus()
    QTest.keyClick(raspberry, Qt.Key.Key_F6)
    assert raspberry.timeline.isAncestorOf(raspberry.focusWidget())
    QTest.keyClick(raspberry, Qt.Key.Key_F6)
    assert raspberry.recipe.isAncestorOf(raspberry.focusWidget())


def test_the_kitchen_takes_effect_as_it_is_typed(raspberry):
    dialog = sheet_of(raspberry)
    room = dialog.fields["room"]
    type_over(room, "17,5 °C")
    assert raspberry.document.project.room.celsius == 17.5
    adds = dialog.fields["hydrometer.adds"]
    adds.selectAll()
    QTest.keyClicks(adds, "-0,002")
    assert raspberry.document.project.hydrometer.adds == -0.002
    dialog.reject()


def test_days_away_and_the_start_are_typed_as_days(damson):
    dialog = sheet_of(damson)
    away, start = dialog.fields["away"], dialog.fields["start"]
    away.setFocus()
    QTest.keyClicks(away, "10 Oct to 14 Oct, 24 Dec")
    first, second = damson.document.project.away
    assert (first.first.isoformat(), first.last.isoformat()) == ("2026-10-10", "2026-10-14")
    assert second.first == second.last
    start.selectAll()
    QTest.keyClicks(start, "3 Oct 18:30")
    at = damson.document.project.start
    assert (at.month, at.day, at.hour, at.minute) == (10, 3, 18, 30)
    assert at.utcoffset() is not None
    start.selectAll()
    QTest.keyClicks(start, "soonish")
    assert '"soonish" is not a day' in dialog.refusal.text()
    dialog.reject()


@pytest.mark.parametrize("show", ["show_keys", "show_about"])
def test_help_opens_over_the_page_and_closes_by_escape(raspberry, show):
    getattr(raspberry.commands, show)()
    box = raspberry.findChildren(QDialog)[-1]
    assert box.isVisible()
    QTest.keyClick(box, Qt.Key.Key_Escape)
    assert not box.isVisible()


def test_the_window_is_painted_before_what_plots_is_loaded():
    import os
    import subprocess
    import sys

    script = """
import sys
from PySide6.QtCore import QEvent, QObject, QTimer
from winebench.window import app
application = app._application()
class Watch(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint and type(watched).__name__ == "TodayStrip":
            print("pyqtgraph" in sys.modules)
            application.removeEventFilter(self)
            QTimer.singleShot(1500, self.later)
        return False
    def later(self):
        print("pyqtgraph" in sys.modules)
        application.activeWindow().close()
watch = Watch()
application.installEventFilter(watch)
sys.exit(app.run())
"""
    run = subprocess.run(
        [sys.executable, "-c", script],
        env=os.environ | {"QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert run.stdout.split() == ["False", "True"]
    assert run.returncode == 0
