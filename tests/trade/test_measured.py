"""A measured input with its uncertainty, through the door by which everyone asks for a figure."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import winebench.catalog.rules  # noqa: F401 - it declares rules too
from tests.trade.examples import usual
from winebench.trade.measured import Measured
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import rules, run_work, work

RULES = rules()
UNCERTAIN = sorted(
    (name, argument)
    for name, rule in RULES.items()
    for argument, unit in rule.inputs.items()
    if unit != "word" and argument != "modulus"
)


def around(name, argument, part):
    """Run the example with one argument that much uncertain, both ways."""
    rule = RULES[name]
    value = usual(rule, argument)
    off = part * (0.01 if rule.inputs[argument] == "SG" else abs(value) or 1.0)
    arguments = {**rule.example, argument: Measured(value, value - off, value + off)}
    try:
        return work(name, **arguments)
    except NotKnown:
        return assume(False)  # an end lies outside the rule


@given(st.sampled_from(UNCERTAIN), st.floats(0.001, 0.2), st.floats(0.1, 0.99))
def test_more_uncertainty_never_narrows_a_result_and_always_holds_it(which, wide, share):
    name, argument = which
    point = work(name, **RULES[name].example)
    tight, loose = around(name, argument, wide * share), around(name, argument, wide)
    for figures in zip(point.low, tight.low, loose.low, strict=True):
        assert figures[0] >= figures[1] - 1e-9 >= figures[2] - 1e-6 * abs(figures[2]) - 2e-9
    for figures in zip(point.high, tight.high, loose.high, strict=True):
        assert figures[0] <= figures[1] + 1e-9 <= figures[2] + 1e-6 * abs(figures[2]) + 2e-9
    assert loose.values[0] == pytest.approx(point.values[0])


@given(st.floats(1.05, 1.13), st.floats(0.992, 1.02), st.floats(0.0, 0.003), st.floats(-1, 1),
       st.floats(-1, 1))  # fmt: skip
def test_whatever_the_true_gravities_are_the_range_holds_their_strength(og, fg, off, at_og, at_fg):
    found = work(
        "abv-from-gravities",
        og=Measured(og, og - off, og + off),
        fg=Measured(fg, fg - off, fg + off),
    )
    true = work("abv-from-gravities", og=og + at_og * off, fg=fg + at_fg * off)
    assert found.low[0] - 1e-9 <= true.low[0] <= true.values[0]
    assert true.values[0] <= true.high[0] <= found.high[0] + 1e-9


def test_the_turn_of_water_at_4_degrees_is_not_missed():
    # CIPM 2001: water is heaviest at 3.983 °C, 999.975 kg/m³; both ends are lighter.
    found = run_work("water-density", ["celsius=4 +- 4"])
    assert found.high[0] == pytest.approx(999.975, abs=1e-4)
    assert found.low[0] == pytest.approx(999.84, abs=0.01)


@pytest.mark.parametrize(
    ("typed", "low", "high"),
    [
        ("1.090 +- 0.002", 1.088, 1.092),
        ("1.090±.002", 1.088, 1.092),
        ("1,090 +/- 0,002", 1.088, 1.092),
        ("1.088 to 1.092", 1.088, 1.092),
        ("1.088..1.092", 1.088, 1.092),
        ("1.088 – 1.092", 1.088, 1.092),
        ("SG 1.090 ± 0.002", 1.088, 1.092),
        ("1.088-1.092", 1.088, 1.092),
        ("1,088 - 1,092 SG", 1.088, 1.092),
        ("1.088−1.092", 1.088, 1.092),
    ],
)
def test_an_uncertain_gravity_is_read_however_it_is_written(typed, low, high):
    found = run_work("oechsle", [f"sg={typed}"])
    assert found.low == (pytest.approx((low - 1.0) * 1000.0),)
    assert found.high == (pytest.approx((high - 1.0) * 1000.0),)
    assert found.values == (pytest.approx(90.0),)
    assert found.result == "90.0 (88.0 to 92.0)"


@pytest.mark.parametrize(
    ("rule", "pairs", "argument", "shown"),
    [
        ("water-density", ["celsius=68 ± 9 F"], "celsius", "20 ± 5"),
        ("water-density", ["celsius=20 C ± 5 C"], "celsius", "20 ± 5"),
        ("water-density", ["celsius=15-25"], "celsius", "20 ± 5"),
        ("water-density", ["celsius=59-77 F"], "celsius", "20 ± 5"),
        ("water-density", ["celsius=59 F - 77 F"], "celsius", "20 ± 5"),
        ("molecular-so2", ["free=30", "pH=3.3-3.5"], "ph", "3.4 ± 0.1"),
        ("acid-as-tartaric", ["g_per_l=30-40 g/L", "acid=malic"], "g_per_l", "35 ± 5"),
        ("bentonite", ["litres=19½-20½", "g_per_l=0.5"], "litres", "20 ± 0.5"),
        ("sg-from-baume", ["baume=-3 - -1"], "baume", "-2 ± 1"),
        ("sg-from-baume", ["baume=-3--1"], "baume", "-2 ± 1"),
        ("sg-from-baume", ["baume=-3"], "baume", "-3"),
        ("sg-from-baume", ["baume=1e-3"], "baume", "0.001"),
        ("bentonite", ["litres=5 gal US ± 2 pt US", "g_per_l=0.5"], "litres", "18.9271 ± 0.946"),
        ("bentonite", ["litres=20 L ± 5%", "g_per_l=0.5"], "litres", "20 ± 1"),
        ("bentonite", ["litres=20", "g_per_l=0.3 to 1"], "g_per_l", "0.65 ± 0.35"),
        ("sg-of-alcohol", ["abv=12 ± 0.5 %"], "abv", "12 ± 0.5"),
        ("sg-from-brix", ["brix=22 ± 0.2 plato"], "brix", "22 ± 0.2"),
    ],
)
def test_an_uncertainty_has_the_unit_of_its_reading(rule, pairs, argument, shown):
    given_back = {seen.name: seen.value for seen in run_work(rule, pairs).inputs}
    assert given_back[argument] == shown


@pytest.mark.parametrize(
    ("rule", "pair", "words"),
    [
        ("sg-from-brix", "brix=22 ± x", "not a number"),
        ("sg-from-brix", "brix=30 to 20", "ends below where it begins"),
        ("sg-from-brix", "brix=22 ± -1", "ends below"),
        ("sg-from-brix", "brix=25-20", "ends below where it begins"),
        ("sg-from-brix", "brix=1-1/2", "ends below where it begins"),
        ("sg-from-brix", "brix=84 ± 2", "somewhere within what was measured, a Brix of 8[56]"),
        ("water-density", "celsius=20 C ± 2 F", "two units"),
        ("oechsle", "sg=1.09 ± -0.01", "ends below"),
    ],
)
def test_a_range_that_cannot_be_is_one_sentence(rule, pair, words):
    with pytest.raises(NotKnown, match=words) as refusal:
        run_work(rule, [pair])
    assert "\n" not in str(refusal.value)


def test_several_figures_each_have_their_range():
    found = run_work("sweeten", ["litres=19", "sg_now=0.994 ± 0.001", "sg_target=1.006"])
    assert [figure.name for figure in found.figures] == ["sugar_kg", "litres_after", "abv_factor"]
    assert all(
        low < value < high
        for low, value, high in zip(found.low, found.values, found.high, strict=True)
    )
    assert found.result.startswith("0.60 (0.55 to 0.65) kg, ")


@pytest.mark.parametrize(
    ("grams", "shown"),
    [
        ("1.65", "0.28"),
        ("1.65 ± 0.01", "0.280 (0.278 to 0.281)"),
        ("1.65 ± 0.3", "0.28 (0.23 to 0.33)"),
        ("59 ± 30", "10 (5 to 15)"),
        ("59 ± 1", "10.0 (9.8 to 10.2)"),
    ],
)
def test_an_amount_has_the_figures_that_its_range_leaves(grams, shown):
    assert run_work("teaspoons", [f"grams={grams}", "g_per_teaspoon=5.9"]).result == shown


PIECES = st.lists(
    st.sampled_from(
        ["1", "1.09", "12", "-3", "1/2", "1/0", ",", ".", "..", " to ", " ± ", "+-", "%", "SG",
         "brix", "°C", "68 F", "gal US", "oz/gal US", "g/L", "ppm", "mL", "lb", "°", "e9", "−", "–",
         "½", "/", "nan", "inf", "²", "\t", "L/L"]
    ),
    max_size=5,
).map("".join)  # fmt: skip


@given(st.sampled_from(UNCERTAIN), st.one_of(PIECES, st.text(max_size=12)))
def test_whatever_is_typed_is_read_or_refused_in_one_sentence(which, text):
    name, argument = which
    rule = RULES[name]
    pairs = [f"{key}={value}" for key, value in rule.example.items() if key != argument]
    try:
        found = run_work(name, [*pairs, f"{argument}={text}"])
    except NotKnown as problem:
        sentence = str(problem)
    else:
        sentence = found.result
    assert sentence
    assert sentence.count("\n") <= text.count("\n")
