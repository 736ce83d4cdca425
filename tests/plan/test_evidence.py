"""What of the log the gravity forecast is given."""

from datetime import timedelta

from tests.plan.damson import PITCHED, at, damson, no_forecast, seen
from winebench.forecast import Evidence, Learned
from winebench.model.log import Reading
from winebench.plan.evidence import NEWEST_USED
from winebench.plan.work_out import outlook
from winebench.units import Gravity

PITCH = at("2026-10-02T18:30")


def logged(count: int) -> tuple[Reading, ...]:
    """Return a reading an hour from the pitch on, as a floating instrument sends them."""
    return tuple(
        Reading(
            id=f"h{hour}",
            at=PITCH + timedelta(hours=hour),
            gravity=Gravity(f"{max(1.090 - hour * 0.0004, 0.995):.4f}"),
        )
        for hour in range(1, count + 1)
    )


def given(count: int) -> Evidence:
    """Return the evidence that the forecaster is asked about last."""
    asked: list[Evidence] = []

    def forecaster(evidence: Evidence, below: tuple[float, ...], learned: Learned | None) -> None:
        asked.append(evidence)
        no_forecast(evidence, below, learned)

    now = PITCH + timedelta(hours=count, minutes=1)
    outlook(damson(*PITCHED, *logged(count)), now, forecaster)
    return max(asked, key=lambda evidence: evidence.observations[-1].hours)


def test_every_reading_of_a_log_kept_by_hand_is_used() -> None:
    assert len(given(60).observations) == 61


def test_of_a_thousand_readings_the_newest_and_one_a_day_are_used() -> None:
    observations = given(1000).observations
    hours = [one.hours for one in observations]
    assert hours == sorted(hours)
    assert hours[0] == 0.0
    assert hours[-NEWEST_USED:] == [float(hour) for hour in range(961, 1001)]
    assert hours[1:-NEWEST_USED] == [24.0 * day for day in range(1, 41)]


def test_readings_that_the_forecast_does_not_use_are_still_shown() -> None:
    project = damson(*PITCHED, *logged(1000))
    assert len(seen(project, "2026-11-20T12:00+01:00").readings) == 1001
