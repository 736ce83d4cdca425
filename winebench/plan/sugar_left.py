"""The sugar that a wine could still ferment, and what it would do in a closed bottle."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import msgspec

from winebench.model.log import Action
from winebench.plan.again.logged import grams_written
from winebench.plan.days import settled
from winebench.plan.figures import by_rule
from winebench.plan.outlook import Figure
from winebench.plan.readings import LARGEST_RISE
from winebench.plan.record_values import value_of
from winebench.plan.stability import LEAST_SUGAR_G_PER_L
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.sweeten import KEY as SWEETEN
from winebench.plan.steps.sweeten import sugar_went_in
from winebench.plan.stuck.standstill import accepted
from winebench.trade.gravity import solids_g_per_l_from_sg

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

MOST_SUGAR_G_PER_L = 60.0
"""Above this it is must rather than wine: nobody thinks of bottles yet."""
CELLAR_CELSIUS = 20.0
"""As warm as a room with bottles gets (common practice)."""
ALIKE_G_PER_L = 1.0
"""A range narrower than this is told as one figure."""


class SugarLeft(NamedTuple):
    """Sugar that yeast could still take, g/L."""

    low: float
    """Where the must ends at the highest gravity that counts as fermented out."""
    high: float
    """Where it ends as its sugar and extract reckon it."""

    @property
    def words(self) -> str:
        """Return like "15 to 28 g/L", "up to 13 g/L" or "about 48 g/L"."""
        if self.high - self.low < ALIKE_G_PER_L:
            return f"about {self.high:.0f} g/L"
        if self.low < LEAST_SUGAR_G_PER_L:
            return f"up to {self.high:.0f} g/L"
        return f"{self.low:.0f} to {self.high:.0f} g/L"


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
        rest, rise = _by_fall(batch, base), last - base
    added = solids_g_per_l_from_sg(1.0 + max(rise, 0.0)) + _not_read_yet(batch, last)
    return SugarLeft(rest.low + added, rest.high + added)


def _by_fall(batch: Batch, sg: float) -> SugarLeft:
    """Return the must's sugar times the share of the fall that is still to come, at that gravity.

    To the highest gravity that counts as fermented out, and to the one that is reckoned.
    """
    sugar, dry = batch.must.sugar.value or 0.0, batch.dry_gravity
    whole = max(batch.original_gravity - dry, LARGEST_RISE)
    low, high = (sugar * max(sg - end, 0.0) / whole for end in (batch.highest_end, dry))
    return SugarLeft(min(low, high), high)


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


def pressure_if_bottled(batch: Batch) -> Figure | None:
    """Return what the sugar left would do in a closed bottle; None where it would do nothing."""
    left = sugar_left(batch)
    if left is None or left.high < LEAST_SUGAR_G_PER_L:
        return None
    if left.high > MOST_SUGAR_G_PER_L:
        if not sugar_went_in(batch):
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


def pressure_words(batch: Batch) -> str:
    """Return that pressure in a sentence, or "" where there is none to fear."""
    pressure, left = pressure_if_bottled(batch), sugar_left(batch)
    if pressure is None or left is None:
        return ""
    bar = f"{pressure.text} bar"
    if left.high > MOST_SUGAR_G_PER_L:
        bar = f"more than {bar}"
    elif left.words.startswith("up to"):
        bar = f"up to {bar}"
    elif not left.words.startswith("about"):
        bar = f"{pressure.low or 0.0:.1f} to {bar}"
    return (
        f"Bottled now, {left.words} of sugar could ferment on and reach {bar}: still-wine bottles "
        "burst."
    )
