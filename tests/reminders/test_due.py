"""What is due now: once per due time, and one line however late."""

from datetime import timedelta

from tests.output.batches import NOW, after, outlook, step
from winebench.plan.outlook import Outlook
from winebench.reminders.due import due_now

DUE = after(4)  # half an hour before NOW


def stir(state: str = "due", likely=DUE) -> Outlook:
    return outlook(
        steps=(
            step(
                "stir",
                "Stir and push the fruit under",
                state,
                earliest=likely - timedelta(hours=12),
                likely=likely,
                latest=likely + timedelta(hours=12),
                reminder="Stir, push the fruit under.",
                if_slips=("36 h: mould may start on the cap",),
            ),
        )
    )


def test_a_due_stir_is_told_once():
    (notice,) = due_now(stir(), ())
    assert notice.title == "Hedge damson: stir and push the fruit under"
    assert notice.body == "Stir, push the fruit under."
    assert not notice.late
    assert due_now(stir(), {notice.key}) == ()


def test_nothing_is_told_before_its_hour():
    assert due_now(stir(likely=NOW + timedelta(minutes=1)), ()) == ()


def test_a_done_held_or_skipped_step_is_never_told():
    for state in ("done", "held", "skipped", "expected", "later"):
        assert due_now(stir(state), ()) == ()


def test_a_step_whose_hour_does_not_matter_waits_in_the_window():
    steps = (step("second-rack", "Second racking", "due", likely=DUE, earliest=DUE, latest=DUE),)
    assert due_now(outlook(steps=steps), ()) == ()


def test_three_missed_days_are_one_line_that_says_how_late():
    (notice,) = due_now(stir("missed", likely=NOW - timedelta(days=3, hours=1)), ())
    assert notice.late
    assert notice.body == (
        "3 days late. Stir, push the fruit under. If it slips 36 h: mould may start on the cap."
    )


def test_an_undone_chore_is_told_again_a_day_later_and_only_once_that_day():
    first = NOW - timedelta(hours=23)
    (early,) = due_now(stir(likely=first), ())
    same = outlook(at=NOW + timedelta(minutes=50), steps=stir(likely=first).steps)
    assert due_now(same, {early.key}) == ()
    next_day = outlook(at=NOW + timedelta(hours=2), steps=stir("missed", likely=first).steps)
    (again,) = due_now(next_day, {early.key})
    assert again.key != early.key
    assert again.due == first + timedelta(days=1)


def test_a_stir_logged_in_between_makes_a_new_due_time():
    (first,) = due_now(stir(), ())
    later = NOW + timedelta(days=1)
    (second,) = due_now(outlook(at=later, steps=stir(likely=later).steps), {first.key})
    assert second.due == later


def test_stir_and_reading_are_two_notices():
    both = (
        *stir().steps,
        step("read-gravity", "Read the gravity", "due", likely=DUE, earliest=DUE, latest=DUE),
    )
    told = due_now(outlook(steps=both), ())
    assert [notice.step for notice in told] == ["stir", "read-gravity"]
