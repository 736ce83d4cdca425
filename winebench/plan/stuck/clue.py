"""How a clue is told: what it is about, and what the log says of it."""

from __future__ import annotations

from typing import NamedTuple

from winebench.plan.outlook import ClueOutlook

DOUBT, CAUSE, SLOW = "doubt-reading", "warm-and-rouse", "read-gravity"
"""Steps whose cards show clues: to a false standstill, to its cause, to a slow ferment."""


class Clue(NamedTuple):
    """What the log says of one thing: True it points to it, False against, None does not say."""

    key: str
    name: str
    found: bool | None
    text: str

    def shown_on(self, step: str) -> ClueOutlook:
        """Return it for the card of that step."""
        says = {True: "yes", False: "no", None: "not known"}[self.found]
        return ClueOutlook(
            key=self.key,
            name=self.name,
            says=says,  # type: ignore[arg-type]  # the three words above
            text=self.text,
            step=step,
        )
