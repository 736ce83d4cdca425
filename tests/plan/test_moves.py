"""Was, now, because: what the newest entry did to the dates."""

from tests.plan.damson import IN_GLASS, PITCHED, at, damson, read, step, ticked
from winebench.model.edits import changed
from winebench.model.log import Note
from winebench.plan.days import Clock
from winebench.plan.work_out import outlook

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
            assert one.moved.was == max(was, Clock(now).now)
