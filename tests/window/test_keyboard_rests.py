"""What had the keyboard goes away: it stays in its pane, and no key does anything by itself."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest

from tests.window.recipe_keys import add
from winebench.model.edits import DropLine
from winebench.model.recipe import AdditiveLine

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
CTRL = Qt.KeyboardModifier.ControlModifier


def new_line(window):
    return window.recipe.new_line.field


def test_after_a_repair_by_button_it_is_where_a_line_is_added(damson):
    enzyme = next(
        one for one in damson.document.project.recipe.lines
        if isinstance(one, AdditiveLine) and one.additive == "pectic-enzyme"
    )  # fmt: skip
    damson.document.edit(DropLine(label="remove", id=enzyme.id))
    cards = damson.recipe.must.cautions.cards.values()
    press = next(b for card in cards for b in card.repairs if b.text() == "Add the enzyme")
    press.setFocus()
    log, count = damson.document.project.log, len(damson.document.project.recipe.lines)
    QTest.keyClick(press, Qt.Key.Key_Space)
    assert len(damson.document.project.recipe.lines) == count + 1
    assert new_line(damson).hasFocus()
    QTest.keyClick(damson.focusWidget(), Qt.Key.Key_Space)
    assert damson.document.project.log == log


def test_after_undo_to_an_empty_recipe_it_is_where_a_line_is_added(empty):
    add(empty, "6 lb gooseberries")
    (row,) = empty.recipe.table.rows.values()
    row.written.setFocus()
    empty.document.undo()
    assert empty.document.project.recipe.lines == ()
    assert new_line(empty).hasFocus()
    QTest.keyClick(empty.focusWidget(), Qt.Key.Key_Space)
    assert empty.document.project.log == ()


def test_targets_that_close_give_it_back(damson):
    row = damson.recipe.table.rows["sugar"].written
    row.setFocus()
    QTest.keyClick(row, Qt.Key.Key_T, CTRL)
    assert damson.recipe.targets.fields["gravity"].hasFocus()
    QTest.keyClick(damson.focusWidget(), Qt.Key.Key_T, CTRL)
    assert row.hasFocus()


def test_targets_that_close_in_an_empty_recipe_do_not_choose_the_batchs_name(empty):
    QTest.keyClick(empty, Qt.Key.Key_T, CTRL)
    assert empty.recipe.targets.fields["gravity"].hasFocus()
    name = empty.document.project.name
    QTest.keyClick(empty.focusWidget(), Qt.Key.Key_T, CTRL)
    QTest.keyClicks(empty.focusWidget(), "x")
    assert empty.document.project.name == name


def test_after_a_tick_with_words_it_is_on_the_steps(damson):
    QTest.keyClick(damson, Qt.Key.Key_D, CTRL)
    form = damson.timeline.card.form
    assert form.isVisible()
    QTest.keyClick(damson.focusWidget(), Qt.Key.Key_Return)
    assert len(damson.document.project.log) == 1
    assert damson.timeline.rows.hasFocus()


def test_a_card_of_today_that_shows_another_thing_leaves_it_where_space_does_nothing(
    raspberry, open_window
):
    window = open_window(raspberry.document.project, raspberry.document.now() + timedelta(days=1))
    logged = len(window.document.project.log)
    chore = next(card for card in window.strip.cards if card.item.kind == "do" and not card.asks)
    step = chore.item.step
    chore.button.setFocus()
    QTest.keyClick(chore.button, Qt.Key.Key_Space)
    assert len(window.document.project.log) == logged + 1
    assert all(card.item.step != step for card in window.strip.cards)
    assert window.strip.hasFocus()
    QTest.keyClick(window.focusWidget(), Qt.Key.Key_Space)
    assert len(window.document.project.log) == logged + 1


def test_an_entry_taken_out_by_undo_leaves_it_on_the_log(qtbot, raspberry):
    log, count = raspberry.timeline.log, raspberry.timeline.log.model.rowCount()
    raspberry.timeline.show_page("log")
    QTest.keyClicks(log.note, "fizzing")
    QTest.keyClick(log.note, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: log.model.rowCount() == count + 1)
    log.view.selectRow(0)
    log.correct.setFocus()
    raspberry.document.undo()
    qtbot.waitUntil(log.view.hasFocus)
    assert log.model.rowCount() == count


def test_ctrl_l_goes_behind_what_is_typed(damson):
    field = new_line(damson)
    field.setFocus()
    QTest.keyClicks(field, "4 lb dam")
    damson.strip.setFocus()
    QTest.keyClick(damson.strip, Qt.Key.Key_L, CTRL)
    assert field.hasFocus()
    QTest.keyClicks(damson.focusWidget(), "s")
    assert field.text() == "4 lb dams"


def basis_is_seen(window):
    area, basis = window.timeline._card_area, window.timeline.card.basis
    top = basis.mapTo(area.viewport(), basis.rect().topLeft()).y()
    return basis.isVisible() and top >= 0 and top + basis.height() <= area.viewport().height()


def test_the_workings_of_a_step_are_scrolled_into_sight(qtbot, raspberry):
    raspberry.resize(1366, 640)
    held = max(
        (step for step in raspberry.document.outlook.steps if step.state == "held"),
        key=lambda step: len(step.conditions) + len(step.if_slips),
    )
    raspberry.show_step(held.key)
    card = raspberry.timeline.card
    card.tick.setFocus()
    QTest.keyClick(card.tick, Qt.Key.Key_F1)
    assert card.basis.text()
    qtbot.waitUntil(lambda: basis_is_seen(raspberry))


def test_f1_on_why_of_today_shows_what_dates_the_step(qtbot, raspberry):
    held = next(card for card in raspberry.strip.cards if card.item.kind == "held")
    held.button.setFocus()
    QTest.keyClick(held.button, Qt.Key.Key_F1)
    card = raspberry.timeline.card
    assert card.step.key == held.item.step
    assert card.workings.hasFocus()
    qtbot.waitUntil(lambda: basis_is_seen(raspberry))


def workings_in_help(window):
    return next(act for act in window.findChildren(QAction) if act.text().startswith("&Workings"))


@pytest.mark.parametrize("of", ["tick", "rows", "curve"])
def test_help_has_the_workings_of_the_step_that_is_shown(qtbot, raspberry, of):
    timeline = raspberry.timeline
    raspberry.show_step("transfer")
    {"tick": timeline.card.tick, "rows": timeline.rows, "curve": timeline.curve}[of].setFocus()
    workings_in_help(raspberry).trigger()
    assert "the gravity forecast" in timeline.card.basis.text()
    qtbot.waitUntil(lambda: basis_is_seen(raspberry))
    workings_in_help(raspberry).trigger()
    assert timeline.card.basis.isVisible()


@pytest.mark.parametrize("of", ["rows", "curve"])
def test_f1_on_rows_and_curve_shows_what_dates_the_step(qtbot, raspberry, of):
    timeline = raspberry.timeline
    raspberry.show_step("transfer")
    getattr(timeline, of).setFocus()
    QTest.keyClick(getattr(timeline, of), Qt.Key.Key_F1)
    qtbot.waitUntil(lambda: basis_is_seen(raspberry))


def test_help_has_the_workings_of_a_card_of_today(qtbot, raspberry):
    held = next(card for card in raspberry.strip.cards if card.item.kind == "held")
    held.button.setFocus()
    workings_in_help(raspberry).trigger()
    assert raspberry.timeline.card.step.key == held.item.step
    qtbot.waitUntil(lambda: basis_is_seen(raspberry))


def test_help_says_where_workings_are_when_nothing_is_chosen(damson):
    damson.recipe.heading.name.setFocus()
    workings_in_help(damson).trigger()
    assert "workings" in damson.banner.accessibleName()
