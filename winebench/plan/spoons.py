"""The level spoons that come nearest to an amount, of those that a household owns."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

TABLESPOON = 3.0
"""Teaspoons in a tablespoon."""
FEWEST_WITHIN_PERCENT = 2.0
"""Within this the fewest spoons win: nobody levels a spoon better (common practice)."""
_MOST_OF_SMALL = 5
"""Spoons counted out beside the largest; more of them are a miscount."""

_LEFT_OPEN = 3
"""Of the largest spoon so many are tried against smaller ones; the others are certain."""


@lru_cache(maxsize=512)
def combination(teaspoons: float, owned: tuple[float, ...]) -> tuple[tuple[float, int], ...]:
    """Return which spoons (teaspoons each) and how many of them, the largest first.

    The fewest that are within `FEWEST_WITHIN_PERCENT`, else the nearest; never none of an amount.
    """
    sizes = tuple(sorted({size for size in owned if size > 0}, reverse=True))
    if not sizes or teaspoons <= 0:
        return ()
    first = max(int(teaspoons / sizes[0]) - _LEFT_OPEN, 0)

    def rank(taken: tuple[float, ...]) -> tuple[float, int, float]:
        error = abs((sum(taken) + first * sizes[0]) / teaspoons - 1.0) * 100.0
        return round(max(error - FEWEST_WITHIN_PERCENT, 0.0), 6), len(taken), error

    some = (taken for taken in _taken(sizes, _MOST_OF_SMALL) if taken or first)
    best: tuple[float, ...] = min(some, key=rank)
    counts = Counter(best)
    counts[sizes[0]] += first
    return tuple((size, counts[size]) for size in sizes if counts[size])


def _taken(sizes: tuple[float, ...], most: int) -> Iterator[tuple[float, ...]]:
    """Give every handful of at most so many spoons."""
    yield ()
    for index, size in enumerate(sizes if most else ()):
        for rest in _taken(sizes[index:], most - 1):
            yield (size, *rest)


def amount_of(taken: tuple[tuple[float, int], ...]) -> float:
    """Return what those spoons hold, teaspoons."""
    return sum(size * count for size, count in taken)


def spoons_words(taken: tuple[tuple[float, int], ...]) -> str:
    """Return like "1 tbsp + 2 + 1/4 + 1/8 tsp": each spoon as it is filled."""
    large = [(size, count) for size, count in taken if size >= TABLESPOON]
    small = [(size, count) for size, count in taken if size < TABLESPOON]
    parts = []
    if large:
        parts.append(f"{' + '.join(_filled(size / TABLESPOON, n) for size, n in large)} tbsp")
    if small:
        parts.append(f"{' + '.join(_filled(size, count) for size, count in small)} tsp")
    return " + ".join(parts)


def _filled(size: float, count: int) -> str:
    whole, rest = divmod(Fraction(size).limit_denominator(32), 1)
    one = " ".join(([str(whole)] if whole else []) + ([str(rest)] if rest else []))
    if size == 1.0 or count == 1:
        return str(count) if size == 1.0 else one
    return f"{count} × {one}"
