"""Reach the targets and the targets themselves: each follows what was typed last in the other."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import type_over
from tests.window.test_reach import opened, tick
from tests.window.test_undo_of_dialogs import opened as opened_again
from winebench.units import Gravity
from winebench.window.batch.reach import ReachDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def targets(window):
    return window.document.project.recipe.targets


def test_a_typed_value_outside_what_is_wanted_becomes_the_target(damson):
    before = damson.document.project
    dialog = opened(damson)
    type_over(dialog.question.values["gravity"], "1.085")
    QTest.keyClick(dialog.act, Qt.Key.Key_Space)
    assert (targets(damson).gravity_low, targets(damson).gravity_high) == (Gravity("1.085"),) * 2
    assert damson.document.outlook.must.gravity.text == "1.085"
    keys = {caution.key for caution in damson.document.outlook.cautions}
    assert not any("style wants" in c.sentence for c in damson.document.outlook.cautions), keys
    damson.document.undo()
    assert targets(damson) == before.recipe.targets


def test_within_the_range_the_target_stays_as_it_is(damson):
    own = targets(damson)  # 1.088 to 1.094
    dialog = opened(damson)
    type_over(dialog.question.values["gravity"], "1.092")
    QTest.keyClick(dialog.act, Qt.Key.Key_Space)
    assert targets(damson) == own


def test_it_opens_with_the_target_that_was_set_since(damson):
    dialog = opened(damson)
    type_over(dialog.question.values["gravity"], "1.100")
    type_over(dialog.question.values["volume"], "2 gal")
    QTest.keyClick(dialog.question.values["volume"], Qt.Key.Key_Escape)
    damson.recipe.toggle_targets()
    type_over(damson.recipe.targets.fields["gravity"], "1.080-1.084")
    again = opened_again(damson, ReachDialog)
    assert again.question.values["gravity"].text() == "1.082"
    assert again.question.values["volume"].text() == "2 gal"  # of which nothing else was said
    again.reject()


def test_a_value_that_is_not_held_changes_no_target(damson):
    own = targets(damson)
    dialog = opened(damson)
    type_over(dialog.question.values["acidity"], "9.5")
    tick(dialog.question.holds["acidity"])  # and off again
    QTest.keyClick(dialog.act, Qt.Key.Key_Space)
    assert targets(damson) == own
