"""One axis: what the curve and the rows draw a moment at is the same pixel."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from itertools import pairwise
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.window import hand_outlook
from winebench.window.timeline.axis import DAY, LONGEST, SHORTEST, TimeAxis
from winebench.window.timeline.curve_data import in_view
from winebench.window.timeline.moments import ZOOMS, best_view, step_in_focus
from winebench.window.timeline.ticks import ticks

ZONE = timezone(timedelta(hours=2))
OCTOBER = datetime(2026, 10, 1, tzinfo=ZONE).timestamp()


def _axis(days: float = 14, zone=ZONE) -> TimeAxis:
    axis = TimeAxis()
    axis.zone = zone
    axis.set_pixels(120, 780)
    axis.show(OCTOBER, OCTOBER + days * DAY)
    return axis


@given(pixel=st.floats(0, 900), factor=st.floats(0.01, 100), share=st.floats(-2, 2))
def test_zoom_keeps_the_moment_under_the_pointer_and_stays_in_bounds(pixel, factor, share):
    axis = _axis()
    axis.pan(share)
    about = axis.seconds(pixel)
    axis.zoom(factor, about)
    assert axis.pixel(about) == pytest.approx(pixel, abs=0.01)
    assert SHORTEST * 0.999 <= axis.span <= LONGEST * 1.001


@pytest.mark.parametrize("days", [0.6, 2, 7, 14, 30, 90, 366, 1000])
def test_marks_never_crowd_and_always_exist(days):
    axis = _axis(days)
    pixels = [axis.pixel(tick.seconds) for tick in ticks(axis)]
    assert 2 <= len(pixels) <= 11
    # A month of 28 days may stand up to a tenth closer than one of 31.
    assert all(b - a >= 56 for a, b in pairwise(pixels))


def test_marks_stay_on_midnight_across_a_clock_change():
    axis = _axis(14, ZoneInfo("Europe/Paris"))
    axis.show(OCTOBER + 20 * DAY, OCTOBER + 34 * DAY)  # the hour goes back on 25 October 2026
    hours = {axis.moment(tick.seconds).hour for tick in ticks(axis)}
    assert hours == {0}


def test_marks_do_not_move_while_panning():
    axis = _axis()
    before = {tick.seconds for tick in ticks(axis)}
    axis.pan(0.03)
    after = {tick.seconds for tick in ticks(axis)}
    assert len(before & after) >= len(before) - 1


def test_two_weeks_hold_the_start_and_now():
    outlook = hand_outlook.outlook()
    start, end = ZOOMS["two weeks"](outlook)
    assert end - start == 14 * DAY
    assert start < hand_outlook.PITCH.timestamp() < outlook.at.timestamp() < end


def test_to_bottling_ends_after_the_bottling():
    outlook = hand_outlook.outlook()
    assert ZOOMS["to bottling"](outlook)[1] > hand_outlook.day(120).timestamp()


def test_an_old_batch_opens_on_the_whole_of_it():
    outlook = hand_outlook.outlook(at=hand_outlook.day(60))
    assert best_view(outlook) == "to bottling"
    assert best_view(hand_outlook.outlook()) == "two weeks"


def test_what_is_due_is_in_focus_first():
    assert step_in_focus(hand_outlook.outlook()) == "stir"


@given(count=st.integers(0, 3000), most=st.integers(1, 300))
def test_thinned_marks_are_few_ordered_and_in_view(count, most):
    at = np.sort(np.random.default_rng(count).uniform(0, 100, count))
    chosen = in_view(at, 20.0, 80.0, most)
    assert len(chosen) <= most
    assert np.all(np.diff(chosen) > 0)
    assert np.all((at[chosen] >= 20) & (at[chosen] <= 80))
