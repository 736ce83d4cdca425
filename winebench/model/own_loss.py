"""What a finished batch of one's own lost in its rackings: part of the project that asks."""

from __future__ import annotations

from typing import Literal

from winebench.model.part import Part

Racking = Literal["transfer", "second-rack", "third-rack"]


class RackedOff(Part, frozen=True, kw_only=True):
    """One racking of the log with what it left behind."""

    step: Racking
    lost_l: float
    """As logged: written, or the wine before less the wine after, L."""


class OwnLosses(Part, frozen=True, kw_only=True):
    """The rackings of one finished batch of the maker's."""

    name: str
    """Of the batch, when it was learned from."""
    batch: str
    """Id of that batch's project: learned from again, it replaces what was learned before."""
    must_l: float
    """Must that was made, L."""
    puree: bool = False
    """Whether most of its fruit was strained puree, which leaves heavy lees."""
    rackings: tuple[RackedOff, ...] = ()
