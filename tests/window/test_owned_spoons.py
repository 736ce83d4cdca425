"""The measuring spoons in the kitchen's sheet: typed once, and every dose is told in them."""

import pytest
from PySide6.QtTest import QTest

from winebench.window.batch.kitchen import KitchenDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


@pytest.fixture
def sheet(qtbot, damson):
    action = next(each for menu in damson.menuBar().actions() for each in menu.menu().actions()
                  if "itchen" in each.text())  # fmt: skip
    action.trigger()
    made = damson.findChildren(KitchenDialog)[-1]
    return made


def measures(window):
    return {line.id: line.measure for line in window.document.outlook.lines}


def test_doses_follow_the_spoons_that_are_typed(damson, sheet):
    assert measures(damson)["nutrient"] == "2 × 2 1/2 tsp"
    field = sheet.fields["kitchen.spoons_owned"]
    assert field.placeholderText().startswith("down to 1/8 tsp")
    field.setFocus()
    QTest.keyClicks(field, "1/2, 1 tsp, 1 tbsp")
    assert damson.document.project.kitchen.spoons_owned == (0.5, 1.0, 3.0)
    assert measures(damson)["nutrient"] == "2 × (2 + 1/2 tsp)"
    assert measures(damson)["enzyme"] == "1 tbsp + 2 tsp"


def test_what_is_no_spoon_is_kept_and_said(damson, sheet):
    field = sheet.fields["kitchen.spoons_owned"]
    field.setFocus()
    QTest.keyClicks(field, "1 cup")
    assert "no measuring spoon" in sheet.refusal.text()
    assert field.text() == "1 cup"
    assert damson.document.project.kitchen.spoons_owned == (), "as before the typing"
