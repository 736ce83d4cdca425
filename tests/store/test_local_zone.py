"""The system's zone, against the time zone database that Python carries."""

import time
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from winebench.plan.days import Clock
from winebench.store.local_zone import LOCAL_ZONE

pytestmark = pytest.mark.skipif(not hasattr(time, "tzset"), reason="the zone cannot be set here")


@pytest.fixture(params=["Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "UTC"])
def zone(request, monkeypatch):
    monkeypatch.setenv("TZ", request.param)
    time.tzset()
    yield ZoneInfo(request.param)
    monkeypatch.undo()
    time.tzset()


def test_every_half_hour_of_a_year_is_the_zone_s_own(zone):
    start = datetime(2026, 1, 1, tzinfo=UTC)
    for half_hour in range(2 * 24 * 366):
        at = start + timedelta(minutes=30 * half_hour)
        here, there = at.astimezone(LOCAL_ZONE), at.astimezone(zone)
        assert here.replace(tzinfo=None) == there.replace(tzinfo=None)
        assert here.utcoffset() == there.utcoffset()


def test_a_step_beyond_the_clock_change_keeps_its_wall_time(zone):
    now = datetime(2026, 10, 20, 18, 0, tzinfo=LOCAL_ZONE)
    later = Clock(now).days_after(now, 28)
    assert later == datetime(2026, 11, 17, 18, 0, tzinfo=zone)
