"""Each entry's own was, now, because: at its time, by the log as it was then."""

from datetime import datetime
from zoneinfo import ZoneInfo

from tests.plan.damson import IN_GLASS, PITCHED, at, damson, no_forecast, read, ticked
from winebench.model.edits import changed
from winebench.model.log import Note
from winebench.plan.moved_then import moved_then

EARLY = ticked("transfer", "2026-10-06T19:00")
LOG = (*IN_GLASS[:7], EARLY, read("1.010", "2026-10-20T18:00"))
NOW = datetime(2026, 11, 1, 10, tzinfo=ZoneInfo("Europe/Berlin"))


def test_an_old_tick_says_what_it_moved_when_it_was_logged() -> None:
    project = damson(*LOG)
    (moves,) = [
        one for one in moved_then(project, EARLY.id, NOW, no_forecast) if one.key == "second-rack"
    ]
    # Racked to glass on 6 October at 19:00, and 28 days on by the wall: 3 November. Without it, six
    # days after the pitch of the 2nd at 18:30 (common practice) and 28 more: 5 November.
    assert moves.name == "Second racking"
    assert moves.moved.was == at("2026-11-05T18:30+01:00")
    assert moves.moved.now == at("2026-11-03T19:00+01:00")
    assert moves.moved.sentence == (
        "was Thursday 5 November without it · became Tuesday 3 November · because this was ticked: "
        "rack to glass"
    )


def test_without_a_named_zone_the_entry_s_own_wall_clock_counts() -> None:
    moves = moved_then(damson(*LOG), EARLY.id, at("2026-11-01T10:00+01:00"), no_forecast)
    (rack,) = [one.moved.now for one in moves if one.key == "second-rack"]
    assert rack.replace(tzinfo=None) == datetime(2026, 11, 3, 19)


def test_later_entries_change_nothing_of_what_an_entry_moved() -> None:
    alone = moved_then(damson(*LOG[:-1]), EARLY.id, NOW, no_forecast)
    assert alone
    assert moved_then(damson(*LOG), EARLY.id, NOW, no_forecast) == alone


def test_an_old_reading_is_told_as_it_stood_then() -> None:
    slow = read("1.071", "2026-10-05T18:30", "16 °C")
    fall = (read("1.084", "2026-10-03T18:30"), read("1.074", "2026-10-04T18:30"))
    moves = moved_then(
        damson(*PITCHED, *fall, slow, read("1.050", "2026-10-08T18:30")), slow.id, NOW
    )
    sentences = [one.moved.sentence for one in moves if one.key == "transfer"]
    assert len(sentences) == 1
    assert "because the must ran at 16 °C and this reading came in" in sentences[0]
    for word in ("today", "tomorrow", "yesterday", "the last reading"):
        assert word not in sentences[0]


def test_notes_chores_and_unknown_entries_moved_nothing() -> None:
    note = Note(id="n", at=at("2026-10-13T10:00"), text="clear already")
    check = ticked("airlock-check", "2026-10-14T10:00")
    project = changed(damson(*LOG), log=(*LOG, note, check))
    for key in ("n", check.id, "nothing"):
        assert moved_then(project, key, NOW, no_forecast) == ()
