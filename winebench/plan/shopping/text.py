"""The shopping list as plain text, to be pasted into a message."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.plan.outlook import Outlook, ShoppingItem
from winebench.plan.shopping.items import PAST, past_keeping

NOTHING = "Nothing is to be bought; all of it is in stock."
LATER = "Needed later, when the wine is made"


def shopping_lines(outlook: Outlook) -> Iterator[str]:
    """Give the list line by line: what to buy, what is there, what to look at, what it costs."""
    yield f"Shopping for {outlook.name.strip() or 'fruit wine'}, {outlook.make_text}"
    yield ""
    wanted = [item for item in outlook.shopping if item.buy_text]
    yield "To buy:" if wanted else NOTHING
    yield from (f"- {_bought(item)}" for item in wanted)
    there = [item for item in outlook.shopping if not item.buy_text]
    if there:
        yield ""
        yield "In stock already:"
        yield from (f"- {item.name}: {stock_words(item)}" for item in there)
    looks = list(to_look_at(outlook))
    if looks:
        yield ""
        yield "Look at:"
        yield from (f"- {words}" for words in looks)
    if outlook.later:
        yield ""
        yield f"{LATER}:"
        yield from (f"- {dose.sentence}" for dose in outlook.later)
    cost = outlook.bottles.cost
    if cost is not None:
        yield ""
        yield cost.sentence


def _bought(item: ShoppingItem) -> str:
    words = f"{item.name}: {item.buy_text}"
    words = f"{words}, {item.cost_text}" if item.cost_text else words
    reckoned = item.stock_text or (item.packs is not None and item.left > 0)
    return f"{words}; {stock_words(item)}" if reckoned else words


def stock_words(item: ShoppingItem) -> str:
    """Return like "needed 3.40 kg, in stock 0.5 kg, left over 100 g"."""
    parts = (("needed", item.need), ("in stock", item.stock_text), ("left over", item.left_text))
    return ", ".join(f"{name} {words}" for name, words in parts if words)


def to_look_at(outlook: Outlook) -> Iterator[str]:
    """Give what is to be known of things before they are bought or used."""
    for item in outlook.shopping:
        kept = [item.keeping, PAST] if past_keeping(item, outlook.at.date()) else []
        words = " ".join((*kept, *item.notes))
        if words:
            yield f"{item.name}: {words}"
