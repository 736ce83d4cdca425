"""What is in stock before and after the yeast, and tablets that break in halves only."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, STABLE, damson, seen
from tests.plan.test_shopping import stock
from winebench.plan import kitchen

DESIGNED, AT_WORK, ENDED = "2026-10-01T17:00", "2026-10-03T19:00", "2026-11-22T19:00+01:00"


def later(what, now, *log, **have):
    """Return what is told of that dose, with so much of it noted in the pantry."""
    pantry = tuple(stock(key.replace("_", "-"), have=text) for key, text in have.items())
    found = seen(damson(*log, pantry=pantry), now)
    return next(dose for dose in found.later if dose.what == what)


@pytest.mark.parametrize(
    ("log", "now", "had", "left"),
    [
        # The recipe takes 4 of 60. 16.1 L x 50 mg/L / 0.5763 is 1.40 g, 3.2 tablets of 0.44 g: 3.
        ((), DESIGNED, "56 tablets left over", "53 tablets"),
        # Once the yeast is in they are out of the tub: what is noted as there is there.
        (PITCHED, AT_WORK, "in stock 60 tablets", "57 tablets"),
        (STABLE, ENDED, "in stock 60 tablets", "57 tablets"),
    ],
)
def test_what_the_must_took_has_left_the_stock_once_the_yeast_is_in(log, now, had, left) -> None:
    dose = later("sulfite-tablet", now, *log, sulfite_tablet="60 tablets")
    assert (dose.had, dose.left_text, dose.buy_text) == (had, left, "")


@pytest.mark.parametrize(
    ("log", "now", "have", "buy"),
    [
        ((), DESIGNED, "6 tablets", "1 tablet"),  # 4 for the must, 3 for the wine
        (PITCHED, AT_WORK, "6 tablets", ""),
        (PITCHED, AT_WORK, "2 tablets", "1 tablet"),
        (PITCHED, AT_WORK, "1 g", "1 tablet"),  # 1 / 0.44 is 2.27: two and a quarter, of three
        (PITCHED, AT_WORK, "1.32 g", ""),  # 3 x 0.44
    ],
)
def test_tablets_for_the_wine_are_bought_only_where_the_tub_does_not_hold_them(
    log, now, have, buy
) -> None:
    assert later("sulfite-tablet", now, *log, sulfite_tablet=have).buy_text == buy


@pytest.mark.parametrize(
    ("count", "used", "text"),
    [
        (1.0, 1.0, "1 tablet"),
        (1.45, 1.5, "1 1/2 tablets"),  # 3 % too much
        (2.5, 2.5, "2 1/2 tablets"),
        (0.5, 0.5, "1/2 tablet"),
        (0.3, 1.0, "crush and weigh 0.13 g"),  # 1/2 would be two thirds too much; 0.3 x 0.44 g
        (1.25, 2.0, "crush and weigh 0.55 g"),  # 1 or 1 1/2 is a fifth off; 1.25 x 0.44 g
    ],
)
def test_halves_are_taken_and_what_they_are_too_coarse_for_is_crushed(count, used, text) -> None:
    assert kitchen.tablets(count, 0.44).text.startswith(text)
    assert kitchen.tablets_used_up(count, 0.44) == used


@given(st.floats(0.0, 500.0))
def test_as_many_as_can_be_broken_are_never_more_than_there_are(count) -> None:
    halves = kitchen.whole_halves(count)
    assert halves * 2 == math.floor(halves * 2)
    assert count - 0.5 < halves <= count + 1e-6


@given(st.floats(0.01, 500.0), st.floats(0.1, 2.0))
def test_the_tub_gives_enough_for_every_dose(count, each) -> None:
    used = kitchen.tablets_used_up(count, each)
    assert used * 2 == int(used * 2)
    # Halves may lie a little under the dose, by no more than a kitchen measure may be off.
    assert used >= count * (1.0 - kitchen.COARSE_PERCENT / 100.0) - 1e-9
