"""Which style a card's wine is of, where the card does not say: by its fruit."""

from __future__ import annotations

from collections.abc import Sequence

from winebench.model.recipe import FruitLine, Line, Recipe

DARK, PALE = Recipe().style, "light-dry"
_DARK_FRUIT = frozenset((
    "blackberry", "blackberry-frozen", "blackberry-juice", "blueberry", "boysenberry", "loganberry",
    "elderberry", "black-currant", "cherry-sweet", "cherry-sour", "plum", "damson", "mulberry",
    "pomegranate", "pomegranate-juice", "prune", "grape-american-type",
    "grape-european-table-type", "grape-juice-unsweetened", "raisin", "fig", "fig-dried",
    "date-deglet-noor", "own",
))  # fmt: skip
"""What makes a dark wine, or may (common practice); all other fruit makes a pale one."""


def usual_style(lines: Sequence[Line]) -> str:
    """Return the dry style of such fruit: the pale one where all of it is pale."""
    fruit = {line.fruit for line in lines if isinstance(line, FruitLine)}
    return PALE if fruit and not fruit & _DARK_FRUIT else DARK
