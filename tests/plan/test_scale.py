"""Scaling: there and back, by must, by finished wine, by bottles, by the fruit on hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import (
    WATER,
    YEAST,
    additive,
    composed_line,
    fruit,
    line,
    project,
    water,
    white,
)
from winebench.model.edits import changed
from winebench.model.recipe import YeastLine
from winebench.plan.compose import compose
from winebench.plan.losses import has_puree, racking_loss_l
from winebench.plan.scale import (
    finished_l,
    fruit_on_hand,
    must_for_finished_l,
    must_l,
    scale_factor,
    scaled_project,
    scaled_to_fruit,
    size_for_fruit,
)
from winebench.units import Amount, UnitsError

# NIST Handbook 44, appendix C
US_GALLON, IMPERIAL_GALLON, POUND = 3.785411784, 4.54609, 453.59237
LINES = (fruit("damson", "3 lb", prepared=True), white("1 1/4 lb"), WATER,
         additive("pectic-enzyme", "1 tsp"), YEAST)  # fmt: skip
RECIPE = project(*LINES)


def test_one_gallon_to_five_is_five_times_what_goes_by_the_litre():
    five = compose(scaled_project(RECIPE, "5 gal"))
    assert five.scale_factor == pytest.approx(5.0, abs=1e-12)
    assert five.make_text == "5 gal US"
    assert line(five, "damson").scaled.value == pytest.approx(15 * POUND)
    assert line(five, "sugar").scaled.value == pytest.approx(6.25 * POUND)
    assert line(five, "sugar").measure == "6 lb 4 oz"
    assert five.must.liquid.value == pytest.approx(5 * US_GALLON, abs=1e-3)


def test_an_imperial_gallon_is_a_fifth_more():
    imperial = changed(scaled_project(RECIPE, "1 gal imperial"), gallon="US")
    assert scale_factor(imperial) == pytest.approx(IMPERIAL_GALLON / US_GALLON)


def test_the_gravity_stays_and_the_volume_grows():
    one, five = compose(RECIPE).must, compose(scaled_project(RECIPE, "5 gal")).must
    assert one.gravity.value == five.gravity.value
    assert five.sugar_to_target.value == pytest.approx(5 * one.sugar_to_target.value)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.5, 400.0))
def test_there_and_back_is_where_it_began(litres):
    there = scaled_project(RECIPE, f"{litres:.4f} L")
    back = scaled_project(there, "1 gal US")
    assert back.recipe == RECIPE.recipe
    for before, after in zip(compose(RECIPE).lines, compose(back).lines, strict=True):
        assert after.scaled.value == before.scaled.value
    grams = composed_line(there, "sugar").scaled.value
    assert grams / scale_factor(there) == pytest.approx(1.25 * POUND, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.3, 2000.0), st.booleans())
def test_the_must_for_so_much_wine_leaves_so_much_wine(wanted, puree):
    must = must_for_finished_l(wanted, puree=puree)
    assert must > wanted
    assert finished_l(must, puree=puree) == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("count", [1, 6, 24, 25, 120])
def test_so_many_bottles_wanted_are_so_many_bottles_filled(count):
    made = compose(scaled_project(RECIPE, f"{count} bottles"))
    assert made.bottles.bottles == count
    assert made.bottles.finished.value == pytest.approx(count * 0.75, rel=1e-6)


@pytest.mark.parametrize(
    "lines",
    [
        # fed sugar comes on top of the mark; fruit and juice make what they make
        (fruit("damson", "3 lb"), white("1 lb"), white("1 1/2 lb", when="feed"), WATER, YEAST),
        (fruit("apple", "20 lb", form="juice"), white("2 lb"), YEAST),
        (fruit("plum", "3 lb"), white("2 lb"), water("1 gal US"), YEAST),
    ],
)
def test_so_many_bottles_are_filled_whatever_the_recipe_says_it_makes(lines):
    made = compose(scaled_project(project(*lines), "24 bottles"))
    assert made.bottles.bottles == 24
    assert made.bottles.finished.value == pytest.approx(24 * 0.75, rel=1e-6)


def test_a_recipe_still_being_written_is_not_blown_up_to_its_bottles():
    # 1 lb of damsons alone is half a litre: no reason to ask for forty times as much
    made = scaled_project(project(fruit("damson", "1 lb")), "5 bottles")
    assert scale_factor(made) == pytest.approx(must_for_finished_l(3.75) / US_GALLON, rel=1e-6)


def test_losses_are_those_of_practice_and_five_gallons_give_more_than_five_times_one():
    # common practice: a racking leaves 0.1 to 0.2 L at one gallon, 0.4 to 0.6 L at five
    assert 0.1 <= racking_loss_l(US_GALLON) <= 0.2
    assert 0.4 <= racking_loss_l(5 * US_GALLON) <= 0.6
    assert finished_l(5 * US_GALLON) > 5 * finished_l(US_GALLON)


def test_strained_puree_leaves_more_lees():
    puree = project(fruit("damson", "3 lb", form="puree"), white("1 lb"), WATER)
    assert has_puree(puree)
    assert not has_puree(RECIPE)
    assert compose(puree).bottles.finished.value < compose(RECIPE).bottles.finished.value


def test_wine_wanted_finished_starts_with_more_must():
    made = scaled_project(RECIPE, "5 gal")
    finished = changed(made, make=changed(made.make, by="finished"))
    assert must_l(finished) > must_l(made)
    assert compose(finished).make_text == "5 gal US finished"
    assert compose(finished).bottles.finished.value == pytest.approx(5 * US_GALLON, rel=1e-6)


@pytest.mark.parametrize(
    ("written", "size", "packets"),
    [("1 packet", "1 gal", 1), ("1 packet", "5 gal", 1), ("1 packet", "7 gal", 2),
     ("2 packets", "5 gal", 2), ("2 packets", "12 gal", 4), ("5 g", "5 gal", 1),
     ("10 g", "1 gal", 2), ("1/2 packet", "1 gal", 1), ("1 tsp", "1 gal", 1)],
)  # fmt: skip
def test_yeast_goes_by_whole_packets(written, size, packets):
    yeast = YeastLine(id="yeast", amount=Amount(written))  # a packet serves 23 L
    found = composed_line(project(WATER, yeast, make=size), "yeast")
    assert found.scaled.value == packets
    assert found.measure == f"{5 * packets} g"


def test_as_much_as_the_fruit_on_hand_allows_and_not_a_drop_more():
    made = scaled_to_fruit(RECIPE, "7 1/2 lb")
    assert scale_factor(made) == pytest.approx(2.5, abs=5e-4)
    assert composed_line(made, "damson").scaled.value <= 7.5 * POUND + 1e-6


@pytest.mark.parametrize(
    ("have", "which", "words"),
    [("3 L", None, "both by weight"), ("2 packets", None, "both by weight"),
     ("1 kg", "apple", "not on the recipe; its fruit: damson")],
)  # fmt: skip
def test_fruit_that_cannot_be_set_against_the_recipe_is_one_sentence(have, which, words):
    with pytest.raises(UnitsError, match=words):
        scaled_to_fruit(RECIPE, have, which)


def test_several_fruits_must_be_told_apart():
    both = project(fruit("damson", "1 lb"), fruit("apple", "2 lb"), WATER)
    with pytest.raises(UnitsError, match="damson, apple"):
        scaled_to_fruit(both, "4 lb")
    assert scale_factor(scaled_to_fruit(both, "4 lb", "apple")) == pytest.approx(2.0, abs=5e-4)
    with pytest.raises(UnitsError, match="no fruit to set"):
        scaled_to_fruit(project(WATER), "4 lb")
    with pytest.raises(UnitsError, match="no damson"):
        scaled_to_fruit(project(fruit("damson", "0 lb"), WATER), "4 lb")


@pytest.mark.parametrize("to", ["0 gal", "0.0001 mL", "3 tablets", "5 furlongs", "2 kg", ""])
def test_a_size_that_makes_nothing_is_one_sentence(to):
    with pytest.raises(UnitsError, match=r"write|use lb|this wants one"):
        scaled_project(RECIPE, to)


@pytest.mark.parametrize(
    ("to", "ways"), [("2.5 bottles", "2 or 3"), ("12 1/2 bottles", "12 or 13"), ("1/2 bottle", "1")]
)
def test_bottles_are_whole(to, ways):
    with pytest.raises(UnitsError, match=f"bottles are whole ones; write {ways} bottle"):
        scaled_project(RECIPE, to)


def test_a_bare_gallon_of_no_country_is_never_guessed():
    with pytest.raises(UnitsError, match="US or imperial"):
        compose(project(WATER, basis="1 gal", gallon=None))
    with pytest.raises(UnitsError, match="US or imperial"):
        scaled_project(project(WATER, basis="4 L", gallon=None), "5 gal")


def test_a_recipe_for_no_volume_says_so():
    with pytest.raises(UnitsError, match="which is nothing"):
        compose(project(water("1 L"), basis="0 L", make="1 L"))


def test_as_much_is_made_as_the_fruit_on_hand_is_enough_for():
    # 4 lb and 2 lb of fruit make 1 gal (3.785 L): 9 lb in all make one and a half, 5.677 L.
    made = project(fruit("damson", "4 lb"), fruit("sloe", "2 lb"), WATER, basis="1 gal US")
    assert size_for_fruit(made, fruit_on_hand("9 lb fruit")).text == "1.5 gal"
    assert fruit_on_hand("9 lb of fruit").grams() == pytest.approx(9 * 453.59237)
    assert fruit_on_hand("5 gal") is fruit_on_hand("3 g") is None
    assert fruit_on_hand("24 bottles") is None
    with pytest.raises(UnitsError, match="no fruit by weight"):
        size_for_fruit(project(WATER), fruit_on_hand("9 lb fruit"))
    with pytest.raises(UnitsError, match="enough for nothing"):
        size_for_fruit(made, fruit_on_hand("0 g fruit"))


def test_bottles_and_packets_follow_the_must_that_the_lines_make():
    # 4 L of water and 1 kg of sugar are 4.62 L, not the 3.785 L they are written for: made five
    # times over, 23.1 L want two packets of a yeast that serves 20 L, and more bottles.
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"), packet_litres=20.0)
    made = project(white("1 kg"), water("4 L"), yeast, basis="1 gal US", make="5 gal")
    seen = compose(made)
    assert composed_line(made, "yeast").scaled.value == 2
    litres = seen.must.liquid.value
    assert litres == pytest.approx(5 * 4.62, abs=0.1)
    assert seen.bottles.finished.value == pytest.approx(finished_l(litres), abs=0.05)
