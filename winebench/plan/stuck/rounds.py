"""A wine that stands still or falls again: what was done before is history, and asked for anew."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING

from winebench.model.log import Action
from winebench.plan.days import settled
from winebench.plan.readings import SUGAR_IN
from winebench.plan.stuck.keys import ACCEPTED, DOUBT, FEED, PITCH_BACK, STARTER, WAIT, WARM
from winebench.plan.stuck.standstill import EYE, POINT, stuck

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

STEPS = (DOUBT, WARM, WAIT, STARTER, FEED, PITCH_BACK, ACCEPTED)
"""Keys of the steps from the standstill to its end."""
DECLARED = "declare-stable"


def earlier_rounds(batch: Batch) -> Mapping[str, list[Action]]:
    """Return the ticks of steps that are asked for again, by step.

    Those of an earlier standstill; and what declared and stabilised a wine that has fallen since.
    """
    return {**_before_standstill(batch), **_before_fall(batch)}


def _before_standstill(batch: Batch) -> Mapping[str, list[Action]]:
    if not any(key in batch.ticks for key in STEPS):
        return {}
    found = stuck(batch)
    return {} if found is None else _ticked_before(batch, STEPS, found.asked_from)


def _before_fall(batch: Batch) -> Mapping[str, list[Action]]:
    """Return the declarations that a later fall of more than a point, or a feed, took back."""
    fell = [at for tick in batch.ticks.get(DECLARED, ()) if (at := _fell_after(batch, tick))]
    if DECLARED in batch.ticks:
        fell += [settled(batch.ticks[step][-1].at) for step in SUGAR_IN if step in batch.ticks]
    if not fell or "bottle" in batch.ticks:
        return {}
    return _ticked_before(batch, (DECLARED, "stabilise"), max(fell))


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
