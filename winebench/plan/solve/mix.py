"""The must as a sum of amounts: what each brings for each kilogram, and how the sum reads.

Everything that a line brings grows in step with its amount, so that each target is a straight
equation in the amounts once the density of the must is known; the density is found by turns.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf
from typing import NamedTuple

from winebench.plan.balance import MOST_BRIX
from winebench.plan.solve.shapes import Target
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
_HARDLY_ANY = 1e-5
"""Where two equations say so nearly the same that no amount can be told from them."""


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
        of = self.start if target == "fruit" else self.whole
        amount: float = getattr(of, _PER_LITRE[target])
        return amount / (of.mass / density(of))

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
    bare = mix.must({**at, **dict.fromkeys(free, 0.0)})
    columns = [mix.parts[key] for key in free]
    sg = held.get("gravity", 1.09)
    dense = [sg * WATER_20 / 1000.0] * 2
    before: tuple[list[float], list[float]] | None = None
    for _ in range(_TURNS):
        rows = [_row(target, value, *dense) for target, value in held.items()]
        found = _solved(
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


def _row(target: Target, value: float, start: float, whole: float) -> _Row:
    """Return the equation at densities (kg/L) of the must made up and of the whole."""
    if target == "gravity":
        share = brix_from_sg(value) / 100.0
        return _Row(Vector(water=-share, solids=1.0 - share), of_whole=True)
    if target == "volume":
        return _Row(Vector(water=1.0, solids=1.0), of_whole=False, wanted=value * start)
    if target == "strength":
        per_kilo = value * EU_SUGAR_PER_PERCENT / 1000.0 / whole
        return _Row(Vector(-per_kilo, -per_kilo, 1.0), of_whole=True)
    dense = start if target == "fruit" else whole
    weights = Vector(water=-value / dense, solids=-value / dense)
    return _Row(weights._replace(**{_PER_LITRE[target]: 1.0}), of_whole=target != "fruit")


def _solved(matrix: list[list[float]], wanted: list[float]) -> list[float] | None:
    """Return the solution, or None where rows or columns nearly say the same."""
    count = len(wanted)
    columns = [max(abs(row[place]) for row in matrix) for place in range(count)]
    if not all(columns):
        return None
    rows = []
    for row, right in zip(matrix, wanted, strict=True):
        scaled = [value / most for value, most in zip(row, columns, strict=True)]
        most = max(map(abs, scaled))
        if not most:
            return None
        rows.append([value / most for value in (*scaled, right)])
    for place in range(count):  # Gauss, by the largest of each column
        best = max(range(place, count), key=lambda row: abs(rows[row][place]))
        rows[place], rows[best] = rows[best], rows[place]
        pivot = rows[place]
        if abs(pivot[place]) < _HARDLY_ANY:
            return None
        for number, row in enumerate(rows):
            if number != place:
                share = row[place] / pivot[place]
                rows[number] = [a - share * b for a, b in zip(row, pivot, strict=True)]
    return [row[count] / row[n] / columns[n] for n, row in enumerate(rows)]
