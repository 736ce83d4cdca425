"""A household that prefers weekends: what may wait waits for one, nothing else moves."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.damson import IN_GLASS, NEARLY_STABLE, PITCHED, at, damson, planned, seen, step
from winebench.model.log import Away
from winebench.plan.steps import rules


def test_the_second_rack_waits_for_the_weekend():
    # In glass on Friday 9 October at 19:00; 28 days later is Friday 6 November.
    usual = planned(damson(*IN_GLASS), "2026-10-10T12:00", "second-rack")
    assert usual.likely == at("2026-11-06T19:00")
    put_off = planned(damson(*IN_GLASS, weekends=True), "2026-10-10T12:00", "second-rack")
    assert put_off.likely == at("2026-11-07T19:00")
    assert (put_off.earliest, put_off.latest) == (usual.earliest, usual.latest)
    assert put_off.reason.endswith("Put on the weekend, as you prefer.")


def test_a_weekend_away_is_none():
    # Friday 6 November is likely; away on Saturday the 7th and Sunday the 8th: so the 14th. Away
    # from there to Saturday the 14th too, the Sunday after it is at home.
    gone = (Away(first=date(2026, 11, 7), last=date(2026, 11, 8)),)
    batch = damson(*IN_GLASS, weekends=True, away=gone)
    rack = planned(batch, "2026-10-10T12:00", "second-rack")
    assert rack.likely == at("2026-11-14T19:00")
    longer = (Away(first=date(2026, 11, 7), last=date(2026, 11, 14)),)
    batch = damson(*IN_GLASS, weekends=True, away=longer)
    rack = planned(batch, "2026-10-10T12:00", "second-rack")
    assert rack.likely == at("2026-11-15T19:00")


def test_a_weekend_that_passed_makes_room_for_the_next_until_the_last_safe_day():
    # Monday 9 November: the 7th went by, so the 14th; the window ends eight weeks after the
    # transfer, on Friday 4 December, and after the last weekend in it nothing waits any more.
    batch = damson(*IN_GLASS, weekends=True)
    monday = planned(batch, "2026-11-09T12:00+01:00", "second-rack")
    assert monday.likely.date().isoformat() == "2026-11-14"
    assert planned(batch, "2026-11-14T12:00+01:00", "second-rack").likely.date().day == 14
    late = planned(batch, "2026-11-30T12:00+01:00", "second-rack")
    assert late.likely == at("2026-11-30T12:00+01:00")


def test_what_may_slip_a_little_slips_by_its_days_at_the_most():
    # The fruit is lifted on Thursday 8 October at the likeliest: Saturday is two days off, one
    # more than it may wait.
    usual = planned(damson(*PITCHED), "2026-10-05T12:00", "lift-fruit")
    assert usual.likely.date().isoformat() == "2026-10-08"
    put_off = planned(damson(*PITCHED, weekends=True), "2026-10-05T12:00", "lift-fruit")
    assert put_off.likely == usual.likely


@pytest.mark.parametrize("log", [(), PITCHED, IN_GLASS, NEARLY_STABLE])
@given(day=st.integers(1, 28))
def test_no_step_comes_earlier_and_what_must_not_wait_stays(log, day):
    now = f"2026-11-{day:02}T12:00+01:00"
    usual, put_off = seen(damson(*log), now), seen(damson(*log, weekends=True), now)
    for key in rules():
        before, after = step(usual, key), step(put_off, key)
        if key in ("sulfite-must", "enzyme", "pitch", "second-nitrogen", "stir"):
            assert (after.likely, after.latest) == (before.likely, before.latest)
        if before.likely is None or after.likely is None:
            continue
        assert after.likely >= before.likely
        assert after.earliest >= before.earliest
        if before.state == "done":
            assert after.likely == before.likely
