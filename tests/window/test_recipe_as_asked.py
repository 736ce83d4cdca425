"""The recipe pane keeps what was typed, says what it refuses beside it, and cuts no measure."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from tests.plan.recipes import WATER, YEAST, additive, fruit, project, white
from tests.window.recipe_keys import type_over
from tests.window.test_card_reader import opened
from winebench.model.edits import Change, PutLine, changed
from winebench.model.recipe import Kitchen
from winebench.session import Session

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
SPOONS = Kitchen(spoons_owned=(3.0, 1.0, 0.5, 0.25, 0.125))


def in_sight(area, widget):
    """Return whether all of the widget lies in what the scrolled area shows."""
    port = area.viewport()
    top = widget.mapTo(port, QPoint(0, 0)).y()
    return top >= 0 and top + widget.height() <= port.height()


def test_a_jug_to_fill_stays_as_it_was_typed(damson):
    size = damson.recipe.make.size_field
    type_over(size, "fill 19 L jug")
    damson.recipe.new_line.field.setFocus()
    make = damson.document.project.make
    assert (size.text(), make.asked) == ("fill 19 L jug", "fill 19 L jug")
    assert make.size.litres("US") > 19.0  # the first racking leaves the rest in the pail
    again = Session(damson.document.project)  # as the file is opened anew
    damson.document.replace(again)
    assert size.text() == "fill 19 L jug"
    type_over(size, "20 L")
    assert (damson.document.project.make.asked, size.text()) == ("", "20 L")
    damson.document.undo()
    assert size.text() == "fill 19 L jug"


def test_words_that_mean_another_size_by_now_give_way_to_it(damson):
    size = damson.recipe.make.size_field
    type_over(size, "9 lb of fruit")
    assert damson.document.project.make.asked == "9 lb of fruit"
    damson.recipe.new_line.field.setFocus()
    line = damson.document.project.fruits[0]
    type_over(damson.recipe.table.rows[line.id].written, "3 lb")
    assert size.text() == damson.document.project.make.size.text


def test_half_a_bottle_is_refused_beside_the_field(damson):
    make = damson.recipe.make
    before = damson.document.project.make.size
    type_over(make.size_field, "2.5 bottles")
    assert make.refusal.text() == '"2.5 bottles": bottles are whole ones; write 2 or 3 bottles.'
    assert make.refusal.isVisible()
    assert before == damson.document.project.make.size


@pytest.mark.parametrize(
    ("key", "text", "words"),
    [
        ("gravity", "85", '"85" is not a gravity'),
        ("drink", "soon", '"soon" is not a number'),
        ("bottle", "wide", '"wide" is not a number'),
    ],
)
def test_a_target_that_cannot_be_read_says_so_in_sight(qtbot, damson, key, text, words):
    damson.resize(1366, 700)
    for number in range(8):  # a recipe that fills the pane
        line = changed(additive("citric-acid", "1 g"), id=f"acid-{number}")
        damson.document.edit(PutLine(label="add", line=line))
    pane = damson.recipe
    pane.toggle_targets()
    qtbot.wait(50)
    field = pane.targets.fields[key]
    type_over(field, text)
    qtbot.wait(50)
    (said,) = [each for each in pane.targets.refusals.values() if each.isVisible()]
    assert words in said.text()
    assert in_sight(pane, said)
    assert in_sight(pane, field)
    gap = said.mapTo(pane, QPoint(0, 0)).y() - field.mapTo(pane, QPoint(0, field.height())).y()
    assert 0 <= gap < 12, "right under the field that is wrong"


def test_no_measure_is_cut(qtbot, damson):
    damson.resize(1366, 740)
    lines = (
        fruit("plum", "6 lb"), white("2 lb"), WATER, additive("yeast-nutrient", "3 5/8 tsp"),
        additive("sulfite-tablet", "1/3 tablet"), additive("malic-acid", "5 7/8 tsp"), YEAST,
    )  # fmt: skip
    made = project(*lines, kitchen=SPOONS, make="2 gal US")
    for field in ("recipe", "make", "kitchen"):
        damson.document.edit(Change(label="x", fields={field: getattr(made, field)}))
    qtbot.wait(50)
    measures = {key: row.measure for key, row in damson.recipe.table.rows.items()}
    assert measures["sulfite-tablet"].words == "crush and weigh 0.29 g, or 2.9 mL of a 10 % stock"
    damson.grab()
    for measure in measures.values():
        assert measure.toolTip() == "", f"{measure.words} is cut"
        assert measure.height() >= measure.heightForWidth(measure.width())


def test_the_news_of_a_card_goes_with_the_card(damson, qtbot):
    reader = opened(damson, qtbot)
    QTest.keyClicks(reader.text, "2 lb sugar, 1 packet yeast")
    QTest.mouseClick(reader.add, Qt.MouseButton.LeftButton)
    assert damson.banner.sentence == "The card is in the recipe."
    damson.document.undo()
    assert damson.banner.sentence == ""


def test_a_fruit_s_own_tannin_is_typed_on_its_line(damson):
    line = damson.document.project.fruits[0]
    row = damson.recipe.table.rows[line.id]
    row.toggle_details()
    field = row.details.fields["tannin_mg_per_100_g"]
    assert field.accessibleName() == "Tannin mg/100 g"
    QTest.keyClicks(field, "90,5")
    assert damson.document.project.fruits[0].measured.tannin_mg_per_100_g == 90.5
    assert "(your own figure)" in str(damson.document.outlook.must.tannin.workings.inputs)
