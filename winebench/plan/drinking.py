"""When a wine of its style is ready to drink, counted from the bottling."""

from __future__ import annotations

from winebench.catalog.styles import Style
from winebench.plan.figures import figure, workings
from winebench.plan.outlook import Figure

READY = 0.5
"""Share of the style's best age from which a wine is ready (common practice)."""


def drink_from(style: Style) -> Figure:
    """Return months after bottling from which it is ready, up to its best. Common practice."""
    ready, best = round(READY * style.months_best), round(style.months_best)
    words = (
        f"Wines of this style are ready {ready} months after bottling and at their best after "
        f"about {best}; a first taste after {style.months_first_taste:g}. Half the best age."
    )
    work = workings(
        "drink-from", words, str(ready), "months", "common practice",
        ("best age of the style", str(best), "months"),
    )  # fmt: skip
    return figure(ready, "months", 0, low=ready, high=best, workings=work)
