"""What the window opens with: a file, work found again, the last file, or a sample."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QLocale

from winebench.model.edits import changed, new_id
from winebench.model.new_project import new_project
from winebench.model.project import Project
from winebench.session import Session
from winebench.store import recent, recovery, samples
from winebench.store.errors import StoreError
from winebench.store.settings import Settings
from winebench.units import GallonCountry

FIRST_SAMPLE = "raspberry-day-3"


@dataclass(frozen=True)
class Beginning:
    """A session to open with, and what to tell about it."""

    session: Session
    sentence: str = ""
    """Bad news or a question; empty for none."""
    news: str = ""


def sample_copy(name: str, at: datetime) -> Session:
    """Return a copy of a sample as a project of its own, without a file."""
    project = samples.sample_seen_at(name, at)
    return Session(changed(project, id=new_id()))


def is_like_a_sample(project: Project) -> bool:
    """Return whether kitchen and pantry are those of a bundled sample: nobody's own."""
    of_samples = (samples.load_sample(name) for name in samples.sample_names())
    return any(
        project.kitchen == sample.kitchen
        and [item.what for item in project.pantry] == [item.what for item in sample.pantry]
        for sample in of_samples
    )


def begin(path: Path | None, like: Project | None, settings: Settings, at: datetime) -> Beginning:
    """Return what to open with; what cannot be read is told, and left as it is."""
    begun = _begun(path, like, settings, at)
    sentences = (begun.sentence, *recovery.unreadable_work())
    return replace(begun, sentence=" ".join(filter(None, sentences)))


def _begun(path: Path | None, like: Project | None, settings: Settings, at: datetime) -> Beginning:
    """Return what to open with, and what to tell of the file."""
    if like is not None:
        return Beginning(Session(like))
    if path is not None:
        try:
            session = opened(path)
        except StoreError as problem:
            return Beginning(_last_resort(at).session, sentence=str(problem))
        recent.remember_file(path)
        return Beginning(session, news=_found_words(1) if session.dirty else "")
    return _last_work(Path(settings.last_file) if settings.last_file else None, at)


def opened(path: Path) -> Session:
    """Return the work on that file: as a crash left it where more was kept than the file holds.

    Raises:
        StoreError: the file cannot be read; says what is wrong with it.

    """
    kept = next((work for work in recovery.unsaved_work() if work.path == path.absolute()), None)
    return Session.recover(kept) if kept is not None else Session.open(path)


def _last_work(last: Path | None, at: datetime) -> Beginning:
    """Return what was worked on last; `last` is its file, None where it has none."""
    found = recovery.unsaved_work()
    if last is None:
        if found:
            return Beginning(Session.recover(found[0]), news=_found_words(len(found)))
        return _last_resort(at)
    try:
        session = opened(last)
    except StoreError as problem:
        resort = Session.recover(found[0]) if found else _last_resort(at).session
        return Beginning(resort, sentence=str(problem))
    if session.dirty:
        return Beginning(session, news=_found_words(len(found)))
    return Beginning(session, news=_others_words(len(found)))


def _last_resort(at: datetime) -> Beginning:
    try:
        session = sample_copy(FIRST_SAMPLE, at)
    except (StoreError, OSError):  # an installation without its samples still opens
        return Beginning(Session(new_project(None)))
    return Beginning(session, news="This is a sample: change what you like, the sample stays.")


def _found_words(count: int) -> str:
    if count == 1:
        return "Here is the work as you left it."
    return f"Here is the work as you left it; {count - 1} more under Project > Kept work."


def _others_words(count: int) -> str:
    if not count:
        return ""
    return (
        f"{count} more with unsaved work {'is' if count == 1 else 'are'} under Project > Kept work."
    )


def region_gallon(locale: QLocale | None = None) -> GallonCountry | None:
    """Return whose gallon the system's region uses; None where kitchens use litres."""
    system = (locale or QLocale.system()).measurementSystem()
    return {
        QLocale.MeasurementSystem.ImperialUSSystem: "US",
        QLocale.MeasurementSystem.ImperialUKSystem: "imperial",
    }.get(system)  # type: ignore[return-value]  # the two values are the Literal's
