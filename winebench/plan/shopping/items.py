"""The shopping list: what the batch needs less the stock, in whole packs, and what it costs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date

import msgspec

from winebench.model.project import Project
from winebench.plan.outlook import BottleOutlook, Cost, LineOutlook, ShoppingItem
from winebench.plan.shopping.needs import BOTTLES, CLEANER, CORKS, Need, amount_text, needs
from winebench.plan.shopping.pantry import Stock, in_stock, left_out

_NOISE = 1e-9
"""Share of a need that is arithmetic's doing: three packs of 1 kg are enough for 3 kg."""
_BY_MEASURE = ("g", "L")
_SIGNS_IN_FRONT = ("$", "£")
PAST = "It is past that: buy fresh."
FRESH = "fresh"
NO_PRICES = "No prices are noted yet, so nothing is said of the cost."


def shopping(
    project: Project, lines: Iterable[LineOutlook], bottles: BottleOutlook
) -> tuple[ShoppingItem, ...]:
    """Return the shopping list of the scaled batch, bottles and corks included."""
    return tuple(
        shopping_item(need, in_stock(project, need), project.money)
        for need in needs(project, lines, bottles)
        if not (need.suggested and left_out(project, need.what))
    )


def shopping_item(need: Need, stock: Stock, money: str) -> ShoppingItem:
    """Return what is to be bought of that need, and what it costs."""
    short = need.value - stock.amount
    short = short if short > _NOISE * need.value else 0.0
    buy, packs = _to_buy(need, stock, short)
    left = max(stock.amount + buy - need.value, 0.0)
    left = left if left > _NOISE * need.value else 0.0
    fresh = None
    if stock.keeps_until is not None and stock.amount > 0:
        fresh = shopping_item(need, stock._replace(amount=0.0, keeps_until=None), money)
    one = stock.price_of_one
    cost = None if one is None else buy * one
    return ShoppingItem(
        name=need.name,
        need=need.text,
        what=need.what,
        unit=need.unit,
        needed=need.value,
        stock=stock.amount,
        buy=buy,
        packs=packs,
        left=left,
        stock_text=stock.text,
        buy_text=_buy_text(need, stock, buy, packs),
        left_text=_left_text(need, left),
        price_of=stock.price_of,
        sold_by=stock.sold_by,
        cost=cost,
        cost_used=None if one is None else short * one,
        stock_used=None if one is None else (need.value - short) * one,
        cost_text="" if cost is None or buy <= 0 else money_text(cost, money),
        keeping=stock.keeping,
        keeps_until=stock.keeps_until,
        notes=tuple(filter(None, (need.note, *stock.notes))),
        suggested=need.suggested,
        fresh=fresh,
    )


_OF_FRESH = ("buy", "packs", "left", "left_text", "cost", "cost_used", "stock_used", "cost_text")


def on_day(items: Iterable[ShoppingItem], day: date) -> tuple[ShoppingItem, ...]:
    """Return the items as they are to be bought that day: past its strength, stock counts nothing.

    Then the pack that the shop sells is bought and paid for like any other.
    """
    return tuple(_on_day(item, day) for item in items)


def _on_day(item: ShoppingItem, day: date) -> ShoppingItem:
    fresh = item.fresh
    if fresh is None or not past_keeping(item, day):
        return msgspec.structs.replace(item, fresh=None)
    bought = {name: getattr(fresh, name) for name in _OF_FRESH}
    left = fresh.left_text if fresh.packs is not None else ""
    bought |= {"buy_text": f"{FRESH}, {fresh.buy_text}", "left_text": left, "fresh": None}
    return msgspec.structs.replace(item, **bought)


def _left_text(need: Need, left: float) -> str:
    """Return what is left over; of a tablet less than half is not worth keeping."""
    nothing = left < 0.5 if need.unit == "tablet" else left <= 0
    return "" if nothing else amount_text(need, left)


def still_needed(
    items: Iterable[ShoppingItem], *, pitched: bool, bottled: bool
) -> tuple[ShoppingItem, ...]:
    """Return what the batch still needs: of the must nothing once it has its yeast."""
    return tuple(item for item in items if not _over(item, pitched, bottled))


def with_the_past_bought(
    items: Iterable[ShoppingItem], *, pitched: bool, bottled: bool
) -> tuple[ShoppingItem, ...]:
    """Return the items for the cost: what went in already is paid for, and nothing to spend."""
    return tuple(
        msgspec.structs.replace(
            item,
            cost=item.cost and 0.0,
            cost_used=item.cost_used and 0.0,
            stock_used=None
            if item.cost is None
            else (item.stock_used or 0.0) + (item.cost_used or 0.0),
        )
        if _over(item, pitched, bottled)
        else item
        for item in items
    )


def _over(item: ShoppingItem, pitched: bool, bottled: bool) -> bool:
    return bottled or (pitched and item.what not in (BOTTLES, CORKS, CLEANER))


def _to_buy(need: Need, stock: Stock, short: float) -> tuple[float, int | None]:
    """Return how much to buy, and in how many packs; counted things are never cut."""
    if stock.pack is not None:
        packs = math.ceil(short / stock.pack - _NOISE) if short > 0 else 0
        packs = max(packs, 1) if short > 0 else 0
        return packs * stock.pack, packs
    if need.unit in _BY_MEASURE or short <= 0:
        return short, None
    return float(math.ceil(short - _NOISE * need.value)), None


def _buy_text(need: Need, stock: Stock, buy: float, packs: int | None) -> str:
    if buy <= 0:
        return ""
    if packs is None or (stock.pack == 1.0 and need.unit not in _BY_MEASURE):
        return amount_text(need, buy)  # "2 packets", not "2 × 1 packet"
    return f"{packs} × {stock.pack_text}"


def cost_of(items: Sequence[ShoppingItem], bottles: int, money: str) -> Cost:
    """Return what the shopping and the wine come to."""
    priced = [item for item in items if item.cost is not None]
    without = (item.name for item in items if item.cost is None and not item.suggested)
    unpriced = tuple(dict.fromkeys(without))
    if not priced:
        return Cost(
            money=money, to_spend=None, used=None, from_stock=None, a_bottle=None,
            sentence=NO_PRICES, without_price=unpriced,
        )  # fmt: skip
    spend = sum(item.cost or 0.0 for item in priced)
    used = sum(item.cost_used or 0.0 for item in priced)
    taken = sum(item.stock_used or 0.0 for item in priced)
    each = (used + taken) / bottles if bottles else None
    words = _words(spend, used, taken, each, money)
    if unpriced:
        words = f"{words} Not counted, for want of a price: {'; '.join(unpriced)}."
    return Cost(
        money=money, to_spend=spend, used=used, from_stock=taken, a_bottle=each,
        sentence=words, without_price=unpriced,
    )  # fmt: skip


def _words(spend: float, used: float, taken: float, each: float | None, money: str) -> str:
    a_bottle = "" if each is None else f"{money_text(each, money)} a bottle"
    if spend > 0 and taken <= 0:
        goes = f"of which {money_text(used, money)} goes into this wine"
        return f"To spend {money_text(spend, money)}, {goes}{a_bottle and f': {a_bottle}'}."
    if spend <= 0:
        words = f"Nothing to spend; {money_text(taken, money)} from the stock goes into this wine"
        return f"{words}{a_bottle and f': {a_bottle}'}."
    words = (
        f"To spend {money_text(spend, money)}, of which {money_text(used, money)} goes into this "
        f"wine; with {money_text(taken, money)} from the stock it costs "
        f"{money_text(used + taken, money)}"
    )
    return f"{words}{a_bottle and f', {a_bottle}'}."


def money_text(amount: float, money: str) -> str:
    """Return an amount of money: "14.20 EUR", "$14.20", "14.20" where no money is named."""
    money = money.strip()
    if money in _SIGNS_IN_FRONT:
        return f"{money}{amount:.2f}"
    return f"{amount:.2f} {money}".rstrip()


def past_keeping(item: ShoppingItem, day: date) -> bool:
    """Return whether what is open in stock has lost its strength by that day, about."""
    return item.keeps_until is not None and day > item.keeps_until
