"""The batch laid over this one, as arrays that the curve draws."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import numpy as np
import numpy.typing as npt

from winebench.plan.outlook import Outlook
from winebench.plan.overlaid import OtherBatch, in_words, over_this

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class OtherMark:
    """A milestone on the other batch's line."""

    at: float
    gravity: float
    words: str
    """Like "Rack to glass, day 7"."""


@dataclass(frozen=True)
class OtherData:
    """Another batch's line, moved so that both pitches coincide; x in seconds since 1970."""

    name: str
    at: Floats
    gravity: Floats
    said: tuple[str, ...]
    """What each point is, for the pointer."""
    marks: tuple[OtherMark, ...]
    sentence: str


def pitch_of(outlook: Outlook) -> datetime | None:
    """Return when this batch's yeast went, or goes, in; None where that has no date."""
    step = next((step for step in outlook.steps if step.key == "pitch"), None)
    return (step.done_at or step.likely) if step else None


def other_data(other: OtherBatch, pitch: datetime) -> OtherData:
    """Return that batch moved onto the days of a batch pitched then."""
    at = np.array([over_this(each.moment, pitch).timestamp() for each in other.readings])
    gravity = np.array([each.sg for each in other.readings])
    moments = [(over_this(each, pitch).timestamp(), each) for each in other.milestones]
    return OtherData(
        name=other.name,
        at=at,
        gravity=gravity,
        said=tuple(
            f"{other.name}, day {each.moment.day}: {each.sg:.3f}" for each in other.readings
        ),
        marks=tuple(
            OtherMark(when, float(np.interp(when, at, gravity)), f"{each.words}, day {each.day}")
            for when, each in moments
        ),
        sentence=in_words(other),
    )
