"""From a standstill to a wine that falls again, or is left sweet. Common practice, worked by hand:
warm to 20-23 C, rouse, wait three days; then a starter doubled with the wine over one to four days;
nothing is put in dry, and a wine left sweet is stabilised late."""

from datetime import timedelta

from tests.plan.damson import (
    PITCHED,
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
from tests.plan.stuck_batch import (
    DOUBTED,
    DRY,
    FALLING,
    FED,
    GOING,
    KEYS,
    PITCHED_BACK,
    ROUSED,
    STARTER,
    STUCK,
    UNMOVED,
    weak,
)
from winebench.plan.label import sweetness
from winebench.plan.work_out import outlook


def test_while_it_moves_there_is_no_step_of_a_restart():
    for log, now in ((PITCHED, "2026-10-03T09:00"), (GOING, "2026-10-14T19:00")):
        found = seen(damson(*log), now)
        assert all(step(found, key).state == "skipped" for key in KEYS)


def test_first_the_reading_is_doubted():
    found = seen(damson(*STUCK), "2026-10-18T19:00")
    assert next(item.step for item in found.today) == "doubt-reading"  # before every chore
    doubt = step(found, "doubt-reading")
    assert (doubt.state, doubt.override, doubt.basis) == ("due", "free", "reading")
    # Known with the reading of the 18th; ten days later spoilage may take the sugar.
    assert (doubt.earliest, doubt.latest) == (at("2026-10-18T18:00"), at("2026-10-28T18:00"))
    warm = step(found, "warm-and-rouse")
    assert (warm.state, warm.override) == ("expected", "reason")
    assert waiting(warm) == ["the reading doubted first: gas out, warmth noted"]
    # A reading with its gas out and its warmth noted is that doubt answered.
    after = seen(damson(*DOUBTED), "2026-10-19T18:30")
    assert step(after, "doubt-reading").state == "skipped"
    assert step(after, "warm-and-rouse").state == "due"
    assert (
        "It stood at 14 °C, too cold: warm it to 20–23 °C" in step(after, "warm-and-rouse").reminder
    )


def test_more_equal_readings_do_not_move_the_day_it_was_known():
    warm = planned(damson(*DOUBTED), "2026-10-19T18:30", "warm-and-rouse")
    assert (warm.earliest, warm.latest) == (at("2026-10-18T18:00"), at("2026-10-28T18:00"))


def test_three_days_warm_come_before_the_starter():
    wait = planned(damson(*ROUSED), "2026-10-20T09:00", "wait-and-read")
    assert (wait.state, wait.slip_class) == ("held", "fixed")
    # Warmed on the 19th at 19:00: not before the 22nd at 19:00, by the 24th.
    assert (wait.earliest, wait.latest) == (at("2026-10-22T19:00"), at("2026-10-24T19:00"))
    early = (*ROUSED, read("1.022", "2026-10-21T20:00", "21 °C"))
    starter = planned(damson(*early), "2026-10-21T21:00", "fresh-starter")
    assert starter.earliest == at("2026-10-22T19:00")
    assert waiting(starter) == [
        "3 days since it was warmed and roused",
        "a reading since then that has not moved",
    ]


def test_the_starter_is_due_once_a_reading_shows_that_warmth_was_not_enough():
    found = seen(damson(*UNMOVED), "2026-10-22T20:30")
    assert step(found, "wait-and-read").state == "skipped"
    starter = step(found, "fresh-starter")
    assert (starter.state, starter.override) == ("due", "free")
    assert starter.likely == at("2026-10-22T20:00")
    # 10 times 5 g of water, and 100 mL each of water and wine, make the quarter litre.
    assert "50 mL of water at 35–40 °C" in starter.reminder
    assert "100 mL of the wine" in starter.reminder
    assert "never dry yeast into 10 %" in starter.reminder
    assert "not into the wine" in starter.reminder


def test_a_yeast_at_its_limit_is_no_starter():
    starter = planned(weak(*UNMOVED), "2026-10-22T20:30", "fresh-starter")
    assert waiting(starter) == ["a yeast that stands more than the 9.2 % vol in it (yours: 10)"]
    assert starter.override == "reason"


def test_the_starter_is_doubled_three_times_for_nineteen_litres():
    # A tenth of 19 L is 1.9 L: 0.25, 0.5, 1, 2 L, three doses.
    feed = planned(damson(*STARTER), "2026-10-23T12:00", "feed-starter")
    assert feed.reason.startswith("Dose 1 of 3")
    assert feed.reminder.endswith("8 fl oz (0.25 L) to make 17 fl oz (0.5 L).")
    # Made on the 23rd at 10:00: 12, 24 and 36 hours.
    assert (feed.earliest, feed.likely, feed.latest) == (
        at("2026-10-23T22:00"), at("2026-10-24T10:00"), at("2026-10-24T22:00"),
    )  # fmt: skip
    assert [time.day for time in feed.repeat_times] == [24, 25, 26]
    assert waiting(feed) == ["12 hours to foam again"]
    third = planned(damson(*FED[:-1]), "2026-10-25T23:00", "feed-starter")
    assert third.reminder.endswith("1.1 qt (1 L) to make 2.1 qt (2 L).")
    assert (third.state, third.likely) == ("expected", at("2026-10-26T10:00"))


def test_the_starter_goes_back_when_it_was_fed():
    short = planned(damson(*FED[:-1]), "2026-10-25T12:00", "restart")
    assert "fed 3 times with the wine (2 so far)" in waiting(short)
    # One dose to come, at 22:00 at the soonest, and 12 h for its foam; usually a day from dose to
    # dose; four days after the starter at the latest.
    assert (short.earliest, short.likely, short.latest) == (
        at("2026-10-26T10:00"), at("2026-10-26T10:00"), at("2026-10-27T10:00"),
    )  # fmt: skip
    found = seen(damson(*FED), "2026-10-26T21:30")
    assert step(found, "feed-starter").state == "done"
    back = step(found, "restart")
    assert (back.state, back.override, back.earliest) == ("due", "free", at("2026-10-26T21:00"))
    assert "2.1 qt (2 L) of foaming starter" in back.reminder


def test_once_it_falls_the_steps_not_done_go_and_the_done_ones_stay():
    for log in (FALLING, DRY):
        found = seen(damson(*log), (log[-1].at + timedelta(hours=1)).isoformat())
        assert found.stuck is None
        states = {key: step(found, key).state for key in KEYS}
        assert states == {
            "doubt-reading": "skipped", "warm-and-rouse": "done", "wait-and-read": "skipped",
            "fresh-starter": "done", "feed-starter": "done", "restart": "done",
            "accept-sweet": "skipped",
        }  # fmt: skip
        assert step(found, "restart").done_at == at("2026-10-26T21:00")
        assert step(found, "feed-starter").done_at == at("2026-10-26T09:00")


def test_the_restart_is_a_repitch_to_the_forecast():
    found = outlook(damson(*DRY), at("2026-11-24T19:00"))
    assert found.forecast.state == "dry"
    # Racked to glass on 9 October, under 1.000, and no point down since the 20th of November.
    assert (step(found, "second-rack").state, waiting(step(found, "second-rack"))) == ("due", [])


# --- sweet and strong -------------------------------------------------------------------------

LEFT = (*STUCK, read("1.022", "2026-11-12T18:00", "20 °C"))


def test_it_is_left_sweet_only_after_four_weeks_and_a_restart_or_the_yeast_s_limit():
    sweet = planned(damson(*PITCHED_BACK), "2026-10-27T09:00", "accept-sweet")
    # Four weeks from 14 October are 11 November; a week after the restart is less.
    assert sweet.earliest == at("2026-11-11T18:00")
    assert len(waiting(sweet)) == 2
    untried = planned(damson(*LEFT), "2026-11-12T19:00", "accept-sweet")
    assert waiting(untried) == ["the yeast at its limit, or a starter pitched back a week ago"]
    tired = planned(weak(*LEFT), "2026-11-12T19:00", "accept-sweet")
    assert (tired.state, tired.override) == ("due", "free")


def test_left_sweet_it_is_stabilised_late_and_bottled_with_sorbate_only():
    log = (*LEFT, ticked("accept-sweet", "2026-11-12T19:00"))
    found = seen(weak(*log), "2026-11-13T09:00")
    assert found.stuck is None
    # Racked to glass on 9 October: the 28 days are over, and no reading below 1.000 is waited for.
    assert "a reading below 1.000 within three days" not in waiting(step(found, "second-rack"))
    stable = step(found, "declare-stable")
    # Fourteen more days of one gravity after it was left.
    assert stable.earliest >= at("2026-11-26T19:00")
    assert "a gravity at the 1.022 that it was left sweet at" in waiting(stable)
    assert step(found, "sweeten").state == "skipped"
    rested = (
        *log,
        ticked("second-rack", "2026-11-14T10:00"),
        *(read("1.022", f"2026-{day}T18:00", "20 °C", degassed=True, clear=4)
          for day in ("11-15", "11-22", "11-30")),
        ticked("declare-stable", "2026-11-30T19:00"),
    )  # fmt: skip
    late = seen(weak(*rested), "2026-12-01T09:00")
    # Nothing holds it but what its tick notes: the pH and the sulfite (common practice).
    stabilise = step(late, "stabilise")
    assert all(one.notes for one in stabilise.conditions if not one.met)
    assert "sorbate in, since it is sweet" in waiting(step(late, "bottle"))
    assert sweetness(weak(*rested), late) != "dry"
    done = (*rested, stabilised("2026-12-01T10:00", sorbate="4 g"))
    bottle = planned(weak(*done), "2026-12-02T11:00", "bottle")
    assert bottle.override == "free"


def test_a_wine_left_sweet_that_wakes_is_held_again():
    log = (*LEFT, ticked("accept-sweet", "2026-11-12T19:00"), read("1.018", "2026-11-20T18:00"))
    found = seen(weak(*log), "2026-11-20T19:00")
    assert step(found, "accept-sweet").state == "done"
    assert "a reading below 1.000 within three days" in waiting(step(found, "second-rack"))
    assert step(found, "bottle").override == "never"
