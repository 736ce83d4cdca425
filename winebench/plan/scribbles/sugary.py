"""Sugar under other names: weighed by the catalog where it can be, asked about where not."""

from __future__ import annotations

import re

from winebench.catalog.sugars import sugars
from winebench.model.project import Project
from winebench.model.recipe import SugarLine
from winebench.plan.portions import sugar_portion
from winebench.plan.scribbles.shapes import Offer
from winebench.plan.typed.grouped import without_point
from winebench.plan.typed.number_words import digits
from winebench.units import Amount, UnitsError

ADDED = r"(?:added|fed|(?:stirred|put|poured|mixed|tipped|went) (?:it )?in)"
"""How something is said to go into the must."""
_KEYS = {"honey": "honey", "maple syrup": "maple-syrup", "dextrose": "dextrose",
         "brown sugar": "brown-sugar"}  # fmt: skip
WEIGHED = r"(?:honey|maple syrup|dextrose|brown sugar)"
"""What the catalog knows the sugar of."""
SWEET = (
    r"(?:juices?|syrup|concentrate|cordial|jam|jelly|marmalade|molasses|treacle|raisins|sultanas|"
    r"currants|dates|figs|prunes|fruit|berries|puree|pulp|cider|honey|sugar|dextrose)"
)
"""What went in to sweeten, or brings sugar along; maple syrup is a syrup."""
_WEIGHED = re.compile(rf"\b{WEIGHED}\b", re.ASCII)
_SWEET = re.compile(rf"\b{SWEET}\b", re.ASCII)
_GOES_IN = re.compile(
    r"\b(?:add|added|adding|fed|put|poured|mixed|tipped|topped up)\b"
    rf"|\b(?:more|another) (?:[a-z]+ )?{SWEET}\b"
    r"|\b(?:stirred|went|gone|goes) in\b|\bin$|^(?:an?|half|\d[\d.,/ ]*)\b",
    re.ASCII,
)
_NOT_IN = re.compile(
    r"\b(?:not|no|never|without|will|should|later|if|todo|forgot|forgotten|out|off|back|still|lost|removed|"
    r"drained|bought|smell\w*|tast\w*)\b",
    re.ASCII,
)
_BARE = re.compile(rf"(?:[a-z]+ ){{0,2}}{SWEET}", re.ASCII)
_ADDED = re.compile(rf"\b{ADDED}\b", re.ASCII)
_SUGAR = re.compile(r"\bsugar\b", re.ASCII)


def unweighed(words: str) -> bool:
    """Return whether lower-case words tell of something sweet whose sugar no table knows."""
    return _WEIGHED.search(words) is None and bool(_SWEET.search(_SUGAR.sub("", words)))


def as_white_sugar(words: str, amount: str, project: Project) -> str:
    """Return how much white sugar ferments to as much as that amount of what the words name.

    An amount that cannot be read is returned as it is, for its own question.
    """
    named = _WEIGHED.search(words)
    if named is not None or _SUGAR.search(words):
        amount = without_point(amount)  # nobody weighs sugar to the thousandth of a gram
    if named is None:
        return amount
    try:
        read = Amount(digits(amount))
    except UnitsError:
        return amount
    grams = 1000.0 * _sugar_kg(_KEYS[named[0]], read, project)
    return f"{grams / _sugar_kg('white-sugar', Amount('1 kg'), project):.0f} g"


def _sugar_kg(key: str, amount: Amount, project: Project) -> float:
    line = SugarLine(id="", sugar=sugars()[key].key, amount=amount)
    return sugar_portion(line, project.gallon, 0).sugar_kg


def brings_sugar(words: str, before: str) -> bool:
    """Return whether lower-case words tell of something sweet that went in.

    `before` are the words of the line up to there: of "added sugar and juice" both went in.
    """
    if _SWEET.search(words) is None or _NOT_IN.search(words):
        return False
    return bool(_GOES_IN.search(words) or (_BARE.fullmatch(words) and _ADDED.search(before)))


def does_it_bring(written: str) -> str:
    """Return what is asked about something sweet whose sugar nobody has told."""
    return (
        f'"{written}": does it bring sugar? Sugar starts the yeast again, so it has to be logged: '
        "write how much, such as added 200 g sugar."
    )


def as_sugar(text: str, written: str) -> Offer:
    """Return the line as sugar of an amount that nobody knows."""
    return Offer("It brings sugar", text.replace(written, f"added sugar: {written}", 1))
