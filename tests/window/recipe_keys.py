"""The recipe pane under a test's hands: what is typed where, and what is read off it."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from winebench.model.edits import Change


def type_over(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


def rename(window, name):
    window.document.edit(Change(label="change the name", fields={"name": name}))


def gravity(window):
    return window.document.outlook.must.gravity.value


def new_line(window):
    """Return the row below the recipe in which a line is typed."""
    return window.recipe.new_line.field


def add(window, text):
    field = new_line(window)
    type_over(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)


def row_of(window, kind):
    line = next(line for line in window.document.project.recipe.lines if isinstance(line, kind))
    return window.recipe.table.rows[line.id]
