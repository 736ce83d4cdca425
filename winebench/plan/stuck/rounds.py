"""A wine that stands still, falls again or is racked: what was done before is history, and asked
for anew."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from winebench.model.log import Action
from winebench.plan.days import settled
from winebench.plan.readings import NO_SUGAR, RACKINGS, SUGAR_IN
from winebench.plan.stability import stability
from winebench.plan.steps.noting import noted_with
from winebench.plan.stuck.keys import ACCEPTED, DOUBT, FEED, PITCH_BACK, STARTER, WAIT, WARM
from winebench.plan.stuck.standstill import EYE, POINT, stuck

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

STEPS = (DOUBT, WARM, WAIT, STARTER, FEED, PITCH_BACK, ACCEPTED)
"""Keys of the steps from the standstill to its end."""
DECLARED = "declare-stable"


def earlier_rounds(batch: Batch) -> Mapping[str, list[Action]]:
    """Return the ticks of steps that are asked for again, by step.

    Those of an earlier standstill; and what declared and stabilised a wine that has fallen since,
    or was racked before it was stabilised.
    """
    return {**_before_standstill(batch), **_taken_back(batch)}


def _before_standstill(batch: Batch) -> Mapping[str, list[Action]]:
    if not any(key in batch.ticks for key in STEPS):
        return {}
    found = stuck(batch)
    return {} if found is None else _ticked_before(batch, STEPS, found.asked_from)


def _taken_back(batch: Batch) -> Mapping[str, list[Action]]:
    """Return the declarations that were taken back: by a fall of more than a point, by sugar fed
    since, or by a racking with its air, acid or another wine, which start the clock of the equal
    days again (common practice); and one that its readings, corrected since, no longer bear.

    What was stabilised meanwhile is guarded against the air: it has to rest a week (`steps/hold`).
    """
    fell = [at for tick in batch.ticks.get(DECLARED, ()) if (at := _fell_after(batch, tick))]
    if DECLARED in batch.ticks:
        fell += [settled(batch.ticks[step][-1].at) for step in SUGAR_IN if step in batch.ticks]
        fell += _changed_unguarded(batch)
        fell += _unborne(batch)
    if not fell or "bottle" in batch.ticks:
        return {}
    return _ticked_before(batch, (DECLARED, "stabilise"), max(fell))


def _changed_unguarded(batch: Batch) -> list[datetime]:
    """Return the rackings, acid and other wine between a declaration and the stabilising after it.

    Sugar at the end needs no clock: it waits for sorbate and a week of rest in any case.
    """
    guarded = [settled(tick.at) for tick in batch.ticks.get("stabilise", ())]
    declared = [settled(tick.at) for tick in batch.ticks[DECLARED]]
    unsweet = (tick for tick in batch.ticks.get("sweeten", ()) if _brings_none(tick))
    racked = (tick for key in RACKINGS for tick in batch.ticks.get(key, ()))
    return [
        at
        for at in map(_at, (*racked, *unsweet))
        for before in declared
        if before < at and not any(before <= safe <= at for safe in guarded)
    ]


def _brings_none(tick: Action) -> bool:
    """Return whether acid or another wine alone went in."""
    return not noted_with(tick, "grams") and any(noted_with(tick, what) for what in NO_SUGAR)


def _at(tick: Action) -> datetime:
    return settled(tick.at)


def _unborne(batch: Batch) -> list[datetime]:
    """Return the moment after a declaration that the readings up to it do not bear."""
    if "sweeten" in batch.ticks or stability(batch).met:
        return []
    return [settled(batch.ticks[DECLARED][-1].at) + timedelta(seconds=1)]


def _fell_after(batch: Batch, tick: Action) -> datetime | None:
    """Return when, before any sweetening, it first read more than a point below that day's."""
    at = settled(tick.at)
    before = [seen.sg for seen in batch.ferment if seen.at <= at and seen.sg is not None]
    if not before:
        return None
    lower = (
        seen.at
        for seen in batch.ferment
        if seen.at > at and seen.sg is not None and seen.sg < before[-1] - POINT - EYE
    )
    return next(lower, None)


def _ticked_before(batch: Batch, keys: tuple[str, ...], at: datetime) -> Mapping[str, list[Action]]:
    found = {
        key: [tick for tick in batch.ticks.get(key, ()) if settled(tick.at) < at] for key in keys
    }
    return {key: ticks for key, ticks in found.items() if ticks}
