"""The batch's readings and ticks as evidence for the gravity forecast."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from math import ceil
from typing import TYPE_CHECKING

from winebench.forecast import Event, Evidence, Observation, Setup
from winebench.forecast.api import EventKind
from winebench.model.log import Action
from winebench.model.recipe import SugarLine
from winebench.plan.again.logged import grams_written
from winebench.plan.balance import MOST_SOLIDS_G_PER_L
from winebench.plan.days import settled
from winebench.plan.doubted import believed
from winebench.plan.readings import SUGAR_IN
from winebench.plan.steps.noting import noted_with
from winebench.trade.gravity import sg_from_solids_g_per_l, solids_g_per_l_from_sg
from winebench.units.readings import HIGHEST_SG

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

MOST_POINTS = 20
"""More sugar than that at once shocks the yeast (common practice: 15 to 20 points)."""
ALL_USED, NEWEST_USED = 120, 40
_EVENTS: dict[str, EventKind] = {
    "transfer": "rack", "second-rack": "rack", "third-rack": "rack",
    "first-nitrogen": "nutrient", "second-nitrogen": "nutrient", "restart": "repitch",
}  # fmt: skip


def evidence_of(batch: Batch) -> Evidence:
    """Return what the batch's readings and ticks say to the forecast."""
    pitch = batch.pitch
    assert pitch is not None
    return Evidence(
        setup=_setup(batch),
        observations=tuple(_observations(batch, pitch.likely)),
        events=tuple(_events(batch, pitch.likely)),
    )


def _setup(batch: Batch) -> Setup:
    must = batch.recipe.must
    low, high = must.gravity.low, must.gravity.high
    spread = (high - low) / 2.6 if low is not None and high is not None else 0.004
    return Setup(
        og=round(must.gravity.value or batch.original_gravity, 4),
        og_sd=round(min(max(spread, 0.002), 0.02), 4),
        room_celsius=batch.project.room.celsius,
        pulp=bool(batch.pulp),
        nitrogen_mg_per_l=None if must.nitrogen.value is None else round(must.nitrogen.value),
    )


def _observations(batch: Batch, pitch: datetime) -> list[Observation]:
    found = []
    if batch.must_reading is not None:
        found.append((0.0, batch.must_reading))
    found += [(_hours(pitch, seen.at), seen) for seen in believed(batch)]
    return _thinned(
        [
            Observation(
                hours=round(hours, 3),
                sg=seen.sg,
                celsius=seen.reading.temperature.celsius if seen.reading.temperature else None,
            )
            for hours, seen in found
            if seen.sg is not None
        ]
    )


def _thinned(found: list[Observation]) -> list[Observation]:
    """Return the newest readings and the first of each day before them.

    An instrument that logs every hour would make each forecast take seconds, and its readings of
    one day say little more than one of them does.
    """
    if len(found) <= ALL_USED:
        return found
    by_day = {int(one.hours // 24): one for one in reversed(found[:-NEWEST_USED])}
    return [*reversed(by_day.values()), *found[-NEWEST_USED:]]


def _hours(pitch: datetime, at: datetime) -> float:
    return (at - pitch).total_seconds() / 3600


def _events(batch: Batch, pitch: datetime) -> list[Event]:
    events = []
    for action in batch.project.actions:
        hours = round(_hours(pitch, settled(action.at)), 3)
        if hours <= 0:
            continue
        if action in batch.doubtful_feeds:
            continue
        if action.step in SUGAR_IN:
            fed = round(_tick_g(batch, action) / _litres(batch), 1)
            events.append(Event(hours=hours, kind="sugar", amount=fed))
        elif action.step in _EVENTS:
            events.append(Event(hours=hours, kind=_EVENTS[action.step]))
    return events


def _litres(batch: Batch) -> float:
    return batch.recipe.must.liquid.value or 1.0


def _tick_g(batch: Batch, tick: Action) -> float:
    """Return the sugar of one feed, g: as noted, else one portion of what was planned."""
    text = noted_with(tick, "grams")
    noted = grams_written(text, batch.project, "white-sugar") if text else None
    if noted is not None or tick.step != "sugar-feed":
        return noted or 0.0
    planned = planned_feed_g(batch)
    return planned / portions(batch, planned)


def fed_g(batch: Batch) -> float:
    """Return the sugar that was fed so far, g, by the log."""
    return _all_ticks_g(batch, "sugar-feed")


def added_g(batch: Batch) -> float:
    """Return all sugar that went in since the pitch, g: fed, and outside the recipe."""
    return sum(_all_ticks_g(batch, step) for step in SUGAR_IN)


def _all_ticks_g(batch: Batch, step: str) -> float:
    ticks = (t for t in batch.actions.get(step, ()) if t not in batch.doubtful_feeds)
    return sum(_tick_g(batch, tick) for tick in ticks)


def doubtful_feeds(batch: Batch) -> tuple[Action, ...]:
    """Return the ticks of sugar that would bring the must above what can be read.

    No such must is made by a feed: a digit or a unit is wrong. They are asked about, and count for
    nothing until then, as a doubted reading does.
    """
    found: list[Action] = []
    for tick in _in_order(batch):
        if _tick_g(batch, tick) > _room_g(batch, settled(tick.at), found):
            found.append(tick)
    return tuple(found)


def most_feed_g(batch: Batch) -> float:
    """Return the sugar that brings the must now to the highest gravity that can be read, g."""
    return _room_g(batch, batch.now, batch.doubtful_feeds)


def _room_g(batch: Batch, at: datetime, doubtful: Sequence[Action]) -> float:
    """Return how much sugar the must could take then: by its last gravity and feeds since."""
    earlier = (s for s in reversed(batch.readings) if s.sg is not None and s.at <= at)
    newest = next(earlier, None)
    since = [
        _tick_g(batch, tick)
        for tick in _in_order(batch)
        if tick not in doubtful
        and settled(tick.at) < at
        and (newest is None or settled(tick.at) > newest.at)
    ]
    stands = batch.original_gravity if newest is None or newest.sg is None else newest.sg
    rise = 1.0 + max(HIGHEST_SG - stands, 0.0)
    return float(solids_g_per_l_from_sg(rise)) * _litres(batch) - sum(since)


def _in_order(batch: Batch) -> list[Action]:
    """Return the ticks of sugar in order of time."""
    ticks = (tick for step in SUGAR_IN for tick in batch.actions.get(step, ()))
    return sorted(ticks, key=lambda tick: settled(tick.at))


def portions(batch: Batch, grams: float) -> int:
    """Return in how many portions so much sugar is fed, none of more than 20 whole points."""
    return max(1, ceil(feed_points(batch, grams) / (MOST_POINTS + 0.5)))


def feed_points(batch: Batch, grams: float) -> float:
    """Return by how many points of gravity so much sugar raises the must.

    More than dissolves counts as what dissolves: the recipe says so beside the line.
    """
    solids = min(round(max(grams, 0.0) / _litres(batch), 1), MOST_SOLIDS_G_PER_L)
    return 1000.0 * (float(sg_from_solids_g_per_l(solids)) - 1.0)


def planned_feed_g(batch: Batch) -> float:
    """Return the sugar that the recipe keeps for later, g for the size to make."""
    feeds = {
        line.id
        for line in batch.project.recipe.lines
        if isinstance(line, SugarLine) and line.when == "feed"
    }
    return sum(line.scaled.value or 0.0 for line in batch.recipe.lines if line.id in feeds)


def unplanned_g_per_l(batch: Batch) -> float:
    """Return the sugar that went in beyond what the recipe feeds, g in each litre."""
    return max(added_g(batch) - planned_feed_g(batch), 0.0) / _litres(batch)


def gravity_of_feed(batch: Batch) -> float:
    """Return what the sugar added since would have added to the original gravity, SG."""
    return feed_points(batch, added_g(batch)) / 1000.0
