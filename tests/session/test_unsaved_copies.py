"""Copies of unsaved work: what the next start finds when the program died, and when it ended."""

from datetime import timedelta

import pytest

from tests.session.plum import NOW, PLUM, name
from winebench.model.edits import KeepDraft
from winebench.model.project import Draft, Project
from winebench.session import Session
from winebench.store.errors import ChangedOnDiskError
from winebench.store.project_file import read, write
from winebench.store.recovery import unsaved_work


def crashed(session, monkeypatch):
    """Return what the next start finds, as if this program had died."""
    monkeypatch.setattr("winebench.store.recovery._running", lambda pid: "")
    return unsaved_work()


def test_unsaved_work_comes_back_dirty_with_its_file(path, monkeypatch):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.autosave(NOW)
    assert unsaved_work() == (), "this program still runs"
    (found,) = crashed(session, monkeypatch)
    again = Session.recover(found)
    assert again.project.name == "Sloe"
    assert again.path == path
    assert again.dirty
    again.save()
    assert read(path).name == "Sloe"
    assert unsaved_work() == ()


def test_recovered_work_does_not_overwrite_what_changed_since(path, monkeypatch):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.autosave(NOW)
    (found,) = crashed(session, monkeypatch)
    write(path, Project(id="p", name="From outside"))
    with pytest.raises(ChangedOnDiskError):
        Session.recover(found).save()


@pytest.mark.parametrize("end", ["save", "undo", "close"])
def test_a_copy_goes_when_nothing_is_unsaved_any_more(path, monkeypatch, end):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.autosave(NOW)
    if end == "save":
        session.save()
    elif end == "undo":
        session.undo()
        session.autosave(NOW + timedelta(seconds=6))
    else:
        session.close()
    assert crashed(session, monkeypatch) == ()


def test_a_draft_is_part_of_the_work_that_comes_back(monkeypatch):
    session = Session(PLUM)
    session.apply(KeepDraft(label="type", merges_as="x", place="recipe.basis", text="1 ga"))
    session.autosave(NOW)
    (found,) = crashed(session, monkeypatch)
    assert found.project.drafts == (Draft(place="recipe.basis", text="1 ga"),)
