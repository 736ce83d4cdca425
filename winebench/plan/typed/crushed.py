"""Crushed fruit by the gallon: it lies without the gaps that whole fruit in a measure has."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.made import Read
from winebench.plan.typed.remarks import Asked, Way, written
from winebench.units import Amount, GallonCountry

_CRUSHED = ("crushed", "mashed", "minced", "pulped")
_KG_PER_L = 1.0
"""Crushed fruit weighs about what water does (common practice)."""
_COUNTRIES: tuple[GallonCountry, ...] = ("US", "imperial")


def refuse_crushed(read: Read) -> None:
    """Raise where fruit is measured by its volume, and that crushed.

    Raises:
        Asked: it is; its weight as it lies crushed, and the same measure of whole fruit, are the
            ways out.

    """
    amount = read.found.amount
    said = f"{' '.join(read.words.sorts)} {read.found.aside}".lower().split()
    how = next((word for word in _CRUSHED if word in said), None)
    if read.kind != "fruit" or amount.dimension != "volume" or how is None:
        return
    if read.words.form in ("juice", "puree"):
        return
    raise Asked(
        f"{how.capitalize()} fruit lies without gaps, and weighs about as much as water (common "
        f"practice); {amount.text} of it whole would be a good deal less. Which is it?",
        *_weighed(amount, read.words.name),
        Way(label=f"{amount.text} of it whole", text=read.name),
    )


def _weighed(amount: Amount, name: str) -> Iterator[Way]:
    if not amount.needs_country:
        metric = amount.parts[0].country is None
        yield written(f"{_weight(amount, None, metric=metric)} {name}")
        return
    for country in _COUNTRIES:
        weight = _weight(amount, country, metric=False)
        yield Way(label=f"{weight} ({country} measure)", text=f"{weight} {name}")


def _weight(amount: Amount, country: GallonCountry | None, *, metric: bool) -> str:
    kilos = amount.litres(country) * _KG_PER_L
    if metric:
        return f"{kilos:.3g} kg"
    pounds = kilos * 1000.0 / Amount("1 lb").grams()
    return f"{fraction_text(round(4.0 * pounds) / 4.0 or pounds)} lb"
