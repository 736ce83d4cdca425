"""The outlook as a whole: the same for the same input, and never against a gate."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import (
    IN_GLASS,
    PITCHED,
    STABLE,
    at,
    damson,
    no_forecast,
    planned,
    read,
    seen,
    step,
    ticked,
)
from winebench.model.edits import Change, DropEntry, PutEntry, changed
from winebench.model.log import Away
from winebench.model.project import Project
from winebench.plan.days import Clock
from winebench.plan.outlook import Outlook
from winebench.plan.steps import rules
from winebench.plan.work_out import outlook
from winebench.units import Temperature

NEW_YORK = ZoneInfo("America/New_York")


def test_every_step_says_all_that_a_step_must_say() -> None:
    found = seen(damson(*PITCHED), "2026-10-03T18:00")
    assert [one.key for one in found.steps] == list(rules())
    assert len(found.steps) == 40
    for one in found.steps:
        words = (one.name, one.reason, one.trigger, one.reminder, one.risk, one.when)
        assert all(words), one.key
        assert one.reason.endswith((".", "!"))


def test_the_same_project_at_the_same_moment_gives_the_same_outlook() -> None:
    project = damson(*IN_GLASS)
    assert outlook(project, at("2026-10-10T10:00")) == outlook(project, at("2026-10-10T10:00"))


def test_a_time_without_an_offset_is_refused() -> None:
    with pytest.raises(ValueError, match="offset"):
        outlook(damson(), datetime(2026, 10, 1, 18, 0))


def test_a_forecast_still_being_worked_out_is_left_open() -> None:
    project = damson(*PITCHED, read("1.080", "2026-10-04T18:30"))
    assert outlook(project, at("2026-10-05T10:00"), no_forecast).forecast is None
    found = outlook(project, at("2026-10-05T10:00")).forecast
    assert found is not None
    assert found.supported
    assert [crossing.below for crossing in found.crossings] == [1.030, 1.020, 1.010, 1.000]


def test_before_any_reading_the_forecast_says_that_nothing_supports_it() -> None:
    found = outlook(damson(), at("2026-09-28T10:00")).forecast
    assert found is not None
    assert not found.supported


def test_today_names_what_is_due_and_what_is_held() -> None:
    project = damson(
        *PITCHED, read("1.060", "2026-10-05T18:30"), ticked("stir", "2026-10-05T18:00")
    )
    found = seen(project, "2026-10-06T18:00")
    kinds = {item.step: item.kind for item in found.today}
    assert kinds["stir"] == "do"
    assert kinds["read-gravity"] == "read"


def test_strength_counts_the_fall_from_the_must_s_own_gravity() -> None:
    # 1.091 to 1.024: 8.8 % by the rule of thumb 131.25 x drop; relations differ by half a percent.
    strength = seen(damson(*IN_GLASS), "2026-10-10T10:00").strength_now
    assert strength.value == pytest.approx(8.8, abs=0.5)
    assert strength.workings is not None


def test_days_away_that_swallow_the_stirring_are_told_with_another_start() -> None:
    away = (Away(first=date(2026, 10, 5), last=date(2026, 10, 9)),)
    found = seen(damson(away=away), "2026-09-28T10:00")
    caution = next(one for one in found.cautions if one.key.startswith("away"))
    assert "stir" in caution.sentence
    edit = caution.repairs[0].edit
    assert isinstance(edit, Change)
    # The first day after the absence, at the same hour.
    assert edit.fields["start"] == at("2026-10-10T18:00")


def test_a_later_step_moves_out_of_days_away_but_not_before_its_gate() -> None:
    away = (Away(first=date(2026, 11, 4), last=date(2026, 11, 10)),)
    rack = planned(damson(*IN_GLASS, away=away), "2026-10-10T10:00", "second-rack")
    assert rack.earliest == at("2026-11-06T19:00")
    assert rack.likely == at("2026-11-11T19:00")


def test_a_clock_change_does_not_shorten_the_24_hours() -> None:
    # New York sprang forward on 8 March 2026 at 02:00: 24 true hours from Saturday 18:00 -05:00
    # end on Sunday at 19:00 -04:00, by a wall clock that lost an hour.
    log = (
        ticked("sugar-water", "2026-03-07T18:00-05:00"),
        ticked("sulfite-must", "2026-03-07T18:00-05:00"),
    )
    now = datetime(2026, 3, 7, 20, 0, tzinfo=NEW_YORK)
    pitch = step(outlook(damson(*log, drop=("enzyme",)), now, no_forecast), "pitch")
    assert pitch.earliest == datetime.fromisoformat("2026-03-08T19:00-04:00")
    assert pitch.earliest.hour == 19


def test_a_clock_change_neither_doubles_nor_drops_a_stir() -> None:
    # Clocks went back on 1 November 2026 at 02:00.
    log = (ticked("pitch", "2026-10-30T20:00-04:00"), ticked("stir", "2026-10-31T20:00-04:00"))
    now = datetime(2026, 11, 1, 9, 0, tzinfo=NEW_YORK)
    stir = step(outlook(damson(*log), now, no_forecast), "stir")
    assert stir.likely == datetime.fromisoformat("2026-11-01T20:00-05:00")
    days = [time.date() for time in stir.repeat_times]
    assert len(days) == len(set(days))
    assert {time.hour for time in stir.repeat_times} == {20}


# --- properties -------------------------------------------------------------------------------

_gravities = st.integers(985, 1115).map(lambda points: f"{points / 1000:.3f}")
_warmth = st.sampled_from(["12 °C", "20 °C", "68 °F", "30 °C", "45 °C"])
_hours = st.integers(0, 24 * 90)


@st.composite
def _projects(draw: st.DrawFn) -> Project:
    base = draw(st.sampled_from([PITCHED[:3], PITCHED, IN_GLASS, STABLE]))
    project = damson(*base)
    for index in range(draw(st.integers(0, 4))):
        when = at("2026-10-01T18:00") + timedelta(hours=draw(_hours))
        reading = read(
            draw(_gravities), when.isoformat(), draw(_warmth),
            degassed=draw(st.booleans()), clear=draw(st.sampled_from([None, 1, 4])),
        )  # fmt: skip
        project = PutEntry(label="", entry=changed(reading, id=f"x{index}")).apply(project)
    if draw(st.booleans()):
        project = changed(project, room=Temperature("14 °C"))
    if draw(st.booleans()) and project.log:
        victim = draw(st.sampled_from([e.id for e in project.log if e.id.startswith("x")] or [""]))
        project = DropEntry(label="", id=victim).apply(project)
    return project


_nows = _hours.map(lambda hours: at("2026-10-02T09:00") + timedelta(hours=hours))


@settings(max_examples=60, deadline=None)
@given(_projects(), _nows)
def test_no_reading_or_edit_makes_a_step_earlier_than_its_gate(
    project: Project, now: datetime
) -> None:
    found = outlook(project, now, no_forecast)
    _holds_gates(project, found, now)


def _holds_gates(project: Project, found: Outlook, now: datetime) -> None:
    clock = Clock(now)
    done = {one.key: one.done_at for one in found.steps if one.state == "done"}
    gates = {
        "pitch": ("sulfite-must", lambda t: clock.hours_after(t, 24)),
        "second-rack": ("transfer", lambda t: clock.days_after(t, 28)),
        "declare-stable": ("second-rack", lambda t: clock.days_after(t, 14)),
        "malolactic": ("transfer", lambda t: t),
        "upright": ("bottle", lambda t: clock.days_after(t, 3)),
    }
    for key, (after, gate) in gates.items():
        one, base = step(found, key), done.get(after)
        if base is not None and one.state != "done" and one.earliest is not None:
            assert one.earliest >= gate(base)
    for one in found.steps:
        if one.earliest and one.likely and one.latest:
            assert one.earliest <= one.likely <= one.latest
        if one.override == "free" and one.state not in ("done", "skipped"):
            assert all(condition.met for condition in one.conditions)
        if one.state == "due":
            assert one.earliest is not None
            assert one.earliest <= now


@settings(max_examples=60, deadline=None)
@given(_projects(), _nows)
def test_no_reading_or_edit_moves_a_ticked_step(project: Project, now: datetime) -> None:
    found = outlook(project, now, no_forecast)
    for action in project.actions:
        # Declared before a fall, it is done in an earlier round and asked for again.
        rounds = [one for one in found.steps if one.key.partition(":")[0] == action.step]
        if not rounds[-1].repeats:
            one = next(one for one in rounds if one.done_at == action.at)
            assert one.state == "done"
            assert one.likely == action.at
            assert one.moved is None


@settings(max_examples=60, deadline=None)
@given(_projects(), _nows)
def test_bottling_is_free_only_when_stable(project: Project, now: datetime) -> None:
    found = outlook(project, now, no_forecast)
    bottle = step(found, "bottle")
    stable = step(found, "declare-stable")
    if stable.state != "done":
        assert bottle.override == "never"
    if bottle.override == "free":
        run = [r.corrected for r in found.readings if r.corrected and r.at <= stable.done_at][-3:]
        assert max(run) - min(run) <= 0.0025
