"""What somebody who comes in is told: only what they can do, and when to telephone."""

from datetime import date

import pytest

from tests.plan.damson import IN_GLASS, PITCHED, STABLE, damson, seen, ticked
from winebench.model.log import Away
from winebench.plan.household.stand_in import StandInError, phase_on, stand_in

TRIP = Away(first=date(2026, 10, 5), last=date(2026, 10, 9))


def page(*log, now="2026-10-04T10:00", away=(TRIP,), **span):
    project = damson(*log, away=away)
    return stand_in(project, seen(project, now), **span)


def test_each_day_away_has_its_line_and_the_stirring_its_hour():
    found = page(*PITCHED)
    assert [day.day.day for day in found.days] == [5, 6, 7, 8, 9]
    first = found.days[0]
    assert (first.todo, first.hour) == ("Stir and push the fruit under", "18:30")
    assert "lid back on loosely" in first.how


def test_a_stirring_that_is_overdue_has_no_hour_of_the_minute_of_printing():
    found = page(*PITCHED, now="2026-10-05T21:32", away=())
    assert [day.hour for day in found.days[:2]] == ["", "18:30"]
    assert found.days[0].todo == "Stir and push the fruit under"


def test_what_wants_judgement_is_left_to_the_telephone():
    found = page(*PITCHED)
    calls = {day.day.day: day.call for day in found.days if day.call}
    outlook = seen(damson(*PITCHED, away=(TRIP,)), "2026-10-04T10:00")
    rack = next(step for step in outlook.steps if step.key == "transfer").likely
    assert "rack to glass" in calls[rack.day]
    assert all(call.startswith("Telephone me first") for call in calls.values())
    assert not any("nutrient" in day.todo or "rack" in day.todo.lower() for day in found.days)


def test_the_fruit_is_lifted_and_then_not_stirred():
    found = page(*PITCHED)
    lifted = next(day for day in found.days if "Lift the fruit" in day.todo)
    assert "no more stirring" in lifted.how
    later = [day for day in found.days if day.day > lifted.day]
    assert later
    assert all(day.todo == "Only look" for day in later)


def test_the_words_follow_what_the_wine_is_in_when_the_maker_leaves():
    pail, glass = page(*PITCHED), page(*IN_GLASS, now="2026-10-10T10:00", away=())
    assert "Foam, hissing" in pail.normal
    assert "fur on the fruit" in pail.call
    assert "A bubble now and then" in glass.normal
    assert all("water in the lock" in day.how for day in glass.days)
    must = damson(ticked("fruit-accepted", "2026-10-01T17:00"), away=())
    assert phase_on(seen(must, "2026-10-01T18:00"), date(2026, 10, 1)) == "must"
    bottled = damson(*STABLE, ticked("bottle", "2026-12-20T12:00+01:00"), away=())
    assert phase_on(seen(bottled, "2026-12-21T10:00+01:00"), date(2026, 12, 21)) == "bottles"


def test_gas_and_sulfite_are_always_minded():
    for found in (page(*PITCHED), page(*IN_GLASS, now="2026-10-10T10:00")):
        words = " ".join(found.mind)
        assert "open a window" in words
        assert "asthma" in words
        assert "Never shut a lid or a bottle tight" in words


def test_for_bottled_wine_nobody_is_warned_of_a_pail():
    bottled = damson(*STABLE, ticked("bottle", "2026-12-20T12:00+01:00"), away=())
    found = stand_in(bottled, seen(bottled, "2026-12-21T10:00+01:00"))
    said = " ".join(found.mind)
    assert "pail" not in said
    assert "no wine yet" not in said
    assert "burst" in said
    assert found.title == "For whoever looks in meanwhile"


def test_without_a_trip_it_is_the_coming_week():
    found = page(*PITCHED, away=())
    assert (found.first, found.last) == (date(2026, 10, 4), date(2026, 10, 10))


def test_a_trip_that_has_begun_starts_today_and_one_that_is_over_is_not_told():
    assert page(*PITCHED, now="2026-10-07T10:00").first == date(2026, 10, 7)
    assert page(*PITCHED, now="2026-10-12T10:00").first == date(2026, 10, 12)


def test_days_that_make_no_page_are_refused():
    with pytest.raises(StandInError, match="comes before"):
        page(*PITCHED, first=date(2026, 10, 9), last=date(2026, 10, 5))
    with pytest.raises(StandInError, match="At most 42"):
        page(*PITCHED, first=date(2026, 10, 9), last=date(2027, 10, 5))


def test_fruit_that_should_be_out_and_is_not_is_stirred_on_every_day():
    # Day 8 was Saturday the 10th; nothing says that the fruit came out.
    late = damson(*PITCHED)
    found = stand_in(late, seen(late, "2026-10-12T12:00"), date(2026, 10, 13), date(2026, 10, 16))
    assert all("Stir" in day.todo for day in found.days)
