"""What the program works out of a project: shapes only, ready for a window, a page or JSON.

Every shape is immutable and holds words for people beside its numbers, so that the window,
the printed card and the headless JSON say the same thing.
"""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from winebench.plan.outlook.caution import Caution, Repair, Severity
from winebench.plan.outlook.figure import Figure, NamedFigure, Shape
from winebench.plan.outlook.gravity import CrossingOutlook, ForecastOutlook, ReadingOutlook
from winebench.plan.outlook.must import LineOutlook, Must, VesselOutlook, Want
from winebench.plan.outlook.shopping import BottleOutlook, Cost, LaterDose, ShoppingItem
from winebench.plan.outlook.step import (
    Bound,
    ClueOutlook,
    Condition,
    Moved,
    RecordField,
    StepOutlook,
    StepState,
    StuckOutlook,
    TodayItem,
)

__all__ = [
    "BottleOutlook",
    "Bound",
    "Caution",
    "ClueOutlook",
    "Condition",
    "Cost",
    "CrossingOutlook",
    "Figure",
    "ForecastOutlook",
    "LabelFace",
    "LabelLine",
    "LaterDose",
    "LineOutlook",
    "Moved",
    "Must",
    "NamedFigure",
    "Outlook",
    "ReadingOutlook",
    "RecordField",
    "Repair",
    "Severity",
    "Shape",
    "ShoppingItem",
    "StepOutlook",
    "StepState",
    "StuckOutlook",
    "TodayItem",
    "VesselOutlook",
    "Want",
]

LabelFace = Literal["title", "plain", "small", "strong"]


class LabelLine(Shape, frozen=True, kw_only=True):
    """One line of a bottle's label."""

    words: str
    face: LabelFace
    keep: int
    """0 is never left out where the label is too small; larger numbers go first."""


class Outlook(Shape, frozen=True, kw_only=True):
    """All that is worked out of one project at one moment."""

    at: datetime
    name: str
    style: str
    make_text: str
    """Like "5 gal US"."""
    basis_text: str
    scale_factor: float
    must: Must
    lines: tuple[LineOutlook, ...]
    cautions: tuple[Caution, ...]
    """Every caution, those beside lines too; most severe first."""
    vessels: tuple[VesselOutlook, ...]
    bottles: BottleOutlook
    shopping: tuple[ShoppingItem, ...]
    later: tuple[LaterDose, ...] = ()
    """What goes in after the ferment, on top of the shopping."""
    readings: tuple[ReadingOutlook, ...]
    forecast: ForecastOutlook | None
    """None while it is worked out off the window's thread, and for a must without sugar."""
    steps: tuple[StepOutlook, ...]
    today: tuple[TodayItem, ...]
    strength_now: Figure
    safety: tuple[str, ...]
    """Standing reminders for the foot of the window."""
    label: tuple[LabelLine, ...] = ()
    """What a bottle's label says, from top to bottom."""
    stuck: StuckOutlook | None = None
    """None while the gravity falls as it should, or has reached its end."""
    looks_back: str = ""
    """One sentence where a command looks from the past and leaves out what was logged later."""
