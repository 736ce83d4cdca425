"""The workings of a figure: the rule in words, what went in, what came out, and the source."""

from __future__ import annotations

import msgspec


class Input(msgspec.Struct, frozen=True):
    """One thing that went into a figure, as it is shown."""

    name: str
    value: str
    unit: str = ""


class Workings(msgspec.Struct, frozen=True):
    """How a figure was reached; one shape for the window, the card and the JSON."""

    rule: str
    words: str
    inputs: tuple[Input, ...]
    result: str
    unit: str
    source: str
    """A published source, "definition", or "common practice"."""
    values: tuple[float, ...] = ()
    """The result at full precision, for whoever reckons on; `result` has the digits it deserves."""
