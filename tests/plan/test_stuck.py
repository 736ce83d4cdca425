"""Stuck and slow. Common practice, worked by hand: stuck is a point or less in four days, ten
points above the end; warm to 20-23 C, rouse, wait three days; then a starter doubled with the wine
over one to four days; nothing is put in dry, and a wine left sweet is stabilised late."""

from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import LINES, PITCHED, at, damson, planned, read, seen, step, ticked, waiting
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
    TOLD,
    UNMOVED,
)
from winebench.model.edits import changed
from winebench.model.log import Note
from winebench.model.recipe import Recipe, YeastLine
from winebench.plan.label import sweetness
from winebench.plan.work_out import outlook
from winebench.units import Amount, Gravity, Temperature

HELD = ("transfer", "second-rack", "stabilise", "bottle")


def clue(found, key):
    return next(one for one in found.stuck.clues if one.key == key)


def weak(*log, tolerance=10.0):
    """Return the batch with a yeast that stands no more than that."""
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=tolerance)
    lines = tuple(yeast if line.id == "yeast" else line for line in LINES)
    batch = damson(*log)
    return changed(batch, recipe=changed(batch.recipe, lines=lines))


# --- stuck, slow, neither ---------------------------------------------------------------------


def test_four_days_unmoved_are_stuck_and_three_are_not():
    # 1.022 on the 14th and the 18th at 18:00 are four days; on the 17th they are three.
    stands = (*GOING, read("1.022", "2026-10-17T18:00", "14 °C"))
    assert seen(damson(*stands), "2026-10-17T19:00").stuck.state == "slow"
    found = seen(damson(*STUCK), "2026-10-18T19:00").stuck
    assert (found.state, found.since) == ("stuck", at("2026-10-14T18:00"))
    # 14 C takes half a point off: 1.022 is 1.0214.
    assert found.sentence.startswith("Stuck: a point or less in 4 days, at 1.021 since Wednesday")


def test_what_falls_two_points_in_four_days_is_slow_not_stuck():
    falls = (*GOING, read("1.020", "2026-10-18T18:00", "14 °C"))
    found = seen(damson(*falls), "2026-10-18T19:00")
    assert found.stuck.state == "slow"
    assert found.stuck.sentence.startswith("Slow, not stuck: 2 points down in 4 days, at 1.019.")
    assert all(step(found, key).state == "skipped" for key in KEYS)
    assert {one.step for one in found.stuck.clues} == {"read-gravity"}


def test_a_ferment_that_falls_briskly_or_is_at_its_end_is_neither():
    assert seen(damson(*GOING), "2026-10-14T19:00").stuck is None
    assert seen(damson(*DRY), "2026-11-24T19:00").stuck is None
    near = (*PITCHED, read("1.066", "2026-10-05T18:30"), read("0.998", "2026-10-19T18:30"),
            read("0.998", "2026-10-24T18:30"))  # fmt: skip
    # 0.998 is less than ten points above the 0.989 at which this must should end.
    assert seen(damson(*near), "2026-10-24T19:00").stuck is None


def test_a_yeast_that_has_hardly_started_is_not_called_slow():
    lag = (*PITCHED, read("1.090", "2026-10-03T08:00"), read("1.090", "2026-10-05T10:00"))
    assert seen(damson(*lag), "2026-10-05T11:00").stuck is None


@pytest.mark.parametrize("log", [STUCK, FALLING])
def test_the_forecast_s_sentence_and_the_standstill_agree(log):
    found = outlook(damson(*log), log[-1].at + timedelta(hours=1))
    is_stuck = found.stuck is not None and found.stuck.state == "stuck"
    assert found.forecast.sentence.startswith("It is stuck") == is_stuck


# --- the clues --------------------------------------------------------------------------------


def test_doubts_come_first_and_causes_in_the_order_in_which_to_look():
    found = seen(damson(*STUCK), "2026-10-18T19:00").stuck
    assert [(one.key, one.step) for one in found.clues] == [
        ("instrument", "doubt-reading"),
        ("sample-warmth", "doubt-reading"),
        ("sample-gas", "doubt-reading"),
        ("extract", "doubt-reading"),
        ("floor-sugar", "doubt-reading"),
        ("warmth", "warm-and-rouse"),
        ("rousing", "warm-and-rouse"),
        ("nutrient", "warm-and-rouse"),
        ("strength", "warm-and-rouse"),
        ("sulfite", "warm-and-rouse"),
        ("ph", "warm-and-rouse"),
        ("volatile", "warm-and-rouse"),
    ]


def test_each_clue_says_what_the_log_says_of_it():
    found = seen(damson(*STUCK), "2026-10-18T19:00")
    says = {one.key: one.says for one in found.stuck.clues}
    assert says == {
        "instrument": "no", "sample-warmth": "no", "sample-gas": "no", "extract": "no",
        "floor-sugar": "no", "warmth": "yes", "rousing": "yes", "nutrient": "no",
        "strength": "no", "sulfite": "no", "ph": "not known", "volatile": "not known",
    }  # fmt: skip
    assert clue(found, "warmth").text.startswith("it stood at 14 °C, and this yeast wants 15 °C")
    # Racked to glass on Friday 9 October, and left alone since.
    assert "since Friday 9 October" in clue(found, "rousing").text


def test_a_reading_without_temperature_is_asked_about():
    bare = (*GOING, read("1.022", "2026-10-18T18:00", None))
    found = seen(damson(*bare), "2026-10-18T19:00")
    assert clue(found, "sample-warmth").says == "not known"
    assert "1.022 of today" in clue(found, "sample-warmth").text


def test_degrees_brix_in_a_ferment_look_like_a_refractometer():
    # 6.0 Brix by "hydrometer" is SG 1.0237.
    odd = read("1.022", "2026-10-18T18:00", "20 °C")
    odd = changed(odd, gravity=Gravity("5.6 °Brix"))
    found = seen(damson(*GOING, odd), "2026-10-18T19:00")
    assert found.stuck.state == "stuck"
    assert clue(found, "instrument").says == "yes"


def test_gas_can_only_explain_what_is_within_its_five_points():
    # 1.002 is 13 points above 0.989: five of gas would bring it under the ten.
    near = (*PITCHED, read("1.066", "2026-10-05T18:30"), read("1.002", "2026-10-19T18:30"),
            read("1.002", "2026-10-24T18:30"))  # fmt: skip
    found = seen(damson(*near), "2026-10-24T19:00")
    assert clue(found, "sample-gas").says == "not known"
    assert clue(found, "extract").says == "yes"
    flat = (*near[:-1], read("1.002", "2026-10-24T18:30", degassed=True))
    assert clue(seen(damson(*flat), "2026-10-24T19:00"), "sample-gas").says == "no"


def test_a_must_that_read_low_may_have_had_sugar_on_its_floor():
    low = tuple(
        changed(e, gravity=Gravity("1.080")) if e.id.startswith("1.091") else e for e in STUCK
    )
    assert clue(seen(damson(*low), "2026-10-18T19:00"), "floor-sugar").says == "yes"
    unread = tuple(e for e in STUCK if not e.id.startswith("1.091"))
    assert clue(seen(damson(*unread), "2026-10-18T19:00"), "floor-sugar").says == "not known"
    dry = damson(*STUCK, drop=("sugar",))
    assert clue(seen(dry, "2026-10-18T19:00"), "floor-sugar").says == "no"


def test_warmth_strength_nutrient_ph_and_vinegar_as_logged():
    hot = tuple(
        changed(e, temperature=Temperature("33 °C")) if e.id.startswith("1.066") else e
        for e in STUCK[:-2]
    )
    warm = (*hot, read("1.021", "2026-10-18T18:00", "21 °C", ph=2.9),
            Note(id="n", at=at("2026-10-18T18:10"), text="A whiff of vinegar"))  # fmt: skip
    warm = tuple(e for e in warm if e.id != ticked("second-nitrogen", "2026-10-05T19:00").id)
    found = seen(weak(*warm), "2026-10-18T19:00")
    assert clue(found, "warmth").says == "yes"
    assert "33 °C" in clue(found, "warmth").text
    assert clue(found, "nutrient").says == "yes"
    assert "to the starter" in clue(found, "nutrient").text
    # 1.091 to 1.021 is 131.25 x 0.070 = 9.2 % vol, within a percent of the yeast's 10.
    assert clue(found, "strength").says == "yes"
    assert clue(found, "ph").says == "yes"
    assert clue(found, "volatile").says == "yes"
    none = changed(weak(*warm[:-1]), log=(*warm[:-1], changed(warm[-1], text="no vinegar at all")))
    assert clue(seen(none, "2026-10-18T19:00"), "volatile").says == "no"


def test_sulfite_that_was_not_ticked_is_not_known():
    bare = tuple(e for e in STUCK if not e.id.startswith("sulfite-must"))
    assert clue(seen(damson(*bare), "2026-10-18T19:00"), "sulfite").says == "not known"
    # 9 tablets of 0.44 g: 9 x 0.44 x 0.576 g in about 19 L is 120 mg/L, over 75.
    lines = tuple(
        changed(line, amount=Amount("9 tablets")) if line.id == "sulfite" else line
        for line in LINES
    )
    much = changed(damson(*STUCK), recipe=Recipe(lines=lines, basis=damson().recipe.basis))
    assert clue(seen(much, "2026-10-18T19:00"), "sulfite").says == "yes"


# --- from the standstill to dry ---------------------------------------------------------------


def test_while_it_moves_there_is_no_step_of_a_restart():
    for log, now in ((PITCHED, "2026-10-03T09:00"), (GOING, "2026-10-14T19:00")):
        found = seen(damson(*log), now)
        assert all(step(found, key).state == "skipped" for key in KEYS)


def test_first_the_reading_is_doubted():
    found = seen(damson(*STUCK), "2026-10-18T19:00")
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
    assert feed.reminder.endswith("0.25 L to make 0.5 L.")
    # Made on the 23rd at 10:00: 12, 24 and 36 hours.
    assert (feed.earliest, feed.likely, feed.latest) == (
        at("2026-10-23T22:00"), at("2026-10-24T10:00"), at("2026-10-24T22:00"),
    )  # fmt: skip
    assert [time.day for time in feed.repeat_times] == [24, 25, 26]
    assert waiting(feed) == ["12 hours to foam again"]
    third = planned(damson(*FED[:-1]), "2026-10-25T23:00", "feed-starter")
    assert third.reminder.endswith("1 L to make 2 L.")
    assert (third.state, third.likely) == ("expected", at("2026-10-26T10:00"))


def test_the_starter_goes_back_when_it_was_fed():
    short = planned(damson(*FED[:-1]), "2026-10-25T12:00", "restart")
    assert "fed 3 times with the wine (2 so far)" in waiting(short)
    # One dose to come, and its foam: half a day, a day; four days after the starter at the latest.
    assert (short.earliest, short.likely, short.latest) == (
        at("2026-10-25T22:00"), at("2026-10-26T10:00"), at("2026-10-27T10:00"),
    )  # fmt: skip
    found = seen(damson(*FED), "2026-10-26T21:30")
    assert step(found, "feed-starter").state == "done"
    back = step(found, "restart")
    assert (back.state, back.override, back.earliest) == ("due", "free", at("2026-10-26T21:00"))
    assert "2 L of foaming starter" in back.reminder


def test_rack_stabilise_and_bottle_are_held_until_it_moves():
    for name, log in TOLD.items():
        found = seen(damson(*log), (log[-1].at + timedelta(hours=1)).isoformat())
        is_stuck = name not in ("going", "falling", "dry")
        for key in HELD[1:]:
            stuck_words = [text for text in waiting(step(found, key)) if "stuck" in text]
            assert bool(stuck_words) == is_stuck, (name, key)
            if is_stuck:
                assert step(found, key).override != "free"
    in_pail = tuple(e for e in STUCK if not e.id.startswith(("transfer", "lift-fruit")))
    rack = planned(damson(*in_pail), "2026-10-18T19:00", "transfer")
    assert any("stuck" in text for text in waiting(rack))
    racked = (*STUCK, ticked("second-rack", "2026-10-18T18:30"))
    third = planned(damson(*racked), "2026-11-20T19:00", "third-rack")
    assert [text for text in waiting(third) if "stuck" in text] == [
        "the stuck ferment is seen to: 1.021 for 4 days"
    ]


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
    assert "at the 1.022 that it was left sweet at" in waiting(stable)
    assert step(found, "sweeten").state == "skipped"
    rested = (
        *log,
        ticked("second-rack", "2026-11-14T10:00"),
        *(read("1.022", f"2026-{day}T18:00", "20 °C", degassed=True, clear=4)
          for day in ("11-15", "11-22", "11-30")),
        ticked("declare-stable", "2026-11-30T19:00"),
    )  # fmt: skip
    late = seen(weak(*rested), "2026-12-01T09:00")
    assert waiting(step(late, "stabilise")) == []
    assert "sorbate in, since it is sweet" in waiting(step(late, "bottle"))
    assert sweetness(weak(*rested), late) != "dry"
    done = (*rested, ticked("stabilise", "2026-12-01T10:00", sorbate="4 g"))
    bottle = planned(weak(*done), "2026-12-02T11:00", "bottle")
    assert bottle.override == "free"


def test_a_wine_left_sweet_that_wakes_is_held_again():
    log = (*LEFT, ticked("accept-sweet", "2026-11-12T19:00"), read("1.018", "2026-11-20T18:00"))
    found = seen(weak(*log), "2026-11-20T19:00")
    assert step(found, "accept-sweet").state == "done"
    assert "a reading below 1.000 within three days" in waiting(step(found, "second-rack"))
    assert step(found, "bottle").override == "never"


# --- properties -------------------------------------------------------------------------------

_LOGS = st.sampled_from(list(TOLD.values()))


@st.composite
def _stuck_batches(draw):
    log = draw(_LOGS)
    more = tuple(
        read(
            f"{draw(st.sampled_from((1.016, 1.019, 1.021, 1.022, 1.0225))):.4f}",
            (log[-1].at + timedelta(hours=draw(st.integers(1, 700)))).isoformat(),
            draw(st.sampled_from((None, "14 °C", "20 °C"))),
            degassed=draw(st.booleans()),
        )
        for _ in range(draw(st.integers(0, 3)))
    )
    taken = draw(st.sets(st.integers(len(PITCHED), max(len(log) - 1, len(PITCHED))), max_size=3))
    left = tuple(e for place, e in enumerate(log) if place not in taken)
    unique = {entry.id: entry for entry in (*left, *more)}
    return damson(*sorted(unique.values(), key=lambda entry: entry.at))


@settings(max_examples=150, deadline=None)
@given(_stuck_batches(), st.integers(0, 1000))
def test_no_step_of_a_restart_comes_before_its_gate_and_done_ones_never_move(project, hours):
    now = project.log[-1].at + timedelta(hours=hours)
    found = seen(project, now.isoformat())
    ticks = {action.step: action.at for action in project.actions}
    is_stuck = found.stuck is not None and found.stuck.state == "stuck"
    for key in KEYS:
        one = step(found, key)
        if key in ticks and not one.repeats:
            assert (one.state, one.done_at, one.likely) == ("done", ticks[key], ticks[key])
            continue
        if not is_stuck and one.state != "done":
            assert one.state == "skipped"
        if one.earliest is None or one.state == "done":
            continue
        assert one.earliest <= one.likely <= one.latest
        assert one.earliest >= found.stuck.since + timedelta(days=4)
        if key in ("wait-and-read", "fresh-starter") and "warm-and-rouse" in ticks:
            assert one.earliest >= ticks["warm-and-rouse"] + timedelta(days=3)
        if key in ("feed-starter", "restart") and "fresh-starter" in ticks:
            assert one.earliest >= ticks["fresh-starter"] + timedelta(hours=12)
        if key == "accept-sweet":
            assert one.earliest >= found.stuck.since + timedelta(days=28)
        if one.override == "free":
            assert now >= one.earliest
    if is_stuck:
        held = [step(found, key) for key in HELD if key not in ticks]
        assert all(one.override != "free" for one in held)
