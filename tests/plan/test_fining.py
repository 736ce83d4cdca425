"""Fining keeps two weeks from the bottles, before them and after it (common practice)."""

from tests.plan.damson import (
    NEARLY_STABLE,
    STABLE,
    at,
    damson,
    planned,
    seen,
    stabilised,
    step,
    ticked,
    waiting,
)


def test_its_last_day_is_two_weeks_before_the_bottles() -> None:
    # Racked on 7 November at 10:00. Not clear yet: a third racking 49 days on, 26 December, and
    # stable 14 days after that, 9 January; stabilised on the 10th, bottled on the 17th.
    found = seen(damson(*NEARLY_STABLE), "2026-11-16T10:00+01:00")
    assert step(found, "bottle").likely == at("2027-01-17T10:00+01:00")
    fine = step(found, "fine")
    # 28 and 42 days after the racking; 14 days before the bottles.
    assert fine.earliest == at("2026-12-05T10:00+01:00")
    assert fine.likely == at("2026-12-19T10:00+01:00")
    assert fine.latest == at("2027-01-03T10:00+01:00")


def test_bottles_wait_two_weeks_for_a_late_fining() -> None:
    # Fined on 20 November at 10:00: 14 days on are 4 December at 10:00, ten days after it could be
    # bottled otherwise.
    log = (
        *STABLE[:-2],
        ticked("fine", "2026-11-20T10:00+01:00", what="bentonite", trial="2 mL"),
        *STABLE[-2:],
        stabilised("2026-11-22T10:00+01:00"),
    )
    early = planned(damson(*log), "2026-11-28T10:00+01:00", "bottle")
    assert waiting(early) == ["two weeks since the fining"]
    assert (early.override, early.earliest) == ("reason", at("2026-12-04T10:00+01:00"))
    assert planned(damson(*log), "2026-12-04T10:00+01:00", "bottle").override == "free"
    unfined = tuple(entry for entry in log if not entry.id.startswith("fine"))
    assert planned(damson(*unfined), "2026-11-28T10:00+01:00", "bottle").override == "free"
