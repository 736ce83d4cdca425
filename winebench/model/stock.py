"""What the household has in stock, and what its shop sells."""

from __future__ import annotations

from winebench.model.part import Part
from winebench.model.price import Price
from winebench.model.rough_day import RoughDay
from winebench.units import Amount


class PantryItem(Part, frozen=True, kw_only=True):
    """One thing in stock, or in the shop: how much there is, how it is sold, what it costs."""

    what: str
    """Catalog key of a fruit, sugar or additive; "yeast", "bottles", "corks", or one's own word."""
    have: Amount | None = None
    """In stock; None means none."""
    pack: Amount | None = None
    """What one pack holds, whole packs are bought; None where the shop weighs out any amount."""
    price: Price | None = None
    """In the project's money; a bare number is of one pack, without a pack of 1 kg or 1 L (of one,
    if counted)."""
    opened: RoughDay | None = None
    """When the pack in stock was opened: some things lose their strength."""
    left_out: bool = False
    """Whether the maker does without it where it is only suggested."""
