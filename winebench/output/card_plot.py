"""The card's gravity curve: readings, the forecast dashed, thresholds, and days below."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from winebench.output.canvas import BAND, FRUIT, INK, MUTED, PAPER, RULE, Canvas, Point
from winebench.output.flow import SMALL_MM
from winebench.output.fonts import text_width
from winebench.output.words import day
from winebench.plan.gravity_forecast import FEED_FROM, FEED_UNTIL
from winebench.plan.outlook import CrossingOutlook, ForecastOutlook, Outlook

_DAYS_APART = (1, 2, 4, 7, 14, 28, 56, 91, 182, 365)
_MOST_TICKS = 8


@dataclass(frozen=True, slots=True)
class Frame:
    """Where time and gravity lie on the paper."""

    left: float
    top: float
    right: float
    bottom: float
    start: datetime
    end: datetime
    low: float
    high: float

    def at(self, time: datetime, gravity: float) -> Point:
        """Return the place of that gravity at that time, in mm."""
        share = (time - self.start) / (self.end - self.start)
        height = (gravity - self.low) / (self.high - self.low)
        return (
            self.left + share * (self.right - self.left),
            self.bottom - height * (self.bottom - self.top),
        )


def paint_plot(canvas: Canvas, corner: Point, size: Point, outlook: Outlook) -> None:
    """Draw the curve into that rectangle, axis labels included."""
    x, y = corner
    frame = _frame(outlook, (x + 9.0, y + 1.5), (x + size[0], y + size[1] - 5.0))
    if frame is None:
        canvas.box(corner, size, ink=RULE)
        words = "No gravity yet: the first reading starts the curve."
        canvas.text(x + size[0] / 2, y + size[1] / 2, words, SMALL_MM, side="middle", ink=MUTED)
        return
    _paint_axes(canvas, frame)
    if outlook.forecast is not None:
        _paint_forecast(canvas, frame, outlook, outlook.forecast)
        _paint_thresholds(canvas, frame, outlook)
    _paint_readings(canvas, frame, outlook)


def _frame(outlook: Outlook, top_left: Point, bottom_right: Point) -> Frame | None:
    read = [(r.at, r.corrected) for r in outlook.readings if r.corrected is not None]
    coming = _coming(outlook, outlook.forecast) if outlook.forecast is not None else []
    times = [time for time, _ in read] + [time for time, *_ in coming]
    if not times:
        return None
    gravities = [sg for _, sg in read] + [sg for _, *some in coming for sg in some]
    start, end = min(times), max(times)
    least = timedelta(days=2)
    return Frame(
        *top_left,
        *bottom_right,
        start=start - max(end - start, least) * 0.02,
        end=start + max(end - start, least) * 1.03,
        low=math.floor((min(gravities) - 0.001) * 100) / 100,
        high=math.ceil((max(gravities) + 0.001) * 100) / 100,
    )


def _coming(
    outlook: Outlook, forecast: ForecastOutlook
) -> list[tuple[datetime, float, float, float]]:
    """Return the forecast's points from the newest reading on, as far as it still falls."""
    read = [r.at for r in outlook.readings if r.corrected is not None]
    newest = max(read) if read else None
    points = [
        point
        for point in zip(forecast.times, forecast.low, forecast.middle, forecast.high, strict=True)
        if newest is None or point[0] >= newest
    ]
    if len(points) < 2:
        return []
    settled = points[-1][2] + 0.0015
    falling = sum(middle > settled for _, _, middle, _ in points)
    return points[: max(falling + len(points) // 12, 2)]


def _paint_axes(canvas: Canvas, frame: Frame) -> None:
    step = 0.01 if frame.high - frame.low <= 0.055 else 0.02
    gravity = math.ceil(round(frame.low / step, 6)) * step
    while gravity <= frame.high + 1e-9:
        _, y = frame.at(frame.start, gravity)
        canvas.line((frame.left, y), (frame.right, y), RULE, 0.1)
        words = f"{gravity:.3f}"
        canvas.text(frame.left - 1.2, y + 0.8, words, SMALL_MM, side="right", ink=MUTED)
        gravity += step
    for time in _marks(frame):
        x, _ = frame.at(time, frame.low)
        canvas.line((x, frame.bottom), (x, frame.bottom + 1.0), MUTED, 0.15)
        words = day(time, frame.start)
        half = text_width(words, SMALL_MM) / 2
        middle = min(max(x, frame.left - 8.0 + half), frame.right - half)
        canvas.text(middle, frame.bottom + 3.8, words, SMALL_MM, side="middle", ink=MUTED)
    canvas.line((frame.left, frame.bottom), (frame.right, frame.bottom), MUTED, 0.2)


def _marks(frame: Frame) -> Iterator[datetime]:
    days = (frame.end - frame.start) / timedelta(days=1)
    apart = next((d for d in _DAYS_APART if days / d <= _MOST_TICKS), math.ceil(days / 8))
    time = frame.start.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
    while time <= frame.end:
        yield time
        time += timedelta(days=apart)


def _paint_forecast(
    canvas: Canvas, frame: Frame, outlook: Outlook, forecast: ForecastOutlook
) -> None:
    points = _coming(outlook, forecast)
    if len(points) >= 2:
        band = [frame.at(time, low) for time, low, _, _ in points]
        band += [frame.at(time, high) for time, _, _, high in reversed(points)]
        # A band that no reading supports is only outlined.
        canvas.shape(
            band, BAND if forecast.supported else None, None if forecast.supported else RULE
        )
    if len(points) >= 2:
        middle = [frame.at(time, sg) for time, _, sg, _ in points]
        canvas.path(middle, FRUIT, 0.45, dash=1.6)


def _paint_thresholds(canvas: Canvas, frame: Frame, outlook: Outlook) -> None:
    lines = list(_curves(frame, outlook))
    for crossing in shown_crossings(outlook):
        if not frame.low <= crossing.below <= frame.high:
            continue
        _, y = frame.at(frame.start, crossing.below)
        canvas.line((frame.left, y), (frame.right, y), MUTED, 0.2, dash=0.6)
        words = f"{crossing.below:.3f} {crossing.name}"
        wide = text_width(words, SMALL_MM)
        places = (frame.left + 0.8, frame.right - 0.8 - wide)
        free = (x for x in places if not _crossed((x, y - SMALL_MM - 0.6), (wide, SMALL_MM), lines))
        canvas.text(next(free, places[0]), y - 0.6, words, SMALL_MM, ink=MUTED)


def _curves(frame: Frame, outlook: Outlook) -> Iterator[list[Point]]:
    """Give every line that the plot draws."""
    yield [frame.at(r.at, r.corrected) for r in outlook.readings if r.corrected is not None]
    points = _coming(outlook, outlook.forecast) if outlook.forecast is not None else []
    yield [frame.at(time, low) for time, low, _, _ in points]
    yield [frame.at(time, middle) for time, _, middle, _ in points]
    yield [frame.at(time, high) for time, _, _, high in points]


def _crossed(corner: Point, size: Point, lines: list[list[Point]]) -> bool:
    """Return whether a line runs through the rectangle, looked at in steps of about 1 mm."""
    return any(
        corner[0] - 1.0 <= x <= corner[0] + size[0] + 1.0
        and corner[1] - 0.5 <= y <= corner[1] + size[1] + 0.5
        for line in lines
        for start, end in pairwise(line)
        for x, y in _between(start, end)
    )


def _between(start: Point, end: Point) -> Iterator[Point]:
    count = max(1, round(math.dist(start, end)))
    for number in range(count + 1):
        share = number / count
        yield start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def shown_crossings(outlook: Outlook) -> list[CrossingOutlook]:
    """Return the thresholds that matter to this batch: without a feed, not those of a feed."""
    if outlook.forecast is None:
        return []
    fed = any(s.key == "sugar-feed" and s.state != "skipped" for s in outlook.steps)
    return [c for c in outlook.forecast.crossings if fed or c.below not in (FEED_FROM, FEED_UNTIL)]


def _paint_readings(canvas: Canvas, frame: Frame, outlook: Outlook) -> None:
    places = [frame.at(r.at, r.corrected) for r in outlook.readings if r.corrected is not None]
    if len(places) > 1:
        canvas.path(places, INK, 0.35)
    for place in places:
        canvas.dot(place, 0.85, fill=INK, ink=PAPER)
