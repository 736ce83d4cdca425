"""The shelf by its keys: typed in the kitchen's sheet, chosen from at the recipe's vessels."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import type_over
from winebench.window.batch.kitchen import KitchenDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
SHELF = "27 L pail, 3 gal jug, 2 x 1 gal jug"


def fill_shelf(window, text):
    window.commands.show_kitchen()
    sheet = window.findChild(KitchenDialog)
    field = sheet.fields["kitchen.shelf"]
    field.setFocus()
    QTest.keyClicks(field, text)
    refusal = sheet.refusal.text()
    sheet.close()
    return refusal


def press_choose(window):
    make = window.recipe.make
    make.vessels.setFocus()
    QTest.keyClick(make.vessels, Qt.Key.Key_Tab)
    assert make.choose.hasFocus()
    QTest.keyClick(make.choose, Qt.Key.Key_Space)


def test_vessels_are_typed_on_the_shelf_chosen_and_taken_back_in_one_step(damson):
    assert fill_shelf(damson, SHELF) == ""
    assert [owned.count for owned in damson.document.project.kitchen.shelf] == [1, 1, 2]
    make = damson.recipe.make
    type_over(make.size_field, "5 gal")
    before = damson.document.project
    press_choose(damson)
    assert make.vessels.text() == "27 L pail, 3 gal jug, 1 gal jug, 1 gal top-up jug"
    assert make.said.isVisible()
    assert make.said.text() == (
        "The top-up jug will hold 2.3 qt of 1 gal (2.1 L of 3.8): use it first, for the air in it. "
        "Later rackings take about 1.1 qt (1.0 L), losses by common practice: it will do."
    )
    drawn = [drawing.vessel for drawing in damson.recipe.must.vessels]
    assert [vessel.name for vessel in drawn] == ["pail", "jug", "jug", "top-up jug"]
    assert all(vessel.fits for vessel in drawn)
    assert damson.document.session.undo_label == "choose vessels from the shelf"
    damson.document.undo()
    assert damson.document.project == before
    assert not make.said.isVisible()


def test_what_was_said_goes_when_the_batch_becomes_another(damson):
    fill_shelf(damson, SHELF)
    make = damson.recipe.make
    type_over(make.size_field, "5 gal")
    press_choose(damson)
    assert make.said.isVisible()
    type_over(make.size_field, "4 gal")
    assert not make.said.isVisible()


def test_nothing_on_the_shelf_and_nothing_that_fits_are_one_sentence_and_change_nothing(damson):
    before = damson.document.project
    make = damson.recipe.make
    press_choose(damson)
    assert "Nothing is on the shelf" in make.said.text()
    assert damson.document.project == before
    fill_shelf(damson, "2 gal pail, 1 gal jug")
    type_over(make.size_field, "5 gal")
    before = damson.document.project
    press_choose(damson)
    assert "No pail of the shelf is large enough" in make.said.text()
    assert "the shelf has 2 gal (7.6 L)" in make.said.text()
    assert damson.document.project == before


def test_a_shelf_that_cannot_be_read_is_kept_as_typed_and_told(damson):
    assert fill_shelf(damson, "27 L pail, blue") == ""  # a pail of that name
    damson.document.undo()
    assert '"jug" has no volume' in fill_shelf(damson, "27 L pail, jug")
    damson.document.undo()
    assert "has no volume" in fill_shelf(damson, "big jug")


def test_a_size_that_fills_a_vessel_is_worked_out_and_what_is_counted_is_the_must(damson):
    make = damson.recipe.make
    damson.document.edit(make._make("count wine", by="finished"))
    type_over(make.size_field, "fill 19 L jug")
    project = damson.document.project
    assert project.make.by == "must"
    # By hand: M x 0.94 - 0.54 = 19 L, the racking's loss being 0.54 L there
    assert project.make.size.litres(project.gallon) == pytest.approx(20.79, abs=0.01)


def test_an_empty_field_shows_the_projects_own_measure(damson):
    make = damson.recipe.make
    type_over(make.size_field, "5 gal")
    assert make.vessels.placeholderText() == "6 gal pail, 5 gal jug"
    type_over(make.size_field, "19 L")
    assert make.vessels.placeholderText() == "26 L pail, 19 L jug"
