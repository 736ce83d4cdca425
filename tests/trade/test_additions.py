"""Syrup, honey, water and sugar: what goes in is found again, by mass."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from winebench.trade import blending, gravity, scales, sugar, sweetener, sweetening
from winebench.trade.gravity import WATER_20
from winebench.trade.ranges import NotKnown

LITRES = st.floats(1.0, 25.0)
GRAVITIES = st.floats(1.0, 1.12)


def solids_kg(litres, sg):
    return litres * gravity.solids_g_per_l_from_sg(sg) / 1000.0


@given(LITRES, GRAVITIES, st.floats(0.0, 0.04), st.floats(60.0, 100.0))
def test_the_sugar_of_a_syrup_is_found_in_the_must(litres, now, rise, share):
    added = sweetener.sweetener_to_reach(litres, now, now + rise, share)
    after = solids_kg(added.litres_after, now + rise)
    assert after == pytest.approx(solids_kg(litres, now) + added.sweetener_kg * share / 100.0)
    mass = litres * now * WATER_20 / 1000.0 + added.sweetener_kg
    assert added.litres_after * (now + rise) * WATER_20 / 1000.0 == pytest.approx(mass)


@given(LITRES, GRAVITIES, st.floats(0.001, 0.04))
def test_a_syrup_of_nothing_but_sugar_is_sugar(litres, now, rise):
    added = sweetener.sweetener_to_reach(litres, now, now + rise, 100.0)
    assert added.sweetener_kg == pytest.approx(sugar.sugar_to_reach_kg(litres, now, now + rise))


def test_a_litre_of_syrup_weighs_what_the_handbook_says():
    # CRC Handbook, sucrose at 20 °C: 40 % by mass 1.1765 g/cm³.
    assert sweetener.sweetener_l(1.1765, 40.0) == pytest.approx(1.0, abs=2e-4)


@given(LITRES, st.floats(1.05, 1.15), st.floats(0.1, 0.99))
def test_water_lowers_a_must_to_what_was_asked(litres, now, share):
    target = 1.005 + (now - 1.005) * share
    water = sweetener.water_to_lower_gravity_l(litres, now, target)
    mixed = sugar.mixed_brix(litres, gravity.brix_from_sg(now), water, 0.0)
    assert gravity.sg_from_brix(mixed) == pytest.approx(target, abs=1e-6)


@given(LITRES, st.floats(0.0, 50.0), st.floats(0.0, 100.0))
def test_a_sweetened_wine_holds_the_sugar_asked_for(litres, now, more):
    done = sweetening.sweetened_to_sugar(litres, now, now + more)
    grams = litres * now + done.sugar_kg * 1000.0
    assert grams / done.litres_after == pytest.approx(now + more)
    assert done.abv_factor == pytest.approx(litres / done.litres_after)


def test_both_ways_to_sweeten_ask_for_the_same_sugar():
    # 24 g/L lift a gravity by about 0.0092 (ICUMSA: 0.384 points for each g/L).
    by_gravity = sweetening.sweetened(19.0, 0.996, 0.996 + 24.0 * 0.000384)
    by_sugar = sweetening.sweetened_to_sugar(19.0, 0.0, 24.0)
    assert by_sugar.sugar_kg == pytest.approx(by_gravity.sugar_kg, rel=0.01)


@given(st.floats(1.0, 1.17))
def test_each_scale_of_gravity_leads_back(sg):
    assert scales.sg_from_oechsle(scales.oechsle_from_sg(sg)) == pytest.approx(sg)
    for modulus in (144.3, 145.0):
        assert scales.sg_from_baume(scales.baume_from_sg(sg, modulus), modulus) == pytest.approx(sg)
    if scales.sg_60f_from_sg(sg) <= 1.17 and scales.sg_15c_from_sg(sg) <= 1.17:
        assert scales.sg_from_sg_60f(scales.sg_60f_from_sg(sg)) == pytest.approx(sg, abs=1e-8)
        assert scales.sg_from_sg_15c(scales.sg_15c_from_sg(sg)) == pytest.approx(sg, abs=1e-8)


def test_sixty_fahrenheit_is_the_scale_of_the_older_tables():
    # Two densities of 20 °Brix over water's, ICUMSA SPS-4 and CIPM: 1.0829 at 20 °C; cooler by 4.4
    # degrees a sugar solution shrinks more than water, so the gravity is 0.0003 higher.
    assert scales.sg_60f_from_sg(1.0829) == pytest.approx(1.0832, abs=1e-4)


def test_the_scarcer_wine_decides_how_much_can_be_blended():
    parts = blending.blend_on_hand(14.0, 11.0, 12.0, 4.0, 19.0)
    assert parts == (pytest.approx(4.0), pytest.approx(8.0))
    assert blending.blend_on_hand(14.0, 11.0, 12.0, 40.0, 2.0) == (
        pytest.approx(1.0),
        pytest.approx(2.0),
    )
    assert blending.blend_on_hand(14.0, 11.0, 14.0, 4.0, 19.0) == (4.0, 0.0)
    assert blending.blend_on_hand(14.0, 11.0, 11.0, 4.0, 19.0) == (0.0, 19.0)


@pytest.mark.parametrize(
    ("first", "second", "target", "why"),
    [(14.0, 11.0, 15.0, "does not lie between"), (12.0, 12.0, 12.0, "changes nothing")],
)
def test_a_blend_that_cannot_be_says_why(first, second, target, why):
    with pytest.raises(NotKnown, match=why):
        blending.blend(first, second, target, 10.0)
    with pytest.raises(NotKnown, match=why):
        blending.blend_on_hand(first, second, target, 4.0, 19.0)
