"""The list of names under a line: Tab takes one, Enter adds, and no key goes astray."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import add, new_line, type_over
from winebench.catalog.fruits import fruits
from winebench.model.edits import changed
from winebench.plan.typed.offers import completed, offers

# The platform without a screen says so when the list of names opens.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def popup(window):
    return new_line(window).completer().popup()


def lines(window):
    return window.document.project.recipe.lines


def names(window):
    model = popup(window).model()
    return [model.index(row, 0).data() for row in range(model.rowCount())]


def test_tab_takes_the_only_name_and_stays_behind_it(empty):
    type_over(new_line(empty), "6 lb goose")
    assert names(empty) == ["6 lb gooseberries"]
    QTest.keyClick(popup(empty), Qt.Key.Key_Tab)
    assert new_line(empty).text() == "6 lb gooseberries"
    assert not popup(empty).isVisible()
    assert new_line(empty).hasFocus()
    assert new_line(empty).cursorPosition() == len("6 lb gooseberries")
    assert lines(empty) == ()
    (draft,) = empty.document.project.drafts
    assert draft.text == "6 lb gooseberries"
    QTest.keyClick(new_line(empty), Qt.Key.Key_Tab)  # the line is whole now
    assert [line.fruit for line in lines(empty)] == ["gooseberry"]
    assert new_line(empty).hasFocus()
    assert new_line(empty).text() == ""


def test_tab_takes_the_chosen_name(empty):
    type_over(new_line(empty), "2 lb cher")
    assert len(names(empty)) > 1
    QTest.keyClick(popup(empty), Qt.Key.Key_Down)
    QTest.keyClick(popup(empty), Qt.Key.Key_Down)
    wanted = names(empty)[1]
    QTest.keyClick(popup(empty), Qt.Key.Key_Tab)
    assert new_line(empty).text() == wanted
    assert [draft.text for draft in empty.document.project.drafts] == [wanted]


def test_tab_on_a_name_without_an_amount_goes_to_the_amount(empty):
    type_over(new_line(empty), "goose")
    QTest.keyClick(popup(empty), Qt.Key.Key_Tab)
    assert new_line(empty).cursorPosition() == 0
    QTest.keyClicks(new_line(empty), "6 lb")
    QTest.keyClick(new_line(empty), Qt.Key.Key_Return)
    assert [(line.fruit, line.amount.text) for line in lines(empty)] == [("gooseberry", "6 lb")]


def test_enter_takes_the_only_name_and_says_so(empty):
    type_over(new_line(empty), "6 lb goose")
    QTest.keyClick(popup(empty), Qt.Key.Key_Return)
    assert [line.fruit for line in lines(empty)] == ["gooseberry"]
    said = empty.recipe.new_line.said
    assert said.text() == '"6 lb goose" is taken as 6 lb gooseberries.'
    assert said.isVisible()


def test_enter_guesses_nothing_where_several_names_fit(empty):
    type_over(new_line(empty), "2 lb pea")
    assert len(names(empty)) > 1
    QTest.keyClick(popup(empty), Qt.Key.Key_Return)
    assert lines(empty) == ()
    assert new_line(empty).text() == "2 lb pea"
    assert '"pea" is not in the catalog' in empty.recipe.new_line.said.text()


def test_tab_on_words_that_are_no_line_goes_on_and_keeps_them(empty):
    add(empty, "3 lb moonberries")
    QTest.keyClick(new_line(empty), Qt.Key.Key_Tab)
    assert empty.recipe.new_line.as_fruit.hasFocus()
    assert new_line(empty).text() == "3 lb moonberries"


def test_names_that_begin_so_come_before_names_with_such_a_word(empty):
    begun = completed("2 lb black", offers())
    assert begun[0].startswith("2 lb black")
    starts = [line.startswith("2 lb black") for line in begun]
    assert starts == sorted(starts, reverse=True)
    cherries = completed("2 lb cher", offers())
    assert "2 lb sour cherries" in cherries
    every = {fruit.name.lower() for fruit in fruits().values()}
    assert {line.removeprefix("2 lb ") for line in begun} & every


def test_a_key_of_the_window_shuts_the_list_and_its_form_has_the_keyboard(raspberry):
    type_over(new_line(raspberry), "6 lb goose")
    assert popup(raspberry).isVisible()
    QTest.keyClick(new_line(raspberry), Qt.Key.Key_F2)
    assert not popup(raspberry).isVisible()
    assert raspberry.reading_bar.gravity.hasFocus()
    QTest.keyClicks(raspberry.focusWidget(), "1.050")
    assert raspberry.reading_bar.gravity.text() == "1.050"
    assert new_line(raspberry).text() == "6 lb goose"


# --- several lines, and how far the water goes ------------------------------------------------


def test_water_to_a_volume_is_what_the_recipe_is_for(empty):
    before = empty.document.project
    assert before.recipe.basis.text == before.make.size.text == "1 gal US"
    add(empty, "water to 3 gal")
    project = empty.document.project
    assert project.recipe.basis.text == "3 gal"
    assert project.make.size.text == "3 gal"
    assert "3 gal US" in empty.recipe.new_line.said.text()
    (outlook,) = empty.document.outlook.lines
    # A US gallon is 3.785 L (NIST Handbook 44 App. C): nothing else is in it.
    assert outlook.scaled.value == pytest.approx(3 * 3.785411784, rel=1e-3)
    empty.document.undo()
    after = empty.document.project
    assert (after.recipe, after.make) == (before.recipe, before.make)


def test_a_size_that_was_chosen_stays_when_the_water_is_typed(damson):
    size = damson.document.project.make.size
    count = len(lines(damson))
    add(damson, "water to 3 gal")
    assert damson.document.project.recipe.basis.text == "3 gal"
    assert damson.document.project.make.size == size
    assert len(lines(damson)) == count  # there is water to the mark already
    assert "as before" in damson.recipe.new_line.said.text()


def test_a_whole_recipe_in_one_row_is_read_as_its_lines(empty):
    add(empty, "3 lb damsons, 1 1/4 lb sugar, water to 1 gallon")
    kinds = [type(line).__name__ for line in lines(empty)]
    assert kinds == ["FruitLine", "SugarLine", "WaterLine"]
    assert [line.amount.text for line in lines(empty)[:2]] == ["3 lb", "1 1/4 lb"]
    assert empty.document.project.recipe.basis.litres("US") == pytest.approx(3.785, abs=0.001)
    assert new_line(empty).text() == ""
    empty.document.undo()
    assert lines(empty) == ()
    assert new_line(empty).text() == "3 lb damsons, 1 1/4 lb sugar, water to 1 gallon"


def test_a_question_in_the_row_is_answered_in_the_reader_of_cards(qtbot, empty):
    text = "3 lb moonberries, 2 lb sugar"
    add(empty, text)
    assert lines(empty) == ()
    said = empty.recipe.new_line.said.text()
    assert said.startswith('"moonberries" is not in the catalog. What is it?')
    assert "Enter again" in said
    assert new_line(empty).text() == text
    QTest.keyClick(new_line(empty), Qt.Key.Key_Return)
    from winebench.window.recipe.card_reader import CardReader

    reader = empty.findChild(CardReader)
    assert reader.text.toPlainText() == text
    view = reader.preview.open_row()
    view.answers["fruit"].click()
    reader.add.click()
    assert [type(line).__name__ for line in lines(empty)] == ["FruitLine", "SugarLine"]
    assert new_line(empty).text() == ""


def test_a_long_size_shows_how_it_begins_once_it_is_left(damson):
    size = damson.recipe.make.size_field
    type_over(size, "fill 5 gal jug")
    assert size.cursorPosition() == len("fill 5 gal jug")
    QTest.keyClick(size, Qt.Key.Key_Tab)
    assert size.cursorPosition() == 0
    assert size.width() >= size.fontMetrics().horizontalAdvance("fill 5 gal jug") + 20


def test_a_line_that_is_refused_stays_in_its_row(open_window, empty):
    project = changed(empty.document.project, gallon=None)
    window = open_window(project, empty.document.now())
    add(window, "2 pints water")
    assert lines(window) == ()
    assert new_line(window).text() == "2 pints water"
    assert "imperial" in window.banner.sentence
