"""The closed-form curve against a plain step-by-step solution of the same equations."""

from __future__ import annotations

import math

import numpy as np
import pytest

from winebench.forecast.api import Event, Evidence, Observation, Setup
from winebench.forecast.clock import Clock, must_temperatures, steps
from winebench.forecast.curve import Ferments
from winebench.forecast.prior import COORDINATES, Parameters, chance_stuck, parameters


def one(value: float) -> np.ndarray:
    return np.array([value])


def sour_cherry(pace: tuple[float, ...] = ()) -> Parameters:
    return Parameters(
        rate=one(0.045 / 24),
        lag=one(33.0),
        ramp=one(10.0),
        kappa=one(0.008),
        gamma=one(0.8),
        end=one(0.9935),
        pulp=one(0.003),
        log_q10=one(math.log(2.15)),
        og=one(1.090),
        drag=one(3.0),
        knee=one(0.012),
        burst=one(0.6),
        break_=one(0.025),
        pace=np.array([pace]) if pace else np.zeros((1, 0)),
    )


def stepped(p: Parameters, hours: np.ndarray, celsius, added_at: float, added_sg: float):
    """Euler steps of a hundredth of an hour: the documented equations and nothing else."""
    step = 0.01
    drop = tau = hour = 0.0
    seen = []
    for wanted in hours:
        while hour < wanted:
            top = 1.090 + (added_sg if hour >= added_at else 0.0)
            end = 0.9935 - (0.05 * added_sg if hour >= added_at else 0.0)
            warmth = 2.15 ** ((celsius(hour) - 20) / 10)
            active = 1 / (1 + math.exp(-(tau - 33) / 10))
            left = top + 0.003 - end - drop
            slowing = 1 + 0.008 / left + 3.0 * max(1 - left / 0.012, 0)
            slowing += 0.6 * drop**2 / (drop**2 + 0.025**2)
            pace = 0.045 / 24 * active / slowing * math.exp(-0.8 * drop / 0.1)
            drop += step * warmth * pace
            tau += step * warmth
            hour += step
        top = 1.090 + (added_sg if wanted > added_at else 0.0)
        seen.append(top + 0.003 * (1 - math.exp(-wanted / 18)) - drop)
    return np.array(seen)


@pytest.mark.parametrize("added", [0.0, 25.0])
def test_the_closed_form_agrees_with_small_steps_to_half_a_scale_mark(added):
    hours = np.array([12.0, 30, 48, 72, 100, 150, 220, 300])
    evidence = Evidence(Setup(1.090, room_celsius=22))
    starts, celsius = steps(evidence)
    p = sour_cherry()
    events = (Event(60.0, "sugar", added),) if added else ()
    curves = Ferments(p, Clock(starts, celsius, p.log_q10), events)
    plain = stepped(p, hours, lambda hour: 22.0, 60.0, 0.000385 * added)
    assert curves.gravity(hours)[0] == pytest.approx(plain, abs=0.0005)


def test_a_colder_room_only_slows_the_clock():
    evidence = Evidence(Setup(1.090, room_celsius=20), (), (Event(48, "temperature", 10),))
    starts, celsius = steps(evidence)
    clock = Clock(starts, celsius, one(math.log(2.0)))
    # Q10 of 2: ten degrees colder is half the pace.
    late = clock.thermal(np.array([200.0, 201.0]))[0]
    assert late[1] - late[0] == pytest.approx(0.5)
    assert clock.hours(one(late[0]))[0] == pytest.approx(200.0)


@pytest.mark.parametrize("below", [1.080, 1.030, 1.000])
def test_a_crossing_is_where_the_curve_has_that_gravity(below):
    p = sour_cherry()
    curves = Ferments(p, Clock(np.array([0.0]), np.array([20.0]), p.log_q10), ())
    hour = curves.crossing(below)
    assert curves.gravity(hour)[0, 0] == pytest.approx(below, abs=0.0003)


def test_gravity_below_the_end_is_never_reached():
    p = sour_cherry()
    curves = Ferments(p, Clock(np.array([0.0]), np.array([20.0]), p.log_q10), ())
    assert np.isinf(curves.crossing(0.990)[0])


def test_dilution_thins_gravity_and_drop_alike():
    p = sour_cherry()
    clock = Clock(np.array([0.0]), np.array([20.0]), p.log_q10)
    plain = Ferments(p, clock, ()).gravity(np.array([80.0]))[0, 0]
    thin = Ferments(p, clock, (Event(80.0, "dilution", 1.25),))
    after = thin.gravity(np.array([80.0001]))[0, 0]
    assert after - 1 == pytest.approx((plain - 1) / 1.25, abs=1e-5)


def test_a_change_of_pace_keeps_the_drop_so_far():
    p = sour_cherry(pace=(math.log(0.5),))
    clock = Clock(np.array([0.0]), np.array([20.0]), p.log_q10)
    hours = np.array([79.9, 80.1, 90.0])
    plain = Ferments(sour_cherry(), clock, ()).gravity(hours)[0]
    racked = Ferments(p, clock, (Event(80.0, "rack"),)).gravity(hours)[0]
    assert racked[:2] == pytest.approx(plain[:2], abs=3e-4)
    assert racked[2] > plain[2] + 0.002


def test_the_must_follows_its_thermometer_and_then_its_room():
    evidence = Evidence(
        Setup(1.090, room_celsius=18),
        (Observation(24, 1.08, 23.0), Observation(48, 1.06, 25.0)),
    )
    assert must_temperatures(evidence) == [(0.0, 23.0), (24.0, 23.0), (48.0, 25.0), (120.0, 18.0)]


def test_what_is_known_to_slow_or_stick_a_must_shifts_the_prior_that_way():
    z = np.zeros((1, COORDINATES))
    poor = parameters(z, Setup(1.09, nitrogen_mg_per_l=80), "dry").rate[0]
    rich = parameters(z, Setup(1.09, nitrogen_mg_per_l=180), "dry").rate[0]
    assert math.log(rich / poor) == pytest.approx(0.35)
    mild = np.array([20.0])
    assert chance_stuck(Setup(1.12), mild) > chance_stuck(Setup(1.09), mild)
    assert chance_stuck(Setup(1.09, nitrogen_mg_per_l=90), mild) > chance_stuck(Setup(1.09), mild)
    assert chance_stuck(Setup(1.09), np.array([31.0])) > chance_stuck(Setup(1.09), mild)
