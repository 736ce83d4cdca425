"""Steps past their time, readings in doubt, and what is never late: dates worked out by hand.

What a comment states of days, hours and gravities is common practice.
"""

import pytest

from tests.plan.damson import (
    IN_GLASS,
    PITCHED,
    at,
    damson,
    planned,
    read,
    seen,
    step,
    ticked,
    waiting,
)
from tests.plan.stuck_batch import PITCHED_BACK
from winebench.plan.work_out import outlook

BELOW = read("1.026", "2026-10-08T18:00")
LIFTED = ticked("lift-fruit", "2026-10-08T20:00")


def test_racking_past_its_time_is_late_though_the_fruit_still_holds_it() -> None:
    # Racked to glass at 1.000 or the tenth day at the latest, two days after it read below 1.030.
    held = planned(damson(*PITCHED, BELOW), "2026-10-09T12:00", "transfer")
    assert held.state == "held"
    for now, state in (("2026-10-10T17:59", "held"), ("2026-10-10T18:01", "missed"),
                       ("2026-10-13T12:00", "missed")):  # fmt: skip
        late = planned(damson(*PITCHED, BELOW), now, "transfer")
        assert (late.state, late.latest) == (state, at("2026-10-10T18:00")), now
        assert late.override == "reason"
    item = next(i for i in seen(damson(*PITCHED, BELOW), "2026-10-12T18:00").today
                if i.step == "transfer")  # fmt: skip
    assert item.late
    assert item.detail.startswith("2 days late · waits for")


def test_the_fruit_that_holds_the_racking_comes_out_that_evening() -> None:
    # Usually lifted with the move to glass, which waits for it.
    lift = planned(damson(*PITCHED, BELOW), "2026-10-08T19:00", "lift-fruit")
    assert lift.latest == at("2026-10-08T22:00")
    assert planned(damson(*PITCHED, BELOW), "2026-10-09T08:00", "lift-fruit").state == "missed"
    # Nothing is lifted before day 3, however low it reads.
    fast = damson(*PITCHED, read("1.020", "2026-10-04T18:00"))
    soonest = planned(fast, "2026-10-04T19:00", "lift-fruit")
    assert soonest.earliest == at("2026-10-05T18:30")
    assert soonest.latest == at("2026-10-05T22:00")


def test_the_first_nutrient_eight_days_on_is_late_not_likely() -> None:
    # One line with how late it is.
    quiet = damson(*PITCHED)
    found = planned(quiet, "2026-10-10T18:30", "first-nitrogen")
    assert found.state == "missed"
    assert found.when == "was due by Sunday 4 October at 06:30"


def test_a_steps_window_shrinks_little_when_the_reading_comes() -> None:
    # Before and after the reading the same bounds hold: two days, 1.000, the tenth day.
    log = (*PITCHED, read("1.060", "2026-10-05T18:00"), read("1.041", "2026-10-07T18:00"))
    before = step(outlook(damson(*log), at("2026-10-08T17:00")), "transfer")
    after = step(outlook(damson(*log, read("1.029", "2026-10-08T18:00")), at("2026-10-08T18:30")),
                 "transfer")  # fmt: skip
    assert after.latest == at("2026-10-10T18:00")
    assert before.latest is not None
    assert after.latest is not None
    assert (before.latest - after.latest).days <= 2


def test_a_reading_counts_on_its_own_day() -> None:
    # The move to glass wants a reading of that day below 1.030.
    evening = (*PITCHED, LIFTED, read("1.024", "2026-10-09T18:00"))
    assert waiting(planned(damson(*evening), "2026-10-09T21:00", "transfer")) == []
    morning = planned(damson(*evening), "2026-10-10T09:00", "transfer")
    assert waiting(morning) == ["a reading below 1.030 on the day"]
    assert "read it once more today" in morning.reminder
    # One of late in the evening does for the night that follows.
    late = (*PITCHED, LIFTED, read("1.024", "2026-10-09T22:30"))
    assert waiting(planned(damson(*late), "2026-10-10T00:30", "transfer")) == []


def doubtful(*more):
    return damson(*PITCHED, read("1.054", "2026-10-05T18:00"), LIFTED,
                  read("0.998", "2026-10-06T18:00"), *more)  # fmt: skip


@pytest.mark.parametrize("key", ["transfer", "second-rack", "malolactic"])
def test_a_reading_in_doubt_opens_no_gate(key) -> None:
    # 56 points in a day are faster than yeast works (20 to 30 a day: common practice).
    found = seen(doubtful(), "2026-10-06T18:30")
    assert "digit wrong" in found.readings[-1].doubt
    assert found.readings[-1].corrected == 0.998  # never dropped
    one = step(found, key)
    assert one.state != "due"
    assert one.override != "free"
    assert any("1.0" in text for text in waiting(one))


def test_a_second_reading_settles_the_doubt_either_way() -> None:
    doubted = planned(doubtful(), "2026-10-06T19:00", "transfer")
    assert "0.998 is in doubt: read it once more" in waiting(doubted)[0]
    again = doubtful(read("0.998", "2026-10-06T19:00"))
    assert planned(again, "2026-10-06T19:30", "transfer").override == "free"
    slip = doubtful(read("1.046", "2026-10-06T19:00"))
    assert "a reading below 1.030 on the day" in waiting(
        planned(slip, "2026-10-06T19:30", "transfer")
    )


def test_a_doubt_takes_the_nutrient_away_from_nobody() -> None:
    # The second nutrient is blocked below half of the sugar, but not by a reading in doubt.
    second = planned(doubtful(), "2026-10-06T18:30", "second-nitrogen")
    assert (second.state, second.override) == ("due", "free")


def test_brix_after_the_yeast_is_asked_about_once() -> None:
    # Alcohol makes a refractometer read too high, so a bare °Brix may be no gravity.
    log = (*PITCHED, LIFTED, read("9 brix", "2026-10-09T18:00"))
    found = seen(damson(*log), "2026-10-09T19:00")
    assert "refractometer" in found.readings[-1].doubt
    more = damson(*log, read("7 brix", "2026-10-10T18:00"))
    assert seen(more, "2026-10-10T19:00").readings[-1].doubt == ""


def test_cleaning_is_never_late_by_itself_and_not_asked_for_a_held_step() -> None:
    # Cleaning: the same day as a step that opens a vessel, an hour before.
    held = planned(damson(*PITCHED, BELOW), "2026-10-09T12:00", "clean")
    assert held.likely is None
    assert "rack to glass, which waits" in held.reason
    ready = damson(*PITCHED, BELOW, LIFTED)
    due = planned(ready, "2026-10-08T21:00", "clean")
    assert due.state == "due"
    over = planned(ready, "2026-10-13T12:00", "transfer")
    assert over.state == "missed"
    assert planned(ready, "2026-10-13T12:00", "clean").state != "missed"


def test_a_day_and_a_half_without_a_stir_is_told_in_hours_from_the_pitch() -> None:
    # Stirred 12 to 30 h apart; red past 36 h.
    project = damson(*PITCHED)
    assert planned(project, "2026-10-04T06:00", "stir").state == "due"
    late = planned(project, "2026-10-04T07:30", "stir")
    assert late.state == "missed"
    assert late.reason.startswith("37 h since the pitch, and no stir ticked:")


def test_without_sulfite_or_enzyme_no_wait_is_over() -> None:
    # There is nothing to wait for.
    made = damson(*PITCHED[:2], drop=("sulfite", "enzyme"))
    found = planned(made, "2026-10-01T18:30", "pitch")
    assert "wait" not in found.reminder
    assert "no sulfite or enzyme to wait for" in found.reason


def test_fruit_that_nobody_knows_stops_the_batch_and_dates_nothing() -> None:
    # Before all else the fruit's identity is sure.
    unsure = ticked("fruit-accepted", "2026-10-01T17:00", identified="unsure")
    found = seen(damson(unsure), "2026-10-01T17:30")
    assert found.today[0].kind == "stop"
    assert "stop here" in found.today[0].title
    assert len(found.today) == 1
    for key in ("measure-fruit", "sugar-water", "sulfite-must", "enzyme", "pitch", "transfer"):
        one = step(found, key)
        assert (one.state, one.likely) == ("later", None), key
    assert step(found, "pitch").override == "never"


def test_a_reading_sooner_than_weekly_says_why() -> None:
    # Reading thins out under the airlock, unless a reading tells more.
    log = (*IN_GLASS[:-2], read("1.029", "2026-10-09T18:00"), IN_GLASS[-1])
    found = step(outlook(damson(*log), at("2026-10-09T20:00")), "read-gravity")
    assert found.likely is not None
    assert found.likely < at("2026-10-16T18:00")
    assert "Once a week will do" not in found.reason


def test_what_should_have_passed_is_not_told_as_still_to_come() -> None:
    # Nothing was read since the pitch of the 2nd: by the usual course 1.030 is passed by the 8th.
    found = planned(damson(*PITCHED), "2026-10-12T12:00", "transfer")
    assert "should have passed 1.030 by" in found.reminder
    assert "read it" in found.reminder
    assert (
        "It should pass 1.030" in planned(damson(*PITCHED), "2026-10-05T12:00", "transfer").reminder
    )


def test_racking_after_a_restart_is_not_late_by_the_days_of_the_standstill() -> None:
    # 1.028 on the 9th; stuck, and set going again on the 26th at 21:00: two days from then.
    falls = (*PITCHED_BACK, read("1.018", "2026-10-28T18:00", "21 °C"))
    unracked = tuple(entry for entry in falls if not entry.id.startswith("transfer"))
    assert planned(damson(*unracked), "2026-10-28T20:59", "transfer").state != "missed"
    assert planned(damson(*unracked), "2026-10-28T21:01", "transfer").state == "missed"


def test_a_slow_ferment_is_not_told_to_leave_be_what_is_late_all_the_same() -> None:
    slow = (*PITCHED, read("1.060", "2026-10-05T18:30"), ticked("lift-fruit", "2026-10-08T20:00"),
            read("1.028", "2026-10-09T18:00"), read("1.027", "2026-10-12T18:00"))  # fmt: skip
    found = seen(damson(*slow), "2026-10-12T19:00")
    assert step(found, "transfer").state == "missed"
    assert found.stuck is not None
    assert found.stuck.state == "slow"
    assert "what else is due goes on" in found.stuck.sentence
