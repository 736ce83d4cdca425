"""What is said of times near now, and of the two spans of the racking."""

import re

import pytest

from tests.plan.damson import IN_GLASS, PITCHED, at, damson, planned, read, step, ticked
from winebench.plan.days import moment_words
from winebench.plan.work_out import outlook


@pytest.mark.parametrize(
    ("moment", "now", "words"),
    [
        ("12:00", "08:00", "today about noon"),
        ("12:40", "11:10", "today about noon"),
        ("13:50", "11:10", "today at 13:50"),
        ("13:50", "13:24", "today at 13:50"),
        ("12:30", "12:10", "today at 12:30"),
        ("15:00", "13:24", "this afternoon"),
    ],
)
def test_noon_is_said_only_while_it_is_to_come(moment, now, words) -> None:
    day = "2026-10-06T"
    assert moment_words(at(day + moment), at(day + now)) == words


@pytest.mark.parametrize("now", ["12:10", "13:24", "13:55"])
def test_after_noon_no_step_is_likely_about_noon(now) -> None:
    found = outlook(damson(*IN_GLASS), at(f"2026-11-07T{now}+01:00"), lambda *_: None)
    assert not [one.when for one in found.steps if "today about noon" in one.when]
    # In glass for 28 days with no reading below 1.000: it waits for one from today on.
    assert step(found, "second-rack").when == "likely today"


def test_what_ends_within_half_an_hour_is_now() -> None:
    # Stirred on the 4th at 07:30: again within 30 h, by the 5th at 13:30.
    stirred = damson(*PITCHED, ticked("stir", "2026-10-04T07:30"))
    assert planned(stirred, "2026-10-05T13:10", "stir").when == "now"
    assert planned(stirred, "2026-10-05T12:10", "stir").when == "now, and by today at 13:30"


def test_the_racking_says_apart_when_it_crosses_and_how_long_it_may_wait() -> None:
    project = damson(*PITCHED, read("1.066", "2026-10-05T18:30"))
    found = outlook(project, at("2026-10-05T20:00"))
    rack = step(found, "transfer")
    assert step(found, "read-gravity").likely <= rack.likely  # which waits for a reading of its day
    crossing = next(one for one in found.forecast.crossings if one.below == 1.030)
    said = re.fullmatch(
        r"The gravity should cross 1\.030 between (.+) and (.+); the racking may wait until (.+)\. "
        r"A reading on the day decides\.",
        rack.reason,
    )
    assert said is not None, rack.reason
    assert str(crossing.earliest.day) in said[1] or said[1] in ("today", "tomorrow")
    assert said[2].endswith(f"{crossing.latest.day} October")
    assert said[3].endswith(f"{rack.latest.day} October")
