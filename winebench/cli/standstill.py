"""A stuck or slow ferment as text for a terminal: what it does, and each clue with its mark."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from winebench.plan.outlook import StuckOutlook

MARKS = {"yes": "+", "no": "-", "not known": "?"}


def standstill_lines(
    found: StuckOutlook, wrapped: Callable[[str, str], list[str]]
) -> Iterator[str]:
    """Give the lines of a standstill; `wrapped` breaks a text behind its lead."""
    yield "STUCK OR SLOW?  (+ points to it, - speaks against it, ? not known: measure)"
    yield from wrapped("  ", found.sentence)
    for clue in found.clues:
        yield from wrapped(f"  {MARKS[clue.says]} {clue.name}: ", clue.text)
    yield ""
