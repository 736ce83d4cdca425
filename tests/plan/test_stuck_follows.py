"""What a standstill does to the steps and the curve after it, and a second standstill."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, at, damson, planned, read, seen, step, ticked, waiting
from tests.plan.stuck_batch import AGAIN, DRY, FALLING, GOING, IN_VAIN, KEYS, STUCK, TOLD
from winebench.output.calendar import calendar_ics
from winebench.plan.gravity_forecast import forecaster
from winebench.plan.work_out import outlook

HELD = ("transfer", "second-rack", "stabilise", "bottle")


def test_rack_stabilise_and_bottle_are_held_until_it_moves():
    for name, log in TOLD.items():
        found = seen(damson(*log), (log[-1].at + timedelta(hours=1)).isoformat())
        is_stuck = name not in ("going", "falling", "dry")
        for key in HELD[1:]:
            stuck_words = [text for text in waiting(step(found, key)) if "falls again" in text]
            assert bool(stuck_words) == is_stuck, (name, key)
            if is_stuck:
                assert step(found, key).override != "free"
    in_pail = tuple(e for e in STUCK if not e.id.startswith(("transfer", "lift-fruit")))
    rack = planned(damson(*in_pail), "2026-10-18T19:00", "transfer")
    assert any("falls again" in text for text in waiting(rack))
    racked = (*STUCK, ticked("second-rack", "2026-10-18T18:30"))
    third = planned(damson(*racked), "2026-11-20T19:00", "third-rack")
    assert [text for text in waiting(third) if "falls again" in text] == [
        "a gravity that falls again (unmoved at 1.021 for 4 days)"
    ]


AFTER = ("second-rack", "third-rack", "degas", "declare-stable", "stabilise", "bottle", "upright",
         "lie-down", "first-taste", "drink-by")  # fmt: skip


def test_no_step_after_a_standstill_has_a_date_until_the_ferment_goes_on():
    found = outlook(damson(*STUCK), at("2026-10-18T19:00"))
    for key in AFTER:
        one = step(found, key)
        assert (one.state, one.likely, one.basis) == ("held", None, "none"), key
        assert waiting(one)[0] == "a gravity that falls again (unmoved at 1.021 for 4 days)"
        assert one.when == "no date until the ferment goes on"
        assert "since Wednesday 14 October" in one.reason
    events = calendar_ics(damson(*STUCK), found).decode()
    assert "Hedge damson: Second racking" not in events
    assert "Hedge damson: Stuck? Doubt the reading" in events
    assert "Hedge damson: Bottle" not in events
    assert not [one for one in found.today if one.step in AFTER]


def test_a_standstill_above_half_of_the_sugar_still_asks_for_the_second_nutrient():
    # A third is gone below 1.057, half below 1.040; 1.050 stands since 6 October.
    still = tuple(read("1.050", f"2026-10-{day:02}T18:00") for day in (6, 10, 12))
    found = seen(damson(*PITCHED, *still), "2026-10-12T19:00")
    assert found.stuck.state == "stuck"
    nutrient = step(found, "second-nitrogen")
    assert (nutrient.state, nutrient.earliest) == ("due", at("2026-10-06T18:00"))
    assert step(found, "transfer").state == "held"
    # The fruit is lifted on day 8 at the latest all the same.
    assert step(found, "lift-fruit").latest == at("2026-10-10T18:30")


def test_a_later_racking_that_had_a_date_by_the_clock_loses_it_too():
    racked = (*STUCK, ticked("second-rack", "2026-10-18T18:30"))
    for key in ("third-rack", "degas", "fine"):
        one = planned(damson(*racked), "2026-10-18T19:00", key)
        assert (one.state, one.likely) == ("held", None), key


def test_the_dates_come_back_once_it_falls_again():
    found = outlook(damson(*FALLING), at("2026-10-30T19:00"))
    assert all(step(found, key).likely is not None for key in AFTER)
    # In glass on 9 October at 19:00: 28 wall days on are 6 November at 19:00.
    assert step(found, "second-rack").earliest == at("2026-11-06T19:00")


def test_the_curve_stays_where_it_stands_and_its_fan_holds_the_way_on():
    found = outlook(damson(*STUCK), at("2026-10-18T19:00")).forecast
    coming = [n for n, time in enumerate(found.times) if time >= at("2026-10-18T18:00")]
    # 1.022 at 14 C is 1.0207 (seven tenths of a point for the cold and the alcohol).
    assert {round(found.middle[n], 3) for n in coming} == {1.021}
    assert all(found.low[n] <= found.middle[n] <= found.high[n] for n in coming)
    assert found.low[coming[-1]] < 1.000
    assert "the curve stays where it stands" in found.sentence
    going = outlook(damson(*GOING), at("2026-10-14T19:00")).forecast
    assert going.middle[-1] < 1.005


def test_what_only_may_stop_keeps_dates_that_say_if_it_goes_on():
    project = damson(*FALLING)
    doubted = forecaster_saying("may be stuck")
    found = outlook(project, at("2026-10-30T19:00"), doubted)
    rack = step(found, "second-rack")
    assert rack.likely is not None
    assert rack.when.endswith(", if it goes on")
    assert "Only if the ferment goes on" in rack.reason
    assert "the dates hold only if it goes on" in found.forecast.sentence
    sure = outlook(project, at("2026-10-30T19:00"), forecaster_saying("fermenting"))
    assert step(sure, "second-rack").likely == rack.likely
    assert "if it goes on" not in step(sure, "second-rack").when


def forecaster_saying(state):
    """Return the program's own forecaster, with its verdict replaced."""
    return lambda *asked: replace(forecaster(*asked), state=state)


def test_a_lone_rise_neither_ends_nor_starts_a_standstill():
    fizzy = (*STUCK, read("1.026", "2026-10-19T18:00", "14 °C"))
    assert seen(damson(*fizzy), "2026-10-19T19:00").stuck.state == "stuck"
    back = (*fizzy, read("1.022", "2026-10-20T18:00", "14 °C"))
    found = seen(damson(*back), "2026-10-20T19:00").stuck
    assert (found.state, found.since) == ("stuck", at("2026-10-14T18:00"))
    slip = (*DRY, read("1.016", "2026-11-25T18:00", "21 °C"))
    assert seen(damson(*slip), "2026-11-25T19:00").stuck is None


# --- a second standstill ----------------------------------------------------------------------


def test_a_second_standstill_asks_for_its_steps_again_and_keeps_the_done_ones():
    # Pitched back on 26 October; 1.010 on 5 and 9 November are four days: known on the 9th.
    found = seen(damson(*AGAIN), "2026-11-09T19:00")
    doubt, warm = step(found, "doubt-reading"), step(found, "warm-and-rouse")
    assert (doubt.state, doubt.earliest, doubt.latest) == (
        "due", at("2026-11-09T18:00"), at("2026-11-19T18:00"),
    )  # fmt: skip
    assert (warm.state, warm.earliest) == ("expected", at("2026-11-09T18:00"))
    assert waiting(step(found, "restart"))[0] == "a starter of fresh yeast"
    for key, done in (
        ("warm-and-rouse", "2026-10-19T19:00"),
        ("fresh-starter", "2026-10-23T10:00"),
        ("restart", "2026-10-26T21:00"),
    ):
        before = step(found, f"{key}:1")
        assert (before.state, before.done_at) == ("done", at(done))
        assert before.name.startswith("Earlier: ")
    # Ticked in this round, it is done in this round.
    roused = (*AGAIN, ticked("warm-and-rouse", "2026-11-09T20:00"))
    found = seen(damson(*roused), "2026-11-09T21:00")
    assert step(found, "warm-and-rouse").done_at == at("2026-11-09T20:00")
    assert step(found, "warm-and-rouse:1").done_at == at("2026-10-19T19:00")
    # Three days on from there.
    assert step(found, "fresh-starter").earliest == at("2026-11-12T20:00")


def test_a_starter_has_a_week_before_the_next_round():
    # Pitched back on 26 October at 21:00, read on 2 November at 18:00: not yet seven days.
    soon = (*IN_VAIN[:-1], read("1.022", "2026-11-02T18:00", "21 °C", degassed=True))
    found = seen(damson(*soon), "2026-11-02T19:00")
    assert step(found, "restart").state == "done"
    found = seen(damson(*IN_VAIN), "2026-11-03T19:00")
    warm = step(found, "warm-and-rouse")
    assert (warm.state, warm.earliest, warm.latest) == (
        "due", at("2026-11-03T18:00"), at("2026-11-13T18:00"),
    )  # fmt: skip
    assert step(found, "restart:1").done_at == at("2026-10-26T21:00")
    # The restart was tried a week ago all the same; four weeks from 14 October are 11 November.
    sweet = step(found, "accept-sweet")
    assert sweet.earliest == at("2026-11-11T18:00")
    assert waiting(sweet) == ["28 days unmoved (20 so far)"]


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
            # Done in this standstill, or in an earlier one: then it is asked for anew.
            done = [each for each in found.steps if each.key.partition(":")[0] == key]
            assert ticks[key] in [each.done_at for each in done]
            assert all(each.likely == each.done_at for each in done if each.state == "done")
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


def test_the_next_reading_of_a_standstill_expects_no_fall():
    found = seen(damson(*STUCK), "2026-10-18T19:00")
    assert "It stands still; I expect the same" in step(found, "read-gravity").reminder
    assert "I expect about" not in step(found, "read-gravity").reminder
