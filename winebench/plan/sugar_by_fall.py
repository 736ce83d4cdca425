"""The must's sugar that a gravity leaves to ferment: in proportion to the fall still to come."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from winebench.plan.readings import LARGEST_RISE

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

LEAST_SUGAR_G_PER_L = 2.0
"""Up to this a wine counts as dry (common practice)."""
ALIKE_G_PER_L = 1.0
"""A range narrower than this is told as one figure."""


class SugarLeft(NamedTuple):
    """Sugar that yeast could still take, g/L."""

    low: float
    """Where the must ends at the highest gravity that counts as fermented out."""
    high: float
    """Where it ends as its sugar and extract reckon it."""

    @property
    def words(self) -> str:
        """Return like "15 to 28 g/L", "up to 13 g/L" or "about 48 g/L"."""
        if self.high - self.low < ALIKE_G_PER_L:
            return f"about {self.high:.0f} g/L"
        if self.low < LEAST_SUGAR_G_PER_L:
            return f"up to {self.high:.0f} g/L"
        return f"{self.low:.0f} to {self.high:.0f} g/L"


def sugar_by_fall(batch: Batch, sg: float) -> SugarLeft:
    """Return the must's sugar times the share of the fall that is still to come, at that gravity.

    To the highest gravity that counts as fermented out, and to the one that is reckoned.
    """
    sugar, dry = batch.must.sugar.value or 0.0, batch.dry_gravity
    whole = max(batch.original_gravity - dry, LARGEST_RISE)
    low, high = (sugar * max(sg - end, 0.0) / whole for end in (batch.highest_end, dry))
    return SugarLeft(min(low, high), high)
