"""What was read of a stretch of a card, remembered: each key changes but one of its items."""

from __future__ import annotations

from functools import lru_cache

from winebench.plan.typed.lines import TypedLine, typed_line
from winebench.plan.typed.offers import known


@lru_cache(maxsize=4096)
def line_of(text: str) -> TypedLine:
    """Return the line meant by the words; its id is the same each time, and no line's own.

    Raises:
        NoAmount: there is a name and no amount.
        UnitsError: the amount cannot be, or fits no such line.

    """
    return typed_line(text, known())
