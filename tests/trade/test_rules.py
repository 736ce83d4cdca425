"""The register of rules: whole, honest at its edges, and runnable with typed words."""

import inspect

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95

from winebench.trade import alcohol, bottling, gravity, hydrometer, sugar
from winebench.trade.blending import sweetened
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import rules, run_work, work
from winebench.trade.workings import Workings

NAMES = sorted(rules())
GRAVITIES = st.floats(1.001, 1.16)


@pytest.mark.parametrize("name", NAMES)
def test_every_rule_says_its_units_range_source_and_runs_its_example(name):
    rule = rules()[name]
    assert list(rule.inputs) == list(inspect.signature(rule.function).parameters)
    assert all((rule.unit, rule.words, rule.source, rule.valid, rule.function.__doc__))
    workings = work(name, **rule.example)
    assert workings.result not in ("", "nan")
    assert [given.name for given in workings.inputs] == list(rule.inputs)
    assert workings.source == rule.source


@pytest.mark.parametrize("name", NAMES)
def test_every_example_can_be_typed(name):
    pairs = [f"{key}={value}" for key, value in rules()[name].example.items()]
    typed = run_work(name, pairs)
    assert isinstance(typed, Workings)
    assert typed.result == work(name, **rules()[name].example).result


@pytest.mark.parametrize("celsius", range(0, 41, 4))
def test_water_is_as_dense_as_the_reference_library_says(celsius):
    # iapws implements IAPWS-95.
    reference = IAPWS95(T=celsius + 273.15, P=0.101325).rho
    assert gravity.water_density(float(celsius)) == pytest.approx(reference, abs=0.01)


@pytest.mark.parametrize(
    ("name", "pairs", "words"),
    [
        ("alchemy", [], "no rule"),
        ("hydrometer", ["sg"], "key=value"),
        ("hydrometer", ["weight=3"], "no"),
        ("hydrometer", ["sg=1.09"], "also needs celsius"),
        ("hydrometer", ["sg=heavy", "at=20 C"], "not a number"),
        ("hydrometer", ["sg=1096", "at=20 C"], "not known here"),
        ("hydrometer", ["sg=1.090", "at=20 furlongs"], "°C"),
        ("acid-as-tartaric", ["g_per_l=5", "acid=battery"], "not an acid"),
    ],
)
def test_nonsense_gets_one_sentence(name, pairs, words):
    with pytest.raises(NotKnown, match=words):
        run_work(name, pairs)


def test_units_are_read_and_a_decimal_comma_too():
    in_fahrenheit = run_work("hydrometer", ["sg=1,090", "at=86 F", "calibrated=68 degF"])
    in_celsius = run_work("hydrometer", ["sg=1.090", "at=30 degC", "calibrated=20 degC"])
    assert in_fahrenheit.result == in_celsius.result
    assert run_work("bentonite", ["litres=5 gal US", "g_per_l=0,5"]).result == "9.4635"


@pytest.mark.parametrize("sg", [0.96, 1.5])
def test_outside_its_range_a_rule_does_not_know(sg):
    with pytest.raises(NotKnown, match="not known here"):
        gravity.brix_from_sg(sg)
    answer = gravity.brix_from_sg(np.array([1.05, sg]))
    assert answer[0] == pytest.approx(gravity.brix_from_sg(1.05))
    assert np.isnan(answer[1])


@given(st.floats(0.98, 1.16))
def test_gravity_and_brix_are_inverse(sg):
    brix = gravity.brix_from_sg(sg)
    if brix >= 0:
        assert gravity.sg_from_brix(brix) == pytest.approx(sg, abs=1e-7)


@given(st.floats(0.0, 500.0))
def test_gravity_and_solids_are_inverse(grams):
    sg = gravity.sg_from_solids_g_per_l(grams)
    assert gravity.solids_g_per_l_from_sg(sg) == pytest.approx(grams, abs=0.01)


@given(st.floats(1.0, 25.0), GRAVITIES, st.floats(0.001, 0.05))
def test_the_sugar_to_reach_a_gravity_reaches_it(litres, now, rise):
    target = min(now + rise, 1.168)
    kilos = sugar.sugar_to_reach_kg(litres, now, target)
    assert kilos > 0
    assert sugar.staged_original_sg(litres, now, kilos) == pytest.approx(target, abs=1e-6)


@given(GRAVITIES, st.floats(2.0, 20.0), st.floats(0.0, 2.0), st.floats(0.001, 1.0))
def test_more_sugar_never_lowers_the_gravity(now, litres, some, more):
    first = sugar.staged_original_sg(litres, now, some)
    assert sugar.staged_original_sg(litres, now, some + more) > first


@given(st.floats(0.98, 1.15), st.floats(1.0, 39.0))
def test_a_warm_sample_reads_low_and_a_cold_one_high(sg, celsius):
    corrected = hydrometer.true_sg(sg, celsius, 20.0)
    if celsius > 20.5:
        assert corrected > sg
    if celsius < 19.5:
        assert corrected < sg


@given(st.floats(8.0, 15.0), st.floats(5.0, 60.0))
def test_a_dry_wine_gives_its_extract_back(abv, extract):
    sg = alcohol.dry_gravity(abv, extract)
    assert alcohol.tabarie_extract(sg, abv) == pytest.approx(extract, abs=0.05)


@given(st.floats(1.0, 25.0), st.floats(0.985, 1.01), st.floats(0.001, 0.03))
def test_sweetening_conserves_mass(litres, now, rise):
    result = sweetened(litres, now, now + rise)
    before = litres * now * 0.9982036 + result.sugar_kg
    after = result.litres_after * (now + rise) * 0.9982036
    assert after == pytest.approx(before, rel=1e-6)


@pytest.mark.parametrize(
    "function",
    [gravity.sg_from_brix, gravity.water_density, bottling.pressure_bar, alcohol.sg_of_alcohol],
)
def test_an_array_gives_what_its_elements_give(function):
    values = np.array([5.0, 10.0, 20.0, 25.0])
    assert function(values) == pytest.approx([function(float(v)) for v in values])


def test_a_sweet_wine_corked_alive_is_a_bomb():
    # Common practice: about 1 bar for 4 g/L; 22 g/L left is about 7 bar with the wine degassed.
    assert bottling.pressure_bar(4.0) == pytest.approx(1.0, abs=0.5)
    assert bottling.pressure_bar(22.0) > 5.0
