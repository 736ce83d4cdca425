"""What was ticked before its time hastens nothing, and what is not needed is not ungated.

All dates by hand from the calendar, from the waits of common practice named beside the rules.
"""

from datetime import timedelta

import msgspec
import pytest

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    PITCHED,
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
from tests.plan.stuck_batch import STARTER
from winebench.model.project import Project
from winebench.model.recipe import FruitLine, Vessel
from winebench.plan.outlook import Outlook
from winebench.plan.steps.noting import needs_reason
from winebench.plan.work_out import outlook
from winebench.units import Mass, Temperature, Volume

WORKING = (*PITCHED, read("1.066", "2026-10-05T18:30"))
NOW = "2026-10-05T20:00"
SAFE = (*STABLE, stabilised("2026-11-22T10:00+01:00"))
AFTER_BOTTLING = ("upright", "lie-down", "first-taste", "drink-by")


def early(key: str, when: str = "2026-10-05T19:00"):
    return msgspec.structs.replace(ticked(key, when), override="so")


def sweet(*log) -> Project:
    plain = damson(*log)
    return damson(*log, recipe=msgspec.structs.replace(plain.recipe, style="dark-medium"))


@pytest.mark.parametrize("project", [damson, sweet])
@pytest.mark.parametrize("keys", [("stabilise",), ("hold",), ("stabilise", "hold"),
                                  ("declare-stable", "stabilise")])  # fmt: skip
def test_no_date_of_the_bottles_lies_before_the_wine_can_be_stable(project, keys) -> None:
    found = seen(project(*WORKING, *(early(key) for key in keys)), NOW)
    stable, bottle = step(found, "declare-stable"), step(found, "bottle")
    assert bottle.override == "never"
    assert bottle.earliest >= stable.earliest
    assert bottle.likely >= stable.likely
    assert step(found, "upright").earliest == bottle.earliest + timedelta(days=3)
    if project is sweet:
        # Sweetened a day after the stabilising, which the early tick did not bring on; a week on.
        sweeten = step(found, "sweeten")
        assert sweeten.earliest >= stable.earliest
        assert bottle.earliest >= sweeten.earliest + timedelta(days=7)


def test_in_a_cold_room_an_early_stabilising_brings_no_date() -> None:
    log = (*NEARLY_STABLE, early("stabilise", "2026-11-10T10:00+01:00"))
    cold = damson(*log, room=Temperature("12 °C"))
    for key in ("bottle", *AFTER_BOTTLING):
        assert planned(cold, "2026-11-16T10:00+01:00", key).likely is None, key


def test_a_rise_that_nobody_ticked_waits_for_a_week_of_rest() -> None:
    # 0.998 on Saturday 28 November at 12:00: seven days on are 5 December at 12:00.
    risen = (*SAFE, read("0.998", "2026-11-28T12:00+01:00"))
    bottle = planned(damson(*risen), "2026-11-28T13:00+01:00", "bottle")
    assert bottle.override == "never"
    assert bottle.earliest == at("2026-12-05T12:00+01:00")
    assert bottle.likely >= bottle.earliest
    assert bottle.reason.startswith("The gravity has risen since it was found stable: tick")


@pytest.mark.parametrize("key", AFTER_BOTTLING)
def test_nothing_is_done_to_bottles_before_the_bottling_whatever_the_reason(key) -> None:
    for log in (WORKING, IN_GLASS, SAFE):
        one = planned(damson(*log), "2026-11-23T10:00+01:00", key)
        assert one.override == "never"
        assert waiting(one)[0] == "the wine in bottles"
    bottled = (*SAFE, ticked("bottle", "2026-11-30T11:00+01:00"))
    assert planned(damson(*bottled), "2026-12-01T10:00+01:00", key).override != "never"


def test_a_reason_for_the_cold_does_not_open_a_wine_that_sugar_may_be_left_in() -> None:
    # 0.993 in samples warmed to be read, and 12 °C in the room: its end is 0.990 to 0.995, so that
    # up to 7 g/L of sugar may be left ((0.993 - 0.990) / (1.091 - 0.990) of the must's 234 g/L),
    # which makes 2.4 bar.
    declared = msgspec.structs.replace(STABLE[-1], override="it is summer soon")
    cold = damson(*STABLE[:-1], declared, room=Temperature("12 °C"))
    now = "2026-11-22T10:00+01:00"
    assert planned(cold, now, "declare-stable").state == "held"
    bottle = planned(cold, now, "bottle")
    assert bottle.override == "never"
    assert "up to 7 g/L of sugar could ferment on" in bottle.reason
    # A test for sugar shows what the cold may hide.
    tested = ticked("declare-stable", "2026-11-21T19:00+01:00", sugar="1 g/L")
    tested = msgspec.structs.replace(tested, override="tested for sugar")
    done = msgspec.structs.replace(cold, log=(*cold.log[:-1], tested))
    assert planned(done, now, "declare-stable").state == "done"
    assert planned(done, now, "stabilise").likely is not None


def test_sorbate_is_held_in_a_softened_dry_wine_and_softening_in_a_sorbated_one() -> None:
    soft = (*STABLE, ticked("malolactic", "2026-11-01T10:00+01:00", choice="yes"))
    one = planned(damson(*soft), "2026-11-22T09:00+01:00", "stabilise")
    dry = stabilised("2026-11-22T10:00+01:00").records
    assert not needs_reason(one, dry)
    with_it = stabilised("2026-11-22T10:00+01:00", sorbate="2.2").records
    assert needs_reason(one, with_it, damson(*soft))
    sorbated = (*STABLE, stabilised("2026-11-22T10:00+01:00", sorbate="2.2"))
    back = planned(damson(*sorbated), "2026-11-22T11:00+01:00", "malolactic")
    assert back.override == "reason"
    assert "geraniums" in waiting(back)[-1]
    done = (*sorbated, read("0.993", "2026-11-22T10:30+01:00"))
    dry = planned(damson(*done), "2026-11-22T11:00+01:00", "malolactic")
    for said, wanted in (("yes", True), ("", True), ("no", False), ("No, sulfited", False)):
        assert needs_reason(dry, ticked("malolactic", NOW, choice=said).records) is wanted, said
    both = (*sorbated, ticked("malolactic", "2026-11-22T12:00+01:00", choice="yes"))
    told = [c.key for c in seen(damson(*both), "2026-11-22T13:00+01:00").cautions]
    assert "sorbate-and-malolactic" in told


def test_what_is_not_needed_keeps_its_gate() -> None:
    clear = (*NEARLY_STABLE, read("0.993", "2026-11-21T18:00+01:00", degassed=True, clear=4))
    fine = planned(damson(*clear), "2026-11-22T10:00+01:00", "fine")
    assert fine.when == "not needed"
    assert needs_reason(fine, ())
    noted = ticked("fine", "2026-11-22T10:00+01:00", trial="2 mL in 100", what="egg white").records
    assert not needs_reason(fine, noted)
    # 1.042: half of the way from 1.091 to its end is 1.040; 1.034 lies beyond it.
    late = (*PITCHED, read("1.034", "2026-10-07T18:30"))
    one = planned(damson(*late), "2026-10-07T19:00", "first-nitrogen")
    assert (one.state, one.override) == ("skipped", "reason")
    assert waiting(one) == ["more than half of the sugar left"]


@pytest.mark.parametrize("key", ["pitch", "transfer", "second-rack", "declare-stable", "bottle"])
def test_ticking_a_done_step_anew_takes_a_reason_since_its_day_would_move(key) -> None:
    log = (*SAFE, ticked("bottle", "2026-11-30T11:00+01:00"))
    one = planned(damson(*log), "2026-12-15T10:00+01:00", key)
    assert (one.state, one.override) == ("done", "reason")
    assert "ticked anew" in one.conditions[0].text
    assert planned(damson(*log), "2026-12-01T10:00+01:00", "stabilise").override == "free"


def test_in_glass_it_may_be_topped_up_on_any_day() -> None:
    topped = (*IN_GLASS, ticked("top-up", "2026-10-09T20:00"))
    one = planned(damson(*topped), "2026-10-20T10:00", "top-up")
    assert (one.state, one.override, waiting(one)) == ("expected", "free", [])
    assert planned(damson(*WORKING), NOW, "top-up").override == "reason"


def test_a_missed_topping_up_stays_one_line_until_it_is_ticked() -> None:
    # Racked on 9 October at 19:00, to be topped up within a day: 26 days late on 5 November.
    def line(found: Outlook):
        return next((one for one in found.today if one.step == "top-up"), None)

    late = line(seen(damson(*IN_GLASS), "2026-11-05T19:00+01:00"))
    assert late.late
    assert late.detail.startswith("4 weeks late")  # 26 days
    one = planned(damson(*IN_GLASS), "2026-11-05T19:00+01:00", "top-up")
    assert "It still matters" in one.reason
    done = (*IN_GLASS, ticked("top-up", "2026-10-20T10:00"))
    assert line(seen(damson(*done), "2026-11-05T19:00+01:00")) is None


def test_a_jug_that_was_racked_full_is_not_asked_to_be_topped_up() -> None:
    # 5 gal US are 18.9 L: 18.5 L stand two or three centimetres under the bung (common practice).
    jug = Vessel(id="jug", name="jug", role="secondary", holds=Volume("5 gal US"), glass=True)
    make = msgspec.structs.replace(damson().make, vessels=(jug,))
    for noted, state in (("18.5", "expected"), ("17", "missed"), ("", "missed")):
        racked = ticked("transfer", "2026-10-09T19:00", litres=noted)
        log = (*IN_GLASS[:-1], racked)
        one = planned(damson(*log, make=make), "2026-10-20T10:00", "top-up")
        assert (noted, one.state) == (noted, state)


def test_topping_up_is_not_asked_for_beside_a_racking_that_is_due() -> None:
    still = (read("0.996", f"2026-11-{day}T18:00+01:00") for day in (16, 20))
    log = (*IN_GLASS, ticked("top-up", "2026-10-09T20:00"), *still)
    found = seen(damson(*log), "2026-11-20T19:00+01:00")
    assert step(found, "second-rack").state == "due"
    assert (step(found, "top-up").state, step(found, "top-up").override) == ("expected", "free")
    racked = (*log, ticked("second-rack", "2026-11-20T20:00+01:00"))
    assert planned(damson(*racked), "2026-11-20T21:00+01:00", "top-up").state == "due"


def test_the_starter_goes_back_no_sooner_than_its_own_gates_allow() -> None:
    # One of three doses on 24 October at 10:00: the second at 22:00 at the soonest, the third on
    # the 25th at 10:00, and 12 h on it is 22:00.
    log = (*STARTER, ticked("feed-starter", "2026-10-24T10:00"))
    assert planned(damson(*log), "2026-10-24T12:00", "restart").earliest == at("2026-10-25T22:00")


def test_a_wine_left_sweet_is_not_asked_to_fall_below_1000_before_it_is_racked() -> None:
    log = (*IN_GLASS, read("1.022", "2026-10-14T18:00"), read("1.022", "2026-10-24T18:00"),
           read("1.022", "2026-11-12T18:00+01:00"),
           ticked("accept-sweet", "2026-11-12T19:00+01:00"))  # fmt: skip
    rack = planned(damson(*log), "2026-11-13T10:00+01:00", "second-rack")
    assert "1.000" not in f"{rack.reason} {rack.reminder} {rack.conditions[1].text}"
    assert "1.022" in rack.reason


def test_the_reading_that_starts_the_equal_days_anew_is_named() -> None:
    log = (*NEARLY_STABLE, read("0.993", "2026-11-21T18:00+01:00", "17 °C"),
           read("0.993", "2026-11-25T18:00+01:00"))  # fmt: skip
    one = planned(damson(*log), "2026-11-25T19:00+01:00", "declare-stable")
    assert waiting(one)[0] == (
        "three readings equal within a point over 14 days, counted anew after the 17 °C of 21 "
        "November: below 18 °C yeast may only rest (1 so far, over 0 days)"
    )


def test_the_label_of_a_dry_wine_is_final_once_it_is_stable() -> None:
    from winebench.plan.label import not_final

    now = "2026-11-22T11:00+01:00"
    assert not_final(damson(*SAFE), seen(damson(*SAFE), now)) == ""
    assert "still to be sweetened" in not_final(sweet(*SAFE), seen(sweet(*SAFE), now))


def test_looking_over_the_fruit_is_never_asked_for_before_the_batch_was_planned() -> None:
    # To be started at once: the day before it, when fruit is looked over, has passed already.
    fresh = FruitLine(id="fruit", fruit="damson", amount=Mass("9 kg"), form="fresh")
    plain = damson(start=at("2026-10-01T13:22"))
    lines = (fresh, *plain.recipe.lines[1:])
    batch = msgspec.structs.replace(
        plain, recipe=msgspec.structs.replace(plain.recipe, lines=lines)
    )
    one = planned(batch, "2026-10-01T13:22", "fruit-accepted")
    assert one.earliest == at("2026-10-01T13:22")
    assert one.when == "now"


@pytest.mark.parametrize("name", ["sorbate", "potassium-sorbate"])
def test_sulfite_and_sorbate_of_two_stabilisings_count_together(name) -> None:
    first = {"mg-per-l": "40", "ph": "3.4", name: "0.5 g"}
    second = {"mg-per-l": "0", name: "0.5 g"}
    log = (*STABLE, ticked("stabilise", "2026-11-22T10:00+01:00", **first))
    # 52 mg/L of sorbic acid at this strength, in 16.1 L, are 1.1 g of its salt (74.64 % of it), and
    # seven tenths of that are 0.8 g: once 0.5 g is too little, twice is enough.
    assert any("sorbate in" in words for words in _held(log))
    log = (*log, ticked("stabilise", "2026-11-22T11:00+01:00", **second))
    assert not any("sorbate in" in words or "sulfite known" in words for words in _held(log))


def _held(log) -> list[str]:
    return waiting(planned(sweet(*log), "2026-11-23T13:00+01:00", "bottle"))


def test_fruit_that_a_late_racking_waits_for_is_lifted_today() -> None:
    # Read once, at 1.045 on the second day, and by the forecast below 1.030 long before the sixth.
    project = damson(*PITCHED, read("1.045", "2026-10-04T18:30"))
    now = at("2026-10-08T13:00")
    found = outlook(project, now)
    crossing = next(one for one in found.forecast.crossings if one.below == 1.030)
    assert crossing.latest < now
    assert step(found, "lift-fruit").latest == at("2026-10-08T22:00")
