"""The calendar file as other programs read it."""

from datetime import timedelta

import pytest
from icalendar import Calendar

from tests.output import batches
from winebench.output.calendar import calendar_ics
from winebench.plan.outlook import Condition


def events(data: bytes) -> dict[str, object]:
    return {str(event["uid"]): event for event in Calendar.from_ical(data).walk("VEVENT")}


@pytest.fixture
def made():
    return calendar_ics(batches.project(), batches.outlook())


def test_lines_end_in_crlf_and_are_at_most_75_octets(made):
    # RFC 5545, 3.1: content lines are delimited by CRLF and should be at most 75 octets.
    assert made.count(b"\n") == made.count(b"\r\n")
    assert max(len(line) for line in made.split(b"\r\n")) <= 75


def test_what_is_to_come_is_there_and_what_is_done_or_undated_is_not(made):
    assert set(events(made)) == {
        "batch-1-stir@winebench",
        "batch-1-transfer@winebench",
        "batch-1-bottle@winebench",
    }


def test_a_held_step_is_tentative_and_says_what_holds_it(made):
    event = events(made)["batch-1-transfer@winebench"]
    assert event["status"] == "TENTATIVE"
    assert "waits for a reading below 1.030 on the day" in event["summary"]
    assert "Waits for: a reading below 1.030 on the day." in event["description"]
    assert "Not before 7 Oct 18:00, best by 10 Oct 18:00." in event["description"]
    assert event["dtstart"].dt == batches.after(6)
    assert events(made)["batch-1-bottle@winebench"]["status"] == "CONFIRMED"


def test_a_dangerous_step_says_never_before_its_gate():
    gate = Condition(text="three equal readings over 14 days", met=False)
    step = batches.step(
        "bottle",
        "Bottle",
        "held",
        override="never",
        earliest=batches.after(9),
        likely=batches.after(9),
        latest=batches.after(9),
        conditions=(gate,),
    )
    data = calendar_ics(batches.project(), batches.outlook(steps=(step,)))
    (event,) = events(data).values()
    assert "Do not do it before that, whatever the date says." in event["description"]


def test_the_daily_chore_repeats_until_its_last_day_at_one_wall_time(made):
    event = events(made)["batch-1-stir@winebench"]
    start = event["dtstart"].dt
    assert start == batches.after(4).replace(tzinfo=None)
    assert start.tzinfo is None
    rule = event["rrule"]
    assert rule["freq"] == ["DAILY"]
    # RFC 5545, 3.3.10: UNTIL must have the same value type as DTSTART.
    assert rule["until"] == [batches.after(7).replace(tzinfo=None)]
    assert "interval" not in rule


def stirring(times) -> bytes:
    step = batches.step("stir", "Stir", "due", likely=times[0], repeats=True, repeat_times=times)
    return calendar_ics(batches.project(), batches.outlook(steps=(step,)))


def test_a_late_chore_comes_once_by_itself_then_at_its_usual_hour():
    late = batches.after(4) + timedelta(hours=3)
    found = events(stirring((late, batches.after(5), batches.after(6))))
    assert set(found) == {"batch-1-stir-0@winebench", "batch-1-stir@winebench"}
    assert found["batch-1-stir-0@winebench"]["dtstart"].dt == late
    assert found["batch-1-stir@winebench"]["dtstart"].dt == batches.after(5).replace(tzinfo=None)


def test_a_weekly_chore_has_its_interval_and_a_single_one_no_rule():
    weekly = events(stirring((batches.after(7), batches.after(14), batches.after(21))))
    assert weekly["batch-1-stir@winebench"]["rrule"]["interval"] == [7]
    single = events(stirring((batches.after(7),)))
    assert "rrule" not in single["batch-1-stir@winebench"]


def test_what_is_late_stands_at_now_and_never_in_the_past():
    early = batches.after(1)
    step = batches.step("enzyme", "Enzyme", "missed", earliest=early, likely=early, latest=early)
    (event,) = events(calendar_ics(batches.project(), batches.outlook(steps=(step,)))).values()
    assert event["dtstart"].dt == batches.NOW


def test_every_event_has_an_alarm_and_steps_are_announced_ahead(made):
    for uid, event in events(made).items():
        (alarm,) = event.walk("VALARM")
        chore = "stir" in uid
        assert alarm["trigger"].dt == (timedelta(0) if chore else -timedelta(hours=2))


def test_importing_again_replaces_events_because_their_names_stay(made):
    later = batches.outlook(at=batches.NOW + timedelta(days=1))
    again = events(calendar_ics(batches.project(), later))
    assert set(again) == set(events(made))
    before = events(made)["batch-1-bottle@winebench"]
    # RFC 5546, 2.1.5: with an equal SEQUENCE the newer DTSTAMP wins.
    assert again["batch-1-bottle@winebench"]["dtstamp"].dt > before["dtstamp"].dt


def test_the_same_outlook_gives_the_same_bytes(made):
    assert calendar_ics(batches.project(), batches.outlook()) == made


def test_a_name_with_line_ends_and_semicolons_cannot_break_the_file():
    name = "Plum; cherry, and\nBEGIN:VALARM"
    data = calendar_ics(batches.project(name=name), batches.outlook())
    assert len(events(data)) == 3
    assert b"\r\nBEGIN:VALARM\r\n" in data
    assert len(Calendar.from_ical(data).walk("VALARM")) == 3
    # RFC 5545, 3.3.11: semicolons and commas in a text are escaped.
    assert b"\r\nX-WR-CALNAME:Plum\\; cherry\\, and BEGIN:VALARM\r\n" in data
