"""Undo takes back what can be seen: typing into a form that is shut is no step of its own."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from winebench.model.edits import Change

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def form(damson):
    """Return the open form of what is first today, the batch renamed a moment before."""
    damson.document.edit(Change(label="name", fields={"name": "Hedge"}))
    QTest.keyClick(damson, Qt.Key.Key_D, CTRL)
    opened = damson.timeline.card.form
    assert opened.isVisible()
    return opened


def press(window, key, held=CTRL):
    QTest.keyClick(window.focusWidget(), key, held)


def test_a_tick_and_all_that_was_typed_for_it_is_one_step(damson, form):
    before = damson.document.project
    QTest.keyClicks(form.fields["at"], "yesterday 18:30")
    QTest.keyClicks(form.fields["note"], "by the window")
    QTest.keyClick(form.fields["note"], Qt.Key.Key_Return)
    (entry,) = damson.document.project.log
    assert damson.document.session.undo_label.startswith("tick off: ")
    press(damson, Qt.Key.Key_Z)
    assert damson.document.project == before
    assert damson.document.session.undo_label == "name"
    damson.timeline.card.tick.click()
    assert [each.text() for each in form.fields.values()] == [""] * len(form.fields)
    QTest.keyClick(form.fields["at"], Qt.Key.Key_Escape)
    press(damson, Qt.Key.Key_Y)
    assert damson.document.project.log == (entry,)
    press(damson, Qt.Key.Key_Z)
    press(damson, Qt.Key.Key_Z)
    assert damson.document.project.name != "Hedge"
    assert not damson.document.session.can_undo


def test_while_the_form_is_open_undo_takes_back_what_is_typed_in_it(qtbot, damson, form):
    note = form.fields["note"]
    note.setFocus()
    QTest.keyClicks(note, "cold")
    press(damson, Qt.Key.Key_Z)
    qtbot.waitUntil(lambda: note.text() == "")
    assert damson.document.project.name == "Hedge"


def test_a_form_that_is_left_keeps_its_words_and_undo_goes_past_them(damson, form):
    QTest.keyClicks(form.fields["note"], "cold")
    QTest.keyClick(form.fields["note"], Qt.Key.Key_Escape)
    press(damson, Qt.Key.Key_Z)
    assert damson.document.project.name != "Hedge"
    assert [draft.text for draft in damson.document.project.drafts] == ["cold"]
    damson._show_timeline()
    damson.timeline.card.tick.click()
    assert form.fields["note"].text() == "cold"


def test_undo_of_a_reading_leaves_the_bar_empty_for_the_next(raspberry):
    count = len(raspberry.document.project.log)
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.focusWidget(), "1.050")
    QTest.keyClick(raspberry.focusWidget(), Qt.Key.Key_Return)
    assert len(raspberry.document.project.log) == count + 1
    press(raspberry, Qt.Key.Key_Z)
    assert len(raspberry.document.project.log) == count
    assert not raspberry.document.session.can_undo
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.focusWidget(), "1.048")
    assert raspberry.reading_bar.gravity.text() == "1.048"


def test_a_reading_put_aside_stays_while_undo_goes_past_it(raspberry):
    raspberry.document.edit(Change(label="name", fields={"name": "Hedge"}))
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.focusWidget(), "1.05")
    QTest.keyClick(raspberry.focusWidget(), Qt.Key.Key_Escape)
    press(raspberry, Qt.Key.Key_Z)
    assert raspberry.document.project.name != "Hedge"
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    assert raspberry.reading_bar.gravity.text() == "1.05"


def test_undo_of_several_days_brings_their_whole_text_back(raspberry):
    from winebench.window.logging.scribbles import ScribblesDialog

    dialog = ScribblesDialog(raspberry.document, raspberry)
    dialog.open()
    QTest.keyClicks(dialog.text, "today stirred")
    dialog.read()
    QTest.keyClicks(dialog.text, " and 1.052")
    dialog.read()
    dialog.log.click()
    assert raspberry.document.session.undo_label == "log several days"
    raspberry.document.undo()
    assert not raspberry.document.session.can_undo
    kept = [draft.text for draft in raspberry.document.project.drafts]
    assert kept == ["today stirred and 1.052"]


def test_f2_after_an_entry_put_aside_replaces_it_and_undo_brings_it_back(raspberry):
    bar, before = raspberry.reading_bar, raspberry.document.project.log
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.focusWidget(), "1.038")
    QTest.keyClick(raspberry.focusWidget(), Qt.Key.Key_Escape)
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    assert bar.gravity.selectedText() == "1.038"
    QTest.keyClicks(raspberry.focusWidget(), "1.041")
    assert bar.gravity.text() == "1.041"
    QTest.keyClick(raspberry.focusWidget(), Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert bar.gravity.text() == "1.038"
    assert raspberry.document.project.log == before


def test_f2_while_the_bar_is_open_chooses_what_is_typed(raspberry):
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.focusWidget(), "1.03")
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    assert raspberry.reading_bar.gravity.selectedText() == "1.03"
    assert raspberry.reading_bar.gravity.hasFocus()
