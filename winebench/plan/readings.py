"""The readings as they are to be understood: corrected, in words, and with what looks odd.

Nothing typed is changed or dropped here: a reading that cannot be trusted keeps its place in
the log, has no corrected gravity, and says why.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache

import msgspec

from winebench.model.in_order import ByLog, Difference
from winebench.model.log import Action, Entry, Note, Reading
from winebench.model.project import Project
from winebench.model.recipe import Hydrometer
from winebench.plan.days import day_words, later, settled
from winebench.plan.outlook import ReadingOutlook
from winebench.plan.reading_words import sentence_of
from winebench.plan.sparse import sparse
from winebench.plan.typed.fields import OG_WITHIN
from winebench.trade.gravity import sg_from_brix
from winebench.trade.hydrometer import sg_from_hydrometer
from winebench.trade.ranges import NotKnown

HOTTEST_SAMPLE_CELSIUS = 35.0
"""Above this the glass and the alcohol's vapour mislead (common practice)."""
LARGEST_RISE = 0.002
"""Gravity only falls while yeast works; bubbles and eyesight account for two points (common
practice)."""
FASTEST_FALL_A_DAY = 0.045
"""A warm small ferment loses 20 to 30 points a day (common practice); more is a slip."""
USUAL_ORIGINAL_GRAVITY = 1.090
"""Stands for the must's own where nobody read it; only the size of a correction hangs on it."""
SUGAR_IN = ("sugar-feed", "sugar-added")
"""Ticks of sugar that went in while it ferments."""
SUGARED = (*SUGAR_IN, "sweeten", "sugar-water")
NO_SUGAR = ("acid", "blend")
"""What else a sweetening may note; alone it brings no sugar."""
RACKINGS = ("transfer", "second-rack", "third-rack")
"""Ticks that let air to the wine."""
REFERENCE_CELSIUS = 20.0
"""Gravities are SG 20/20 °C here; a hydrometer made for 60 °F shows SG 60/60 °F."""
HALF_WIDTH = 0.002
HALF_WIDTH_WITHOUT_TEMPERATURE = 0.003
"""What a kitchen's reading is good to, SG, either way (common practice)."""
BRIX = (
    "°Brix after the yeast: was it read by a refractometer? Alcohol misleads that; log it as such, "
    "or read the hydrometer."
)
ROSE = (
    "It rose, and gravity only falls while yeast works: was it fizzy, warm or unstrained, or is a "
    "digit wrong?"
)
TOO_FAST = "That is faster than yeast works; is a digit wrong?"
HYDROMETER = re.compile(r"(?i)\bhydrometer\b")
"""The word beside a °Brix, as typed or in its note, that says what showed it."""
_SPOKEN_AGAINST = (BRIX, ROSE, TOO_FAST)
"""What is asked about a gravity that the readings before it speak against: the next ones are held
against those, not against it."""


@dataclass(frozen=True, slots=True)
class Seen:
    """A reading beside what it means."""

    reading: Reading
    outlook: ReadingOutlook

    @property
    def at(self) -> datetime:
        """Return when it was taken, with a plain offset."""
        return self.outlook.at

    @property
    def sg(self) -> float | None:
        """Return the corrected gravity where it is to be trusted, else None."""
        return self.outlook.corrected


def of_the_must(
    seen: Iterable[Seen], pitched: datetime, made_up: Iterable[Action]
) -> tuple[Seen, ...]:
    """Return the trusted gravities that may be the must's own when the yeast went in.

    Those of the day and a half before it, and none from before sugar and water made it up.
    """
    before = (at for tick in made_up if (at := settled(tick.at)) <= pitched)
    since = later(pitched - OG_WITHIN, *before)
    return tuple(
        one
        for one in seen
        if one.sg is not None and since is not None and since <= one.at <= pitched
    )


def readings(project: Project, now: datetime) -> tuple[Seen, ...]:
    """Return the log's readings in order of time; those dated after `now` are asked about."""
    seen = _read(project.log, project.hydrometer)
    if seen and seen[-1].at > now + timedelta(hours=1):
        return tuple(_not_yet(one, now) for one in seen)
    return seen


def _not_yet(seen: Seen, now: datetime) -> Seen:
    if seen.at <= now + timedelta(hours=1):
        return seen
    doubt = f"It is dated {day_words(seen.at, now)}, which has not come yet; check its time."
    return Seen(seen.reading, msgspec.structs.replace(seen.outlook, corrected=None, doubt=doubt))


def _read(log: tuple[Entry, ...], hydrometer: Hydrometer) -> tuple[Seen, ...]:
    """Return what the readings mean; for the latest logs it is remembered."""
    known = _meanings(log)
    if hydrometer not in known:
        known[hydrometer] = _all_read(_sparse(log), hydrometer)
    return known[hydrometer]


def _no_meanings(_log: tuple[Entry, ...]) -> dict[Hydrometer, tuple[Seen, ...]]:
    return {}


def _same_meanings(
    known: dict[Hydrometer, tuple[Seen, ...]], change: Difference, _log: tuple[Entry, ...]
) -> dict[Hydrometer, tuple[Seen, ...]] | None:
    """Return what is known where only notes came or went: they say nothing of a reading."""
    notes = all(isinstance(entry, Note) for entry in (*change.gone, *change.come))
    return known if notes else None


_meanings = ByLog(_no_meanings, _same_meanings)
_sparse = ByLog(sparse)


def _all_read(entries: tuple[Entry, ...], hydrometer: Hydrometer) -> tuple[Seen, ...]:
    pitch = next((e.at for e in entries if isinstance(e, Action) and e.step == "pitch"), None)
    seen: list[Seen] = []
    before: Seen | None = None
    asked: Seen | None = None
    original = USUAL_ORIGINAL_GRAVITY
    made_up = later(*(e.at for e in entries if isinstance(e, Action) and e.step == "sugar-water"))
    sugared = False
    for entry in entries:
        if isinstance(entry, Action):
            sugared = sugared or entry.step in SUGARED
        elif isinstance(entry, Reading):
            unsugared = made_up is not None and entry.at < made_up
            found = (
                _meaning(entry, hydrometer, pitch, other, sugared, original, unsugared)
                for other in ((before,) if asked is None else (before, asked))
            )
            one = next(found)
            if one.outlook.doubt in _SPOKEN_AGAINST:  # two that agree bear each other out
                one = next((other for other in found if not other.outlook.doubt), one)
            seen.append(one)
            if one.sg is not None:
                original = one.sg if pitch is None or entry.at <= pitch else original
                if one.outlook.doubt in _SPOKEN_AGAINST and before is not None:
                    asked = one
                else:
                    before, asked, sugared = one, None, False
    return tuple(seen)


def _meaning(
    reading: Reading,
    hydrometer: Hydrometer,
    pitch: datetime | None,
    before: Seen | None,
    sugared: bool,
    original: float,
    unsugared: bool,
) -> Seen:
    working = pitch is not None and reading.at > pitch
    corrected = gravity_of(reading, hydrometer, original if working else None)
    known = reading.temperature is not None
    outlook = ReadingOutlook(
        id=reading.id,
        at=settled(reading.at),
        raw=reading.gravity.text if reading.gravity else "",
        corrected=corrected,
        half_width=HALF_WIDTH if known else HALF_WIDTH_WITHOUT_TEMPERATURE,
        temperature=reading.temperature.text if reading.temperature else "",
        sentence=sentence_of(reading, corrected, before, working=working, unsugared=unsugared),
        doubt=next(_doubts(reading, corrected, pitch, before, sugared), ""),
    )
    return Seen(reading, outlook)


def gravity_of(reading: Reading, hydrometer: Hydrometer, original: float | None) -> float | None:
    """Return the SG 20/20 that a reading stands for, or None where it stands for none.

    `original` is the gravity at the pitch once the yeast is in, else None: alcohol misleads a
    refractometer, and it makes wine swell more with warmth than must.
    """
    if reading.gravity is None:
        return None
    celsius = reading.temperature.celsius if reading.temperature else None
    if celsius is not None and not 0.0 <= celsius <= HOTTEST_SAMPLE_CELSIUS:
        return None
    if reading.instrument == "refractometer":
        return (
            None if original is not None else _as_sg(reading.gravity.value, reading.gravity.scale)
        )
    calibrated = (reading.calibrated or hydrometer.calibrated).celsius
    shown = _as_sg(reading.gravity.value, reading.gravity.scale) - hydrometer.adds
    # Half a percent is near enough: it moves the correction by less than 0.0001.
    abv = 0.0 if original is None else round(max(0.0, original - shown) * 131.25 * 2) / 2
    try:
        return _true(shown, calibrated if celsius is None else celsius, calibrated, abv)
    except NotKnown:
        return None


def _as_sg(value: float, scale: str) -> float:
    return value if scale == "SG" else float(sg_from_brix(value))


@lru_cache(maxsize=4096)
def _true(shown: float, celsius: float, calibrated: float, abv: float) -> float:
    if celsius == calibrated == REFERENCE_CELSIUS:
        return round(shown, 5)
    return round(float(sg_from_hydrometer(shown, celsius, calibrated, abv)), 5)


def _doubts(
    reading: Reading,
    corrected: float | None,
    pitch: datetime | None,
    before: Seen | None,
    sugared: bool,
) -> Iterator[str]:
    if reading.gravity is None:
        return
    celsius = reading.temperature.celsius if reading.temperature else None
    if celsius is not None and not 0.0 <= celsius <= HOTTEST_SAMPLE_CELSIUS:
        shown = reading.temperature.text if reading.temperature else ""
        yield f"A sample at {shown} cannot be trusted; bring it to 10–35 °C and read it again."
    working = pitch is not None and reading.at > pitch
    if reading.instrument == "refractometer" and working:
        yield (
            "Alcohol misleads a refractometer: this °Brix is kept but is no gravity; "
            "use the hydrometer."
        )
    by_weight = working and _brix_by_hydrometer(reading) and not _brix_by_hydrometer(before)
    if by_weight and not HYDROMETER.search(reading.note):
        yield BRIX
    if pitch is not None and pitch - reading.at > OG_WITHIN:
        yield (
            "It was taken more than a day and a half before the yeast went in, so it does not set "
            "the starting gravity; check its date."
        )
    if corrected is not None and before is not None and before.sg is not None:
        yield from _against_before(reading, corrected, before, working and not sugared)


def _brix_by_hydrometer(seen: Reading | Seen | None) -> bool:
    reading = seen.reading if isinstance(seen, Seen) else seen
    return (
        reading is not None
        and reading.instrument == "hydrometer"
        and reading.gravity is not None
        and reading.gravity.scale != "SG"
    )


def _against_before(
    reading: Reading, corrected: float, before: Seen, only_falls: bool
) -> Iterator[str]:
    assert before.sg is not None
    apart = reading.at - before.at
    if apart < timedelta(minutes=10) and reading.gravity == before.reading.gravity:
        yield "The same reading stands here twice; take one out if it was typed twice."
    rise = corrected - before.sg
    if only_falls and rise > LARGEST_RISE:
        yield ROSE
    days = max(apart.total_seconds() / 86400, 0.25)
    if -rise > FASTEST_FALL_A_DAY * days:
        yield TOO_FAST
