"""Learning from a maker's own finished ferments: never far, never sure, always sayable."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from winebench.forecast import (
    Event,
    Evidence,
    Finished,
    NotFinishedError,
    Observation,
    Setup,
    finished,
    forecast,
    learn,
)
from winebench.forecast.learned import LEARNT, MAKERS_SHARE

MUST = Setup(1.090, room_celsius=20)
SCORES = st.tuples(*[st.floats(-2.5, 2.5)] * len(LEARNT))
SPREADS = st.tuples(*[st.floats(0.0, 1.0)] * len(LEARNT))
BATCHES = st.lists(st.builds(Finished, SCORES, SPREADS), min_size=1, max_size=12)


def must(*sg: float, setup: Setup = MUST, events: tuple[Event, ...] = ()) -> Evidence:
    return Evidence(setup, tuple(Observation(24.0 * day, s) for day, s in enumerate(sg)), events)


QUICK = must(1.090, 1.070, 1.036, 1.012, 1.000, 0.996, 0.994, 0.993)
SLOW = must(
    *(1.090, 1.089, 1.086, 1.081, 1.075, 1.069, 1.063, 1.057, 1.051, 1.046, 1.041, 1.036, 1.032),
    *(1.028, 1.024, 1.021, 1.018, 1.015, 1.012, 1.010, 1.008, 1.006, 1.004, 1.003, 1.001, 1.000),
)
NEW = must(1.090, 1.085)


@pytest.mark.parametrize("count", [1, 2, 5, 50])
def test_batches_known_without_doubt_pool_as_the_textbook_has_it(count):
    # Gelman & Hill 2007, Data Analysis Using Regression, eq. 12.1 (from memory): the mean of n
    # batches is shrunk by n / (n + ratio), ratio being the variance within over that between.
    batch = Finished((1.2,) * len(LEARNT), (0.0,) * len(LEARNT))
    ratio = (1 - MAKERS_SHARE) / MAKERS_SHARE
    learned = learn([batch] * count)
    assert learned.shifts == pytest.approx([1.2 * count / (count + ratio)] * len(LEARNT))


@given(BATCHES)
def test_the_prior_narrows_but_never_below_what_is_not_the_makers(batches):
    learned = learn(batches)
    floor = math.sqrt(1 - MAKERS_SHARE)
    assert all(floor <= spread <= 1 for spread in learned.spreads)
    assert all(abs(shift) <= 3 for shift in learned.shifts)


@given(BATCHES, st.randoms())
def test_the_order_of_the_batches_does_not_matter(batches, chance):
    mixed = list(batches)
    chance.shuffle(mixed)
    assert learn(mixed) == learn(batches)


def test_a_batch_whose_readings_say_nothing_hardly_moves_the_prior():
    silent = Finished((0.0,) * len(LEARNT), (1.0,) * len(LEARNT))
    learned = learn([silent])
    assert learned.shifts == (0.0,) * len(LEARNT)
    assert all(spread > 0.99 for spread in learned.spreads)


def test_nothing_finished_is_nothing_learned():
    assert learn([]) is None
    assert forecast(NEW, learned=None) == forecast(NEW)


def test_quick_batches_bring_the_dates_forward_and_slow_ones_put_them_back():
    usual = forecast(NEW)
    quick = forecast(NEW, learned=learn([finished(QUICK)] * 3))
    slow = forecast(NEW, learned=learn([finished(SLOW)] * 3))
    for line in range(2):
        dates = [seen.crossings[line].q50_h for seen in (quick, usual, slow)]
        assert dates == sorted(dates)
        assert dates[2] - dates[0] > 24
    assert all(c.q90_h - c.q10_h >= 1.9 for seen in (quick, slow) for c in seen.crossings)


def test_more_batches_move_the_date_farther():
    once, thrice = (
        forecast(NEW, learned=learn([finished(SLOW)] * count)).crossings[1].q50_h
        for count in (1, 3)
    )
    assert forecast(NEW).crossings[1].q50_h < once < thrice


def test_what_was_learned_is_said_in_a_sentence():
    quick, slow = learn([finished(QUICK)]), learn([finished(SLOW)] * 4)
    assert quick.sentence.startswith("Going by 1 finished batch, your ferments ")
    assert "% quicker than the usual" in quick.sentence
    assert slow.sentence.startswith("Going by 4 finished batches, your ferments run about ")
    assert "% slower than the usual" in slow.sentence
    assert "later" in slow.sentence
    tired = replace(quick, shifts=(0.0, 0.0, 0.0, 0.0, 1.0))
    assert tired.sentence == (
        "Going by 1 finished batch, your ferments run at about the usual pace and finish their "
        "last sugar slowly."
    )


@settings(max_examples=5, deadline=None)
@given(st.permutations(range(8)))
def test_the_order_of_an_old_batchs_readings_does_not_matter(order):
    mixed = replace(QUICK, observations=tuple(QUICK.observations[i] for i in order))
    assert finished(mixed) == finished(QUICK)


@pytest.mark.parametrize(
    ("evidence", "says"),
    [
        (must(1.090, 1.060, 1.040, 1.030, 1.020), "its lowest reading is 1.020"),
        (must(1.090, 1.040, 0.998), "it takes 4 to learn from"),
        (replace(QUICK, events=(Event(50, "repitch"),)), "pitched afresh"),
    ],
)
def test_a_ferment_that_is_not_over_teaches_nothing(evidence, says):
    with pytest.raises(NotFinishedError, match=says):
        finished(evidence)


def test_a_batch_needs_a_middle_and_a_spread_for_each_coordinate():
    with pytest.raises(ValueError, match="middles and as many spreads"):
        Finished((0.0,), (1.0,))


def test_in_short_it_says_by_how_many_and_the_pace_alone():
    assert learn([finished(SLOW)] * 4).in_short.startswith("by your 4 batches, about ")
    assert learn([finished(SLOW)] * 4).in_short.endswith(" % slower")
    assert learn([finished(QUICK)]).in_short.startswith("by your 1 batch, about ")
    usual = replace(learn([finished(QUICK)]), shifts=(0.0,) * len(LEARNT))
    assert usual.in_short == "by your 1 batch, at about the usual pace"


def test_one_batch_is_told_in_the_past_and_only_by_what_its_readings_say():
    middles = (-0.6, 0.4, 0.0, 0.0, 1.0)
    # exp(-0.6 x 0.57) = 0.71 of the usual pace; 29 h x (exp(0.4 x 0.50) - 1) = 6.4 h later.
    whole = Finished(middles, (0.2,) * len(LEARNT))
    assert whole.words == (
        "ran about 30 % slower than the usual, started about 6 h later and finished its last "
        "sugar slowly"
    )
    assert Finished(middles, (0.2, 1.0, 1.0, 1.0, 1.0)).words == (
        "ran about 30 % slower than the usual"
    )
