"""A sensor's hundred thousand readings: saved, read again, never saved past what is read."""

import math
from datetime import timedelta

import pytest

from winebench.model.edits import DropEntry, PutEntry, changed
from winebench.model.log import Note, Reading
from winebench.session import Session
from winebench.store import project_file
from winebench.store.errors import StoreError
from winebench.store.project_file import read, to_bytes, write
from winebench.store.samples import load_sample
from winebench.units import Gravity, Temperature


def sensed(count):
    """Return the raspberry batch with that many readings more."""
    project = load_sample("raspberry-day-3")
    start = project.log[-1].at
    readings = tuple(
        Reading(
            id=f"s{n:x}",
            at=start + timedelta(seconds=15 * n),
            gravity=Gravity(f"{1.06 - 0.06 * n / count:.4f}"),
            temperature=Temperature(f"{20 + n % 40 / 10} °C"),
        )
        for n in range(count)
    )
    return changed(project, log=(*project.log, *readings))


def test_a_project_with_a_hundred_thousand_readings_is_read_again(tmp_path):
    path = tmp_path / "long.winebench"
    project = sensed(100_000)
    write(path, project)
    assert path.stat().st_size > 32 * 1024 * 1024
    assert read(path) == project


def test_what_could_not_be_read_again_is_not_saved(tmp_path, monkeypatch):
    path = tmp_path / "long.winebench"
    write(path, sensed(10))
    before = path.read_bytes()
    monkeypatch.setattr(project_file, "_LARGEST", len(before) + 1000)
    with pytest.raises(StoreError, match="its log has grown to"):
        write(path, sensed(1000))
    assert path.read_bytes() == before


def test_an_edit_of_a_long_log_is_saved_like_any_other(tmp_path):
    path = tmp_path / "long.winebench"
    write(path, sensed(30_000))
    session = Session.open(path)
    last = session.project.log[-1]
    for edit in (
        PutEntry(label="x", entry=Note(id="note", at=last.at, text="looked")),
        PutEntry(label="x", entry=changed(last, note="a bump")),
        DropEntry(label="x", id=session.project.log[15_000].id),
    ):
        assert session.apply(edit)
    session.save()
    assert path.read_bytes() == to_bytes(session.project)
    assert read(path) == session.project


def test_new_entries_of_a_long_log_are_still_proven(tmp_path):
    path = tmp_path / "long.winebench"
    write(path, sensed(50))
    session = Session.open(path)
    first, last = session.project.log[0], session.project.log[-1]
    for entry, said in (
        (changed(last, id="other", ph=math.nan), "cannot be"),
        (changed(last, id="other", ph=99.0), "cannot be"),
        (changed(last, id=first.id, note="x"), None),
        (Reading(id="other", at=last.at.replace(tzinfo=None)), "is not a time with its offset"),
        (Note(id=session.project.recipe.lines[0].id, at=last.at, text="x"), "repeats"),
    ):
        edit = PutEntry(label="x", entry=entry)
        if said is None:
            assert session.apply(edit)  # it takes the first one's place
            continue
        before = session.project
        with pytest.raises(StoreError, match=said):
            session.apply(edit)
        assert session.project is before
