"""The workings of a figure: the rule in words, what went in, what came out, and the source."""

from __future__ import annotations

import msgspec


class Input(msgspec.Struct, frozen=True):
    """One thing that went into a figure, or came out of it, as it is shown."""

    name: str
    value: str
    unit: str = ""


class Workings(msgspec.Struct, frozen=True, omit_defaults=True):
    """How a figure was reached; one shape for the window, the card and the JSON."""

    rule: str
    words: str
    inputs: tuple[Input, ...]
    result: str
    unit: str
    source: str
    """A published source, "definition", or "common practice"."""
    values: tuple[float, ...] = ()
    """The result at full precision, for whoever reckons on; `result` has the digits it deserves.

    One figure that published relations spread is followed by its lowest and highest."""
    low: tuple[float, ...] = ()
    """The lowest that each figure may be, by what was measured and by the sources' spread."""
    high: tuple[float, ...] = ()
    valid: str = ""
    """The range that the rule covers, in words."""
    figures: tuple[Input, ...] = ()
    """Each figure that a rule gives, by its name and with its own unit."""
