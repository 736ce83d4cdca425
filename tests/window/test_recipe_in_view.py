"""What is typed in the recipe's last row is seen while it is typed, with what is asked of it."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest

from tests.window.recipe_keys import add, type_over
from winebench.model.edits import PutLine
from winebench.model.recipe import SugarLine
from winebench.units import Amount

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
LINES = [f"{ounces} oz {name}" for ounces in range(2, 8) for name in (
    "plums", "damsons", "raspberries", "white sugar")]  # fmt: skip


def whole(window, widget):
    """Return whether all of the widget can be seen in the pane."""
    place = widget.mapTo(window.recipe.viewport(), widget.rect().topLeft()).y()
    return place >= 0 and place + widget.height() <= window.recipe.viewport().height()


def test_the_row_is_in_view_after_each_line_and_while_the_next_is_typed(qtbot, empty):
    empty.resize(1366, 640)
    for text in LINES:
        add(empty, text)
    row, bar = empty.recipe.new_line, empty.recipe.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.value() > 0 and whole(empty, row.field), timeout=2000)
    bar.setValue(0)
    assert not whole(empty, row.field)
    QTest.keyClicks(row.field, "3")
    qtbot.waitUntil(lambda: whole(empty, row.field), timeout=2000)


def test_a_question_is_in_view_with_its_answers(qtbot, empty):
    empty.resize(1366, 640)
    for text in LINES:
        add(empty, text)
    add(empty, "3 lb moonberries")
    row, bar = empty.recipe.new_line, empty.recipe.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.value() > 0, timeout=2000)
    qtbot.waitUntil(lambda: whole(empty, row.said) and whole(empty, row.as_fruit), timeout=2000)
    assert row.field.hasFocus()


def test_the_end_of_a_long_name_is_shown_on_a_second_line(qtbot, damson):
    feed = SugarLine(id="feed", sugar="white-sugar", amount=Amount("1 lb"), when="feed")
    damson.document.edit(PutLine(label="feed some", line=feed))
    damson.resize(1000, 640)
    qtbot.wait(50)
    name, short = (damson.recipe.table.rows[line].name for line in ("feed", "sugar"))
    room = QFontMetrics(name.font()).horizontalAdvance(name.words) + 18
    assert name.words == "White sugar, fed later"
    assert (name.height() > short.height()) == (room > name.width())
    assert short.height() == 24


def test_the_size_as_worked_out_stands_whole_in_its_field(qtbot, damson):
    type_over(damson.recipe.make.basis, "1.436 gal US")
    QTest.keyClick(damson.recipe.make.basis, Qt.Key.Key_Tab)
    qtbot.wait(50)
    field = damson.recipe.make.basis
    assert field.fontMetrics().horizontalAdvance(field.text()) <= field.width() - 12


def test_a_line_dragged_to_the_edge_scrolls_the_pane(qtbot, empty):
    empty.resize(1366, 640)
    for text in LINES:
        add(empty, text)
    pane = empty.recipe
    bar = pane.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.value() > 0, timeout=2000)
    bar.setValue(0)
    name = next(iter(pane.table.rows.values())).name
    QTest.mousePress(name, Qt.MouseButton.LeftButton, pos=QPoint(10, 10))
    for _move in range(5):
        edge = pane.viewport().mapToGlobal(QPoint(10, pane.viewport().height() - 5))
        QTest.mouseMove(name, name.mapFromGlobal(edge))
    QTest.mouseRelease(name, Qt.MouseButton.LeftButton, pos=QPoint(10, 10))
    assert bar.value() >= 60
