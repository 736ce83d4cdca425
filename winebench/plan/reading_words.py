"""A reading in one sentence: what it is when corrected, and how it fell."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from winebench.model.log import Reading
from winebench.plan.days import span_words
from winebench.plan.typed.readings import measured_words

if TYPE_CHECKING:
    from winebench.plan.readings import Seen


def sentence_of(
    reading: Reading,
    corrected: float | None,
    before: Seen | None,
    *,
    working: bool,
    unsugared: bool,
) -> str:
    """Return like "1.064 at 23 °C is 1.0646; 12 points down since yesterday".

    `working`: the yeast is in; `unsugared`: sugar and water went in only after it.
    """
    if reading.gravity is None:
        return f"{measured_words(reading)}; no gravity was read."
    if corrected is None:
        return f"{reading.gravity.text} is no gravity to plan with."
    parts = [_corrected_words(reading, corrected)]
    if before is not None and before.sg is not None:
        parts.append(_fall_words(before.sg, corrected, before.at, reading.at))
    elif not working:
        parts.append(
            "before sugar and water went in: not the starting gravity"
            if unsugared
            else "before the yeast: the starting gravity"
        )
    return "; ".join(parts)


def _corrected_words(reading: Reading, corrected: float) -> str:
    assert reading.gravity is not None
    shown = reading.gravity.text.strip().replace(",", ".")
    if reading.temperature is None:
        return shown if reading.gravity.scale == "SG" else f"{shown} is {corrected:.3f}"
    if reading.gravity.scale == "SG" and abs(corrected - reading.gravity.value) < 5e-5:
        return f"{shown} at {reading.temperature.text}"
    return f"{shown} at {reading.temperature.text} is {corrected:.4f}"


def _fall_words(was: float, is_now: float, was_at: datetime, at: datetime) -> str:
    points = round((was - is_now) * 1000)
    yesterday = (at.date() - was_at.date()).days == 1
    span = span_words(at - was_at)
    if points == 0:
        return "unchanged since yesterday" if yesterday else f"unchanged in {span}"
    noun = "point" if abs(points) == 1 else "points"
    way = "down" if points > 0 else "up"
    return f"{abs(points)} {noun} {way} {'since yesterday' if yesterday else f'in {span}'}"
