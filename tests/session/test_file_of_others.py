"""What other programs do to the open file: nothing here is lost, nothing there overwritten."""

import os
from pathlib import Path

import pytest

from tests.session.plum import PLUM, name
from winebench.model.project import Project
from winebench.session import Session
from winebench.store.backups import earlier_versions
from winebench.store.errors import ChangedOnDiskError, StoreError
from winebench.store.project_file import read, write


def test_what_another_program_wrote_is_taken_in_and_undo_leads_back(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.save()
    write(path, Project(id="p", name="Theirs", weekends=True))
    assert session.take_in().fields == {"name", "weekends"}
    assert session.project.name == "Theirs"
    assert not session.dirty
    assert session.undo_label == "change by another program"
    session.undo()
    assert session.project.name == "Sloe"
    assert session.dirty
    session.save()
    assert read(path).name == "Sloe"
    session.redo()
    assert session.project.name == "Theirs"
    session.undo()
    session.undo()
    assert session.project.name == "Plum"


def test_the_same_batch_written_otherwise_is_no_step_of_undo(path):
    session = Session.open(path)
    path.write_text(path.read_text("utf-8").replace("\n", "\n\n"), "utf-8")
    assert session.changed_on_disk()
    assert not session.take_in()
    assert not session.can_undo
    assert not session.changed_on_disk()
    session.apply(name("Sloe"))
    session.save()
    assert read(path).name == "Sloe"


@pytest.mark.parametrize("other", ["broken", "another batch"])
def test_what_cannot_be_taken_in_changes_nothing_and_is_not_overwritten(path, other):
    session = Session.open(path)
    if other == "broken":
        path.write_text('{"format": "wine', "utf-8")
    else:
        write(path, Project(id="other", name="Pear"))
    there = path.read_bytes()
    with pytest.raises(StoreError, match=r"plum\.winebench"):
        session.take_in()
    assert session.project == PLUM
    session.apply(name("Sloe"))
    with pytest.raises(ChangedOnDiskError):
        session.save()
    assert path.read_bytes() == there


def test_overwriting_keeps_what_the_other_program_wrote(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.save()  # keeps an earlier version, so that the next is not due for ten minutes
    write(path, Project(id="p", name="Theirs"))
    session.apply(name("Bullace"))
    with pytest.raises(ChangedOnDiskError):
        session.save()
    session.save(force=True)
    assert read(path).name == "Bullace"
    assert "Theirs" in {read(version).name for version in earlier_versions(path)}


ELSEWHERE = Path("/dev/shm")


@pytest.mark.skipif(not os.access(ELSEWHERE, os.W_OK), reason="wants a second disk")
def test_a_disk_taken_out_is_not_written_past(tmp_path):
    folder, left = tmp_path / "stick", tmp_path / "empty"
    left.mkdir()
    stick = ELSEWHERE / f"winebench-test-{os.getpid()}"
    stick.mkdir()
    path = folder / "plum.winebench"
    try:
        if stick.stat().st_dev == left.stat().st_dev:
            pytest.skip("both are on one disk")
        folder.symlink_to(stick)
        write(path, PLUM)
        session = Session.open(path)
        session.apply(name("Sloe"))
        folder.unlink()
        folder.symlink_to(left)  # what a mount's folder is once the disk is out
        with pytest.raises(StoreError, match="Plug the disk in again, or save elsewhere"):
            session.save()
        assert list(left.iterdir()) == []
        folder.unlink()
        folder.symlink_to(stick)
        session.save()
        assert read(path).name == "Sloe"
    finally:
        path.unlink(missing_ok=True)
        stick.rmdir()
