"""Another batch laid over this one: both pitches coincide, and nothing else changes."""

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.damson import IN_GLASS, PITCHED, at, damson, read, ticked
from winebench.plan.overlaid import OverlayError, in_words, other_batch, over_this
from winebench.plan.readings import readings

PITCH = at("2026-10-02T18:30")


def test_readings_and_milestones_keep_their_days_since_the_pitch():
    other = other_batch(damson(*IN_GLASS))
    # Pitched Friday 2 October 2026 at 18:30; the must was read half an hour before.
    assert [(each.moment.day, each.sg) for each in other.readings] == [
        (0, 1.091), (3, 1.066), (7, 1.024),
    ]  # fmt: skip
    assert other.readings[0].moment.since_pitch == timedelta(minutes=-30)
    assert [(each.words, each.day) for each in other.milestones] == [
        ("Lift the fruit", 6), ("Rack to glass", 7),
    ]  # fmt: skip
    # Over a batch pitched on 5 June 2027 at 09:00 the racking (7 days and 30 minutes) is 12 June.
    shifted = over_this(other.milestones[1], at("2027-06-05T09:00"))
    assert shifted == at("2027-06-12T09:30")


def test_readings_are_the_corrected_ones_and_doubtful_ones_stay_away():
    # 1.040 read at 30 C is about three points more at 20 C (water: 0.9982 over 0.9957).
    warm = read("1.040", "2026-10-06T18:30", "30 °C")
    hot = read("1.030", "2026-10-07T18:30", "45 °C")
    brix = read("1.020", "2026-10-08T18:30", "20 °C", instrument="refractometer")
    other = other_batch(damson(*PITCHED, warm, hot, brix))
    assert [each.moment.words for each in other.readings] == ["1.091", "1.040"]
    assert other.readings[1].sg == pytest.approx(1.0428, abs=0.0006)


def test_it_is_told_in_words():
    assert in_words(other_batch(damson(*IN_GLASS, name="Bench plum"))) == (
        "Laid over it, dashed, by days since the yeast: Bench plum, 3 readings, from 1.091 on day "
        "0 to 1.024 on day 7; lift the fruit on day 6; rack to glass on day 7."
    )
    one = other_batch(damson(*PITCHED))
    assert in_words(one).endswith("Hedge damson, read once, 1.091 on day 0.")


def test_a_batch_without_yeast_or_readings_says_what_is_missing():
    with pytest.raises(OverlayError, match="Hedge damson has no pitched yeast in its log"):
        other_batch(damson(*PITCHED[:-1]))
    with pytest.raises(OverlayError, match="no gravity that could be drawn"):
        other_batch(damson(ticked("pitch", "2026-10-02T18:30")))


def test_a_summer_hour_does_not_stretch_the_days():
    # Clocks went back on 25 October 2026: 72 true hours before and after.
    log = (ticked("pitch", "2026-10-23T12:00+02:00"), read("1.050", "2026-10-26T11:00+01:00"))
    only = other_batch(damson(*log)).readings[0]
    assert only.moment.since_pitch == timedelta(hours=72)
    assert only.moment.day == 3


_PITCHES = st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1)).map(
    lambda when: when.replace(tzinfo=PITCH.tzinfo)
)


@given(st.lists(st.integers(1, 90 * 24), max_size=8, unique=True), _PITCHES)
def test_every_point_lies_as_long_after_this_pitch_as_after_its_own(hours, pitch):
    log = [
        read("1.010", (PITCH + timedelta(hours=hour)).isoformat(), "20 °C")
        for hour in sorted(hours)
    ]
    project = damson(*PITCHED, *log)
    other = other_batch(project)
    seen = [one for one in readings(project, at("2027-01-01T00:00")) if one.sg is not None]
    assert len(other.readings) == len(seen)
    for each, own in zip(other.readings, seen, strict=True):
        assert over_this(each.moment, pitch) - pitch == own.at - PITCH
        assert each.sg == own.sg
