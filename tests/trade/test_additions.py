"""Syrup, honey, water and sugar: what goes in is found again, by mass."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from winebench.trade import blending, gravity, hydrometer, scales, sugar, sweetener, sweetening
from winebench.trade.gravity import WATER_20
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import run_work

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


def densities(quantity, table, celsius):
    """Give the published densities of solutions at that temperature, kg/m³."""
    path = Path(__file__).parent / "tables" / table
    with path.open(encoding="utf-8", newline="") as lines:
        return {
            row["input1"]: float(row["expected"])
            for row in csv.DictReader(lines)
            if row["quantity"] == quantity and row["input2"] == celsius
        }


@pytest.mark.parametrize(
    ("quantity", "table", "water"),
    [
        ("density_from_brix_and_temperature", "01_sucrose.csv", 998.2036),
        ("ethanol_water_density", "02_ethanol.csv", 998.2012),
    ],
)
@pytest.mark.parametrize("own", ["15", "15.5556", "25", "30"])
def test_a_hydrometer_made_for_another_temperature_gives_20_20(quantity, table, water, own):
    # ICUMSA SPS-4 and OIML R 22: densities of one liquid at the instrument's temperature and at 20
    # °C, each over the same formula's water there.
    there, here = densities(quantity, table, own), densities(quantity, table, "20")
    read = {share: there[share] / there["0"] for share in there.keys() & here.keys()}
    within = {share: sg for share, sg in read.items() if 0.97 <= sg <= 1.2}
    assert len(within) >= 2
    for share, sg in within.items():
        found = hydrometer.sg_from_hydrometer(sg, float(own), float(own))
        assert found == pytest.approx(here[share] / water, abs=5e-6)


def test_a_hydrometer_for_60_f_says_which_scale_its_result_is_on():
    # By the two scales' definition, above: 1.0832 on 60/60 °F is 1.0829 on 20/20 °C.
    both = ["sg=1.0832", "celsius=60 F", "calibrated=60 F"]
    assert run_work("hydrometer", both).values[0] == pytest.approx(1.0829, abs=1e-4)
    assert run_work("hydrometer", both).unit == "SG 20/20 °C"
    own = run_work("hydrometer-own-scale", both)
    assert own.values[0] == pytest.approx(1.0832, abs=1e-6)
    assert own.unit == "SG on the instrument's own scale"
    assert "60/60 °F" in own.words


@given(st.floats(1.0, 1.17))
def test_a_must_by_a_60_f_hydrometer_is_the_same_by_either_rule(sg):
    by_instrument = hydrometer.sg_from_hydrometer(sg, scales.SIXTY_F, scales.SIXTY_F)
    assert by_instrument == pytest.approx(scales.sg_from_sg_60f(sg), abs=1e-6)


def test_nothing_of_a_syrup_takes_no_room():
    assert sweetener.sweetener_l(0.0, 66.7) == 0.0


BLENDS = (("blend", ["litres=10"]), ("blend-on-hand", ["first_l=4", "second_l=19"]))


@pytest.mark.parametrize(("rule", "volumes"), BLENDS)
@pytest.mark.parametrize(
    ("first", "second", "target", "why"),
    [
        ("3.2 pH", "3.8", "3.5", "pH does not blend"),
        ("3.2", "3.8", "pH 3.5", "pH does not blend"),
        ("3.2ph", "3.8ph", "3.5ph", "pH does not blend"),
        ("12 % vol", "8 g/L", "10 °C", 'first is in "% vol" but second in "g/L"'),
        ("12", "8 g/L", "10 mg/L", 'second is in "g/L" but target in "mg/L"'),
        ("12 % vol ± 0.5 g/L", "8", "10", 'first is in "% vol" and "g/L"'),
        ("12 % vol to 13 g/L", "8", "10", 'first is in "% vol" and "g/L"'),
    ],
)
def test_a_blend_of_unlike_figures_or_of_ph_is_one_sentence(
    rule, volumes, first, second, target, why
):
    figures = [f"first={first}", f"second={second}", f"target={target}"]
    with pytest.raises(NotKnown, match=why) as refusal:
        run_work(rule, [*figures, *volumes])
    assert "\n" not in str(refusal.value)
    assert "never for pH" in run_work(rule, ["first=14", "second=11", "target=12", *volumes]).words


@pytest.mark.parametrize(("rule", "volumes"), BLENDS)
@pytest.mark.parametrize(
    ("first", "second", "target"),
    [
        ("14 % vol", "11 %", "12 abv"),
        ("14 g/L", "11", "12 g/L"),
        ("14 ± 5%", "11 g/L", "12 to 12.5 g/L"),
        ("13.9-14.1 ppm", "11 mg/L", "12"),
    ],
)
def test_a_blend_takes_one_unit_however_it_is_written(rule, volumes, first, second, target):
    figures = [f"first={first}", f"second={second}", f"target={target}"]
    plain = run_work(rule, ["first=14", "second=11", "target=12", *volumes])
    found = run_work(rule, [*figures, *volumes])
    if "to" in target:  # the middle of the range is another figure
        assert found.low != found.high
        assert all(low <= figure <= high for low, figure, high in
                   zip(found.low, found.values, found.high, strict=True))  # fmt: skip
    else:
        assert found.values == pytest.approx(plain.values)


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
