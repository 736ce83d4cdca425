"""The forecast is read off the curve in words: the next crossing whole, then how it goes."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from winebench.model.edits import changed
from winebench.model.log import Reading
from winebench.store.samples import load_sample

EAST = timezone(timedelta(hours=-4))
STATES = {
    0: datetime(2026, 10, 3, 22, 0, tzinfo=EAST),
    1: datetime(2026, 10, 4, 10, 0, tzinfo=EAST),
    4: datetime(2026, 10, 6, 18, 30, tzinfo=EAST),
}
"""By how many readings, the one of the must included, the raspberry batch had by then."""


def with_readings(count):
    project = load_sample("raspberry-day-3")
    log = sorted(project.log, key=lambda entry: entry.at)
    gravities = [e for e in log if isinstance(e, Reading) and e.gravity]
    kept = set(gravities[:count])
    past = [e for e in log if e.at <= STATES[count] and (e in kept or not isinstance(e, Reading))]
    return changed(project, log=tuple(past))


@pytest.mark.parametrize("count", STATES)
@pytest.mark.parametrize("size", [(1366, 740), (1000, 640)])
def test_when_it_crosses_its_range_and_when_to_check_are_written(open_window, count, size):
    window = open_window(with_readings(count), STATES[count])
    window.resize(*size)
    QApplication.processEvents()
    curve = window.timeline.curve
    crossing = curve.data.crossing_said()
    curve.grab()
    head, between, check = crossing
    assert head.startswith("1.030 about ")
    assert between.startswith("between ")
    assert check.startswith("check ")
    assert curve.written[:3] == crossing
    if size[0] == 1366:
        assert curve.written == crossing + curve.data.course_said()


@pytest.mark.parametrize("count", STATES)
def test_the_band_is_hollow_until_a_reading_after_the_pitch_supports_it(open_window, count):
    curve = open_window(with_readings(count), STATES[count]).timeline.curve
    filled = count == 4
    assert (curve._band.opts["brush"].color().alphaF() > 0.1) == filled
    assert (curve._band.opts["pen"].style() == Qt.PenStyle.SolidLine) == filled
    assert curve._band.opts["fillLevel"] == "enclosed"


def test_how_it_goes_is_said_whole_where_nothing_is_to_be_crossed(open_window):
    curve = open_window("elder-blackberry-bottled").timeline.curve
    curve.grab()
    assert curve.data.crossing_said() == ()
    assert curve.written == curve.data.course_said() != ()
