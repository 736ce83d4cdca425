"""One amount of several things: "1 tsp each of acid blend and nutrient"."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.plan.handed_down.marks import unmarked
from winebench.plan.handed_down.per_volume import name_per, split_off_per
from winebench.plan.handed_down.sense import sense
from winebench.plan.typed.number_words import AMOUNT, digits

_IN_FRONT = re.compile(
    rf"{AMOUNT}\s*,?\s*(?:(?:of\s+)?each|apiece)(?:\s+of)?(?:\s+the\s+following)?(?P<rest>\W.*)?",
    re.IGNORECASE | re.ASCII,
)
_BEHIND = re.compile(
    rf"[^\d]+?[\s,:(–-]+{AMOUNT}\s*,?\s*(?:of\s+)?each\)?\W*", re.IGNORECASE | re.ASCII
)
_EACH_LAST = re.compile(r"[^\d]+[\s,(]each\)?\W*", re.IGNORECASE)
_OWN = re.compile(rf"{AMOUNT}\s+\w.*", re.IGNORECASE | re.ASCII)


class Cut(NamedTuple):
    """Where an item of a line starts and ends."""

    start: int
    end: int
    behind: str = ""
    """The fruit it was cut off from."""
    each: str = ""
    """The amount that stands beside another item and is of this one too."""
    per: str = ""
    """The "per gallon" that stands behind the last of several names."""


def shared(body: str, cuts: list[Cut]) -> list[Cut]:
    """Return the cuts, each name with the amount that is "each" of them."""
    cuts = _with_stub_joined(body, cuts)
    words = [digits(unmarked(body[cut.start : cut.end])) for cut in cuts]
    for place, whole in enumerate(words):
        text, per = split_off_per(whole)
        by = per.words if per is not None else ""
        front, behind = _IN_FRONT.fullmatch(text), _BEHIND.fullmatch(text)
        if front is not None:
            names = _names(words, range(place + 1, len(cuts)))
            last = name_per(words[names[-1]])[1] if names and not by else ""
            for after in names:
                cuts[after] = cuts[after]._replace(each=f"{front['amount']}{by}", per=last)
            cuts[place] = cuts[place]._replace(per=last)
        elif behind is not None:
            for before in _names(words, range(place - 1, -1, -1)):
                cuts[before] = cuts[before]._replace(each=f"{behind['amount']}{by}")
        elif place and _EACH_LAST.fullmatch(text):  # "1 tsp acid blend and nutrient each"
            named = [*_names(words, range(place - 1, -1, -1))]
            first = min(named, default=place)
            own = _OWN.fullmatch(words[first - 1]) if first else None
            if own is not None:
                for name in (*named, place):
                    cuts[name] = cuts[name]._replace(each=own["amount"])
    return cuts


def _with_stub_joined(body: str, cuts: list[Cut]) -> list[Cut]:
    """Return the cuts with "1 tsp each:" joined to the first of its names."""
    joined: list[Cut] = []
    for cut in cuts:
        last = joined[-1] if joined else None
        front = _IN_FRONT.fullmatch(digits(unmarked(body[last.start : last.end]))) if last else None
        if last is not None and front is not None and not (front["rest"] or "").strip(" :,"):
            joined[-1] = last._replace(end=cut.end)
        else:
            joined.append(cut)
    return joined


def _names(words: list[str], places: range) -> list[int]:
    """Return the places from the first on that hold names without an amount."""
    found: list[int] = []
    for place in places:
        if sense(words[place]) != "name":
            break
        found.append(place)
    return found
