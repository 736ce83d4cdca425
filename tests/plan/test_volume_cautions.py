"""Cautions about the volume that the lines make, and about packets of yeast in a hard must."""

import pytest

from tests.plan.recipes import WATER, YEAST, caution, cautions, composed_line, fruit, project, water
from tests.plan.recipes import white as sugar
from winebench.model.recipe import WaterLine
from winebench.plan.compose import compose
from winebench.units import Temperature

# Plums, two pounds of sugar and a whole gallon of water make 5.5 L, not the gallon on the card.
OVERFULL = (fruit("plum", "3 lb"), sugar("2 lb"), water("1 gal US"), YEAST)


def test_water_up_to_the_mark_is_one_way_out_of_lines_that_make_more():
    made = project(*OVERFULL)
    said = caution(made, "volume-off")
    assert "These lines make 5.5 L, more than the recipe's 1 gal US (3.8 L)" in said.sentence
    to_mark, other = said.repairs
    mended = to_mark.edit.apply(made)
    assert "volume-off" not in cautions(mended)
    assert compose(mended).must.liquid.value == pytest.approx(3.7854, abs=0.01)
    assert other.label.startswith("It makes 1 gal 1 qt 3 cups 1 fl oz")


@pytest.mark.parametrize("make", ["", "5 gal US", "24 bottles"])
def test_the_volume_that_the_lines_make_is_the_other(make):
    made = project(*OVERFULL, make=make)
    mended = caution(made, "volume-off").repairs[-1].edit.apply(made)
    assert "volume-off" not in cautions(mended)
    wanted = {"": 5.5, "5 gal US": 18.93, "24 bottles": 21.1}[make]
    assert compose(mended).must.liquid.value == pytest.approx(wanted, abs=0.08)
    assert composed_line(mended, "plum").as_written == "3 lb"


def test_no_mark_is_offered_where_fruit_and_sugar_run_over_it():
    made = project(fruit("apple", "20 lb", form="juice"), sugar("2 lb"), water("1 cup"), YEAST)
    labels = [repair.label for repair in caution(made, "volume-off").repairs]
    assert labels == [labels[0]]
    assert labels[0].startswith("It makes")


def test_a_second_water_to_the_mark_pours_nothing_and_is_said():
    made = project(fruit("plum", "3 lb"), sugar("2 lb"), WATER, WaterLine(id="again"), YEAST)
    assert composed_line(made, "water").scaled.value > 1.5
    assert composed_line(made, "again").scaled.value == 0.0
    said = caution(made, "second-mark")
    assert said.about == "again"
    mended = said.repairs[0].edit.apply(made)
    assert [line.id for line in mended.recipe.lines].count("again") == 0
    assert "second-mark" not in cautions(mended)


@pytest.mark.parametrize(
    ("pounds", "room", "make", "wanted"),
    [
        # common practice: one packet for each 6 gallons, twice as many above 1.100 or below 15 °C
        ("1 1/4 lb", "20 °C", "1 gal", 0), ("2 1/2 lb", "20 °C", "5 gal", 2),
        ("1 1/4 lb", "13 °C", "5 gal", 2), ("2 1/2 lb", "20 °C", "10 gal", 4),
    ],
)  # fmt: skip
def test_a_hard_must_asks_for_twice_the_packets(pounds, room, make, wanted):
    made = project(fruit("plum", "3 lb"), sugar(pounds), WATER, YEAST, make=make,
                   room=Temperature(room))  # fmt: skip
    said = caution(made, "little-yeast")
    if not wanted:
        assert said is None
        return
    assert f"usual is {wanted} packets of 5 g" in said.sentence
    mended = said.repairs[0].edit.apply(made)
    assert composed_line(mended, "yeast").scaled.value == wanted
    assert "little-yeast" not in cautions(mended)
