"""The batch's readings and ticks as evidence for the gravity forecast."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from winebench.forecast import Event, Evidence, Observation, Setup
from winebench.forecast.api import EventKind
from winebench.model.recipe import SugarLine
from winebench.plan.days import settled
from winebench.trade.gravity import sg_from_solids_g_per_l
from winebench.units import UnitsError, parse_number

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

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
    found += [(_hours(pitch, seen.at), seen) for seen in batch.ferment]
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
        if action.step == "sugar-feed":
            events.append(Event(hours=hours, kind="sugar", amount=_fed_g_per_l(batch)))
        elif action.step in _EVENTS:
            events.append(Event(hours=hours, kind=_EVENTS[action.step]))
    return events


def _fed_g_per_l(batch: Batch) -> float:
    litres = batch.recipe.must.liquid.value or 1.0
    try:
        grams = parse_number(batch.record("sugar-feed", "grams").removesuffix("g"))
    except UnitsError:
        grams = planned_feed_g(batch)
    return round(grams / litres, 1)


def planned_feed_g(batch: Batch) -> float:
    """Return the sugar that the recipe keeps for later, g for the size to make."""
    feeds = {
        line.id
        for line in batch.project.recipe.lines
        if isinstance(line, SugarLine) and line.when == "feed"
    }
    return sum(line.scaled.value or 0.0 for line in batch.recipe.lines if line.id in feeds)


def gravity_of_feed(batch: Batch) -> float:
    """Return what the sugar fed would have added to the original gravity, SG."""
    return float(sg_from_solids_g_per_l(_fed_g_per_l(batch))) - 1.0
