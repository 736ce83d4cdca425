"""What is asked of the recipe, and what comes out: shapes only."""

from __future__ import annotations

from typing import Literal, NamedTuple

from winebench.model.edits import Several
from winebench.plan.outlook import Figure, Shape

Target = Literal["gravity", "acidity", "tannin", "strength", "drink", "volume", "fruit"]
"""What can be held: SG with all sugar in, acid in g/L as tartaric, tannin in g/L, % vol, months
after bottling by which it is ready at the latest, L of liquid, kg fruit per L."""
Amounts = Literal["sugar", "water", "acid", "tannin", "fruit"]
"""What can change. Under water "to the mark", more or less water is another volume."""

TARGETS: tuple[Target, ...] = (
    "gravity", "acidity", "tannin", "strength", "drink", "volume", "fruit",
)  # fmt: skip
NAMES: dict[Target, str] = {
    "gravity": "gravity",
    "acidity": "acidity",
    "tannin": "tannin",
    "strength": "strength",
    "drink": "time to drink",
    "volume": "volume",
    "fruit": "fruit rate",
}
UNITS: dict[Target, str] = {
    "gravity": "SG",
    "acidity": "g/L",
    "tannin": "g/L",
    "strength": "% vol",
    "drink": "months",
    "volume": "L",
    "fruit": "g/L",
}
"""How each is shown; the fruit rate as grams in a litre."""


class SolveError(ValueError):
    """A question that cannot be put to the recipe; one sentence says why."""


class Ask(NamedTuple):
    """A question: what is held, at which value, and what may change."""

    held: dict[Target, float]
    change: tuple[str, ...]
    """"sugar", "water", "acid", "tannin", "fruit", "volume"; or the id or key of such a line."""


class ChangedAmount(Shape, frozen=True, kw_only=True):
    """One amount of the recipe, before and after."""

    what: str
    """"sugar", "water", "acid", "tannin", "fruit" or "volume"."""
    name: str
    """Like "White sugar"."""
    was: str
    becomes: str
    """As it is written into the recipe: "1 lb 8.7 oz"."""
    exact: float
    """At full precision, g or L, for the recipe's own volume."""
    unit: str
    batch: str = ""
    """What the batch takes of it at its size."""
    low: str = ""
    high: str = ""
    """What it would be with fruit at either end of its range; empty where that moves nothing."""


class Compared(Shape, frozen=True, kw_only=True):
    """One figure of the must, before and after."""

    key: str
    name: str
    before: Figure
    after: Figure
    held: float | None = None
    held_text: str = ""
    """The same as people say it."""


class Answer(Shape, frozen=True, kw_only=True):
    """What the recipe must be to meet what is held, or why it cannot."""

    met: bool
    changes: tuple[ChangedAmount, ...] = ()
    figures: tuple[Compared, ...] = ()
    why_not: str = ""
    """Which two fight, and by how much; empty where it is met."""
    notes: tuple[str, ...] = ()
    edit: Several | None = None
    """Makes the recipe so; None where nothing is to be changed."""
