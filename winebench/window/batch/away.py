"""Days away as one line of text: "10 Oct to 14 Oct, 24 Dec"."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import datetime

from winebench.model.log import Away
from winebench.units import UnitsError
from winebench.window.batch.days import day_text, read_day


def away_text(away: Sequence[Away]) -> str:
    """Return the days away as they can be typed."""
    return ", ".join(
        day_text(each.first)
        if each.first == each.last
        else f"{day_text(each.first)} to {day_text(each.last)}"
        for each in away
    )


def read_away(now: Callable[[], datetime]) -> Callable[[str], tuple[Away, ...]]:
    """Return a reader of days away, nearest to now where no year is typed."""

    def read(text: str) -> tuple[Away, ...]:
        return tuple(_one(piece, now()) for piece in re.split(r"[,;]", text) if piece.strip())

    return read


def _one(text: str, now: datetime) -> Away:
    first, _to, last = (piece.strip() for piece in _ends(text))
    begin = read_day(first, now.date())
    end = read_day(last, begin) if last else begin
    if end < begin:
        raise UnitsError(f'"{text.strip()}" ends before it begins.')
    return Away(first=begin, last=end)


def _ends(text: str) -> tuple[str, str, str]:
    for mark in (" to ", "–", " - "):
        if mark in text:
            return text.partition(mark)
    return text, "", ""
