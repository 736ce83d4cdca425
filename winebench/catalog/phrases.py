"""Phrases in a table that words are looked over for: each word of them one of several."""

from __future__ import annotations

import re
import unicodedata

Phrase = tuple[frozenset[str], ...]
"""Words in their order, each one of several, in the singular."""
_WORD = re.compile(r"[^\W\d_]+")


def phrases_of(cell: str) -> tuple[Phrase, ...]:
    """Return the phrases of a cell such as "sugar|acetate of lead; litharge", in any letters."""
    return tuple(
        tuple(frozenset(map(singular, word.split("|"))) for word in phrase.split())
        for phrase in cell.split(";")
    )


def words_of(text: str) -> list[str]:
    """Return the words of a text in small letters and in the singular."""
    plain = unicodedata.normalize("NFC", text).lower()
    return [one for word in _WORD.findall(plain) if (one := singular(word)) not in ("s",)]


def begins(phrase: Phrase, words: list[str], start: int) -> bool:
    """Return whether the phrase begins at that word."""
    end = start + len(phrase)
    return end <= len(words) and all(
        word in slot for slot, word in zip(phrase, words[start:end], strict=True)
    )


def singular(word: str) -> str:
    """Return the word without the ending of an English plural, and the same for its singular.

    A name that only looks like one ("narcissus", "crocus") loses its last letter on both sides,
    in the table and in the text.
    """
    if word in ("leaves", "leave"):
        return "leaf"
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(("ches", "atoes", "goes")):  # peaches, potatoes, mangoes; not sloes
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 3 else word
