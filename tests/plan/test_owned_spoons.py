"""The spoons of a household: the nearest of what they add up to, checked by trying them all."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, additive, composed_line, project
from winebench.model.recipe import Kitchen
from winebench.plan import kitchen
from winebench.plan.spoons import amount_of, combination, spoons_words
from winebench.plan.typed.spoons import owned_text, read_owned
from winebench.units import UnitsError

FIVE = (0.125, 0.25, 0.5, 1.0, 3.0)
THREE = (0.25, 1.0, 3.0)


@pytest.mark.parametrize(
    ("asked", "owned", "words", "error"),
    [
        # 2.37: 2 + 1/4 + 1/8 = 2.375, +0.2 %
        (2.37, FIVE, "2 + 1/4 + 1/8 tsp", 0.21),
        # 5 tsp are a tablespoon and two
        (5.0, FIVE, "1 tbsp + 2 tsp", 0.0),
        # 10.2: 3 tbsp + 1 = 10 is 1.96 % short: within 2 %, and fewer spoons than + 1/4 (10.25)
        (10.2, FIVE, "3 tbsp + 1 tsp", -1.96),
        # without an eighth and a half, 0.75 are three quarters
        (0.75, THREE, "3 × 1/4 tsp", 0.0),
        # 0.3: 1/4 is 16.7 % short, 1/2 is 67 % over
        (0.3, THREE, "1/4 tsp", -16.67),
        # 2.6: 2 + 1/4 + 1/4 = 2.5 (-3.8 %) is nearer than 2 3/4 (+5.8 %)
        (2.6, THREE, "2 + 2 × 1/4 tsp", -3.85),
        (0.05, FIVE, "1/8 tsp", 150.0),
        # three quarters are nearer than any with a third, although a third is the larger spoon
        (0.75, (0.25, 1 / 3), "3 × 1/4 tsp", 0.0),
    ],
)
def test_the_nearest_of_the_spoons_with_its_error(asked, owned, words, error):
    found = kitchen.spoons(asked, Kitchen(spoons_owned=owned))
    assert found.text == words
    assert found.error_percent == pytest.approx(error, abs=0.01)


@settings(max_examples=200, deadline=None)
@given(
    st.floats(0.06, 6.0),
    st.sets(st.sampled_from([0.125, 0.25, 1 / 3, 0.5, 0.75, 1.0]), min_size=2, max_size=4),
)
def test_no_handful_of_them_is_nearer_by_more_than_a_spoon_can_be_levelled(asked, owned):
    sizes = tuple(sorted(owned))
    found = abs(amount_of(combination(asked, sizes)) / asked - 1) * 100
    every = (
        abs(sum(some) / asked - 1) * 100
        for count in range(1, 6)
        for some in itertools.combinations_with_replacement(sizes, count)
    )
    assert found <= max(min(every), 2.0) + 1e-6


@given(st.floats(0.05, 48.0))
def test_the_words_add_up_to_what_is_measured(asked):
    taken = combination(asked, FIVE)
    total = 0.0
    for part in spoons_words(taken).split(" tbsp"):
        unit = 1.0 if part.endswith("tsp") else 3.0
        for piece in part.removesuffix(" tsp").strip(" +").split(" + "):
            times, _, size = piece.rpartition(" × ") if " × " in piece else ("1", "", piece)
            if size:
                top, _, bottom = size.partition("/")
                total += unit * int(times) * int(top) / int(bottom or 1)
    assert total == pytest.approx(amount_of(taken))


def test_one_spoon_alone_is_the_smallest_of_a_set():
    found = kitchen.spoons(2.37, Kitchen(spoons_owned=(0.25,)))
    assert found.text == "2 1/4 tsp"
    assert kitchen.spoons(2.37, Kitchen(smallest_teaspoon=0.5)).text == "2 1/2 tsp"


def test_what_is_put_in_twice_says_each_half_in_brackets():
    # 5 tsp of nutrient in two doses: 2 1/2 each
    made = project(WATER, additive("yeast-nutrient", "1 tsp"), make="5 gal",
                   kitchen=Kitchen(spoons_owned=FIVE))  # fmt: skip
    assert composed_line(made, "yeast-nutrient").measure == "2 × (2 + 1/2 tsp)"


def test_sulfite_too_coarse_for_their_spoons_goes_in_as_a_stock():
    # a gallon's 0.46 g at 5.9 g a spoon is 0.078 tsp: a quarter is three times as much
    found = kitchen.spooned(0.46, 5.9, Kitchen(spoons_owned=THREE), precise=True)
    assert found.text == "weigh 0.46 g on a finer scale, or 4.6 mL of a 10 % stock"


@pytest.mark.parametrize(
    ("text", "owned"),
    [
        ("1/4, 1/2, 1 tsp, 1 tbsp", (0.25, 0.5, 1.0, 3.0)),
        ("1/8; 1/4", (0.125, 0.25)),
        ("½ tsp and 1 tsp", (0.5, 1.0)),
        # metric sets are marked so: 1.25, 2.5, 5 and 15 mL
        ("1.25 mL, 2.5 mL, 5 mL, 15 mL", (0.25, 0.5, 1.0, 3.0)),
        ("1/2 tbsp", (1.5,)),
        ("", ()),
    ],
)
def test_spoons_are_read_as_they_are_marked(text, owned):
    assert read_owned(text) == pytest.approx(owned)
    assert read_owned(owned_text(owned)) == pytest.approx(owned)


@pytest.mark.parametrize("text", ["1 cup", "spoon", "100 tbsp", "1/400 tsp"])
def test_what_is_no_spoon_is_one_sentence(text):
    with pytest.raises(UnitsError, match="no measuring spoon"):
        read_owned(text)
