"""The ferment in the pail. Usual days are common practice: fruit out on day 5-7 (strawberries
3-4), glass below 1.030, nutrient in halves, never below half of the sugar."""

from datetime import timedelta

import pytest

from tests.plan.damson import (
    IN_GLASS,
    PITCHED,
    at,
    damson,
    planned,
    read,
    seen,
    step,
    ticked,
    waiting,
)
from winebench.model.edits import changed
from winebench.model.recipe import FruitLine, Recipe, SugarLine, WaterLine
from winebench.plan.work_out import outlook
from winebench.store import samples
from winebench.units import Mass


def test_stirring_repeats_daily_until_the_fruit_is_out() -> None:
    stir = planned(damson(*PITCHED), "2026-10-03T09:00", "stir")
    # Pitched Friday 18:30: from 06:30, likely 18:30, 30 h at the latest: Sunday 00:30 (common
    # practice: stirred 12 to 30 h apart; past 36 h it turns red).
    assert stir.earliest == at("2026-10-03T06:30")
    assert stir.likely == at("2026-10-03T18:30")
    assert stir.latest == at("2026-10-04T00:30")
    assert stir.state == "due"
    # Fruit out about day 6, 8 October: stirs on the 3rd to the 7th.
    assert [time.day for time in stir.repeat_times] == [3, 4, 5, 6, 7]
    lifted = damson(
        *PITCHED, ticked("stir", "2026-10-03T18:00"), ticked("lift-fruit", "2026-10-08T18:00")
    )
    assert planned(lifted, "2026-10-08T19:00", "stir").state == "done"


def test_a_stir_missed_for_36_hours_is_late() -> None:
    project = damson(*PITCHED, ticked("stir", "2026-10-03T18:00"))
    assert planned(project, "2026-10-05T05:59", "stir").state == "due"
    assert planned(project, "2026-10-05T06:01", "stir").state == "missed"
    late = next(item for item in seen(project, "2026-10-05T06:01").today if item.step == "stir")
    assert late.late


def test_first_nutrient_waits_for_signs_of_life() -> None:
    still = planned(damson(*PITCHED), "2026-10-03T18:30", "first-nitrogen")
    assert waiting(still) == ["signs of life"]
    alive = damson(*PITCHED, read("1.086", "2026-10-03T18:00"))
    nutrient = planned(alive, "2026-10-03T18:30", "first-nitrogen")
    assert (nutrient.state, nutrient.override) == ("due", "free")
    # 18:30 + 12, 24, 36 h.
    assert nutrient.earliest == at("2026-10-03T06:30")
    assert nutrient.latest == at("2026-10-04T06:30")


def test_second_nutrient_comes_at_a_third_and_never_below_half() -> None:
    assert (
        planned(
            damson(*PITCHED, read("1.075", "2026-10-04T18:30")),
            "2026-10-04T19:00",
            "second-nitrogen",
        ).override
        == "reason"
    )
    # 1.091 down to about 0.993: a third is gone at 1.058, half at 1.042.
    third = damson(*PITCHED, read("1.055", "2026-10-05T18:30"))
    assert planned(third, "2026-10-05T19:00", "second-nitrogen").override == "free"
    half = damson(*PITCHED, read("1.035", "2026-10-06T18:30"))
    late = planned(half, "2026-10-06T19:00", "second-nitrogen")
    assert (late.state, late.override) == ("skipped", "reason")


def test_the_bag_comes_out_between_day_three_and_day_eight() -> None:
    lift = planned(damson(*PITCHED), "2026-10-03T09:00", "lift-fruit")
    assert lift.earliest == at("2026-10-05T18:30")
    # The usual day 6 for 1.030 lies inside day 5 to 7.
    assert lift.likely == at("2026-10-08T18:30")
    assert lift.latest == at("2026-10-10T18:30")


def test_strawberries_come_out_on_day_three_or_four() -> None:
    berries = FruitLine(id="f", fruit="strawberry", amount=Mass("6 kg"))
    project = damson(*PITCHED, recipe=Recipe(lines=(berries, WaterLine(id="w"))))
    lift = planned(project, "2026-10-03T09:00", "lift-fruit")
    assert lift.likely == at("2026-10-06T18:30")


@pytest.mark.parametrize("form", ["juice", "puree"])
def test_without_a_bag_nothing_is_lifted(form: str) -> None:
    fruit = FruitLine(id="f", fruit="pear", amount=Mass("8 kg"), form=form)
    project = damson(*PITCHED, recipe=Recipe(lines=(fruit,)))
    assert planned(project, "2026-10-03T09:00", "lift-fruit").state == "skipped"
    assert not any(
        "lift" in text for text in waiting(planned(project, "2026-10-03T09:00", "transfer"))
    )


def test_sugar_is_fed_only_where_some_is_kept_back() -> None:
    assert planned(damson(*PITCHED), "2026-10-03T09:00", "sugar-feed").state == "skipped"
    feed = SugarLine(id="more", sugar="white-sugar", amount=Mass("1 kg"), when="feed")
    base = damson(*PITCHED)
    project = damson(*PITCHED, recipe=changed(base.recipe, lines=(*base.recipe.lines, feed)))
    assert planned(project, "2026-10-03T09:00", "sugar-feed").state == "expected"


def test_transfer_wants_a_reading_below_1_030_that_day_and_the_fruit_out() -> None:
    low = read("1.024", "2026-10-09T18:00")
    bag_in = planned(damson(*PITCHED, low), "2026-10-09T19:00", "transfer")
    assert waiting(bag_in) == ["the fruit lifted"]
    lifted = ticked("lift-fruit", "2026-10-08T20:00")
    ready = planned(damson(*PITCHED, lifted, low), "2026-10-09T19:00", "transfer")
    assert (ready.state, ready.override, ready.basis) == ("due", "free", "reading")
    assert ready.earliest == at("2026-10-09T18:00")
    # May slip two days.
    assert ready.latest == at("2026-10-11T18:00")
    stale = planned(damson(*PITCHED, lifted, low), "2026-10-10T18:01", "transfer")
    assert waiting(stale) == ["a reading below 1.030 on the day"]
    high = planned(
        damson(*PITCHED, lifted, read("1.030", "2026-10-09T18:00")), "2026-10-09T19:00", "transfer"
    )
    assert high.override == "reason"


def test_a_fast_must_brings_bag_and_glass_forward() -> None:
    project = damson(*PITCHED, read("1.060", "2026-10-04T08:00"), read("1.028", "2026-10-05T20:00"))
    assert planned(project, "2026-10-05T20:30", "lift-fruit").likely == at("2026-10-05T20:00")
    # It reads low enough at 20:00, and the fruit, still in at 20:30, can come out at once.
    assert planned(project, "2026-10-05T20:30", "transfer").earliest == at("2026-10-05T20:30")


def test_a_slow_must_moves_glass_with_the_forecast() -> None:
    warm = damson(*PITCHED, read("1.080", "2026-10-04T18:30"), read("1.066", "2026-10-05T18:30"))
    slow = damson(
        *PITCHED,
        read("1.088", "2026-10-04T18:30", "15 °C"),
        read("1.083", "2026-10-05T18:30", "15 °C"),
    )
    now = at("2026-10-05T19:00")
    on_time, late = (step(outlook(p, now), "transfer").likely for p in (warm, slow))
    assert on_time is not None
    assert late is not None
    assert late > on_time
    assert step(outlook(slow, now), "transfer").basis == "forecast"


def test_no_second_nutrient_above_nine_percent() -> None:
    # Common practice: 1.110 to 1.040 is 131.25 x 0.070 = 9.2 % vol, and half of it is not gone.
    strong = tuple(
        read("1.150", "2026-10-02T18:00") if entry.id.startswith("1.091") else entry
        for entry in PITCHED
    )
    # Of 1.150 to dry half is left at about 1.070; 1.075 is 131.25 x 0.075 = 9.8 % vol.
    found = planned(damson(*strong, read("1.075", "2026-10-08T18:00")), "2026-10-08T19:00",
                    "second-nitrogen")  # fmt: skip
    assert found.state == "skipped"
    assert "% vol" in found.reason
    weaker = damson(*strong, read("1.090", "2026-10-08T18:00"))
    assert planned(weaker, "2026-10-08T19:00", "second-nitrogen").state != "skipped"


def test_an_overdue_reading_is_expected_where_the_curve_is_now() -> None:
    name = "raspberry-day-3"
    at = next(each.at for each in samples.samples() if each.name == name) + timedelta(hours=30)
    seen = outlook(samples.load_sample(name), at)
    step = next(each for each in seen.steps if each.key == "read-gravity")
    assert step.likely < at
    line = list(zip(seen.forecast.times, seen.forecast.middle, strict=True))
    before = max(each for each in line if each[0] <= at)
    after = min(each for each in line if each[0] > at)
    expected = float(step.reminder.rpartition("I expect about ")[2].rstrip("."))
    assert after[1] - 0.0006 <= expected <= before[1] + 0.0006


@pytest.mark.parametrize(
    ("fruit", "name", "says"),
    [
        (FruitLine(id="f", fruit="damson", amount=Mass("9 kg"), form="juice"), "Stir gently", ""),
        (FruitLine(id="f", fruit="damson", amount=Mass("9 kg"), form="puree"), "Stir the puree in",
         "the puree under"),
        (FruitLine(id="f", fruit="grape-juice-unsweetened", amount=Mass("9 kg")), "Stir gently",
         ""),
    ],
)  # fmt: skip
def test_stirring_speaks_of_what_swims_on_the_must(fruit: FruitLine, name: str, says: str) -> None:
    base = damson(*PITCHED)
    lines = tuple(fruit if isinstance(line, FruitLine) else line for line in base.recipe.lines)
    project = changed(base, recipe=changed(base.recipe, lines=lines))
    found = seen(project, "2026-10-02T19:00")
    stir = step(found, "stir")
    assert stir.name == name
    words = " ".join((stir.name, stir.reminder, stir.reason, *stir.if_slips))
    assert not any(word in words for word in ("fruit", "push", "cap"))
    assert says in stir.reminder
    done = changed(project, log=(*project.log, ticked("stir", "2026-10-03T19:00"),
                                 ticked("transfer", "2026-10-08T19:00")))  # fmt: skip
    assert planned(done, "2026-10-08T20:00", "stir").name == name
    assert step(seen(changed(project, log=()), "2026-10-01T09:00"), "sugar-water").name == (
        "Sugar and water in"
    )


def test_the_malolactic_choice_is_due_in_glass_below_1_005_and_no_later() -> None:
    # 1.004 by reading in glass: the choice is to be made now, though 1.000 lies ahead still.
    almost = damson(*IN_GLASS, read("1.004", "2026-10-15T18:00"))
    found = planned(almost, "2026-10-15T19:00", "malolactic")
    assert (found.state, found.override) == ("due", "free")
    assert found.earliest == at("2026-10-15T18:00")
    early = damson(*IN_GLASS, read("1.006", "2026-10-15T18:00"))
    found = planned(early, "2026-10-15T19:00", "malolactic")
    assert (found.state, waiting(found)) == ("held", ["a reading below 1.005"])
    # Below 1.005 in the pail already: not before the move to glass, on day 6 at 18:30.
    quick = damson(*PITCHED, read("1.004", "2026-10-05T18:00"))
    found = seen(quick, "2026-10-05T19:00")
    assert step(found, "malolactic").earliest >= step(found, "transfer").earliest
