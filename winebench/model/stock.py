"""What the household has in stock, and what its shop sells."""

from __future__ import annotations

from datetime import date

from winebench.model.part import Part
from winebench.units import Amount


class PantryItem(Part, frozen=True, kw_only=True):
    """One thing in stock, or in the shop: how much there is, how it is sold, what it costs."""

    what: str
    """Catalog key of a fruit, sugar or additive; "yeast", "bottles", "corks", or one's own word."""
    have: Amount | None = None
    """In stock; None means none."""
    pack: Amount | None = None
    """What one pack holds, whole packs are bought; None where the shop weighs out any amount."""
    price: float | None = None
    """Of one pack, in the project's money; without a pack, of 1 kg or 1 L (of one, if counted)."""
    opened: date | None = None
    """When the pack in stock was opened: some things lose their strength."""
