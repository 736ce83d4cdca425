"""Phrases in a table that words are looked over for: each word of them one of several."""

from __future__ import annotations

import re

Phrase = tuple[frozenset[str], ...]
"""Words in their order, each one of several, in the singular."""
_WORD = re.compile(r"[a-z]+")


def phrases_of(cell: str) -> tuple[Phrase, ...]:
    """Return the phrases of a cell such as "sugar|acetate of lead; litharge"."""
    return tuple(
        tuple(frozenset(word.split("|")) for word in phrase.split()) for phrase in cell.split(";")
    )


def words_of(text: str) -> list[str]:
    """Return the words of a text in small letters and in the singular."""
    return [one for word in _WORD.findall(text.lower()) if (one := _singular(word)) not in ("s",)]


def begins(phrase: Phrase, words: list[str], start: int) -> bool:
    """Return whether the phrase begins at that word."""
    end = start + len(phrase)
    return end <= len(words) and all(
        word in slot for slot, word in zip(phrase, words[start:end], strict=True)
    )


def _singular(word: str) -> str:
    if word in ("leaves", "leave"):
        return "leaf"
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(("oes", "ches")):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 3 else word
