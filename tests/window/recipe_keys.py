"""The recipe pane under a test's hands: what is typed where, and what is read off it."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest


def type_over(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def gravity(window):
    return window.document.outlook.must.gravity.value


def add(window, text):
    field = window.recipe.new_line.field
    type_over(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def row_of(window, kind):
    line = next(line for line in window.document.project.recipe.lines if isinstance(line, kind))
    return window.recipe.table.rows[line.id]
