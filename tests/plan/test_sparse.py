"""A sensor's thousands of readings: all kept in the log, thinned for the plan, quick to plan."""

from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, at, damson, no_forecast
from winebench.model.in_order import ByLog
from winebench.model.log import Reading
from winebench.plan.sparse import KEPT, MANY, NEWEST, sparse
from winebench.plan.work_out import outlook
from winebench.units import Gravity, Temperature

START = at("2026-10-02T19:00")


def sensed(count, days=20.0, **fields):
    """Return a falling gravity, logged at equal times."""
    return tuple(
        Reading(
            id=f"r{n}",
            at=START + timedelta(days=days * n / count),
            gravity=Gravity(f"{1.090 - 0.096 * n / count:.4f}"),
            temperature=Temperature("20 °C"),
            **fields,
        )
        for n in range(count)
    )


def test_what_a_hand_writes_is_never_thinned():
    log = sensed(MANY - 1)
    assert sparse(log) == log


@settings(max_examples=8, deadline=None)
@given(count=st.integers(MANY, 4 * MANY), days=st.floats(0.5, 300.0))
def test_a_sensors_readings_are_thinned_evenly_and_the_newest_all_stay(count, days):
    log = sensed(count, days)
    kept = sparse(log)
    assert KEPT / 2 <= len(kept) <= KEPT + NEWEST + 2
    assert kept[-NEWEST:] == log[-NEWEST:]
    assert list(kept) == [entry for entry in log if entry in set(kept)]
    gaps = [b.at - a.at for a, b in pairwise(kept)]
    assert max(gaps) <= timedelta(days=days / KEPT * 3 + days / count * 2)


def test_a_reading_by_hand_among_them_stays():
    log = list(sensed(3 * MANY))
    hand = Reading(id="hand", at=log[500].at, gravity=Gravity("1.070"), ph=3.4)
    log[500] = hand
    assert hand in sparse(tuple(log))


def test_a_bump_under_the_probe_does_not_speak_for_its_hour():
    log = list(sensed(4 * MANY))
    for place in range(0, len(log) - NEWEST, 7):
        log[place] = Reading(id=f"bump{place}", at=log[place].at, gravity=Gravity("1.120"))
    assert not any(entry.id.startswith("bump") for entry in sparse(tuple(log)))


def test_the_plan_of_many_readings_is_that_of_some_of_them():
    many, few = damson(*PITCHED, *sensed(5000)), damson(*PITCHED, *sensed(500))
    now = START + timedelta(days=20)
    plan, same = (outlook(project, now, no_forecast) for project in (many, few))
    assert len(plan.readings) < MANY
    for one, other in zip(plan.steps, same.steps, strict=True):
        assert one.state == other.state, one.key
        if one.likely and other.likely:
            assert abs(one.likely - other.likely) < timedelta(hours=6), one.key


def test_what_is_remembered_of_a_log_is_never_told_of_another():
    told = ByLog(len)
    log = sensed(30)
    assert told(log) == 30
    assert told(log[:-1]) == 29
    assert told((*log[:-1], log[-1])) == 30
    other = (*log[:-1], sensed(1)[0])
    seen = []
    noted = ByLog(lambda given: seen.append(given) or len(seen))
    assert [noted(log), noted(tuple(log)), noted(other), noted(log)] == [1, 1, 2, 1]


@pytest.mark.parametrize("count", [0, 1, 2])
def test_few_or_no_readings_are_themselves(count):
    assert sparse(sensed(count)) == sensed(count)
