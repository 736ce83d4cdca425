"""The shopping list as plain text, to be pasted into a message."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from winebench.plan.outlook import LaterDose, Outlook, ShoppingItem
from winebench.plan.shopping.items import FRESH, PAST, past_keeping
from winebench.plan.shopping.pantry import thing_name

STALE = "what is in stock is past its strength"
SUGGESTED = "suggested, may be left out"
_LACKING = {"no-pectic-enzyme": "pectic-enzyme", "little-nitrogen": "yeast-nutrient"}
"""Cautions of the recipe, and what would answer them."""
NOTHING = "Nothing is to be bought; all of it is in stock."
ALL_BOUGHT = "Nothing more is to be bought for what is made already."
LATER = "Needed later, when the wine is made"


def shopping_lines(outlook: Outlook, labels: str = "") -> Iterator[str]:
    """Give the list line by line: what to buy, what is there, what to look at, what it costs.

    `labels` is a sentence on the labels, which are known to what prints them.
    """
    yield f"Shopping for {outlook.name.strip() or 'fruit wine'}, {outlook.make_text}"
    yield ""
    day = outlook.at.date()
    wanted = [_bought(item, day) for item in outlook.shopping if item.buy_text]
    yield "To buy:" if wanted else NOTHING if outlook.shopping else ALL_BOUGHT
    yield from (f"- {words}" for words in wanted)
    there = [item for item in outlook.shopping if not item.buy_text]
    later = [later_words(dose, day) for dose in outlook.later]
    cost = outlook.bottles.cost
    for title, lines in (
        ("In stock already", [f"{item.name}: {stock_words(item)}" for item in there]),
        (LATER, later),
        ("Look at", [*to_look_at(outlook), *filter(None, (labels,))]),
        ("", [cost.sentence] if cost else []),
    ):
        if lines:
            yield ""
            if title:
                yield f"{title}:"
            yield from (f"- {line}" if title else line for line in lines)


def to_buy(item: ShoppingItem, day: date) -> str:
    """Return what is to be bought of it on that day: "3 × 1 kg", "fresh, 3 g"; else nothing.

    There may be enough of it in stock, but no strength left in that.
    """
    if item.buy_text or not past_keeping(item, day):
        return item.buy_text
    return f"{FRESH}, {item.need}"


def later_words(dose: LaterDose, day: date) -> str:
    """Return like "…; in stock 50 g" or "…; to buy 1 packet, 2.20"."""
    buy = to_buy(dose, day)
    buy = f"to buy {buy}" if buy else "nothing to buy"
    buy = f"{buy}, {dose.cost_text}" if dose.cost_text else buy
    return f"{dose.sentence.rstrip('.')}; {', '.join(filter(None, (dose.had, buy)))}."


def why_bought(item: ShoppingItem, day: date) -> str:
    """Return why it is on the list though it might not be: suggested, or stock gone stale."""
    stale = STALE if past_keeping(item, day) and item.stock_text else ""
    return "; ".join(filter(None, (SUGGESTED if item.suggested else "", stale)))


def _bought(item: ShoppingItem, day: date) -> str:
    words = f"{item.name}: {item.buy_text}"
    words = f"{words}, {item.cost_text}" if item.cost_text else words
    why = why_bought(item, day)
    words = f"{words} ({why})" if why else words
    reckoned = item.stock_text or (item.packs is not None and item.left > 0)
    return f"{words}; {stock_words(item)}" if reckoned else words


def stock_words(item: ShoppingItem) -> str:
    """Return like "needed 3.40 kg, in stock 0.5 kg, left over 100 g"."""
    parts = (("needed", item.need), ("in stock", item.stock_text), ("left over", item.left_text))
    return ", ".join(f"{name} {words}" for name, words in parts if words)


def note_of(item: ShoppingItem, day: date) -> str:
    """Return what is to be said beside a row of the list on that day; empty where there is nothing.

    How long a thing keeps is said once its pack is open.
    """
    parts = list(item.notes)
    if isinstance(item, LaterDose):
        parts.insert(0, f"{_how(item)}{item.when[0].upper()}{item.when[1:]}: {item.why}.")
    if item.keeps_until is not None:
        parts[:0] = [item.keeping, PAST] if past_keeping(item, day) else [item.keeping]
    return " ".join(parts)


def _how(dose: LaterDose) -> str:
    """Return "Measure 3 tablets, −5 %. " or "Crush and weigh 0.26 g, or …. "; else nothing."""
    told = dose.measure
    if not told:
        return ""
    says_how = told.startswith(("weigh", "crush"))
    return f"{told[0].upper()}{told[1:]}. " if says_how else f"Measure {told}. "


def to_look_at(outlook: Outlook) -> Iterator[str]:
    """Give what is to be known of things before they are bought or used."""
    yield from missing(outlook)
    told: set[str] = set()
    for item in (*outlook.shopping, *outlook.later):
        past = past_keeping(item, outlook.at.date()) and item.what not in told
        kept = [item.keeping, PAST] if past else []
        told.add(item.what)
        words = " ".join((*kept, *item.notes))
        if words:
            yield f"{item.name}: {words}"


def missing(outlook: Outlook) -> Iterator[str]:
    """Give what the recipe is said to lack: it is named here and not bought without a word.

    Once the must has its yeast, nothing of it is shopped for.
    """
    if any(step.key == "pitch" and step.state == "done" for step in outlook.steps):
        return
    listed = {item.what for item in outlook.shopping}
    for caution in outlook.cautions:
        if caution.key in _LACKING:
            what = _LACKING[caution.key]
            how = "no more of it than the recipe has is" if what in listed else "not"
            yield f"{thing_name(what)}: {how} on this list. {caution.sentence}"
