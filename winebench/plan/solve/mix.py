"""The must as a sum of amounts: what each brings for each kilogram, and how the sum reads.

Everything that a line brings grows in step with its amount, so that each target is a straight
equation in the amounts once the density of the must is known; the density is found by turns.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import product
from math import inf
from typing import NamedTuple

from winebench.plan.balance import MOST_BRIX
from winebench.plan.solve.linear import solved
from winebench.plan.solve.shapes import Target
from winebench.trade.ageing import (
    LIGHT_MONTHS,
    MONTHS_A_G_OF_TANNIN,
    SHARP_G_PER_L,
    STRONG_PERCENT,
)
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT
from winebench.trade.gravity import WATER_20, brix_from_sg, density_from_brix, sg_from_brix


class Vector(NamedTuple):
    """What is in a must, or brought to it: the few numbers that a target is read from."""

    water: float = 0.0
    """kg."""
    solids: float = 0.0
    """kg dissolved."""
    sugar: float = 0.0
    """kg fermentable."""
    acid: float = 0.0
    """g as tartaric."""
    fruit: float = 0.0
    """kg as weighed."""
    tannin: float = 0.0
    """g that the wine keeps."""

    def plus(self, other: Vector, times: float = 1.0) -> Vector:
        """Return this and so many times the other."""
        return Vector(
            self.water + times * other.water,
            self.solids + times * other.solids,
            self.sugar + times * other.sugar,
            self.acid + times * other.acid,
            self.fruit + times * other.fruit,
            self.tannin + times * other.tannin,
        )

    def on(self, other: Vector) -> float:
        """Return the sum of this, as weights, on the other."""
        return sum(a * b for a, b in zip(self, other, strict=True))

    @property
    def mass(self) -> float:
        """Return the liquid, kg."""
        return self.water + self.solids


_LIGHT, _HEAVY = 0.99, 1.45
"""Densities within which a must can lie, kg/L."""
_TURNS = 40
_SETTLED = 1e-10


_PER_LITRE: dict[Target, str] = {"acidity": "acid", "tannin": "tannin", "fruit": "fruit"}
"""What of a vector a target counts in a litre: of all the must, the fruit as it is made up."""


class Part(NamedTuple):
    """One amount that may change."""

    now: float
    """kg in the recipe as it stands."""
    brings: Vector
    """For each kg."""
    fed: bool = False
    """Whether it goes in later: into the gravity, not into the must that is made up."""


class Mix(NamedTuple):
    """A recipe taken apart, at one side of its fruit's ranges."""

    start: Vector
    """What does not change, of what is in the must when the yeast goes in."""
    feed: Vector
    """What does not change, of what is fed later."""
    parts: dict[str, Part]

    def must(self, kilos: Mapping[str, float]) -> Must:
        """Return the must with those amounts, kg; the others as the recipe has them."""
        start, fed = self.start, self.feed
        for key, part in self.parts.items():
            amount = kilos.get(key, part.now)
            if part.fed:
                fed = fed.plus(part.brings, amount)
            else:
                start = start.plus(part.brings, amount)
        return Must(start, start.plus(fed))


class Must(NamedTuple):
    """A must made up, and with what is fed later."""

    start: Vector
    whole: Vector

    @property
    def litres(self) -> float:
        """Return the liquid when it is made up, L."""
        return self.start.mass / density(self.start)

    def value(self, target: Target) -> float:
        """Return what it reads."""
        if target == "gravity":
            return sg_from_brix(brix(self.whole))
        if target == "strength":
            per_litre = self.whole.sugar * 1000.0 / self.whole.mass * density(self.whole)
            return per_litre / EU_SUGAR_PER_PERCENT
        if target == "volume":
            return self.litres
        if target == "drink":
            return self._months()
        of = self.start if target == "fruit" else self.whole
        amount: float = getattr(of, _PER_LITRE[target])
        return amount / (of.mass / density(of))

    def _months(self) -> float:
        """Return when it is ready, months after bottling, by `trade.ageing.months_to_ready`."""
        strong = max(self.value("strength") - STRONG_PERCENT, 0.0)
        sharp = max(self.value("acidity") - SHARP_G_PER_L, 0.0)
        return LIGHT_MONTHS + MONTHS_A_G_OF_TANNIN * self.value("tannin") + strong + sharp

    @property
    def start_sg(self) -> float:
        """Return the gravity at which the yeast goes in, SG."""
        return sg_from_brix(brix(self.start))


def brix(vector: Vector) -> float:
    """Return °Brix, within what the sucrose table has."""
    mass = vector.mass
    return min(max(100.0 * vector.solids / mass, 0.0), MOST_BRIX) if mass > 0 else 0.0


def density(vector: Vector) -> float:
    """Return the density, kg/L."""
    return density_from_brix(brix(vector)) / 1000.0


def is_possible(mix: Mix, kilos: Mapping[str, float]) -> bool:
    """Return whether nothing is less than nothing, and the must is within the sucrose table."""
    must = mix.must(kilos)
    scale = max(must.start.mass, 1e-9)
    if not all(-1e-7 * scale <= value < inf for value in kilos.values()):
        return False
    inside = all(v.solids * 100.0 < MOST_BRIX * v.mass for v in must)
    return inside and must.start.water > 0


def meeting(
    mix: Mix, held: Mapping[Target, float], free: Sequence[str], at: Mapping[str, float]
) -> dict[str, float] | None:
    """Return the free amounts, kg, that meet each target; they may be less than nothing.

    `at` fixes others away from what the recipe has. None where the targets say nothing of these
    amounts: as many targets as amounts are needed, and none may say the same as another.
    """
    if not free:
        return dict(at)
    if "drink" not in held:
        return _meeting(mix, held, free, at, _Asks())
    for asks in _WAYS_TO_ASK:
        kilos = _meeting(mix, held, free, at, asks)
        must = mix.must(kilos) if kilos is not None else None
        if must is None or must.whole.mass <= 0.0:
            continue
        if abs(must.value("drink") - held["drink"]) < _AT_A_BEND:
            return kilos
    return None


class _Asks(NamedTuple):
    """What asks for months beyond its tannin: only what lies above its bound does."""

    strength: bool = False
    acid: bool = False


_WAYS_TO_ASK = tuple(_Asks(*each) for each in product((False, True), repeat=2))
_AT_A_BEND = 1e-6
"""Months: an equation that took the wrong ones to ask is further off."""


def _meeting(
    mix: Mix,
    held: Mapping[Target, float],
    free: Sequence[str],
    at: Mapping[str, float],
    asks: _Asks,
) -> dict[str, float] | None:
    bare = mix.must({**at, **dict.fromkeys(free, 0.0)})
    columns = [mix.parts[key] for key in free]
    sg = held.get("gravity", 1.09)
    dense = [sg * WATER_20 / 1000.0] * 2
    before: tuple[list[float], list[float]] | None = None
    for _ in range(_TURNS):
        rows = [_row(target, value, dense, asks) for target, value in held.items()]
        found = solved(
            [[row.on(part) for part in columns] for row in rows],
            [row.wanted - row.weights.on(bare.whole if row.of_whole else bare.start)
             for row in rows],
        )  # fmt: skip
        if found is None:
            return None
        kilos = {**at, **dict(zip(free, found, strict=True))}
        must = mix.must(kilos)
        reads = [density(must.start), density(must.whole)]
        if max(abs(a - b) for a, b in zip(reads, dense, strict=True)) < _SETTLED:
            return kilos
        after = _nearer(dense, reads, before)
        before, dense = (dense, reads), after
    return None


def _nearer(
    dense: list[float], reads: list[float], before: tuple[list[float], list[float]] | None
) -> list[float]:
    """Return better densities: the secant's, or what was read where that leaves the table."""
    if before is None:
        return reads
    found = []
    for now, read, was, read_then in zip(dense, reads, *before, strict=True):
        bend = (read - now) - (read_then - was)
        straight = now - (read - now) * (now - was) / bend if bend else read
        found.append(straight if _LIGHT < straight < _HEAVY else read)
    return found


class _Row(NamedTuple):
    """A target as an equation: these weights on a must come to `wanted`."""

    weights: Vector
    of_whole: bool
    wanted: float = 0.0

    def on(self, part: Part) -> float:
        """Return what a kilogram of the part counts in it."""
        return self.weights.on(part.brings) if self.of_whole or not part.fed else 0.0


def _row(target: Target, value: float, dense: Sequence[float], asks: _Asks) -> _Row:
    """Return the equation at densities (kg/L) of the must made up and of the whole."""
    start, whole = dense
    if target == "gravity":
        share = brix_from_sg(value) / 100.0
        return _Row(Vector(water=-share, solids=1.0 - share), of_whole=True)
    if target == "volume":
        return _Row(Vector(water=1.0, solids=1.0), of_whole=False, wanted=value * start)
    if target == "strength":
        per_kilo = value * EU_SUGAR_PER_PERCENT / 1000.0 / whole
        return _Row(Vector(-per_kilo, -per_kilo, 1.0), of_whole=True)
    if target == "drink":
        return _drink_row(value, whole, asks)
    of = start if target == "fruit" else whole
    weights = Vector(water=-value / of, solids=-value / of)
    return _Row(weights._replace(**{_PER_LITRE[target]: 1.0}), of_whole=target != "fruit")


def _drink_row(months: float, whole: float, asks: _Asks) -> _Row:
    """Return the equation of the months for each of what asks for them, at that density."""
    left = months - LIGHT_MONTHS
    left += STRONG_PERCENT if asks.strength else 0.0
    left += SHARP_G_PER_L if asks.acid else 0.0
    return _Row(
        Vector(
            water=-left / whole,
            solids=-left / whole,
            sugar=1000.0 / EU_SUGAR_PER_PERCENT if asks.strength else 0.0,
            acid=1.0 if asks.acid else 0.0,
            tannin=MONTHS_A_G_OF_TANNIN,
        ),
        of_whole=True,
    )
