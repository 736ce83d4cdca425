"""Tannin, readiness and the words of sweetness, each against what was published outside."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from winebench.trade import ageing, sweetness, tannin
from winebench.trade.fining import tannin_tsp
from winebench.trade.ranges import NotKnown


def test_grapes_on_their_skins_make_a_wine_within_what_red_wines_were_found_to_hold():
    # Grapes with skin, 61.0 to 81.5 mg/100 g (Gu et al., J. Nutr. 134:613, 2004, table 1); 1.3 kg
    # make a litre of wine (common practice). Harbertson et al., Am. J. Enol. Vitic. 59:210 (2008):
    # 1,325 red wines hold 30 to 1895 mg/L, on average 544.
    for g_per_kg in (0.61, 0.815):
        found = tannin.tannin_of_fruit(g_per_kg, 1.3, 1.0, "no")
        assert 0.030 < found.low < found.figure < 0.544 < found.high + 0.05
        assert found.high < 1.895


def test_a_press_keeps_most_of_it_back():
    # By hand: 2.16 g/kg x 6.8 kg / 19 L is 0.773 g/L of fruit, of which 0.4 and 0.2.
    on_pulp, juice = (tannin.tannin_of_fruit(2.16, 6.8, 19.0, word) for word in ("no", "yes"))
    assert (on_pulp.figure, juice.figure) == (
        pytest.approx(0.309, abs=1e-3),
        pytest.approx(0.1546, abs=1e-3),
    )
    assert juice.high < on_pulp.high
    with pytest.raises(NotKnown, match='"yes" or "no"'):
        tannin.tannin_of_fruit(2.16, 6.8, 19.0, "pressed")


def test_powder_is_weighed_by_what_is_tannin_in_it():
    # By hand: 0.1 g/L in 19 L is 1.9 g of tannin: 1.9 / 0.7 = 2.71 g, from 1.9 / 0.9 to 1.9 / 0.5.
    found = tannin.powder_for_rise_g(0.1, 19.0)
    assert found == (
        pytest.approx(2.714, abs=1e-3),
        pytest.approx(2.111, abs=1e-3),
        pytest.approx(3.8),
    )
    # The OIV's codex asks for no less than 65 % of phenols (from memory); the figure is within it.
    assert 0.65 <= tannin.OF_POWDER.figure <= tannin.OF_POWDER.high < 1.0


def test_the_usual_spoons_of_powder_lift_a_thin_wine_to_a_light_red_s():
    # Usual: up to half a teaspoon a US gallon, 2.5 g a teaspoon (both common practice), 0.7 tannin.
    usual_most = tannin_tsp(3.785).high * 2.5 * tannin.OF_POWDER.figure / 3.785
    # Pinot noir, the least tannic of the red wines of Harbertson 2008: 0.348 g/L on average.
    assert 0.1 < usual_most < 0.348


# OIV International Standard for the Labelling of Wines, 3.1.6.
@pytest.mark.parametrize(
    ("sugar", "acid", "word"),
    [
        (0.0, 6.0, "dry"), (4.0, 0.0, "dry"), (4.1, 0.0, "medium dry"),
        # "Dry ... 9 g/L when the total acidity is not less than 2 g/L below".
        (9.0, 7.0, "dry"), (9.0, 6.9, "medium dry"), (9.1, 9.0, "medium dry"),
        # Worked by the Austrian wine board: 8 g/L of sugar needs 6 g/L of acid to be called dry.
        (8.0, 6.0, "dry"), (8.0, 5.9, "medium dry"),
        (12.0, 0.0, "medium dry"), (12.1, 2.0, "medium"),
        # "18 g/L when the difference between sugar and total acidity does not exceed 10 g/L".
        (18.0, 8.0, "medium dry"), (18.0, 7.9, "medium"), (18.1, 12.0, "medium"),
        (45.0, 6.0, "medium"), (45.1, 6.0, "sweet"),
    ],
)  # fmt: skip
def test_the_word_for_sweetness_is_that_of_the_labelling_standard(sugar, acid, word):
    assert sweetness.sweetness_word(sugar, acid) == word


@given(st.floats(0.0, 100.0), st.floats(0.0, 30.0), st.floats(0.0, 20.0), st.floats(0.0, 10.0))
def test_more_sugar_is_never_drier_and_more_acid_never_sweeter(sugar, acid, more, sharper):
    place = sweetness.WORDS.index(sweetness.sweetness_word(sugar, acid))
    assert sweetness.WORDS.index(sweetness.sweetness_word(sugar + more, acid)) >= place
    assert sweetness.WORDS.index(sweetness.sweetness_word(sugar, acid + sharper)) <= place


def test_light_and_dark_wines_are_ready_within_what_is_common_practice():
    # Common practice: light wines 6 to 12 months, dark ones 12 to 24.
    assert 6.0 <= ageing.months_to_ready(11.5, 0.1, 6.5) <= 12.0
    assert 12.0 <= ageing.months_to_ready(13.5, 0.6, 7.5) <= 24.0
    # By hand: 6, 6 more at the mean red wine's 0.544 g/L, 1 for 14 %, 2 for 10 g/L of acid.
    assert ageing.months_to_ready(14.0, 0.544, 10.0) == pytest.approx(15.0)


@given(st.floats(0.0, 24.0), st.floats(0.0, 4.0), st.floats(0.0, 39.0), st.floats(0.0, 1.0))
def test_nothing_that_is_added_makes_a_wine_ready_sooner(abv, grams, acid, more):
    first = ageing.months_to_ready(abv, grams, acid)
    assert ageing.months_to_ready(abv + more, grams, acid) >= first
    assert ageing.months_to_ready(abv, grams + more, acid) >= first
    assert ageing.months_to_ready(abv, grams, acid + more) >= first
