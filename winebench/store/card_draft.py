"""The recipe card that is being read in the window: kept between openings and runs."""

from __future__ import annotations

import msgspec

from winebench.store.state import read_state, write_state
from winebench.units import GallonCountry

_FILE = "card.json"


class CardDraft(msgspec.Struct, frozen=True, kw_only=True):
    """A card as typed, and what was answered about it."""

    text: str = ""
    answers: dict[str, str] = {}
    """What each unknown ingredient is, by its name in small letters."""
    gallon: GallonCountry | None = None
    before: str = ""
    """The card that was used last, so that it can be brought back."""


def load_card() -> CardDraft:
    """Return the card as it was left; an empty one where there is none."""
    return read_state(_FILE, CardDraft) or CardDraft()


def save_card(card: CardDraft) -> bool:
    """Keep the card; return whether it could be kept."""
    return write_state(_FILE, card)
