"""Vessels: how full, what fits, what is left over, and what is bottled in the end."""

import pytest

from tests.plan.recipes import WATER, fruit, project, vessel, white
from winebench.plan.compose import compose

LINES = (fruit("damson", "9 kg", form="frozen", prepared=True), white("3.2 kg"), WATER)
PAIL, JUG, SMALL = (
    vessel("pail", "primary", "26 L"),
    vessel("jug", "secondary", "19 L", glass=True),
    vessel("small jug", "secondary", "1 gal"),
)


def filled(*shelf, make="5 gal", lines=LINES):
    made = compose(project(*lines, basis="5 gal", make=make, vessels=shelf))
    return {one.id: one for one in made.vessels}, [c.key for c in made.cautions]


def test_five_gallons_with_nine_kilograms_of_fruit_fit_a_26_litre_pail():
    # common practice: five US gallons with 10 kg fruit want about 26 L
    found, keys = filled(PAIL)
    assert found["pail"].fits
    assert 19 < found["pail"].fill_l < 20
    # 19.6 / 0.75 = 26.2 L: a pail of 26 L is a fifth of a litre short, and may foam to its rim.
    assert found["pail"].foam_line_l == 26
    assert "foam line 6.9 gal (26.0 L) · fits" in found["pail"].detail
    assert "with the fruit" in found["pail"].headline
    assert "pail-too-small" not in keys


def test_a_pail_without_room_for_foam_holds_the_start():
    found, keys = filled(vessel("pail", "primary", "20 L"))
    assert not found["pail"].fits
    assert "wants a 6.9 gal (26.2 L) pail" in found["pail"].detail
    assert "pail-too-small" in keys


def test_two_pails_share_the_must():
    found, keys = filled(vessel("a", "primary", "20 L"), vessel("b", "primary", "10 L"))
    assert found["a"].fill_l == pytest.approx(2 * found["b"].fill_l)
    assert "pail-too-small" not in keys


def test_a_jug_left_with_air_is_told_and_a_spare_one_is_not():
    found, keys = filled(vessel("jug", "secondary", "26 L"))
    assert not found["jug"].fits
    assert "jug-not-full" in keys
    found, keys = filled(PAIL, JUG, SMALL)
    assert found["small jug"].detail == "not needed for this batch"
    assert found["small jug"].fits
    assert "jug-not-full" not in keys


def test_wine_that_has_no_jug_to_go_to_is_told():
    found, keys = filled(SMALL)
    assert found["small jug"].fill_l == pytest.approx(3.785411784)
    assert "jugs-too-small" in keys
    assert "jugs-too-small" not in filled(PAIL)[1]


def test_a_full_jug_is_heavy_and_glass_more_so():
    def said(glass):
        jug = vessel("jug", "secondary", "19 L", glass=glass)
        made = compose(project(*LINES, basis="5 gal", make="21 L", vessels=(jug,)))
        return next(c.sentence for c in made.cautions if c.key == "heavy")

    # 19 L x 0.995 x 0.9982 kg/L (water at 20 °C, CRC Handbook) are 18.87 kg of wine; an empty jug
    # of that size weighs 6.5 kg of glass or 1.0 kg of plastic (common practice): 25.4 and 19.9 kg.
    assert "weighs about 25 kg" in said(True)
    assert "weighs about 20 kg" in said(False)


def test_no_vessel_of_nothing_is_too_odd():
    for role in ("primary", "secondary"):
        found, _ = filled(vessel("x", role, "0 L"), vessel("y", role, "0 L"))
        assert set(found) == {"x", "y"}


@pytest.mark.parametrize(("size", "sentence"), [("1.2 L", "1 bottle of"), ("5 gal", "bottles of")])
def test_bottles_are_counted_in_words(size, sentence):
    assert sentence in compose(project(*LINES, basis="5 gal", make=size)).bottles.sentence


@pytest.mark.parametrize("bottle_ml", [0.0, -5.0, 99999.0])
def test_a_bottle_of_no_sensible_size_is_one_sentence(bottle_ml):
    made = compose(project(*LINES, basis="5 gal", bottle_ml=bottle_ml))
    assert made.bottles.bottles == 0
    assert "check the size" in made.bottles.sentence


def test_the_shopping_list_leaves_out_water_and_says_nothing_twice():
    made = compose(project(*LINES, basis="5 gal"))
    assert [item.name for item in made.shopping] == [
        "Damsons, prepared, frozen", "White sugar", "Bottles of 750 mL", "Corks",
        "Oxygen-type cleaner",
    ]  # fmt: skip
    assert all("(" not in item.need or item.need.count("9 kg") <= 1 for item in made.shopping)


def kilos(shelf, make="5 gal", lines=LINES):
    made = compose(project(*lines, basis="5 gal", make=make, vessels=(shelf,)))
    heavy = [c for c in made.cautions if c.key in ("heavy", "heavy-pail")]
    return made.vessels[0].weight.value, heavy


def test_six_gallons_of_must_in_a_pail_weigh_about_25_kg_and_are_not_for_one_person():
    # Six US gallons, 22.71 L, x 1.090 x 0.9982 kg/L (water at 20 °C, CRC Handbook) are 24.7 kg,
    # the empty pail 1.1 kg: 25.8 kg. Common practice: "a full six-gallon pail weighs 25 kg".
    lines = (white("4.44 kg"), WATER)  # for five gallons
    found, heavy = kilos(vessel("pail", "primary", "6 gal"), make="6 gal", lines=lines)
    assert found == pytest.approx(25.8, abs=0.2)
    assert [c.key for c in heavy] == ["heavy-pail"]
    assert "26 kg" in heavy[0].sentence
    assert "common practice" in heavy[0].detail
    assert "94-110" in heavy[0].detail  # NIOSH: load constant 23 kg


def test_pulp_and_its_share_of_several_pails_are_weighed_too():
    # By hand: 18.93 L of must at its gravity and the pulp at 1.05 kg/L, 1.2 kg for the pail
    made = compose(project(*LINES, basis="5 gal", vessels=(PAIL,)))
    sg, pulp = made.must.gravity.value, made.vessels[0].fill_l - made.must.liquid.value
    by_hand = made.must.liquid.value * sg * 0.9982 + pulp * 1.05 + 1.23
    assert pulp > 0.3
    assert made.vessels[0].weight.value == pytest.approx(by_hand, abs=0.1)
    two = (vessel("a", "primary", "26 L"), vessel("b", "primary", "26 L"))
    halves = compose(project(*LINES, basis="5 gal", vessels=two)).vessels
    assert halves[0].weight.value == pytest.approx((by_hand - 1.23) / 2 + 1.23, abs=0.1)


def test_a_gallon_jug_is_one_persons_to_lift():
    found, heavy = kilos(vessel("jug", "secondary", "1 gal", glass=True), make="1 gal")
    assert found < 6.5
    assert heavy == []
