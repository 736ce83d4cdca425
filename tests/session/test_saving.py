"""The open document and its file: opened, saved, saved elsewhere, written by others meanwhile."""

import os

import pytest

from tests.session.plum import PLUM, name
from winebench.model.project import Project
from winebench.session import Session
from winebench.store.errors import ChangedOnDiskError, StoreError
from winebench.store.project_file import read, write


def test_saving_writes_the_file_and_leaves_nothing_unsaved(path):
    session = Session.open(path)
    assert not session.dirty
    session.apply(name("Sloe"))
    assert session.dirty
    session.save()
    assert not session.dirty
    assert read(path).name == "Sloe"
    session.undo()
    assert session.dirty, "undo goes back past a save"
    session.redo()
    assert not session.dirty


def test_saving_under_another_name_moves_on_to_that_file(path, tmp_path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.save(tmp_path / "sloe.winebench")
    assert session.path == tmp_path / "sloe.winebench"
    assert read(path).name == "Plum"


def test_a_project_without_a_file_asks_for_one():
    with pytest.raises(StoreError, match="choose where"):
        Session(PLUM).save()


def test_a_failed_save_leaves_the_work_unsaved_and_the_session_where_it_was(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    with pytest.raises(StoreError, match="was not saved"):
        session.save(path / "below" / "a.winebench")
    assert session.dirty
    assert session.path == path


def test_a_file_written_by_another_program_is_not_overwritten_unasked(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    assert not session.changed_on_disk()
    write(path, Project(id="p", name="From outside"))
    assert session.changed_on_disk()
    with pytest.raises(ChangedOnDiskError, match="another program"):
        session.save()
    with pytest.raises(ChangedOnDiskError):
        session.save(path)
    assert read(path).name == "From outside"
    assert session.dirty
    session.save(force=True)
    assert read(path).name == "Sloe"
    assert not session.changed_on_disk()


def test_a_file_touched_or_written_again_the_same_is_not_changed(path):
    session = Session.open(path)
    os.utime(path, (0, 0))
    write(path, PLUM)
    assert not session.changed_on_disk()
    session.apply(name("Sloe"))
    session.save()


def test_a_file_that_is_gone_is_written_again(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    path.unlink()
    session.save()
    assert read(path).name == "Sloe"


def test_opening_a_damaged_file_says_so(path):
    path.write_bytes(b"{")
    with pytest.raises(StoreError, match="truncated"):
        Session.open(path)
