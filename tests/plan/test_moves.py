"""Was, now, because: what the newest entry did to the dates."""

import pytest

from tests.plan.damson import (
    IN_GLASS,
    PITCHED,
    at,
    damson,
    planned,
    read,
    step,
    ticked,
)
from tests.plan.stuck_batch import FED
from winebench.model.edits import PutEntry, changed
from winebench.model.log import Note
from winebench.model.project import Project
from winebench.plan.moves import by_importance
from winebench.plan.outlook import Moved
from winebench.plan.work_out import outlook
from winebench.units import Gravity

FALL = (read("1.084", "2026-10-03T18:30"), read("1.074", "2026-10-04T18:30"))


def test_a_high_cold_reading_says_was_now_because() -> None:
    project = damson(*PITCHED, *FALL, read("1.071", "2026-10-05T18:30", "16 °C"))
    transfer = step(outlook(project, at("2026-10-05T19:00")), "transfer")
    assert transfer.moved is not None
    assert transfer.moved.now > transfer.moved.was
    assert transfer.moved.now == transfer.likely
    assert transfer.moved.because.startswith("the must ran at 16 °C and the last reading came in")
    assert transfer.moved.because.endswith("high")
    assert transfer.moved.sentence.startswith("was ")


def test_notes_and_stirs_leave_what_the_last_reading_did_standing() -> None:
    reading = read("1.071", "2026-10-05T18:30", "16 °C")
    note = Note(id="n", at=at("2026-10-05T18:40"), text="smells of plums")
    stir = ticked("stir", "2026-10-05T18:45")
    now = at("2026-10-05T19:00")
    moves = [
        step(outlook(damson(*PITCHED, *FALL, reading, *after), now), "transfer").moved
        for after in ((), (note,), (note, stir))
    ]
    assert moves[0] is not None
    assert moves[0] == moves[1] == moves[2]


def test_a_tick_later_than_planned_moves_what_follows() -> None:
    project = damson(*IN_GLASS[:-1], ticked("transfer", "2026-10-12T19:00"))
    rack = step(outlook(project, at("2026-10-12T20:00")), "second-rack")
    assert rack.likely == at("2026-11-09T19:00")
    before = changed(project, log=project.log[:-1])
    was = step(outlook(before, at("2026-10-12T20:00")), "second-rack").likely
    assert was is not None
    if rack.moved:
        assert rack.moved.because == "this was ticked: rack to glass"


def test_done_steps_never_say_that_they_moved() -> None:
    project = damson(*IN_GLASS, read("1.010", "2026-10-12T18:30"))
    for one in outlook(project, at("2026-10-12T19:00")).steps:
        assert one.moved is None or one.state != "done"


def test_was_is_what_the_project_without_the_entry_shows() -> None:
    project = damson(*PITCHED, *FALL, read("1.071", "2026-10-05T18:30", "16 °C"))
    now = at("2026-10-05T19:00")
    before = outlook(changed(project, log=project.log[:-1]), now)
    for one in outlook(project, now).steps:
        if one.moved:
            was = step(before, one.key).likely
            assert was is not None
            assert one.moved.was == was


def test_flat_readings_say_that_nothing_fell_not_how_high_they_came_in() -> None:
    # 1.042 on 8, 10 and 11 October: three days without a fall, not yet the four of a standstill.
    flat = tuple(read("1.042", f"2026-10-{day:02}T18:30") for day in (8, 10, 11))
    project = damson(*PITCHED, *FALL, *flat)
    moves = [one.moved for one in outlook(project, at("2026-10-11T19:00")).steps if one.moved]
    assert moves
    assert {move.because for move in moves} == {
        "the last reading shows no fall since Thursday 8 October, at 1.042"
    }


def test_a_rise_is_told_once_in_the_sentence_and_asked_about_in_the_doubt() -> None:
    project = damson(*PITCHED, *FALL, read("1.079", "2026-10-05T18:30"))
    found = outlook(project, at("2026-10-05T19:00"))
    risen = found.readings[-1]
    # 1.074 to 1.079.
    assert risen.sentence.count("5 points up") == 1
    assert "points" not in risen.doubt
    assert "gravity only falls" in risen.doubt
    assert not any(one.moved for one in found.steps)  # what is asked about moves no date


@pytest.mark.parametrize("doubted", ["1.079", "24 brix", "7 brix", "1.010"])
def test_a_reading_that_is_asked_about_does_not_move_the_forecast(doubted) -> None:
    # A rise, two °Brix after the yeast, and 64 points in a day: each is asked about.
    now = at("2026-10-05T19:00")
    plain = outlook(damson(*PITCHED, *FALL), now)
    found = outlook(damson(*PITCHED, *FALL, read(doubted, "2026-10-05T18:30")), now)
    assert found.readings[-1].doubt
    assert plain.forecast is not None
    assert found.forecast is not None
    assert found.forecast.middle == plain.forecast.middle


def test_a_second_reading_bears_a_doubted_one_out() -> None:
    fallen = (read("1.010", "2026-10-05T18:30"), read("1.008", "2026-10-06T18:30"))
    now = at("2026-10-06T19:00")
    found = outlook(damson(*PITCHED, *FALL, *fallen), now)
    assert found.readings[-2].doubt
    course = found.forecast
    assert course is not None
    to_come = [sg for when, sg in zip(course.times, course.middle, strict=True) if when >= now]
    assert to_come[0] < 1.012


def test_a_dose_of_a_starter_is_named_where_it_moves_the_restart() -> None:
    # The second dose a day late: the third, and pitching back, are a day later too.
    late = (*FED[:-2], ticked("feed-starter", "2026-10-26T10:00"))
    found = outlook(damson(*late), at("2026-10-26T11:00"))
    moved = step(found, "restart").moved
    assert moved is not None
    assert moved.because == "this was ticked: feed the starter with wine"


def test_an_old_reading_logged_late_is_called_by_its_day() -> None:
    # The 5th is typed in on the 7th, after the reading of the 6th: it is not "the last reading".
    late = (read("1.060", "2026-10-06T18:30"), read("1.062", "2026-10-05T18:30"))
    now = at("2026-10-07T09:00")
    moves = [s.moved for s in outlook(damson(*PITCHED, *FALL, *late), now).steps if s.moved]
    assert moves
    assert all("the reading of Monday 5 October" in move.because for move in moves)


def test_a_move_is_told_against_the_same_project_without_the_entry() -> None:
    # The correction of the reading before it shows in both sides, so the last reading is blamed
    # only for what it does itself; the sentence says so.
    project = damson(*PITCHED, *FALL, read("1.071", "2026-10-05T18:30", "16 °C"))
    old = project.log[-2]
    corrected = PutEntry(label="", entry=changed(old, gravity=Gravity("1.069"))).apply(project)
    now = at("2026-10-05T19:00")
    without = outlook(changed(corrected, log=corrected.log[:-1]), now)
    moves = {s.key: s.moved for s in outlook(corrected, now).steps if s.moved}
    assert moves
    for key, moved in moves.items():
        assert moved.was == step(without, key).likely
        assert "without it · now" in moved.sentence


def test_a_date_that_has_passed_is_told_by_its_day_never_as_today() -> None:
    # 1.028 on Monday the 5th, the fruit out at 20:30: to glass from then on.
    low = read("1.028", "2026-10-05T20:00")
    fast = damson(*PITCHED, low, ticked("lift-fruit", "2026-10-05T20:30"))
    # Two days on it reads 1.036: eight points up, so the date of the 5th no longer stands.
    risen = changed(fast, log=(*fast.log, read("1.036", "2026-10-07T20:00")))
    told = planned(risen, "2026-10-07T21:00", "transfer").moved
    assert told is not None
    assert told.was == at("2026-10-05T20:30")
    assert told.sentence.startswith("was Monday 5 October without it · now ")
    # The other way round: a reading typed in three days late puts the date into the past.
    late = damson(*PITCHED, ticked("lift-fruit", "2026-10-05T20:30"), low)
    told = planned(late, "2026-10-06T07:00", "transfer").moved
    assert told is not None
    assert " · now yesterday · because the last reading" in told.sentence


def test_the_step_that_people_plan_their_days_around_is_named_first() -> None:
    # Dry or not decides both: the malolactic choice stands before the second racking in the plan,
    # but the racking is what a day is kept free for.
    moved = Moved(was=at("2026-10-09T10:00"), now=at("2026-10-10T10:00"), because="x", sentence="y")
    found = outlook(damson(*IN_GLASS), at("2026-10-12T19:00"))
    keys = ("malolactic", "second-rack", "third-rack")
    steps = [changed(step(found, key), moved=moved) for key in keys]
    assert [one.key for one in by_importance(steps)] == ["second-rack", "malolactic", "third-rack"]
    assert by_importance(found.steps[:3]) == ()


def corrected_moves(before: Project, after: Project, now: str) -> dict[str, Moved]:
    found = outlook(after, at(now), log_before=before.log)
    return {step.key: step.moved for step in found.steps if step.moved}


def test_a_corrected_old_reading_says_its_own_was_and_now() -> None:
    project = damson(*PITCHED, *FALL, read("1.062", "2026-10-05T18:30"))
    wrong = changed(project.log[-2], gravity=Gravity("1.084"))
    before = PutEntry(label="", entry=wrong).apply(project)
    moves = corrected_moves(before, project, "2026-10-05T19:00")
    assert moves
    was = outlook(before, at("2026-10-05T19:00"))
    for key, moved in moves.items():
        assert moved.because == "the reading of yesterday was corrected to 1.074, from 1.084"
        assert moved.was == step(was, key).likely
        assert "without it" not in moved.sentence


def test_a_deleted_entry_says_its_own_was_and_now() -> None:
    slow = read("1.073", "2026-10-05T18:30")
    before = damson(*PITCHED, *FALL, slow)
    after = changed(before, log=before.log[:-1])
    moves = corrected_moves(before, after, "2026-10-05T19:00")
    assert moves
    assert {one.because for one in moves.values()} == {"the reading of today, 1.073, was taken out"}
    racked = damson(*IN_GLASS)
    unracked = changed(racked, log=racked.log[:-1])
    told = corrected_moves(racked, unracked, "2026-10-12T19:00")
    assert {one.because for one in told.values()} == {
        "“rack to glass” of Friday 9 October was taken out"
    }


def test_an_added_entry_or_a_corrected_stir_still_leaves_the_newest_entry_speaking() -> None:
    before = damson(*PITCHED, *FALL)
    after = damson(*PITCHED, *FALL, read("1.071", "2026-10-05T18:30", "16 °C"))
    now = at("2026-10-05T19:00")
    usual = [one.moved for one in outlook(after, now).steps]
    assert [one.moved for one in outlook(after, now, log_before=before.log).steps] == usual
    stir = ticked("stir", "2026-10-05T18:45")
    stirred = changed(after, log=(*after.log, stir))
    unstirred = outlook(after, now, log_before=stirred.log)
    assert [one.moved for one in unstirred.steps] == usual


def test_entries_logged_at_once_say_what_all_of_them_moved_together() -> None:
    late = (
        read("1.075", "2026-10-05T18:30"),
        read("1.071", "2026-10-06T18:30"),
        read("1.069", "2026-10-07T18:30"),
    )
    note = Note(id="n", at=at("2026-10-07T18:40"), text="cold nights")
    before, now = (*PITCHED, *FALL), at("2026-10-07T19:00")
    project = damson(*before, *late, note)
    moved = step(outlook(project, now, log_before=damson(*before).log), "transfer").moved
    assert moved is not None
    assert moved.because == "3 entries were logged at once"  # the note moves nothing
    assert moved.was == step(outlook(damson(*before), now), "transfer").likely
    assert moved.now == step(outlook(project, now), "transfer").likely
    assert " without them · now " in moved.sentence


def test_one_entry_logged_with_notes_speaks_for_itself() -> None:
    late = read("1.075", "2026-10-05T18:30", "16 °C")
    note = Note(id="n", at=at("2026-10-05T18:31"), text="cold")
    before, now = (*PITCHED, *FALL), at("2026-10-05T19:00")
    seen = [
        step(outlook(damson(*before, late, note), now, log_before=log), "transfer").moved
        for log in (None, damson(*before).log)
    ]
    assert seen[0] is not None
    assert seen[0] == seen[1]
