"""What is in stock of a thing, how the shop sells it, and how long it keeps once open."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator
from datetime import date
from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.catalog.fruits import fruits
from winebench.catalog.sugars import sugars
from winebench.model.edits import changed
from winebench.model.price import Price
from winebench.model.project import Project
from winebench.model.rough_day import RoughDay
from winebench.model.stock import PantryItem
from winebench.plan.days import MONTHS
from winebench.plan.shopping.needs import Need
from winebench.units import Amount, UnitsError

_A_YEAR = 365
_KEEPS = {
    "sulfite": (1, "Once open, it keeps its strength for about a year"),
    "enzyme": (2, "Once open, it keeps its strength for about two years"),
    "sorbate": (1, "Once open, it keeps its strength for about a year"),
}
"""Years by kind of additive. Common practice; the packet's own date goes first. Of sorbate no
published figure for an opened packet was found: it yellows in air and damp."""
_SWOLLEN = "Tablets that have swollen or crumble have lost their strength."
_PRICE_OF = {"g": "a kg", "L": "a litre"}
_CUSTOMARY_OF = {"g": "a lb", "L": "a gal"}
"""Of what is written in pounds or gallons; such a price is kept with what it is of."""
_WANTED = {"g": "a weight, such as 500 g", "L": "a volume, such as 1 L"}


class Stock(NamedTuple):
    """What is in stock of a need, and how it is sold; amounts in the need's unit."""

    amount: float = 0.0
    text: str = ""
    pack: float | None = None
    """What one pack holds; None where the shop weighs out any amount."""
    pack_text: str = ""
    price_of_one: float | None = None
    """Of 1 g, 1 L or one."""
    price_of: str = ""
    """What a bare price is of; empty where it is written with the price."""
    sold_by: str = ""
    """What a bare price that is typed now would be of."""
    keeping: str = ""
    keeps_until: date | None = None
    notes: tuple[str, ...] = ()


def same(item: PantryItem, what: str) -> bool:
    """Return whether that is the thing's pantry entry; capitals do not matter."""
    return item.what.strip().casefold() == what.strip().casefold()


def entry(project: Project, what: str, nth: int = 0) -> PantryItem:
    """Return the nth pantry entry of that name, or an empty one."""
    named = [item for item in project.pantry if same(item, what)]
    return named[nth] if nth < len(named) else PantryItem(what=what)


def pantry_with(
    project: Project, what: str, nth: int = 0, **fields: object
) -> tuple[PantryItem, ...]:
    """Return the pantry with fields of that entry replaced; a first entry is added."""
    old = entry(project, what, nth)
    new = changed(old, **fields)
    if any(item is old for item in project.pantry):
        return tuple(new if item is old else item for item in project.pantry)
    return (*project.pantry, new)


def pantry_without(project: Project, what: str, nth: int = 0) -> tuple[PantryItem, ...]:
    """Return the pantry without that entry."""
    gone = entry(project, what, nth)
    return tuple(item for item in project.pantry if item is not gone)


def pantry_leaving_out(project: Project, what: str, *, out: bool) -> tuple[PantryItem, ...]:
    """Return the pantry that leaves a suggested thing off the list, or puts it back."""
    pantry = pantry_with(project, what, left_out=out)
    return tuple(item for item in pantry if item != PantryItem(what=what))


def beside_the_list(project: Project, listed: Collection[str]) -> Iterator[tuple[str, int]]:
    """Give name and number of each entry that is not the first of something on the list."""
    names = {what.strip().casefold() for what in listed}
    seen: Counter[str] = Counter()
    for item in project.pantry:
        name = item.what.strip().casefold()
        nth = seen[name]
        seen[name] += 1
        if nth or name not in names:
            yield item.what, nth


def left_out(project: Project, what: str) -> bool:
    """Return whether the maker does without that thing, which is only suggested."""
    return any(item.left_out and same(item, what) for item in project.pantry)


def thing_name(what: str) -> str:
    """Return what a pantry entry is called: the catalog's name, else one's own word."""
    key = what.strip().casefold()
    known = fruits().get(key) or sugars().get(key) or additives().get(key)
    return known.name if known else what.strip().capitalize()


def in_stock(project: Project, need: Need) -> Stock:
    """Return what the pantry says of that need; what it says in the wrong unit becomes a note."""
    items = [item for item in project.pantry if same(item, need.what)]
    if not items:
        of = _price_of(need, None, None)
        return Stock(price_of=of, sold_by=of, keeping=_keeping(need, None)[0])
    notes: list[str] = []
    sold = next((item for item in items if item.pack is not None), None)
    pack = _pack(sold.pack, need, notes) if sold and sold.pack else None
    source = sold or next((item for item in items if item.price is not None), items[0])
    price = _price(source.price, need, pack, notes) if source.price else None
    if sold is not None and pack is None and source.price and source.price.of is None:
        price = None  # it is of a pack that cannot be reckoned with
    had = [item for item in items if item.have is not None]
    amount = sum(_had(item.have, need, pack, notes) for item in had if item.have)
    opened = [item.opened for item in had if item.opened] if amount > 0 else []
    oldest = min(opened, key=lambda day: (day.first, day.last), default=None)
    keeping, until = _keeping(need, oldest)
    if amount > 0 and need.unit == "tablet" and need.kind == "sulfite":
        notes.append(_SWOLLEN)
    return Stock(
        amount=amount,
        text=" + ".join(item.have.text.strip() for item in had if item.have),
        pack=pack,
        pack_text=sold.pack.text.strip() if sold and sold.pack and pack else "",
        price_of_one=price,
        price_of=_price_of(need, sold, source.price),
        sold_by=_price_of(need, sold, None),
        keeping=keeping,
        keeps_until=until,
        notes=tuple(notes),
    )


def _pack(pack: Amount, need: Need, notes: list[str]) -> float | None:
    try:
        size = in_unit(pack, need)
    except UnitsError as problem:
        notes.append(f"A pack: {problem}")
        return None
    if size > 0:
        return size
    notes.append("A pack of nothing cannot be bought; say what it holds.")
    return None


def _price_of(need: Need, sold: PantryItem | None, price: Price | None) -> str:
    """Return what a bare price is of, or would be of; empty where the price says so itself."""
    if price is not None and price.of is not None:
        return ""
    if sold is not None:
        return "a pack"
    in_pounds = price is None and need.customary and (need.unit == "g" or need.gallon is not None)
    return (_CUSTOMARY_OF if in_pounds else _PRICE_OF).get(need.unit, "each")


def _price(price: Price, need: Need, pack: float | None, notes: list[str]) -> float | None:
    """Return the price of 1 g, 1 L or one; what cannot be reckoned with becomes a note."""
    if price.of is not None:
        try:
            return price.value / in_unit(price.of, need)
        except UnitsError as problem:
            notes.append(f"Its price is not counted: {problem}")
            return None
    return price.value / (pack or (1000.0 if need.unit == "g" else 1.0))


def _had(have: Amount, need: Need, pack: float | None, notes: list[str]) -> float:
    """Return the stock in the need's unit: "2 packets" of what is sold by weight are two packs."""
    try:
        return in_unit(have, need)
    except UnitsError as problem:
        if have.dimension == "count" and pack is not None:
            return have.count() * pack
        notes.append(f"In stock, not counted: {problem}")
        return 0.0


def in_unit(amount: Amount, need: Need) -> float:
    """Return the amount in the need's unit, through its density or the mass of one of it.

    Raises:
        UnitsError: the two cannot be set against each other, or a bare gallon of no country.

    """
    if amount.dimension == "count":
        unit = amount.parts[0].unit
        if unit == need.unit or (need.unit not in _WANTED and "piece" in (unit, need.unit)):
            return amount.count()
        if unit == need.one and need.g_per_one:
            return _from_grams(amount.count() * need.g_per_one, amount, need)
        raise _other(amount, need)
    if amount.dimension == "mass":
        return _from_grams(amount.grams(), amount, need)
    litres = amount.litres(need.gallon)
    if need.unit == "L":
        return litres
    if need.g_per_litre is None:
        raise _other(amount, need)
    return _from_grams(litres * need.g_per_litre, amount, need)


def _from_grams(grams: float, amount: Amount, need: Need) -> float:
    each = need.g_per_litre if need.unit == "L" else 1.0 if need.unit == "g" else need.g_per_one
    if not each:
        raise _other(amount, need)
    return grams / each


def _other(amount: Amount, need: Need) -> UnitsError:
    wanted = _WANTED.get(need.unit, f"how many, such as 10 {need.unit}s")
    return UnitsError(f'"{amount.text.strip()}" cannot be set against {need.text}; write {wanted}.')


def _keeping(need: Need, opened: RoughDay | None) -> tuple[str, date | None]:
    """Return how long it keeps once open, and until when, where it was opened.

    Of a month or a year its first day counts: strength that may be lost is not relied on.
    """
    if need.kind not in _KEEPS:
        return "", None
    years, words = _KEEPS[need.kind]
    if opened is None:
        return f"{words} (common practice).", None
    last = min(opened.first.toordinal() + years * _A_YEAR, date.max.toordinal())
    until = date.fromordinal(last)
    end = f"until {MONTHS[until.month - 1]} {until.year}"
    if not opened.exact:
        first = f"{opened.first.day} {MONTHS[opened.first.month - 1]}"
        about = f"Opened about {opened.words}, reckoned as {first}, the earliest it can have been."
        return f"{about} {words}: {end} (common practice).", until
    return f"{words}: {end} (common practice).", until
