"""What stands beside amount and name on a line: its own figures, its form, when it goes in."""

from __future__ import annotations

from typing import NamedTuple

from winebench.plan.typed.feeds import Fed, split_off_feed
from winebench.plan.typed.forms import Forms, split_off_forms
from winebench.plan.typed.own_figures import NONE, OwnFigures, split_off_figures


class Beside(NamedTuple):
    """A line without what stands beside amount and name, and that."""

    text: str
    own: OwnFigures = NONE
    forms: Forms = Forms()
    fed: Fed | None = None


def beside(text: str, *, figures: bool = True, percent: bool = True, feed: bool = True) -> Beside:
    """Return the line split; without `figures`, `percent` or `feed` these stay in its words.

    Raises:
        Unread: one of its figures cannot be.

    """
    amounts = feed and any(letter.isdigit() for letter in text)
    rest, fed = split_off_feed(text) if amounts else (text, None)
    own = NONE
    if figures:
        rest, own = split_off_figures(rest, percent=percent)
    rest, forms = split_off_forms(rest)
    return Beside(rest, own, forms, fed)
