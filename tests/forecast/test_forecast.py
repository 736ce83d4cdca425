"""What must hold for any log, and what a maker would expect of plain ones."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from winebench.forecast import (
    Event,
    Evidence,
    Forecast,
    Observation,
    Setup,
    cached_forecast,
    forecast,
    gravity_at,
)

MUST = Setup(1.090, room_celsius=21)
USUAL = (
    Observation(0, 1.090),
    Observation(24, 1.084),
    Observation(48, 1.066),
    Observation(73, 1.044),
)


def of(*readings: tuple[float, float], events: tuple[Event, ...] = (), setup: Setup = MUST):
    return Evidence(setup, tuple(Observation(h, sg) for h, sg in readings), events)


def ordered(seen: Forecast) -> bool:
    lines = [*seen.crossings, seen.dry, seen.stable]
    times = all(c.q10_h < c.q50_h <= c.q90_h and c.q50_h < c.q90_h + 1e-9 for c in lines)
    fans = [(c.q10, c.q50, c.q90) for c in (seen.curve, seen.curve_or_stop)]
    return times and all(a <= b <= d for fan in fans for a, b, d in zip(*fan, strict=True))


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-24, 900), st.floats(0.985, 1.110)), min_size=0, max_size=12),
    st.floats(1.040, 1.140),
    st.floats(8, 32),
)
def test_any_log_gives_ordered_bands_that_never_collapse(readings, og, room):
    seen = forecast(of(*readings, setup=Setup(og, room_celsius=room)))
    assert ordered(seen)
    assert 0 <= seen.not_finishing <= 1
    assert all(c.q90_h - c.q10_h >= 1.9 for c in seen.crossings)


@settings(max_examples=8, deadline=None)
@given(st.permutations(range(6)))
def test_the_order_of_the_readings_does_not_matter(order):
    readings = (*USUAL, Observation(73, 1.046), Observation(96, 1.031, 23.0))
    plain = forecast(Evidence(MUST, readings))
    mixed = forecast(Evidence(MUST, tuple(readings[i] for i in order)))
    assert [order[i] for i in mixed.leans_on] == list(plain.leans_on)
    assert replace(mixed, leans_on=()) == replace(plain, leans_on=())


def test_another_process_with_another_hash_seed_gives_the_same_forecast():
    code = (
        "from winebench.forecast import *\n"
        "print(forecast(Evidence(Setup(1.09, room_celsius=21), (Observation(24, 1.084),"
        "Observation(48, 1.066))), (1.03, 1.0)).crossings)"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1
    assert said == {str(forecast(of((24, 1.084), (48, 1.066))).crossings) + "\n"}


def test_no_reading_is_the_prior_before_the_pitch():
    seen = forecast(Evidence(MUST))
    assert seen.state == "before pitch"
    assert seen.leans_on == ()
    assert 48 < seen.crossings[0].q50_h < 168
    assert seen.crossings[0].q50_h < seen.crossings[1].q50_h < seen.dry.q50_h
    assert seen.stable.q50_h == pytest.approx(seen.dry.q50_h + 48)


def test_readings_narrow_the_band():
    bands = [forecast(Evidence(MUST, USUAL[:n])).crossings[0] for n in (1, 3, 4)]
    widths = [band.q90_h - band.q10_h for band in bands]
    assert widths[0] > widths[1] > widths[2]
    assert widths[2] < 48


def test_a_date_may_slip_by_more_than_it_may_come_early():
    for line in forecast(Evidence(MUST, USUAL)).crossings:
        assert line.q90_h - line.q50_h > 1.35 * (line.q50_h - line.q10_h)


@pytest.mark.parametrize("deeper", [0.004, 0.008, 0.012])
def test_a_deeper_newest_reading_brings_the_date_forward(deeper):
    plain = forecast(Evidence(MUST, USUAL)).crossings[0].q50_h
    lower = Observation(73, 1.044 - deeper)
    assert forecast(Evidence(MUST, (*USUAL[:3], lower))).crossings[0].q50_h < plain


def test_a_flat_series_is_stuck():
    seen = forecast(
        of((0, 1.09), (24, 1.08), (48, 1.06), (72, 1.045), (96, 1.0445), (120, 1.045),
           (144, 1.044), (168, 1.0445))
    )  # fmt: skip
    assert seen.state == "stuck"
    assert seen.not_finishing > 0.85
    # Finishing, it would fall; all told, it most likely stays at 1.0445 for the next five weeks.
    assert seen.curve.q50[-1] < 1.010
    staying = np.array(seen.curve_or_stop.q50)[np.array(seen.curve_or_stop.h) > 168]
    assert staying == pytest.approx(1.0445, abs=0.003)
    assert seen.curve_or_stop.q90[-1] == pytest.approx(1.0445, abs=0.003)


def test_a_last_reading_off_by_two_scale_marks_does_not_hide_a_standstill():
    flat = (1.09, 1.086, 1.063, 1.046, 1.048, 1.048, 1.049, 1.047)
    seen = forecast(of(*((day * 24.0, sg) for day, sg in enumerate((*flat, 1.043)))))
    assert seen.state in ("may be stuck", "stuck")


def test_stopping_lifts_the_upper_edge_of_the_curve_by_its_chance():
    seen = forecast(Evidence(MUST, USUAL))
    assert 0 < seen.not_finishing < 0.3
    assert seen.curve_or_stop.h == seen.curve.h
    coming = np.array(seen.curve.h) > 73
    lift = (np.array(seen.curve_or_stop.q90) - np.array(seen.curve.q90))[coming]
    assert lift.min() > -0.001
    assert lift.max() > 0.001


def test_a_tired_tail_is_slow_and_not_stuck():
    tail = [(day * 24.0, 1.0075 - (day - 8) * 0.0012) for day in range(8, 14)]
    fall = [1.090, 1.084, 1.069, 1.050, 1.034, 1.023, 1.015, 1.010]
    seen = forecast(of(*((day * 24.0, sg) for day, sg in enumerate(fall)), *tail))
    assert seen.state in ("fermenting", "slow, not stuck")
    # 1.0015 on day 13, falling 0.0012 a day: a little over a day at that pace, and longer if it
    # slows on.
    assert 13.5 * 24 < seen.crossings[1].q50_h < 18 * 24


def test_a_slow_cold_ferment_is_not_stuck():
    setup = Setup(1.090, room_celsius=13)
    readings = [(day * 24.0, 1.090 - max(day - 3, 0) * 0.0032) for day in range(0, 15)]
    seen = forecast(of(*readings, setup=setup))
    assert seen.state in ("fermenting", "slow, not stuck")
    assert seen.not_finishing < 0.3


def test_three_points_a_day_in_the_cold_is_slow_and_never_stuck():
    readings = [(day * 24.0, 1.092 - day * 0.003) for day in range(8)]
    assert readings[-1][1] == pytest.approx(1.071)
    seen = forecast(of(*readings, setup=Setup(1.092, room_celsius=16)))
    assert seen.state == "slow, not stuck"


def test_a_gap_after_which_it_is_far_lower_is_no_standstill():
    seen = forecast(of((0, 1.09), (24, 1.08), (24, 1.08), (200, 1.03)))
    assert seen.state not in ("stuck", "may be stuck")


def test_two_like_readings_below_1000_two_days_apart_are_dry():
    before = [(0, 1.09), (48, 1.06), (96, 1.02), (144, 1.002)]
    seen = forecast(of(*before, (216, 0.994), (264, 0.994)))
    assert seen.state == "dry"
    assert seen.next_reading_h is None
    assert all(c.passed for c in (*seen.crossings, seen.dry, seen.stable))
    too_soon = forecast(of(*before, (216, 0.994), (240, 0.994)))
    assert too_soon.state == "fermenting"
    # Above 0.998 two readings are not enough.
    assert forecast(of(*before, (216, 0.999), (264, 0.999))).state == "fermenting"


def test_added_sugar_delays_dryness_about_as_long_as_it_takes_to_ferment():
    plain = forecast(Evidence(MUST, USUAL))
    fed = forecast(Evidence(MUST, USUAL, (Event(74, "sugar", 30.0),)))
    # 30 g/L is 0.0115 SG; the must falls about 0.02 a day at its best.
    assert 6 < fed.crossings[0].q50_h - plain.crossings[0].q50_h < 60
    assert fed.crossings[1].q50_h > plain.crossings[1].q50_h


def test_a_colder_room_ahead_delays_and_racking_widens():
    plain = forecast(Evidence(MUST, USUAL)).crossings[1]
    cold = forecast(Evidence(MUST, USUAL, (Event(74, "temperature", 14.0),))).crossings[1]
    assert cold.q50_h > plain.q50_h + 24
    racked = forecast(Evidence(MUST, USUAL, (Event(74, "rack"),))).crossings[1]
    assert racked.q90_h - racked.q10_h > plain.q90_h - plain.q10_h


def test_a_fresh_pitch_starts_the_stuck_ferment_again():
    flat = [(0, 1.09), (48, 1.06), (96, 1.040), (144, 1.040), (192, 1.040)]
    again = (Event(200, "repitch"),)
    assert forecast(of(*flat)).not_finishing > 0.6
    seen = forecast(of(*flat, (248, 1.035), (296, 1.020), events=again))
    assert seen.not_finishing < 0.5
    assert seen.state == "fermenting"
    assert seen.crossings[1].q10_h > 296
    assert seen.curve.h[0] == 200


def test_a_wild_reading_is_named_and_moves_little():
    usual = [(0, 1.090), (24, 1.084), (48, 1.066), (72, 1.046), (96, 1.030), (120, 1.018)]
    wild = [*usual[:3], (72, 1.066), *usual[4:]]
    seen = forecast(of(*wild))
    assert seen.outliers == (3,)
    plain = forecast(of(*usual))
    assert plain.outliers == ()
    assert seen.crossings[1].q50_h == pytest.approx(plain.crossings[1].q50_h, abs=24)


def test_a_reading_before_the_pitch_speaks_of_the_original_gravity_only():
    low = forecast(of((-5, 1.080), (-4, 1.080), (-3, 1.080), (-2, 1.080)))
    assert low.state == "before pitch"
    assert low.curve.q50[0] < 1.086


def test_a_line_below_the_end_may_never_be_reached():
    seen = forecast(Evidence(MUST, USUAL), (0.990,))
    assert seen.crossings[0].q90_h == float("inf")


def test_dry_is_when_the_curve_falls_by_less_than_a_scale_mark_in_two_days():
    falling = (*USUAL, Observation(97, 1.026), Observation(121, 1.013), Observation(145, 1.005))
    seen = forecast(Evidence(MUST, falling))
    assert seen.dry.q50_h > seen.crossings[1].q50_h
    at, later = (gravity_at(seen, seen.dry.q50_h + more)[1] for more in (0.0, 48.0))
    assert at < 1.000
    # The middle line of many curves is no curve itself: half a mark of leave on either side.
    assert at - later == pytest.approx(0.001, abs=0.0005)


def test_gravity_to_expect_lies_on_the_curve():
    seen = cached_forecast(Evidence(MUST, USUAL))
    low, middle, high = gravity_at(seen, 73)
    assert low <= middle <= high
    assert middle == pytest.approx(1.044, abs=0.004)
    assert cached_forecast(Evidence(MUST, USUAL)) is seen


def test_a_dry_wine_stays_dry_through_another_days_reading_until_sugar_goes_in():
    dry = [(0, 1.09), (48, 1.06), (96, 1.02), (144, 1.002), (216, 0.994), (264, 0.994)]
    assert forecast(of(*dry, (400, 0.996))).state == "dry"
    fed = (Event(300, "sugar", 40.0),)
    assert forecast(of(*dry, (310, 1.008), (360, 1.004), events=fed)).state == "fermenting"


def test_a_line_crossed_before_a_fresh_pitch_stays_passed():
    flat = [(0, 1.09), (48, 1.05), (96, 1.020), (144, 1.020), (192, 1.020)]
    seen = forecast(of(*flat, events=(Event(200, "repitch"),)))
    assert [c.passed for c in seen.crossings] == [True, False]
    assert seen.crossings[1].q10_h > 200


def test_a_dilution_by_nothing_is_refused():
    with pytest.raises(ValueError, match="volume after over volume before"):
        Event(24, "dilution")
