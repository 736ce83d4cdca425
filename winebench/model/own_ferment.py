"""What the forecast learned from a finished batch of one's own: part of the project that asks."""

from __future__ import annotations

from winebench.model.part import Part

LEARNT = 5
"""How many numbers a ferment is told by, each with its spread."""
FARTHEST = 3.0
"""Spreads from the usual; more would be a fit gone wrong."""


class OwnFerment(Part, frozen=True, kw_only=True):
    """One finished ferment of the maker's, as numbers that the forecast leans on."""

    name: str
    """Of the batch, when it was learned from."""
    batch: str
    """Id of that batch's project: learned from again, it replaces what was learned before."""
    middles: tuple[float, ...]
    """Of rate, lag, slowing for want of sugar, slowing by alcohol, and thinness of the tail: 0 is
    the usual must, 1 a usual spread above it, at 20 °C."""
    spreads: tuple[float, ...]
    """How well the readings tell each of them: 0 fully, 1 not at all."""
