"""A line of which parts are read and covered, so that what is left over keeps its place."""

from __future__ import annotations

import re
from collections.abc import Iterator

_BETWEEN = re.compile(
    r"[,;](?!\d)|\.\s|\.$|\s+(?:and|then|&|\+)\s+(?!water\b|stable\b|dry\b)", re.ASCII
)
_EDGES = " \t,;:.-–—·•*()&+@"


class Masked:
    """A line beside its lower-case copy; both have the same length, read parts are spaces."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.left = "".join(c.lower() if len(c.lower()) == 1 else c for c in text)

    def cover(self, start: int, end: int) -> str:
        """Take a part out of what is left, and return it as it was written."""
        self.left = f"{self.left[:start]}{' ' * (end - start)}{self.left[end:]}"
        return self.text[start:end]

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Cover the first place where the pattern stands, and return it in lower case."""
        found = pattern.search(self.left)
        if found is not None:
            self.cover(*found.span())
        return found

    def replaced(self, start: int, end: int, words: str) -> str:
        """Return the line with other words in that place."""
        return f"{self.text[:start]}{words}{self.text[end:]}"

    def first(self) -> int:
        """Return where the first thing left begins, past bullets and commas."""
        return len(self.left) - len(self.left.lstrip(_EDGES))

    def rest(self) -> str:
        """Return all that is left, as written."""
        return self._written(0, len(self.left))

    def clauses(self) -> Iterator[tuple[int, int]]:
        """Give the places of what is left between commas, full stops and "and"."""
        start = 0
        for mark in [*_BETWEEN.finditer(self.left), None]:
            end = len(self.left) if mark is None else mark.start()
            piece = self.left[start:end]
            inner = piece.strip(_EDGES)
            if inner:
                at = start + piece.index(inner)
                yield at, at + len(inner)
            start = end if mark is None else mark.end()

    def _written(self, start: int, end: int) -> str:
        kept = "".join(
            written if left != " " else " "
            for written, left in zip(self.text[start:end], self.left[start:end], strict=True)
        )
        return " ".join(kept.split()).strip(_EDGES)
