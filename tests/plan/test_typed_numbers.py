"""Number fields: a unit may be typed behind the number, and no other unit is swallowed."""

import pytest

from winebench.plan.typed.numbers import gravity_pair, number, number_pair
from winebench.units import UnitsError


@pytest.mark.parametrize(
    ("unit", "text", "found"),
    [
        ("g/L", "6.5", 6.5), ("g/L", "6.5 g/L", 6.5), ("g/L", "6,5 g/l", 6.5),
        ("%", "12", 12.0), ("%", "12 %", 12.0), ("% vol", "12 %", 12.0),
        ("% vol", "12 % vol", 12.0),
    ],
)  # fmt: skip
def test_a_field_takes_its_own_unit_behind_the_number(unit, text, found):
    assert number(0.0, 80.0, unit)(text) == found


def test_acidity_in_per_cent_is_refused_with_what_it_is_in_grams_a_litre():
    with pytest.raises(UnitsError, match=r'"0\.65 %": write it in g/L; 0\.65 % is 6\.5 g/L\.'):
        number(0.0, 80.0, "g/L")("0.65 %")
    with pytest.raises(UnitsError, match=r"0\.75 % is 7\.5 g/L"):
        number_pair(0.0, 30.0, "g/L")("0.55-0.75 %")


def test_a_pair_takes_its_unit_once_or_twice():
    assert number_pair(0.0, 30.0, "g/L")("5.5-7.5 g/L") == (5.5, 7.5)
    assert number_pair(0.0, 30.0, "g/L")("5.5 g/L to 7.5 g/L") == (5.5, 7.5)


def test_a_percent_sign_is_no_part_of_another_number():
    with pytest.raises(UnitsError):
        number(2.0, 6.0)("3.4 %")


@pytest.mark.parametrize("text", ["-4", "−4", "-5.5", "- 3"])
def test_a_minus_is_named_as_what_is_wrong(text):
    with pytest.raises(UnitsError, match="less than nothing"):
        number(0.0, 30.0, "g/L")(text)


def test_a_wanted_gravity_sends_nobody_to_the_hydrometer():
    with pytest.raises(UnitsError, match=r'did you mean "1\.085"\?'):
        gravity_pair("85")
    with pytest.raises(UnitsError, match=r"write one such as 1\.090"):
        gravity_pair("500")
    with pytest.raises(UnitsError, match=r'Did you mean "1\.090"'):
        gravity_pair("1.9")
    assert gravity_pair("1.088-1.094")[1].value == 1.094


@pytest.mark.parametrize("text", ["6.2 g/L", "6.2g/l", "6.2"])
def test_the_unit_beside_a_field_may_be_typed_into_it(text):
    assert number(0.0, 30.0, "g/L")(text) == 6.2
    assert number_pair(0.0, 30.0, "g/L")(f"5.5-{text}") == (5.5, 6.2)
