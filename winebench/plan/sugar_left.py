"""The sugar that a wine could still ferment, and what it would do in a closed bottle."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from winebench.model.log import Action
from winebench.plan.again.logged import grams_written
from winebench.plan.days import settled
from winebench.plan.figures import by_rule
from winebench.plan.outlook import Figure
from winebench.plan.readings import LARGEST_RISE
from winebench.plan.record_values import value_of
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.sweeten import KEY as SWEETEN
from winebench.plan.steps.sweeten import sugar_went_in
from winebench.plan.stuck.standstill import accepted
from winebench.plan.sugar_by_fall import (
    ALIKE_G_PER_L,
    LEAST_SUGAR_G_PER_L,
    SugarLeft,
    sugar_by_fall,
)
from winebench.trade.gravity import solids_g_per_l_from_sg

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

MOST_SUGAR_G_PER_L = 60.0
"""Above this it is must rather than wine: nobody thinks of bottles yet."""
CELLAR_CELSIUS = 20.0
"""As warm as a room with bottles gets (common practice)."""


def sugar_left(batch: Batch) -> SugarLeft | None:
    """Return the sugar that yeast could still take; None where no gravity was read.

    What the must had left: none once the wine is shown to be stable at its end, and else in
    proportion to the fall still to come. What went in to sweeten: by the gravity read since, and
    until it is read by the sugar that was logged.
    """
    last = batch.last_sg
    if last is None:
        return None
    before = batch.ferment[-1].sg if sugar_went_in(batch) and batch.ferment else None
    found = batch.stability
    if found.met and accepted(batch) is None:
        base, rest = found.run[-1].sg or last, SugarLeft(0.0, 0.0)
        rise = last - base
        rise = rise if rise > LARGEST_RISE or before is not None else 0.0
    else:
        base = last if before is None else before
        rest, rise = sugar_by_fall(batch, base), last - base
    added = solids_g_per_l_from_sg(1.0 + max(rise, 0.0)) + _not_read_yet(batch, last)
    return SugarLeft(rest.low + added, rest.high + added)


def _not_read_yet(batch: Batch, last: float) -> float:
    """Return the sugar of the sweetenings since the last reading, g/L."""
    seen = batch.last
    since = [
        tick
        for tick in batch.actions.get(SWEETEN, ())
        if seen is not None and settled(tick.at) >= seen.at
    ]
    return sum(_logged(batch, tick, last) for tick in since)


def _logged(batch: Batch, tick: Action, last: float) -> float:
    """Return the sugar of one sweetening, g/L: by its grams, else by the gravity noted with it."""
    grams = grams_written(noted_with(tick, "grams"), batch.project, "white-sugar")
    litres = value_of(noted_with(tick, "litres"), "L", batch.project)
    litres = litres or batch.recipe.bottles.finished.value
    if grams and litres:
        return grams / litres
    after = value_of(noted_with(tick, "gravity"), "SG", batch.project)
    return solids_g_per_l_from_sg(1.0 + max(after - last, 0.0)) if after else 0.0


def pressure_if_bottled(batch: Batch, *, bottled: bool = False) -> Figure | None:
    """Return what the sugar left would do in a closed bottle; None where it would do nothing.

    None, too, of a must that nobody thinks of bottling, unless it is `bottled`.
    """
    left = sugar_left(batch)
    if left is None or left.high < LEAST_SUGAR_G_PER_L:
        return None
    if left.high > MOST_SUGAR_G_PER_L:
        if not bottled and not sugar_went_in(batch):
            return None
        left = SugarLeft(min(left.low, MOST_SUGAR_G_PER_L), MOST_SUGAR_G_PER_L)
    most = _pressure(left.high)
    if left.high - left.low < ALIKE_G_PER_L:
        return most
    return msgspec.structs.replace(most, low=_pressure(left.low).value, high=most.value)


def _pressure(g_per_l: float) -> Figure:
    return by_rule(
        "bottle-pressure", "bar", 1, sugar_g_per_l=round(g_per_l, 1), celsius=CELLAR_CELSIUS
    )


def pressure_words(batch: Batch, *, bottled: bool = False) -> str:
    """Return that pressure in a sentence, or "" where there is none to fear."""
    pressure, left = pressure_if_bottled(batch, bottled=bottled), sugar_left(batch)
    if pressure is None or left is None:
        return ""
    bar = f"{pressure.text} bar"
    if left.high > MOST_SUGAR_G_PER_L:
        bar = f"more than {bar}"
    elif left.words.startswith("up to"):
        bar = f"up to {bar}"
    elif not left.words.startswith("about"):
        bar = f"{pressure.low or 0.0:.1f} to {bar}"
    words = f"{left.words} of sugar could ferment on"
    words = f"{words[0].upper()}{words[1:]} in them" if bottled else f"Bottled now, {words}"
    return f"{words} and reach {bar}: still-wine bottles burst."


def fermented_words(fall: float) -> str:
    """Return in a sentence what that fall of the gravity, as SG, did in a closed bottle."""
    sugar = min(solids_g_per_l_from_sg(1.0 + fall), MOST_SUGAR_G_PER_L)
    return (
        f"About {sugar:.0f} g/L of sugar fermented there, which makes "
        f"{_pressure(sugar).text} bar: still-wine bottles burst."
    )
