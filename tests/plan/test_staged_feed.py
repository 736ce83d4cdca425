"""Sugar kept back and fed in portions. At most 15 to 20 points at once, between 1.020 and 1.010,
and room for it in the jug: common practice."""

import pytest

from tests.plan.damson import PITCHED, at, damson, planned, read, seen, ticked, waiting
from winebench.forecast import Evidence
from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import Make, SugarLine
from winebench.plan.work_out import outlook
from winebench.units import Mass, Size

LIFTED = ticked("lift-fruit", "2026-10-08T17:00")
LOW = (*PITCHED, read("1.052", "2026-10-05T18:00"), LIFTED, read("1.018", "2026-10-08T18:00"))


def staged(*log, kept_back: str = "2 kg") -> Project:
    """Return the damson batch (about 19 L of must) with so much of its sugar to be fed."""
    feed = SugarLine(id="more", sugar="white-sugar", amount=Mass(kept_back), when="feed")
    base = damson(*log)
    recipe = changed(base.recipe, lines=(*base.recipe.lines, feed))
    # In litres, so that grams are told as grams.
    return changed(base, recipe=recipe, make=Make(size=Size("18.93 L")))


@pytest.mark.parametrize(
    # About 19 L: 1 kg is 53 g/L, and 53 x 0.385 points for a g/L (sucrose tables) are 20 points.
    ("kept_back", "now", "others"),
    [("500 g", 500, 0), ("1 kg", 1000, 0), ("2 kg", 1000, 1000), ("2.4 kg", 800, 1600)],
)
def test_no_portion_is_of_more_than_twenty_points(kept_back, now, others) -> None:
    found = planned(staged(*LOW, kept_back=kept_back), "2026-10-08T19:00", "sugar-feed")
    assert (found.state, found.override) == ("due", "free")
    assert f"Feed {now} g" in found.reminder
    assert (f"the other {others} g when it reads below 1.020 again" in found.reminder) is (
        others > 0
    )


def test_portions_are_asked_for_one_after_the_other_until_all_is_in() -> None:
    first = ticked("sugar-feed", "2026-10-08T19:30", grams="1 kg")
    fed = planned(staged(*LOW, first), "2026-10-08T20:00", "sugar-feed")
    assert fed.state != "done"
    assert waiting(fed) == ["a reading below 1.020 since the last feed"]
    assert fed.reason.startswith("1000 g of 2000 g are in.")
    assert fed.earliest is not None
    assert fed.earliest > at("2026-10-08T20:00")
    high = read("1.031", "2026-10-09T18:00")
    again = read("1.017", "2026-10-11T18:00")
    second = planned(staged(*LOW, first, high, again), "2026-10-11T19:00", "sugar-feed")
    assert (second.state, second.override) == ("due", "free")
    assert "Feed 1000 g" in second.reminder
    assert "other" not in second.reminder
    last = ticked("sugar-feed", "2026-10-11T19:30", grams="980")
    done = planned(staged(*LOW, first, high, again, last), "2026-10-11T20:00", "sugar-feed")
    assert (done.state, done.done_at) == ("done", at("2026-10-11T19:30"))


def test_what_was_fed_is_counted_in_grams_tick_by_tick() -> None:
    # 600 g of 2000 g leave 1400 g: 28 points, in two portions of 700 g.
    some = ticked("sugar-feed", "2026-10-08T19:30", grams="600")
    left = planned(staged(*LOW, some), "2026-10-08T20:00", "sugar-feed")
    assert "Feed 700 g" in left.reminder
    # A tick without grams stands for the portion that was asked for.
    bare = planned(staged(*LOW, ticked("sugar-feed", "2026-10-08T19:30")), "2026-10-08T20:00",
                   "sugar-feed")  # fmt: skip
    assert bare.reason.startswith("1000 g of 2000 g are in.")
    # The forecast is told each portion by itself: 600 g and 1 kg in the must that there is.
    told: list[Evidence] = []

    def listening(evidence, below, learned):
        told.append(evidence)

    two = staged(*LOW, some, ticked("sugar-feed", "2026-10-10T19:30", grams="1 kg"))
    seen_ = outlook(two, at("2026-10-10T20:00"), listening)
    amounts = [event.amount for event in told[0].events if event.kind == "sugar"]
    assert [round(amount / amounts[0], 1) for amount in amounts] == [1.0, 1.7]
    # 1.6 kg in about 19 L raise the strength by 84 / 16.83 = 5 %: from 1.091 + 0.032 to 1.018.
    assert seen_.strength_now.value == pytest.approx(131.25 * (0.091 + 0.032 - 0.018), abs=1.0)


def test_a_jug_with_sugar_to_come_is_not_filled_to_the_neck() -> None:
    # Common practice: headspace for the feed; topped up on the day of racking, but not before it.
    pending = planned(staged(*LOW), "2026-10-08T19:00", "transfer")
    assert "Leave room in the jug for the 2000 g of sugar still to be fed" in pending.reminder
    assert "neck" not in pending.reminder
    racked = staged(*LOW, ticked("transfer", "2026-10-08T19:30"))
    assert not [i for i in seen(racked, "2026-10-09T12:00").today if i.step == "top-up"]
    top_up = planned(racked, "2026-10-09T12:00", "top-up")
    assert (top_up.likely, waiting(top_up)) == (None, ["the sugar kept back fed"])
    whole = ticked("sugar-feed", "2026-10-09T18:00", grams="2 kg")
    full = planned(changed(racked, log=(*racked.log, whole)), "2026-10-09T19:00", "top-up")
    assert full.state == "due"
    # Fermented out, nothing is fed any more, and the jug wants filling.
    dry = changed(racked, log=(*racked.log, read("0.996", "2026-10-10T18:00")))
    assert planned(dry, "2026-10-10T19:00", "top-up").state == "due"


def test_after_a_feed_the_racking_is_dated_from_the_feed() -> None:
    # What was read before the sugar went in says nothing of where it stands.
    fed = staged(*LOW, ticked("sugar-feed", "2026-10-08T19:30", grams="1 kg"))
    found = planned(fed, "2026-10-08T20:00", "transfer")
    assert found.state == "held"
    assert "Below 1.030" not in found.reason
    assert found.latest == at("2026-10-12T19:30")


def test_a_heap_of_sugar_to_feed_is_told_and_planned_with():
    # far beyond the 1,200 g/L at which the sucrose table ends
    before = seen(staged(kept_back="9999999 kg"), "2026-10-01T19:00")
    assert any("dissolve" in one.sentence + one.detail for one in before.cautions)
    after = seen(staged(*LOW, kept_back="9999999 kg"), "2026-10-08T19:00")
    assert "sugar-feed" in {step.key for step in after.steps}


def test_the_two_days_to_glass_count_from_the_first_reading_since_the_feed() -> None:
    # Below 1.030 on 7 October, fed on the 8th, below 1.030 again on the 9th at 18:00: two days on
    # are the 11th at 18:00, within ten days of the pitch on the 2nd.
    log = (
        *PITCHED,
        read("1.026", "2026-10-07T08:00"),
        read("1.018", "2026-10-08T18:00"),
        ticked("lift-fruit", "2026-10-08T18:30"),
        ticked("sugar-feed", "2026-10-08T19:00", grams="300"),
        read("1.027", "2026-10-09T18:00"),
    )
    found = planned(staged(*log), "2026-10-09T19:00", "transfer")
    assert (found.state, found.override) == ("due", "free")
    assert found.latest == at("2026-10-11T18:00")
    assert found.reason == "Below 1.030 since today, by reading."
