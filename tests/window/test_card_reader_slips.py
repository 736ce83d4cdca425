"""The reader of handed-down cards: sizes in titles, doses by the gallon, what is no food."""

import pytest

from tests.window.test_card_reader import opened, states, view
from tests.window.test_reachable import nameless

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)

CARD = """\
Test wine, makes 5 gallons US
20 lb plums
2 lb sugar per gallon, in three stages
1 tsp each of acid blend and nutrient
1 cup bleach
bleach to clean the bucket
water to the mark
l packet yeast"""


@pytest.fixture
def reader(damson, qtbot):
    return opened(damson, qtbot)


def test_a_card_with_size_stages_chemicals_and_slips_becomes_its_project(reader, damson, qtbot):
    reader.text.setPlainText(CARD)
    assert states(reader)["1 cup bleach"] == states(reader)["l packet yeast"] == "asked"
    assert list(view(reader, "1 cup bleach").answers) == ["note"]
    assert view(reader, "bleach to clean the bucket").answers == {}
    assert nameless(reader) == []
    view(reader, "1 cup bleach").answers["note"].click()
    view(reader, "l packet yeast").ways[0].click()
    assert reader.text.toPlainText().endswith("1 packet yeast")
    assert not reader.reading.is_open
    reader.start_new.click()
    qtbot.waitUntil(lambda: damson.document.project.name == "Test wine")
    recipe = damson.document.project.recipe
    assert recipe.basis.text == "5 gallons US"
    # Five times 2 lb are 10 lb, to be fed.
    sugars = [(line.amount.text, line.when) for line in recipe.lines if hasattr(line, "sugar")]
    assert sugars == [("10 lb", "feed")]
    extras = [
        (line.additive, line.amount.text) for line in recipe.lines if hasattr(line, "additive")
    ]
    assert extras == [("acid-blend", "1 tsp"), ("yeast-nutrient", "1 tsp")]
    notes = " ".join(getattr(entry, "text", "") for entry in damson.document.project.log)
    assert "1 cup bleach" in notes


def test_the_first_of_three_stages_goes_to_the_start_by_one_press(reader):
    reader.text.setPlainText(CARD)
    view(reader, "2 lb sugar per gallon, in three stages").ways[0].click()
    # A third of 2 lb each; the other two stay portions that are fed.
    assert reader.text.toPlainText().splitlines()[2:5] == [
        "2/3 lb sugar per gallon",
        "2/3 lb sugar per gallon, second portion",
        "2/3 lb sugar per gallon, third portion",
    ]


def test_a_title_in_bottles_is_settled_by_one_press_and_keeps_its_name(reader):
    reader.text.setPlainText("Plum wine (for 6 bottles)\n3 lb plums\nwater to the mark\nyeast")
    view(reader, "Plum wine (for 6 bottles)").ways[0].click()
    assert reader.text.toPlainText().splitlines()[0] == "Plum wine"
    assert reader.reading.title == "Plum wine"
    assert not reader.reading.is_open
