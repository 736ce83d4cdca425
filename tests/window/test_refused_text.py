"""Text that cannot be read leaves nothing of its own beginning in force.

"9 lb plums" is not nine litres, "5 lemons" not five litres of sugar, "12 for 18" not 12 each: in
every kind of field that holds again which held before the typing, and the text stays as typed.
"""

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.window.recipe_keys import row_of, type_over
from tests.window.test_shopping import dialog as dialog  # a fixture
from tests.window.test_shopping import typed as pantry_typed
from winebench.model.edits import changed
from winebench.model.recipe import FruitLine, SugarLine

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def size(window):
    return window.recipe.make.size_field


def basis(window):
    return window.recipe.make.basis


def vessels(window):
    return window.recipe.make.vessels


def sugar(window):
    return row_of(window, SugarLine).written


def target(key):
    def field(window):
        if not window.recipe.targets.isVisible():
            window.recipe.toggle_targets()
        return window.recipe.targets.fields[key]

    field.__name__ = key
    return field


CASES = [
    (size, "9 lb plums"),
    (size, "5 gal finished"),
    (size, "24 bottlesworth of it"),
    (basis, "3 gallows"),
    (vessels, "7 gal pail, 0 gal jug"),
    (sugar, "5 lemons"),
    (sugar, "3 lbs of it"),
    (target("gravity"), "1.9"),
    (target("gravity"), "1.0900 or so"),
    (target("acidity"), "6.2 or more"),
    (target("strength"), "12 or so"),
    (target("drink"), "9 months or so"),
    (target("bottle"), "375 or so"),
]


@pytest.mark.parametrize(("find", "text"), CASES)
@pytest.mark.parametrize("leave", [None, Qt.Key.Key_Return, Qt.Key.Key_Tab])
def test_what_held_before_the_typing_holds_again(damson, find, text, leave):
    field = find(damson)
    before, shown = damson.document.project, field.text()
    type_over(field, text)
    if leave is not None:
        QTest.keyClick(field, leave)
    after = damson.document.project
    assert changed(after, drafts=()) == changed(before, drafts=())
    assert [draft.text for draft in after.drafts] == [text]
    assert (field.text(), bool(field.refusal)) == (text, True)
    damson.document.undo()
    assert damson.document.project == before
    assert field.text() == shown


def test_a_price_that_cannot_be_read_is_stored_nowhere(damson, dialog):
    field = pantry_typed(dialog, "bottles", "price", "12 for 18")
    assert field.refusal
    assert damson.document.project.pantry == ()
    field.clear()
    QTest.keyClicks(field, "12")
    field.focusNextChild()
    field.setFocus()
    field.end(False)
    QTest.keyClicks(field, " for 18")  # the 12 was let stand: it was meant
    (item,) = damson.document.project.pantry
    assert item.price.text == "12"


def test_what_enter_let_stand_is_what_comes_back(damson):
    type_over(size(damson), "3 gal")
    QTest.keyClick(size(damson), Qt.Key.Key_Return)
    QTest.keyClicks(size(damson), " of it")
    assert damson.document.project.make.size.text == "3 gal"
    type_over(size(damson), "9 lb plums")
    assert damson.document.project.make.size.text == "3 gal"


def test_typed_wholly_anew_in_one_stay_goes_back_to_before_the_stay(damson):
    before = damson.document.project.make
    type_over(size(damson), "9 l")
    assert damson.document.project.make.size.text == "9 l"
    size(damson).selectAll()
    QTest.keyClicks(size(damson), "plums")
    assert damson.document.project.make == before


def test_text_that_can_be_read_again_holds_again(damson):
    field = row_of(damson, FruitLine).written
    line = row_of(damson, FruitLine).line.id
    before = damson.document.project
    type_over(field, "4 lbx")
    assert changed(damson.document.project, drafts=()) == before
    QTest.keyClick(field, Qt.Key.Key_Backspace)
    assert damson.document.project.line(line).amount.text == "4 lb"
    assert damson.document.project.drafts == ()
    QTest.keyClicks(field, "y")
    assert damson.document.project.line(line).amount == before.line(line).amount
    damson.document.undo()
    assert damson.document.project == before


def test_an_emptied_field_holds_what_it_held_and_shows_it_when_it_is_left(damson):
    before, field = damson.document.project, sugar(damson)
    shown = field.text()
    field.setFocus()
    field.end(False)
    for _key in shown:
        QTest.keyClick(field, Qt.Key.Key_Backspace)
    assert field.text() == ""
    assert damson.document.project == before
    QTest.keyClick(field, Qt.Key.Key_Tab)
    assert field.text() == shown


def test_a_glance_at_another_window_lets_nothing_stand(damson):
    before, field = damson.document.project, size(damson)
    type_over(field, "9 l")
    away = Qt.FocusReason.ActiveWindowFocusReason
    QApplication.sendEvent(field, QFocusEvent(QEvent.Type.FocusOut, away))
    QApplication.sendEvent(field, QFocusEvent(QEvent.Type.FocusIn, away))
    QTest.keyClicks(field, "b plums")
    assert changed(damson.document.project, drafts=()) == before
