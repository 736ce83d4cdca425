"""A must with more sugar than its packet of yeast stands: where it may stop, and what is dated."""

import math
from dataclasses import replace

import pytest

from tests.plan.damson import IN_GLASS, PITCHED, STABLE, at, damson, read, seen, step, ticked
from winebench.model.edits import changed
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.model.recipe import SugarLine, YeastLine
from winebench.plan.gravity_forecast import forecaster
from winebench.plan.stuck.sweet_end import chance_of_stopping
from winebench.plan.work_out import outlook
from winebench.trade.alcohol import abv_from_gravities, dry_gravity
from winebench.trade.gravity import solids_g_per_l_from_sg
from winebench.units import Amount, Mass

SWEET_STEPS = ("second-rack", "declare-stable", "stabilise", "bottle")


def strong(*log: Entry, sugar: str = "4.4 kg", stands: float = 14.0) -> Project:
    """Return the batch with that much sugar and a packet that stands so much."""
    base = damson(*log)
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=stands)
    lines = tuple(
        changed(line, amount=Mass(sugar))
        if isinstance(line, SugarLine)
        else yeast
        if line.id == "yeast"
        else line
        for line in base.recipe.lines
    )
    return changed(base, recipe=changed(base.recipe, lines=lines))


def log_at(og: str, *later: Entry) -> tuple[Entry, ...]:
    return (*PITCHED[:4], read(og, "2026-10-02T18:00"), *PITCHED[5:], *later)


def test_the_gravity_of_the_limit_lies_between_two_published_ways_to_it() -> None:
    # Tabarie's additivity (OIV-MA-AS2-03B) with the sugar that is left at 16.83 g/L for one percent
    # is the one, the strength by published relations between gravities the other; they differ by
    # about half a percent.
    found = seen(strong(), "2026-09-28T10:00")
    must, stops = found.must, found.must.stops_at
    assert stops is not None
    assert stops.value is not None
    extract = solids_g_per_l_from_sg(
        must.dry_gravity.value - dry_gravity(must.strength.value, 0.0) + 1.0
    )
    tabarie = dry_gravity(14.0, extract + must.sugar.value - 14.0 * 16.83)
    assert stops.value <= tabarie
    assert abv_from_gravities(must.gravity.value, stops.value).figure <= 14.0
    assert abv_from_gravities(must.gravity.value, stops.value).figure == pytest.approx(
        14.0, abs=0.5
    )
    assert tabarie == pytest.approx(stops.value, abs=0.004)
    assert stops.low < stops.value < stops.high


def test_the_chance_of_stopping_is_that_of_a_normal_limit_a_percent_above_the_packet() -> None:
    # From tables of the normal distribution: 0.5 at its middle, 0.8413 one deviation above it; and
    # of yeast that has passed the middle already, 1 - 0.1587 / 0.5.
    assert chance_of_stopping(14.0, 15.0, 0.0) == pytest.approx(0.5, abs=1e-4)
    assert chance_of_stopping(14.0, 16.0, 0.0) == pytest.approx(0.8413, abs=1e-4)
    assert chance_of_stopping(14.0, 16.0, 15.0) == pytest.approx(1 - 0.1587 / 0.5, abs=1e-3)
    assert chance_of_stopping(14.0, 16.0, 16.5) == 0.0
    assert math.isfinite(chance_of_stopping(5.0, 60.0, 58.0))


def test_before_the_start_nothing_is_forecast_dry_that_its_yeast_will_not_stand() -> None:
    found = outlook(strong(), at("2026-09-28T10:00"))
    forecast, stops = found.forecast, found.must.stops_at
    assert forecast is not None
    assert stops is not None
    assert found.must.strength.value > 17
    assert "the yeast's packet stands 14 %, so it will probably stop sweet at about " in (
        forecast.sentence
    )
    assert f"{stops.text}" in forecast.sentence
    assert forecast.may_end_at == stops
    assert forecast.not_finishing > 0.95
    assert forecast.middle[-1] == forecast.high[-1] == stops.value
    assert forecast.low[-1] < 1.0
    assert all(crossing.below > stops.value for crossing in forecast.crossings)
    for key in SWEET_STEPS:
        assert (step(found, key).state, step(found, key).likely) == ("later", None), key
    assert "stop sweet" in step(found, "second-rack").reason
    assert step(found, "transfer").likely is not None
    assert any(line.words.startswith("Sweet · about 14.0 % vol") for line in found.label)
    # The same must with a packet that stands it all.
    hardy = outlook(strong(stands=20.0), at("2026-09-28T10:00"))
    assert hardy.must.stops_at is None
    assert hardy.forecast.may_end_at is None
    assert hardy.forecast.not_finishing < 0.5
    assert 1.0 in [crossing.below for crossing in hardy.forecast.crossings]
    assert step(hardy, "bottle").likely is not None


def test_a_little_over_the_limit_the_dates_stand_and_say_on_what() -> None:
    log = log_at("1.094", read("1.066", "2026-10-05T18:30"))
    project = strong(*log, sugar="3.6 kg", stands=13.7)
    found = outlook(project, at("2026-10-05T19:00"))
    assert 13.7 < found.must.strength.value < 14.7
    assert found.must.stops_at is None  # reached so near to dry that no sugar would be left
    near = strong(*log, sugar="3.6 kg", stands=13.4)
    found = outlook(near, at("2026-10-05T19:00"))
    rack, stable = step(found, "second-rack"), step(found, "declare-stable")
    assert 13.4 < found.must.strength.value < 14.4  # within the percent that it goes beyond
    assert found.must.stops_at is not None
    # 0.996, where it may stop, is below the 1.000 of the racking and above the end of a dry wine.
    assert not rack.when.endswith(", if it goes on")
    assert stable.likely is not None
    assert stable.when.endswith(", if it goes on")
    assert (
        "Only if the yeast goes on beyond its limit: the yeast's packet stands 13.4 %"
        in stable.reason
    )
    assert "so it may stop sweet at about" in found.forecast.sentence


def test_a_lower_limit_never_gives_a_better_chance_of_finishing() -> None:
    log = log_at("1.094", read("1.066", "2026-10-05T18:30"))
    chances = [
        outlook(strong(*log, stands=stands), at("2026-10-05T19:00")).forecast.not_finishing
        for stands in (18.0, 16.0, 14.0, 13.0, 12.0, 10.0)
    ]
    assert chances == sorted(chances)
    assert chances[0] < 0.3 < chances[-1]


def test_what_has_gone_beyond_the_limit_may_stop_where_it_stands() -> None:
    # 1.128 to 1.010 are 15.5 % by 131.25 x the fall (relations differ by half a percent): past 14.
    log = log_at("1.128", read("1.060", "2026-10-06T18:00"), read("1.010", "2026-10-12T18:00"))
    found = outlook(strong(*log), at("2026-10-12T19:00"))
    assert found.strength_now.value == pytest.approx(15.5, abs=0.6)
    assert "stop sweet at about 1.010" in found.forecast.sentence
    assert found.forecast.high[-1] == pytest.approx(1.010, abs=1e-9)


def test_a_reading_expects_no_gravity_below_the_limit() -> None:
    log = log_at("1.128", read("1.060", "2026-10-06T18:00"), read("1.030", "2026-10-12T18:00"))
    found = outlook(strong(*log), at("2026-10-20T19:00"))
    assert f"I expect about {found.must.stops_at.text}" in step(found, "read-gravity").reminder


def test_dry_by_reading_restarted_or_left_sweet_nothing_is_said_of_the_limit() -> None:
    dry = strong(*STABLE, sugar="3.6 kg", stands=12.0)
    assert seen(dry, "2026-11-22T10:00+01:00").must.stops_at is None
    restarted = log_at("1.128", read("1.030", "2026-10-12T18:00"),
                       ticked("restart", "2026-10-20T18:00"))  # fmt: skip
    assert seen(strong(*restarted), "2026-10-20T19:00").must.stops_at is None


def test_sugar_still_to_be_fed_does_not_stop_the_yeast_before_it_is_in() -> None:
    base = strong(*PITCHED, sugar="3.4 kg")
    feed = SugarLine(id="feed", sugar="white-sugar", amount=Mass("1 kg"), when="feed")
    fed = changed(base, recipe=changed(base.recipe, lines=(*base.recipe.lines, feed)))
    found = outlook(fed, at("2026-10-03T09:00"))
    assert found.must.stops_at is not None
    assert step(found, "sugar-feed").likely is not None
    assert step(found, "second-rack").likely is None


def test_a_doubted_ferment_within_the_limit_is_told_as_before() -> None:
    project = strong(*IN_GLASS, sugar="3.4 kg")
    may = outlook(
        project,
        at("2026-10-10T10:00"),
        lambda *asked: replace(forecaster(*asked), state="fermenting"),
    )
    assert may.must.stops_at is None
    assert "stop sweet" not in may.forecast.sentence
