"""What to buy, what goes in later, and what the batch comes to."""

from __future__ import annotations

from datetime import date

from winebench.plan.outlook.figure import Figure, Shape


class ShoppingItem(Shape, frozen=True, kw_only=True):
    """One line of the shopping list: what the batch needs, less the stock, in whole packs."""

    name: str
    need: str
    """Like "9.00 kg (19 lb 13 oz)"."""
    what: str = ""
    """Name of its pantry entry."""
    unit: str = ""
    """Of the five amounts: "g", "L", or what is counted, such as "packet"."""
    needed: float = 0.0
    stock: float = 0.0
    buy: float = 0.0
    packs: int | None = None
    """Whole packs to buy; None where the shop weighs out any amount."""
    left: float = 0.0
    """What remains of stock and packs once the batch is made."""
    stock_text: str = ""
    buy_text: str = ""
    """Like "3 × 1 kg"; empty where nothing is to be bought."""
    left_text: str = ""
    price_of: str = ""
    """What a bare price is of: "a pack", "a kg", "a litre" or "each"; empty where it says so."""
    sold_by: str = ""
    """What a bare price is of that is typed now: "a lb" where the batch is in pounds."""
    cost: float | None = None
    """To spend in the shop, in the project's money; None without a price."""
    cost_used: float | None = None
    """The part of `cost` that goes into this wine."""
    stock_used: float | None = None
    """What the wine takes from the stock, at the same price."""
    cost_text: str = ""
    keeping: str = ""
    """How long it keeps once open, where that is known; else empty."""
    keeps_until: date | None = None
    """When an open pack has lost its strength, about; None where nothing is open."""
    notes: tuple[str, ...] = ()
    suggested: bool = False
    """Whether the batch can do without it: it may be left out."""
    fresh: ShoppingItem | None = None
    """The same with nothing in stock, where that ages; None once the day is known."""


class LaterDose(ShoppingItem, frozen=True, kw_only=True):
    """Something that goes in after the ferment; its amount follows what the wine reads by then."""

    amount: str
    """Like "at most 1.7 g", "about 240 g"."""
    measure: str
    """How to measure it in a kitchen, with its error; empty where the amount says it already."""
    measure_error_percent: float | None = None
    step: str
    """Key of the step that it is for."""
    when: str
    """Like "for “Stabilise”, about 3 December"."""
    why: str
    """Like "by the pH that was read"."""
    had: str
    """Like "in stock 50 g", or "95 tablets left over" of what the list has; else empty."""
    sentence: str


class Cost(Shape, frozen=True, kw_only=True):
    """What the shopping comes to and what the wine costs, in the project's money."""

    money: str
    to_spend: float | None
    """In the shop, whole packs and all; None where nothing has a price."""
    used: float | None
    """The part of `to_spend` that goes into this wine."""
    from_stock: float | None
    """What the wine takes from the stock, at the same prices."""
    a_bottle: float | None
    """(used + from_stock) / bottles; None where no bottle is filled."""
    sentence: str
    without_price: tuple[str, ...]
    """Names of what is not counted, for want of a price."""


class BottleOutlook(Shape, frozen=True, kw_only=True):
    """What the batch will fill."""

    bottles: int
    corks: int
    finished: Figure
    """Wine left to bottle, L."""
    sentence: str
    cost: Cost | None = None
    """What shopping and wine come to; None where that was not asked for."""
    drink_from: Figure | None = None
    """Months after bottling: ready, and up to the style's best. None where not asked for."""
