"""What never goes into the must: household chemicals, and what a line says is for cleaning."""

from __future__ import annotations

import re

from winebench.catalog.never_food import NeverFood, never_food_in
from winebench.plan.typed.remarks import Asked, Way, written

_THINGS = (
    r"(?:equipment|utensils|tools|buckets?|pails?|bottles?|jars?|jugs?|demi-?johns?|carboys?|corks?|"
    r"caps|tub(?:es?|ing)|hoses?|air\s?locks?|barrels?|casks?|vessels?|crocks?|spoons?|everything)"
)
_WORK = (
    r"(?:rins(?:e|ing)|clean(?:ing)?(?:\s+up)?|wash(?:ing)?(?:\s+(?:up|out))?|scrub(?:bing)?|"
    r"soak(?:ing)?(?=\W+(?:the\s+)?{things})|swill(?:ing)?)"
).replace("{things}", _THINGS)
_KILL = r"(?:saniti[sz](?:e|ing)|sterili[sz](?:e|ing)|disinfect(?:ing)?)"
_TOOL = re.compile(
    r"(?i)(?:(?:\d+|an?|one|two)\s*)?(?:[\w-]+\s+){0,3}?(?P<tool>buckets?|fermenters?|demi-?johns?|carboys?|air\s?locks?|hydrometers?|thermometers?|siphons?|"
    r"syphons?|tubing|straining bags?|muslin|cheesecloth|sieves?|funnels?|bungs?|stoppers?|corks|"
    r"corker|labels)\W*"
)
_MUST = r"(?:must|juice|fruits?|pulp|wine|mash|berries|skins|water)"
_FOR_CLEANING = re.compile(
    rf"\b(?:for|to|when)\s+(?:the\s+)?(?:{_WORK}|{_KILL}\s+(?:the\s+|all\s+|your\s+)*{_THINGS})\b"
    rf"|\bfor\s+(?:the\s+|all\s+|your\s+)*{_THINGS}\b"
    rf"|\b(?:cleaning|rinsing|washing|sanitising|sanitizing)\s+(?:solution|water|bath)\b",
    re.IGNORECASE,
)
_TO_KILL = re.compile(
    rf"\b(?:for|to)\s+{_KILL}\b(?!\s+(?:the\s+|your\s+)*{_MUST}\b)", re.IGNORECASE
)


class NotInWine(Asked):
    """Words for something that is no part of the must."""

    def __init__(self, sentence: str, *ways: Way, name: str, may_be_kept: bool) -> None:
        super().__init__(sentence, *ways)
        self.name = name
        """What it is."""
        self.may_be_kept = may_be_kept
        """Whether it can stand on a card as it is: it is for cleaning, or has no amount."""


def refusal_of_unknown(text: str, *, has_amount: bool) -> NotInWine | None:
    """Return why a thing that the catalog does not know never goes in; None where it may."""
    found = never_food_in(text)
    tool = _TOOL.fullmatch(text) if found is None else None
    if tool is not None:
        said = f'"{tool["tool"]}" is equipment: kept as a note.'
        return NotInWine(said, name="equipment", may_be_kept=True)
    if found is None:
        return None if has_amount else refusal_of_cleaning(text, text, "")
    cleans = found.use == "cleaner" and is_for_cleaning(text)
    return NotInWine(never_food_words(found), name=found.name, may_be_kept=cleans or not has_amount)


def never_food_words(found: NeverFood) -> str:
    """Return like "Bleach never goes into the wine: it burns ..."."""
    rinse = " Rinse what it cleaned until nothing of it is left." if found.use == "cleaner" else ""
    return f"{found.name} never goes into the wine: {found.harm}.{rinse}"


def is_for_cleaning(text: str) -> bool:
    """Return whether the words say that something is for cleaning the equipment."""
    return bool(_FOR_CLEANING.search(text) or _TO_KILL.search(text))


def refusal_of_cleaning(text: str, name: str, amount: str) -> NotInWine | None:
    """Return why a known thing, by what its line says, is no part of the must; None where it is.

    "To sterilise" alone may mean the must: that is asked.
    """
    cleaning = _FOR_CLEANING.search(text)
    if cleaning is not None:
        said = f'"{cleaning[0]}": it cleans the equipment, and is not counted in the must.'
        return NotInWine(said, name=name, may_be_kept=True)
    kills = _TO_KILL.search(text)
    if kills is None:
        return None
    return NotInWine(
        f'"{kills[0]}": the must, or the equipment? Only what goes into the must is counted.',
        written(f"{amount} {name}"),
        name=name,
        may_be_kept=False,
    )
