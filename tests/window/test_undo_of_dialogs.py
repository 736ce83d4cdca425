"""A closed dialog leaves undo one step for each thing it changed, and none for half a word."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from winebench.model.edits import Change
from winebench.window.batch.kitchen import KitchenDialog
from winebench.window.batch.reach import ReachDialog
from winebench.window.batch.shopping import ShoppingDialog

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


@pytest.fixture
def renamed(damson):
    """Return the window, the batch renamed a moment before."""
    damson.document.edit(Change(label="name", fields={"name": "Hedge"}))
    return damson


def opened(window, kind):
    dialog = kind(window.document, window)
    dialog.open()
    return dialog


def type_over(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def undo(window):
    QTest.keyClick(
        window.focusWidget() or window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier
    )


def kept(window):
    return {draft.place: draft.text for draft in window.document.project.drafts}


def test_values_typed_to_be_reached_stay_and_undo_goes_past_them(renamed):
    dialog = opened(renamed, ReachDialog)
    type_over(dialog.question.values["gravity"], "1.100")
    type_over(dialog.question.values["acidity"], "6.9")
    QTest.keyClick(dialog.question.values["acidity"], Qt.Key.Key_Escape)
    undo(renamed)
    assert renamed.document.project.name != "Hedge"
    assert kept(renamed) == {"reach:gravity": "1.100", "reach:acidity": "6.9"}
    again = opened(renamed, ReachDialog)
    assert again.question.values["gravity"].text() == "1.100"
    again.reject()


def test_what_is_reached_is_one_step_and_undo_brings_the_typed_values_back(renamed):
    recipe = renamed.document.project.recipe
    dialog = opened(renamed, ReachDialog)
    type_over(dialog.question.values["gravity"], "1.095")
    dialog.act.click()
    assert renamed.document.project.recipe != recipe
    assert kept(renamed) == {}
    undo(renamed)
    assert renamed.document.project.recipe == recipe
    assert kept(renamed) == {"reach:gravity": "1.095"}
    undo(renamed)
    assert renamed.document.project.name != "Hedge"


def test_stock_that_can_be_read_is_a_step_and_half_a_word_is_none(renamed):
    dialog = opened(renamed, ShoppingDialog)
    type_over(dialog.rows["corks", 0].fields["price"], "6")
    type_over(dialog.rows["white-sugar", 0].fields["have"], "a bagful")
    type_over(dialog.new, "moonwort")
    type_over(dialog.money, "EUR")
    QTest.keyClick(dialog.money, Qt.Key.Key_Escape)
    undo(renamed)
    assert renamed.document.project.money == ""
    undo(renamed)
    assert renamed.document.project.pantry == ()
    undo(renamed)
    assert renamed.document.project.name != "Hedge"
    assert sorted(kept(renamed).values()) == ["a bagful", "moonwort"]


def test_half_a_word_in_the_kitchen_sheet_is_no_step(renamed):
    sheet = opened(renamed, KitchenDialog)
    type_over(sheet.fields["room"], "cold")
    sheet.close()
    undo(renamed)
    assert renamed.document.project.name != "Hedge"
    assert kept(renamed) == {"batch:room": "cold"}
