"""Lines of the recipe are added, moved and taken out by keys and the mouse; nothing is lost."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import add, gravity, row_of, type_over
from winebench.model.recipe import SugarLine, YeastLine

# The platform without a screen says so when the list of names opens.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def test_a_whole_recipe_is_typed_into_an_empty_project(empty):
    assert empty.recipe.empty.isVisible()
    for text in ("4 lb frozen stoned damsons", "1 1/2 lb sugar", "water", "1 packet yeast"):
        add(empty, text)
    lines = empty.document.project.recipe.lines
    fruit, sugar, water, yeast = lines
    assert (fruit.fruit, fruit.form, fruit.prepared) == ("damson", "frozen", True)
    assert (sugar.sugar, sugar.amount.text) == ("white-sugar", "1 1/2 lb")
    assert water.amount is None
    assert isinstance(yeast, YeastLine)
    assert not empty.recipe.empty.isVisible()
    assert empty.recipe.new_line.field.text() == ""
    assert gravity(empty) > 1.03


def test_a_fruit_that_the_catalog_lacks_is_asked_about_and_kept(empty):
    add(empty, "3 lb moonberries")
    asked = empty.recipe.new_line
    assert "moonberries" in asked.said.text()
    assert empty.document.project.recipe.lines == ()
    assert asked.field.hasFocus()
    QTest.keyClick(empty.focusWidget(), Qt.Key.Key_Tab)
    assert asked.as_fruit.hasFocus()
    QTest.keyClick(asked.as_fruit, Qt.Key.Key_Space)
    (line,) = empty.document.project.recipe.lines
    assert (line.fruit, line.amount.text) == ("moonberries", "3 lb")


def test_a_space_typed_on_after_the_question_answers_nothing(empty):
    add(empty, "3 lb moonberries")
    QTest.keyClick(empty.focusWidget(), Qt.Key.Key_Space)
    assert empty.document.project.recipe.lines == ()
    assert empty.recipe.new_line.field.text() == "3 lb moonberries "


def press_in_offers(window, *keys):
    """Press the keys where they go while the list of names is open."""
    popup = window.recipe.new_line.field.completer().popup()
    assert popup.isVisible()
    for key in keys:
        QTest.keyClick(popup, key)
    assert not popup.isVisible()


def test_one_enter_adds_a_line_typed_whole_while_names_are_offered(empty):
    field = empty.recipe.new_line.field
    for text in ("3 lb plums", "4 lb damsons"):
        type_over(field, text)
        press_in_offers(empty, Qt.Key.Key_Return)
        assert field.text() == ""
        assert field.hasFocus()
    lines = empty.document.project.recipe.lines
    assert [(line.fruit, line.amount.text) for line in lines] == [
        ("plum", "3 lb"),
        ("damson", "4 lb"),
    ]


def test_one_enter_adds_the_name_chosen_from_the_list(empty):
    type_over(empty.recipe.new_line.field, "3 lb dams")
    press_in_offers(empty, Qt.Key.Key_Down, Qt.Key.Key_Return)
    (line,) = empty.document.project.recipe.lines
    assert (line.fruit, line.amount.text) == ("damson", "3 lb")
    assert empty.recipe.new_line.field.text() == ""


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("damsons", "How much?"),
        ("4 lb", "of what"),
        ("2 furlongs of sugar", '"furlongs"'),
    ],
)
def test_a_line_that_is_not_whole_says_what_is_missing(empty, text, said):
    add(empty, text)
    assert said in empty.recipe.new_line.said.text()
    assert empty.recipe.new_line.field.text() == text
    assert empty.document.project.recipe.lines == ()


def test_a_half_typed_line_is_kept_with_the_project(empty, open_window):
    type_over(empty.recipe.new_line.field, "4 lb dam")
    again = open_window(empty.document.project, empty.document.now())
    assert again.recipe.new_line.field.text() == "4 lb dam"


def test_what_was_decided_while_reading_a_line_is_said(empty):
    field = empty.recipe.new_line.field
    QTest.keyClicks(field, "2-3 lb cherries")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert empty.document.project.recipe.lines[0].amount.text == "2 1/2 lb"
    said = empty.recipe.new_line.said.text()
    assert "2-3 lb is a range" in said
    assert "it could be sour cherries" in said
    QTest.keyClicks(field, "1")
    assert not empty.recipe.new_line.said.isVisible()


def test_a_line_is_taken_out_and_brought_back_by_keys(damson):
    row = row_of(damson, SugarLine)
    row.written.setFocus()
    QTest.keyClick(row.written, Qt.Key.Key_Delete, Qt.KeyboardModifier.ControlModifier)
    assert damson.document.project.line(row.line.id) is None
    QTest.keySequence(damson, "Ctrl+Z")
    assert damson.document.project.line(row.line.id) is not None
    assert damson.recipe.table.rows[row.line.id].isVisibleTo(damson)


def test_the_batch_menu_acts_on_the_line_that_has_the_keyboard(damson):
    row = row_of(damson, SugarLine)
    row.written.setFocus()
    batch = damson.menuBar().actions()[2].menu()
    details = next(each for each in batch.actions() if "de&tails" in each.text())
    details.trigger()
    assert row.details.isVisible()


def test_a_line_is_moved_by_keys(damson):
    ids = [line.id for line in damson.document.project.recipe.lines]
    row = damson.recipe.table.rows[ids[0]]
    row.written.setFocus()
    QTest.keyClick(row.written, Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)
    assert [line.id for line in damson.document.project.recipe.lines][:2] == [ids[1], ids[0]]
    assert row.written.hasFocus()


def test_a_line_is_dragged_to_its_place_and_one_undo_brings_it_back(damson):
    rows = list(damson.recipe.table.rows.values())
    order = [line.id for line in damson.document.project.recipe.lines]
    name = rows[0].name
    QTest.mousePress(name, Qt.MouseButton.LeftButton, pos=QPoint(10, 10))
    for row in rows[1:4]:
        below = name.mapFromGlobal(row.mapToGlobal(row.rect().bottomLeft()))
        QTest.mouseMove(name, QPoint(10, below.y()))
    QTest.mouseRelease(name, Qt.MouseButton.LeftButton, pos=QPoint(10, 200))
    moved = [line.id for line in damson.document.project.recipe.lines]
    assert moved == [*order[1:4], order[0], *order[4:]]
    assert damson.recipe.table.rows[order[0]].details is None
    damson.document.undo()
    assert [line.id for line in damson.document.project.recipe.lines] == order


def test_a_click_that_drags_nothing_opens_the_details(damson):
    row = next(iter(damson.recipe.table.rows.values()))
    QTest.mouseClick(row.name, Qt.MouseButton.LeftButton, pos=QPoint(10, 10))
    assert row.details.isVisible()
