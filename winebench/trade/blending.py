"""Blending and fortifying: balances, and whether they can work at all."""

from __future__ import annotations

from typing import NamedTuple

from winebench.trade.ranges import NotKnown, known, volume
from winebench.trade.rules import rule


class Parts(NamedTuple):
    """How much of each wine, L."""

    first_l: float
    second_l: float


@rule(
    name="blend",
    inputs={"first": "any", "second": "any", "target": "any", "litres": "L"},
    unit="L, L",
    words="square rule: shares lie as the distances to the target, crosswise. For strength, "
    "acidity or sugar, all in one unit; never for pH, which a trial glass tells",
    source="definition (volumes taken to add up)",
    valid="target between the two, figures from -1000 to 1000, volumes to 100 000 L",
    example={"first": 14.0, "second": 11.0, "target": 12.0, "litres": 10.0},
)
def blend(first: float, second: float, target: float, litres: float) -> Parts:
    """Return how much of two wines makes that volume with the target figure.

    Raises:
        NotKnown: the target does not lie between the two.

    """
    share = _share_of_first(first, second, target)
    whole = volume(litres)
    return Parts(whole * share, whole * (1.0 - share))


@rule(
    name="blend-on-hand",
    inputs={"first": "any", "second": "any", "target": "any", "first_l": "L", "second_l": "L"},
    unit="L, L",
    words="square rule, with as much as the scarcer of the two allows. For strength, acidity or "
    "sugar, all in one unit; never for pH, which a trial glass tells",
    source="definition (volumes taken to add up)",
    valid="target between the two, figures from -1000 to 1000, volumes to 100 000 L",
    example={"first": 14.0, "second": 11.0, "target": 12.0, "first_l": 4.0, "second_l": 19.0},
)
def blend_on_hand(
    first: float, second: float, target: float, first_l: float, second_l: float
) -> Parts:
    """Return how much of each makes the most blend that the two volumes allow.

    Raises:
        NotKnown: the target does not lie between the two.

    """
    share = _share_of_first(first, second, target)
    most = min(
        volume(first_l) / share if share > 0.0 else float("inf"),
        volume(second_l) / (1.0 - share) if share < 1.0 else float("inf"),
    )
    return Parts(most * share, most * (1.0 - share))


def _share_of_first(first: float, second: float, target: float) -> float:
    for figure in (first, second):
        known(figure, -1000.0, 1000.0, "a figure of")
    if first == second:
        raise NotKnown(f"both are {first:g}; blending them changes nothing.")
    if not min(first, second) <= target <= max(first, second):
        raise NotKnown(
            f"{target:g} does not lie between {first:g} and {second:g}; "
            "no blend of the two gives it."
        )
    return (target - second) / (first - second)


@rule(
    name="fortify",
    inputs={"litres": "L", "abv": "% vol", "spirit_abv": "% vol", "target_abv": "% vol"},
    unit="L",
    words="litres x (target - wine) / (spirit - target). Local law decides whether you may",
    source="definition (contraction on mixing neglected)",
    valid="wine 0 to 25 % vol, spirit to 96, target between the two",
    example={"litres": 4.0, "abv": 12.0, "spirit_abv": 40.0, "target_abv": 18.0},
)
def spirit_l(litres: float, abv: float, spirit_abv: float, target_abv: float) -> float:
    """Return how much spirit fortifies the wine to the target, L."""
    volume(litres)
    known(abv, 0.0, 25.0, "a wine's strength (% vol) of")
    known(spirit_abv, 0.0, 96.0, "a spirit's strength (% vol) of")
    if not abv <= target_abv < spirit_abv:
        raise NotKnown(
            f"{target_abv:g} % does not lie between the wine ({abv:g} %) "
            f"and the spirit ({spirit_abv:g} %); no blend of the two gives it."
        )
    return litres * (target_abv - abv) / (spirit_abv - target_abv)
