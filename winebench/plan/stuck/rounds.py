"""A wine that stands still again: what was done the last time is history, and asked for anew."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from winebench.model.log import Action
from winebench.plan.days import settled
from winebench.plan.stuck.keys import ACCEPTED, DOUBT, FEED, PITCH_BACK, STARTER, WAIT, WARM
from winebench.plan.stuck.standstill import stuck

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

STEPS = (DOUBT, WARM, WAIT, STARTER, FEED, PITCH_BACK, ACCEPTED)
"""Keys of the steps from the standstill to its end."""


def earlier_rounds(batch: Batch) -> Mapping[str, list[Action]]:
    """Return the ticks of those steps that belong to an earlier standstill, by step."""
    if not any(key in batch.ticks for key in STEPS):
        return {}
    found = stuck(batch)
    if found is None:
        return {}
    earlier = {
        key: [tick for tick in batch.ticks.get(key, ()) if settled(tick.at) < found.asked_from]
        for key in STEPS
    }
    return {key: ticks for key, ticks in earlier.items() if ticks}
