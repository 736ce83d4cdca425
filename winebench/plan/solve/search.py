"""Which of the amounts that may change do: as few as there are targets, the usual ones first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, permutations
from typing import NamedTuple

from winebench.plan.solve.mix import Mix, is_possible, meeting
from winebench.plan.solve.shapes import Target

MOVES: dict[Target, tuple[str, ...]] = {
    "gravity": ("sugar", "water", "fruit"),
    "strength": ("sugar", "water", "fruit"),
    "acidity": ("acid", "water", "fruit"),
    "tannin": ("tannin", "water", "fruit"),
    "drink": ("tannin", "acid", "sugar", "water", "fruit"),
    "volume": ("water", "fruit"),
    "fruit": ("water", "fruit"),
}
"""What a target is reached by. Acid weighs a little too, but nobody makes a gravity of it."""
ORDER = ("sugar", "acid", "tannin", "water", "fruit")
"""Who gives way first."""
CLOSE: dict[Target, float] = {
    "gravity": 0.0002,
    "acidity": 0.02,
    "tannin": 0.005,
    "strength": 0.02,
    "drink": 0.05,
    "volume": 0.005,
    "fruit": 0.0005,
}
"""Nearer than anybody measures: SG, g/L, % vol, months, L, kg/L."""

_POWDERS = ("acid", "tannin")
"""Put in for their target alone, and so the first to go where there is too much of it."""
_HAIR_KG = 1e-9


class Tried(NamedTuple):
    """A set of amounts that meets the targets on paper; some may be less than nothing."""

    free: tuple[str, ...]
    kilos: dict[str, float]
    left_out: tuple[str, ...] = ()
    """Powders of which none is left: the recipe has too much of what they bring without them."""

    @property
    def fixed(self) -> dict[str, float]:
        """Return the amounts that no target decides, kg."""
        return dict.fromkeys(self.left_out, 0.0)


def matched(held: Sequence[Target], free: Sequence[str]) -> bool:
    """Return whether each target has an amount of its own that it is reached by."""
    return any(
        all(key in MOVES[target] for target, key in zip(held, order, strict=True))
        for order in permutations(free, len(held))
    )


def sets_of(held: Sequence[Target], free: Sequence[str]) -> Iterator[tuple[str, ...]]:
    """Give each set of as many amounts as targets that could do it, the usual ones first."""
    ordered = [key for key in ORDER if key in free]
    for some in combinations(ordered, len(held)):
        if matched(tuple(held), some):
            yield some


def first_possible(
    mix: Mix,
    held: Mapping[Target, float],
    free: Sequence[str],
    at: Mapping[str, float] | None = None,
) -> tuple[Tried | None, Tried | None]:
    """Return the first set that meets all targets, and else the first that does so on paper.

    Where less than no acid would be wanted, the acid goes before water thins it or fruit is left
    out; likewise a tannin powder.
    """
    on_paper: Tried | None = None
    over: tuple[str, ...] = ()
    for some in sets_of(tuple(held), free):
        out = tuple(key for key in over if key not in some)
        for left_out in (out, ()) if out else ((),):
            kilos = meeting(mix, held, some, {**(at or {}), **dict.fromkeys(left_out, 0.0)})
            if kilos is None:
                continue
            tried = Tried(some, kilos, left_out)
            if is_possible(mix, kilos):
                return tried, on_paper
            on_paper = on_paper or tried
            over = (*over, *(key for key in _POWDERS if kilos.get(key, 0.0) < -_HAIR_KG))
    return None, on_paper


def met_besides(mix: Mix, held: Mapping[Target, float], free: Sequence[str]) -> Tried | None:
    """Return the set that meets some targets where the others are met by that alone."""
    for count in range(min(len(held), len(free)), -1, -1):
        for some in combinations(held, count):
            found, _ = first_possible(mix, {key: held[key] for key in some}, free)
            if found is not None and meets(mix, found.kilos, held):
                return found
    return None


def meets(mix: Mix, kilos: Mapping[str, float], held: Mapping[Target, float]) -> bool:
    """Return whether the must with those amounts reads as held, as near as can be measured.

    A wine that is ready sooner than is asked for is as wanted.
    """
    must = mix.must(kilos)
    if must.litres <= 0:
        return False
    off = {key: must.value(key) - value for key, value in held.items()}
    off["drink"] = max(off.get("drink", 0.0), 0.0)
    return all(abs(each) <= CLOSE[key] for key, each in off.items())
