"""The dates of a bottled wine, and what becomes of the chores before it."""

import msgspec

from tests.plan.damson import (
    STABLE,
    at,
    damson,
    planned,
    read,
    seen,
    stabilised,
    step,
    ticked,
    waiting,
)


def test_after_bottling_each_date_is_counted_from_that_day() -> None:
    # Milestones by common practice: upright 3 to 7 days, then on the side; first tasted after 2 to
    # 4 months, this style after 3; bottled on 30 November 2026, by hand from the calendar.
    log = (
        *STABLE,
        ticked("stabilise", "2026-11-22T10:00+01:00", **{"mg-per-l": "40"}),
        ticked("bottle", "2026-11-30T11:00+01:00"),
    )
    found = seen(damson(*log), "2026-12-01T11:00+01:00")
    dates = {
        key: tuple(time.date().isoformat() for time in (one.earliest, one.likely, one.latest))
        for key in ("upright", "lie-down", "first-taste", "drink-by")
        for one in (step(found, key),)
    }
    assert dates["upright"] == ("2026-12-03", "2026-12-03", "2026-12-07")
    assert dates["lie-down"] == ("2026-12-03", "2026-12-03", "2026-12-14")
    assert dates["first-taste"] == ("2027-01-30", "2027-02-28", "2027-03-30")
    # Best after 24 months, tired after half as long again.
    assert dates["drink-by"][1:] == ("2028-11-30", "2029-11-30")
    # Laid down after they stood, even where that was ticked late.
    late = (*log, ticked("upright", "2026-12-05T09:00+01:00"))
    lie = planned(damson(*late), "2026-12-05T10:00+01:00", "lie-down")
    assert (lie.state, lie.earliest) == ("due", at("2026-12-05T09:00+01:00"))


def test_chores_of_a_bottled_wine_are_done_or_passed_and_never_not_needed() -> None:
    log = (
        *STABLE,
        ticked("clean", "2026-11-22T09:00+01:00"),
        ticked("top-up", "2026-11-07T11:00+01:00"),
        ticked("stabilise", "2026-11-22T10:00+01:00", **{"mg-per-l": "40"}),
        ticked("bottle", "2026-11-30T11:00+01:00"),
    )
    found = seen(damson(*log), "2026-12-01T11:00+01:00")
    for key in ("clean", "top-up", "read-gravity"):
        assert step(found, key).state == "done", key
    for key in ("airlock-check", "stir", "first-nitrogen", "second-nitrogen", "sign-of-life"):
        one = step(found, key)
        assert one.state == "skipped", key
        assert one.passed == (key != "sign-of-life"), key
        assert one.when == ("not needed" if key == "sign-of-life" else "not ticked; passed")
    assert step(found, "cold-hold").when == "not needed"
    assert not step(found, "cold-hold").passed


def test_in_store_the_bottles_are_watched_and_no_longer_to_be_kept_from_filling() -> None:
    # Common practice: a bottle that ferments again is under pressure, and may burst in the hand.
    before = seen(damson(*STABLE), "2026-11-22T11:00+01:00").safety
    assert any("Never bottle what can ferment again" in line for line in before)
    assert not any("hisses" in line for line in before)
    log = (*STABLE, ticked("bottle", "2026-11-30T11:00+01:00"))
    after = seen(damson(*log), "2026-12-01T11:00+01:00").safety
    assert not any("Never bottle" in line for line in after)
    assert any("hisses" in line and "wrapped in cloth" in line for line in after)
    assert before[0] in after  # sulfite, and the law, hold for a bottled wine too
    assert before[-1] in after


def test_the_rest_bottled_on_another_day_needs_no_reason_unless_the_first_bottles_ferment() -> None:
    # A fortnight from 30 November 2026 at 11:00 ends on 14 December at 11:00 (common practice).
    bottled = ticked("bottle", "2026-11-30T11:00+01:00", count="60")
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00"), bottled)
    for now, wanted in (
        ("2026-12-06T10:00+01:00", "free"),
        ("2026-12-14T10:00+01:00", "free"),
        ("2026-12-14T12:00+01:00", "reason"),
    ):
        one = planned(damson(*log), now, "bottle")
        assert (one.state, one.override) == ("done", wanted)
        assert bool(waiting(one)) == (wanted == "reason")
    more = ticked("bottle", "2026-12-06T11:00+01:00", count="10")
    both = seen(damson(*log, more), "2026-12-07T10:00+01:00").bottles.sentence
    assert both.startswith("70 bottles")
    # A tick with a reason tells the bottling anew.
    anew = msgspec.structs.replace(more, override="counted wrongly")
    told = seen(damson(*log, anew), "2026-12-07T10:00+01:00").bottles.sentence
    assert told.startswith("10 bottles")
    fell = read("0.989", "2026-12-05T18:00+01:00")
    assert planned(damson(*log, fell), "2026-12-06T10:00+01:00", "bottle").override == "reason"
    # What fell in the first bottles is told, though more were filled since.
    found = seen(damson(*log, fell, more), "2026-12-07T10:00+01:00")
    assert "bottles-in-danger" in [one.key for one in found.cautions if one.severity == "stop"]
