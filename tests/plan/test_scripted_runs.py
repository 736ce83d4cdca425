"""Whole batches as they are lived, day by day, with their dates worked out by hand.

Without a forecast, so that each date follows from a reading or from the clock alone. The waits
are those of common practice that each step's rule declares: 8 and 24 h after sulfite, day 3 to 8
for the fruit, 1.030 for the glass, 28 days to the second racking, 14 days of equal readings.
"""

from datetime import date, datetime
from zoneinfo import ZoneInfo

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
    waiting,
)
from winebench.model.edits import DropEntry, PutEntry, changed
from winebench.model.log import Away
from winebench.model.recipe import SugarLine
from winebench.plan.work_out import outlook
from winebench.units import Gravity, Mass

BERLIN = ZoneInfo("Europe/Berlin")


def dates(project, now, *keys):
    """Return earliest, likely and latest of each step, to the minute."""
    found = seen(project, now)
    return {
        key: tuple(
            time and time.strftime("%d %b %H:%M")
            for time in (one.earliest, one.likely, one.latest)
        )
        for key, one in ((key, step(found, key)) for key in keys)
    }  # fmt: skip


def test_a_normal_run_from_the_pitch_to_the_bottles():
    # Yeast in on Friday 2 October at 18:30: signs 12 to 72 h on, the fruit out on day 3 to 8.
    young = dates(damson(*PITCHED), "2026-10-02T19:00", "sign-of-life", "lift-fruit", "transfer")
    assert young["sign-of-life"] == ("03 Oct 06:30", "04 Oct 06:30", "05 Oct 18:30")
    assert young["lift-fruit"] == ("05 Oct 18:30", "08 Oct 18:30", "10 Oct 18:30")
    # 1.030 usually on day 4 to 10, day 6 likeliest; the fruit is out on day 6 too.
    assert young["transfer"] == ("06 Oct 18:30", "08 Oct 18:30", "12 Oct 18:30")
    # In glass on 9 October at 19:00: 28 wall days on is 6 November at 19:00, 56 are 4 December.
    glass = dates(damson(*IN_GLASS), "2026-10-09T20:00", "second-rack", "airlock-check")
    assert glass["second-rack"] == ("06 Nov 19:00", "06 Nov 19:00", "04 Dec 19:00")
    assert glass["airlock-check"] == ("16 Oct 19:00", "16 Oct 19:00", "23 Oct 19:00")
    # Stable on 21 November at 19:00: stabilised the day after at the likeliest, within 14 days;
    # bottles a day after that at the earliest (of now, 20:00), a week at the likeliest.
    still = dates(damson(*STABLE), "2026-11-21T20:00+01:00", "stabilise", "bottle")
    assert still["stabilise"] == ("21 Nov 19:00", "22 Nov 19:00", "05 Dec 19:00")
    assert still["bottle"] == ("22 Nov 20:00", "29 Nov 19:00", "30 Jan 19:00")


def test_a_fast_run_moves_fruit_and_glass_forward_by_its_reading():
    fast = damson(*PITCHED, read("1.060", "2026-10-04T08:00"), read("1.028", "2026-10-05T20:00"))
    now = dates(fast, "2026-10-05T20:00", "lift-fruit", "transfer", "second-rack")
    # Below 1.030 by the reading of 20:00: both are likeliest now; the glass may slip two days.
    assert now["lift-fruit"][1] == "05 Oct 20:00"
    assert now["transfer"] == ("05 Oct 20:00", "05 Oct 20:00", "07 Oct 20:00")
    # And 28 wall days on from there, over the clock change of 25 October.
    assert now["second-rack"][0] == "02 Nov 20:00"
    moved = planned(fast, "2026-10-05T20:00", "transfer").moved
    assert moved is not None
    assert (moved.was, moved.now) == (at("2026-10-08T18:30"), at("2026-10-05T20:00"))


def test_a_cold_slow_run_waits_for_its_gravity_and_is_not_called_stuck():
    # 15 °C: 7, 20 and 39 points down in 4, 8 and 14 days. It falls, so it is slow, not stuck.
    cold = damson(
        *PITCHED,
        read("1.084", "2026-10-06T18:00", "15 °C"),
        read("1.071", "2026-10-10T18:00", "15 °C"),
        read("1.052", "2026-10-16T18:00", "15 °C"),
    )
    found = seen(cold, "2026-10-16T18:30")
    transfer = step(found, "transfer")
    assert "a reading below 1.030 on the day" in waiting(transfer)
    assert transfer.likely == at("2026-10-16T18:30")
    assert transfer.latest >= at("2026-10-17T18:30")
    assert step(found, "restart").state == "skipped"
    # A third of the sugar is gone (1.057) and half is not (1.040): nutrient still helps.
    nutrient = step(found, "second-nitrogen")
    assert (nutrient.state, nutrient.override) == ("due", "free")


def test_a_stuck_run_holds_what_follows_until_it_moves_again():
    # 1.030 on 10, 12 and 15 October: no point in five days, far above dry.
    still = (
        *PITCHED,
        read("1.050", "2026-10-06T18:00"),
        read("1.030", "2026-10-10T18:00"),
        read("1.030", "2026-10-12T18:00"),
        read("1.030", "2026-10-15T18:00"),
    )
    stuck = damson(*still)
    transfer = planned(stuck, "2026-10-15T19:00", "transfer")
    assert "a gravity that falls again (unmoved at 1.030 for 5 days)" in waiting(transfer)
    for key in ("transfer", "second-rack", "declare-stable", "stabilise"):
        assert planned(stuck, "2026-10-15T19:00", key).override != "free", key
    assert planned(stuck, "2026-10-15T19:00", "bottle").override == "never"
    moving = damson(*still, read("1.024", "2026-10-18T18:00"))
    freed = planned(moving, "2026-10-18T19:00", "transfer")
    assert waiting(freed) == ["the fruit lifted"]


def test_staged_sugar_is_fed_between_1_020_and_1_010_by_reading():
    feed = SugarLine(id="more", sugar="white-sugar", amount=Mass("1 kg"), when="feed")
    base = damson(*PITCHED, read("1.052", "2026-10-05T18:00"), read("1.019", "2026-10-08T18:00"))
    staged = changed(base, recipe=changed(base.recipe, lines=(*base.recipe.lines, feed)))
    now = planned(staged, "2026-10-08T19:00", "sugar-feed")
    assert (now.state, now.override, now.basis) == ("due", "free", "reading")
    assert now.earliest == at("2026-10-08T18:00")
    early = changed(staged, log=staged.log[:-1])
    assert planned(early, "2026-10-05T19:00", "sugar-feed").override == "reason"
    fed = PutEntry(label="", entry=ticked("sugar-feed", "2026-10-08T19:30")).apply(staged)
    done = planned(fed, "2026-10-08T20:00", "sugar-feed")
    assert (done.state, done.likely) == ("done", at("2026-10-08T19:30"))


def test_a_week_away_moves_what_may_wait_and_tells_what_may_not():
    # Second racking falls on Friday 6 November; away from Thursday 5 to Wednesday 11.
    away = (Away(first=date(2026, 11, 5), last=date(2026, 11, 11)),)
    rack = planned(damson(*IN_GLASS, away=away), "2026-10-20T12:00", "second-rack")
    assert (rack.earliest, rack.likely) == (at("2026-11-06T19:00"), at("2026-11-12T19:00+02:00"))
    # Before the start the same week would swallow the stirring: told, with a day that is free.
    soon = damson(away=(Away(first=date(2026, 10, 5), last=date(2026, 10, 11)),))
    told = next(c for c in seen(soon, "2026-09-28T12:00").cautions if c.key.startswith("away"))
    assert "stir" in told.sentence
    assert told.repairs[0].edit.fields["start"] == at("2026-10-12T18:00")


def test_a_clock_change_keeps_hours_true_and_days_on_the_wall():
    # Berlin put its clocks back on 25 October 2026 at 03:00: sulfite on Saturday at 18:00 +02:00,
    # 24 true hours on are Sunday 17:00 +01:00; stirred daily at the same wall hour.
    sulfited = damson(
        ticked("sugar-water", "2026-10-24T18:00+02:00"),
        ticked("sulfite-must", "2026-10-24T18:00+02:00"),
        drop=("enzyme",),
    )
    now = datetime(2026, 10, 24, 19, 0, tzinfo=BERLIN)
    pitch = step(outlook(sulfited, now, no_forecast), "pitch")
    assert pitch.earliest == datetime.fromisoformat("2026-10-25T17:00+01:00")
    pitched = damson(ticked("pitch", "2026-10-23T20:00+02:00"))
    stir = step(outlook(pitched, datetime(2026, 10, 23, 21, 0, tzinfo=BERLIN), no_forecast), "stir")
    assert [time.isoformat() for time in stir.repeat_times[:3]] == [
        "2026-10-24T20:00:00+02:00",
        "2026-10-25T20:00:00+01:00",
        "2026-10-26T20:00:00+01:00",
    ]


def test_the_correction_of_an_old_reading_re_plans_everything_after_it():
    # 1.024 was misread: it was 1.042, so the must is not below 1.030 and nothing goes to glass.
    misread = damson(
        *PITCHED, ticked("lift-fruit", "2026-10-08T20:00"), read("1.024", "2026-10-09T18:00")
    )
    before = planned(misread, "2026-10-09T19:00", "transfer")
    assert (before.state, before.override) == ("due", "free")
    entry = misread.log[-1]
    right = PutEntry(label="", entry=changed(entry, gravity=Gravity("1.042"))).apply(misread)
    after = planned(right, "2026-10-09T19:00", "transfer")
    assert "a reading below 1.030 on the day" in waiting(after)
    assert after.override == "reason"
    # The tick before it never moves; and taken out, the reading is as if it never was.
    assert planned(right, "2026-10-09T19:00", "lift-fruit").likely == at("2026-10-08T20:00")
    gone = DropEntry(label="", id=entry.id).apply(misread)
    assert "a reading below 1.030 on the day" in waiting(
        planned(gone, "2026-10-09T19:00", "transfer")
    )
