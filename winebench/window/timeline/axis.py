"""The one time axis that the curve and the steps are drawn on."""

from __future__ import annotations

from datetime import UTC, datetime, tzinfo
from typing import TypeVar

import numpy as np
import numpy.typing as npt
from PySide6.QtCore import QObject, Signal

Number = TypeVar("Number", float, npt.NDArray[np.float64])
"""One number, or an array of them."""
HOUR = 3600.0
DAY = 24 * HOUR
SHORTEST = 12 * HOUR
LONGEST = 3 * 366 * DAY


class TimeAxis(QObject):
    """Map times (seconds since 1970) to pixels, and tell every painter when that changes."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.start = 0.0
        self.end = 14 * DAY
        self.left = 120.0
        self.right = 800.0
        self.zone: tzinfo = UTC

    @property
    def span(self) -> float:
        """Return how long a time is in view, s."""
        return self.end - self.start

    def show(self, start: float, end: float) -> None:
        """Bring the time from `start` to `end` into view."""
        middle, span = (start + end) / 2, min(max(end - start, SHORTEST), LONGEST)
        start, end = middle - span / 2, middle + span / 2
        if (start, end) != (self.start, self.end):
            self.start, self.end = start, end
            self.changed.emit()

    def set_pixels(self, left: float, right: float) -> None:
        """Say between which pixels the time in view is drawn."""
        right = max(right, left + 1.0)
        if (left, right) != (self.left, self.right):
            self.left, self.right = left, right
            self.changed.emit()

    def pixel(self, seconds: Number) -> Number:
        """Return where a time (or each of an array) is drawn, px from the left edge."""
        return self.left + (seconds - self.start) / self.span * (self.right - self.left)

    def seconds(self, pixel: float) -> float:
        """Return the time drawn at a pixel."""
        return self.start + (pixel - self.left) / (self.right - self.left) * self.span

    def holds(self, seconds: float) -> bool:
        """Return whether a time is in view."""
        return self.start <= seconds <= self.end

    def zoom(self, factor: float, about: float | None = None) -> None:
        """Show `factor` times as long a time; the moment `about` stays where it is."""
        about = (self.start + self.end) / 2 if about is None else about
        factor = min(max(factor, SHORTEST / self.span), LONGEST / self.span)
        self.show(about - (about - self.start) * factor, about + (self.end - about) * factor)

    def pan(self, share: float) -> None:
        """Move the view by a share of its span; positive shows later times."""
        self.show(self.start + share * self.span, self.end + share * self.span)

    def moment(self, seconds: float) -> datetime:
        """Return the wall time of the project's zone."""
        return datetime.fromtimestamp(seconds, self.zone)
