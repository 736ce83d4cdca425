"""The words that an argument chooses from, whatever case they are typed in."""

from __future__ import annotations

from collections.abc import Iterable

from winebench.trade.ranges import NotKnown


def chosen(typed: str, choices: Iterable[str], what: str) -> str:
    """Return the choice that was typed, as it is written here.

    Raises:
        NotKnown: none of them; the message says `what` it is not and lists them.

    """
    known = {choice.casefold(): choice for choice in choices}
    try:
        return known[typed.strip().casefold()]
    except KeyError:
        listed = ", ".join(known.values())
        raise NotKnown(f'"{typed}" is not {what} known here; use one of {listed}.') from None


def said_yes(typed: str, argument: str) -> bool:
    """Return whether the argument, which is "yes" or "no", is yes."""
    word = typed.strip().casefold()
    if word not in ("yes", "no"):
        raise NotKnown(f'{argument} is "yes" or "no".')
    return word == "yes"
