"""Months as people say them, where a field asks after how many."""

import pytest

from winebench.plan.typed.numbers import months
from winebench.units import UnitsError


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("18", 18.0), ("18 months", 18.0), ("1 year", 12.0), ("a year", 12.0),
        ("half a year", 6.0), ("1 1/2 years", 18.0), ("1½ years", 18.0), ("2 yrs", 24.0),
        ("a month", 1.0), ("a year and a half", 18.0),
        ("a year and 6 months", 18.0), ("26 weeks", 6.0),  # 52 weeks are a year
    ],
)  # fmt: skip
def test_a_span_in_words_is_read_in_months(text, found):
    assert months(0.0, 120.0)(text) == pytest.approx(found)


@pytest.mark.parametrize("text", ["soon", "a while", "", "11 years", "year"])
def test_what_is_no_such_span_is_refused(text):
    with pytest.raises(UnitsError):
        months(0.0, 120.0)(text)
