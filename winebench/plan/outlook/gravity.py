"""Readings, and the gravity curve to come."""

from __future__ import annotations

from datetime import datetime

from winebench.plan.outlook.figure import Figure, Shape


class ReadingOutlook(Shape, frozen=True, kw_only=True):
    """A reading and what it means."""

    id: str
    at: datetime
    raw: str
    corrected: float | None
    """SG at 20 °C, or None where it is no gravity (refractometer in a ferment)."""
    half_width: float = 0.002
    temperature: str = ""
    sentence: str
    """Like "1.042 at 24 °C is 1.0429; 6 points down since yesterday"."""
    doubt: str = ""
    """What looks odd about it, to be asked; empty when nothing does."""

    @property
    def words(self) -> str:
        """Return what it means, and what looks odd about it."""
        return f"{self.sentence.removesuffix('.')}. {self.doubt}" if self.doubt else self.sentence


class CrossingOutlook(Shape, frozen=True, kw_only=True):
    """When the gravity passes a threshold."""

    below: float
    name: str
    earliest: datetime
    likely: datetime
    latest: datetime
    passed: bool
    sentence: str
    """Like "1.030 about Friday evening, between Thursday noon and Sunday · check Friday"."""


class ForecastOutlook(Shape, frozen=True, kw_only=True):
    """The gravity curve to come, with its band."""

    times: tuple[datetime, ...]
    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]
    crossings: tuple[CrossingOutlook, ...]
    not_finishing: float
    """Chance of stopping for good before it is dry: by the readings, and by the packet's limit."""
    state: str
    sentence: str
    supported: bool
    """False until a reading after the pitch supports it: draw it hollow."""
    next_reading: datetime | None
    learned: str = ""
    """What the maker's own finished batches say, as a sentence; empty where none was learned from.
    """
    may_end_at: Figure | None = None
    """Gravity at which the yeast reaches what its packet stands; None where it stands it all."""
    going_by: str = ""
    """The same in short, as `sentence` holds it; empty too where no date leans on it any more."""
