"""Two batches that want one vessel on one day, with a day to clean it in between."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from winebench.model.project import Project
from winebench.plan.customary import gallons_of, volume_text
from winebench.plan.days import days_words
from winebench.plan.outlook import Outlook, Shape, StepOutlook, VesselOutlook
from winebench.units import GallonCountry

CLEANING = timedelta(days=1)
"""A vessel is cleaned on the day after it was emptied (common practice)."""
_MUST_MADE = ("sugar-water", "sulfite-must", "enzyme", "pitch")
_OUT_OF_PAIL = ("transfer", "second-rack", "third-rack", "bottle")


class Stay(Shape, frozen=True, kw_only=True):
    """A batch in a vessel, both days included."""

    batch: str
    """Id of the project."""
    name: str
    vessel: str
    capacity_l: float
    first: date
    last: date | None
    """None where nobody can tell yet."""
    runs: bool
    """Whether its must is made: it cannot be started later any more."""

    @property
    def key(self) -> tuple[str, float]:
        """Return what a vessel is known by: its name, however written, and what it holds."""
        return " ".join(self.vessel.casefold().split()), round(self.capacity_l, 1)

    @property
    def words(self) -> str:
        """Return like "Hedge damson (2–9 October)"."""
        if self.last is None:
            return f"{self.name} (from {days_words([self.first])})"
        days = [self.first + timedelta(days=n) for n in range((self.last - self.first).days + 1)]
        return f"{self.name} ({days_words(days)})"


class Clash(Shape, frozen=True, kw_only=True):
    """One vessel that is wanted by more batches at a time than there are of it."""

    vessel: str
    capacity_l: float
    stays: tuple[Stay, ...]
    """The batches that hold it, and last the one that comes to it."""
    free_from: date | None
    """First day on which it is empty and clean, or None where nobody can tell yet."""
    sentence: str
    detail: str


def clashes(batches: Iterable[tuple[Project, Outlook]]) -> tuple[Clash, ...]:
    """Return the vessels wanted twice, soonest first; a copy of a batch counts once.

    Vessels of one name and size are taken for one, unless a batch lists several of them.
    """
    stays: list[Stay] = []
    owned: Counter[tuple[str, float]] = Counter()
    today = date.min
    seen: set[str] = set()
    gallons: dict[str, GallonCountry | None] = {}
    for project, outlook in batches:
        if project.id in seen:
            continue
        seen.add(project.id)
        gallons[project.id] = gallons_of(project)
        today = max(today, outlook.at.date())
        mine = list(stays_of(project, outlook))
        stays += mine
        for key, count in Counter(stay.key for stay in mine).items():
            owned[key] = max(owned[key], count)
    coming = sorted(stays, key=lambda stay: (stay.first, stay.name))
    found = (
        _clash(stay, coming[:place], owned[stay.key], today, gallons[stay.batch])
        for place, stay in enumerate(coming)
    )
    return tuple(one for one in found if one is not None and _matters(one, today))


def stays_of(project: Project, outlook: Outlook) -> Iterator[Stay]:
    """Give each vessel that the batch uses, and when; a batch without a start uses none yet."""
    steps = {step.key: step for step in outlook.steps}
    begun = [steps[key].done_at for key in _MUST_MADE if steps[key].done_at is not None]
    if not begun and project.start is None:
        return
    start = min(at for at in begun if at is not None) if begun else steps["sugar-water"].likely
    if start is None:
        return
    out = next((at for key in _OUT_OF_PAIL if (at := _day(steps[key])) is not None), None)
    end = _day(steps["bottle"])
    for vessel in outlook.vessels:
        if vessel.role == "primary":
            yield _stay(project, vessel, start.date(), out, runs=bool(begun))
        elif vessel.fill_l > 0 and out is not None:
            yield _stay(project, vessel, out, end, runs=bool(begun))


def _day(step: StepOutlook) -> date | None:
    """Return when the step was done, or is likely to be."""
    at = step.done_at or (None if step.state == "skipped" else step.likely)
    return at.date() if at is not None else None


def _stay(
    project: Project, vessel: VesselOutlook, first: date, last: date | None, *, runs: bool
) -> Stay:
    return Stay(
        batch=project.id,
        name=project.name,
        vessel=vessel.name,
        capacity_l=vessel.capacity_l,
        first=first,
        last=last if last is None else max(first, last),
        runs=runs,
    )


def _clash(
    stay: Stay, earlier: list[Stay], owned: int, today: date, gallon: GallonCountry | None
) -> Clash | None:
    """Return the clash that this stay brings about, or None where a vessel is free for it."""
    holding = [
        one
        for one in earlier
        if one.key == stay.key and (one.last is None or one.last + CLEANING >= stay.first)
    ]
    others = [one for one in holding if one.batch != stay.batch]
    if not others or len(holding) < owned:
        return None
    ends = sorted(one.last or date.max for one in others)
    free = None if ends[0] == date.max else ends[0] + CLEANING + timedelta(days=1)
    size = volume_text(stay.capacity_l, gallon, both=False)
    names = " and ".join(one.words for one in (*others, stay))
    return Clash(
        vessel=stay.vessel,
        capacity_l=stay.capacity_l,
        stays=(*others, stay),
        free_from=free,
        sentence=f"{stay.vessel} ({size}) is wanted by {names}.",
        detail=_way(stay, free, today),
    )


def _way(stay: Stay, free: date | None, today: date) -> str:
    """Return what can still be done about it."""
    if stay.runs and stay.first <= today:
        return (
            "By the logs both are in it. If it is one and the same, one of them has left it: tick "
            "the racking or the bottling that emptied it."
        )
    way = ""
    if free is not None:
        day = days_words([free])
        way = f"start {stay.name} so that it comes to it on {day} or later, or "
        if stay.runs:
            way = f"bring {stay.name} to it on {day} or later, or "
    return (
        f"If it is one and the same, {way}use another vessel. A day to clean it is counted; "
        "planned days may still move."
    )


def _matters(clash: Clash, today: date) -> bool:
    """Return whether anything can still be done: the later batch has yet to come to the vessel,
    or both are in it now."""
    *others, stay = clash.stays
    if stay.last is not None and stay.last < today:
        return False
    coming = stay.first > today or not stay.runs
    return coming or any(one.last is None or one.last >= today for one in others)
