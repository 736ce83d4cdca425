"""Pictures beside a project: copied, never overwritten, never followed outside its folder."""

import json
import os

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtGui import QImage

from winebench.model.edits import PutEntry, changed
from winebench.model.log import Note
from winebench.session import Session
from winebench.store.errors import StoreError
from winebench.store.pictures import (
    LARGEST,
    add_picture,
    copy_pictures,
    misplaced,
    picture_path,
)
from winebench.store.project_file import read, write
from winebench.store.samples import load_sample


def made(path, colour="darkred"):
    """Make a real picture and return its path."""
    image = QImage(32, 24, QImage.Format.Format_RGB32)
    image.fill(colour)
    path.parent.mkdir(parents=True, exist_ok=True)
    assert image.save(str(path))
    return path


@pytest.fixture
def picture(tmp_path):
    return made(tmp_path / "camera" / "Cap, day 3.PNG")


@pytest.fixture
def project(tmp_path):
    path = tmp_path / "row.winebench"
    write(path, load_sample("raspberry-day-3"))
    return path


def with_pictures(path, *names):
    """Give the last entry of the project in that file these pictures, as a hand could write it."""
    fields = json.loads(path.read_text("utf-8"))
    fields["log"][-1]["pictures"] = list(names)
    path.write_text(json.dumps(fields), "utf-8")


def test_a_picture_is_copied_beside_the_project_under_a_name_of_its_own(project, picture, tmp_path):
    first = add_picture(project, picture)
    assert first == "row pictures/Cap day 3.png"
    assert picture_path(project, first).read_bytes() == picture.read_bytes()
    other = made(tmp_path / "elsewhere" / picture.name, "gold")
    second = add_picture(project, other)
    assert second == "row pictures/Cap day 3 2.png"
    assert picture_path(project, first).read_bytes() == picture.read_bytes()
    assert picture_path(project, second).read_bytes() == other.read_bytes()
    assert len(os.listdir(tmp_path / "row pictures")) == 2, "nothing else is left behind"


def test_a_project_without_a_file_is_to_be_saved_first(picture):
    with pytest.raises(StoreError, match="Save the project first"):
        add_picture(None, picture)


def test_what_is_too_large_or_missing_is_refused_before_anything_is_copied(project, tmp_path):
    big = tmp_path / "big.png"
    with big.open("wb") as file:
        file.truncate(LARGEST + 1)
    with pytest.raises(StoreError, match="larger than 50 MB; make it smaller first"):
        add_picture(project, big)
    with pytest.raises(StoreError, match="is no file; choose a picture"):
        add_picture(project, tmp_path / "none.png")
    assert not (tmp_path / "row pictures").exists()


@pytest.mark.skipif(os.name != "posix", reason="a folder's rights as POSIX has them")
@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written_is_said(project, picture):
    project.parent.chmod(0o500)
    try:
        with pytest.raises(StoreError, match="cannot be copied"):
            add_picture(project, picture)
    finally:
        project.parent.chmod(0o700)


def test_a_file_in_the_folders_place_is_said(project, picture, tmp_path):
    (tmp_path / "row pictures").write_text("not a folder")
    with pytest.raises(StoreError, match="cannot be copied into"):
        add_picture(project, picture)


@pytest.mark.parametrize(
    "name",
    ["../secret.png", "a/../../b.png", "/etc/passwd", "a//b.png", "./a.png", "a/./b.png", "..",
     "C:/a.png", "a\\..\\b.png", "\\\\server\\a.png", "", " ", "a\0b.png", "a/"],
)  # fmt: skip
def test_names_that_lead_elsewhere_are_a_fault_of_the_file_with_its_place(project, name):
    count = len(read(project).log)
    with_pictures(project, "row pictures/good.png", name)
    with pytest.raises(StoreError) as caught:
        read(project)
    assert f"log[{count - 1}].pictures[1]: " in str(caught.value)
    with pytest.raises(StoreError):
        picture_path(project, name)


def test_an_edit_that_would_name_a_picture_elsewhere_is_refused(project):
    session = Session.open(project)
    entry = changed(session.project.log[-1], pictures=("../secret.png",))
    with pytest.raises(StoreError, match="points outside the project's folder"):
        session.apply(PutEntry(label="x", entry=entry))


@given(name=st.text(min_size=1, max_size=20))
def test_a_name_that_may_stand_stays_below_the_folder(name):
    from pathlib import PurePosixPath, PureWindowsPath

    if not misplaced(name):
        for kind in (PurePosixPath, PureWindowsPath):
            path = kind(name)
            assert not path.is_absolute()
            assert not path.drive
            assert ".." not in path.parts


@pytest.mark.skipif(os.name != "posix", reason="links without asking")
def test_a_link_out_of_the_folder_is_not_followed(project, picture, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    moved = home / "row.winebench"
    project.rename(moved)
    (home / "row pictures").symlink_to(picture.parent)
    with pytest.raises(StoreError, match="by a link"):
        picture_path(moved, f"row pictures/{picture.name}")


def test_saving_elsewhere_takes_the_pictures_along(project, picture, tmp_path):
    name = add_picture(project, picture)
    with_pictures(project, name, "row pictures/gone.png")
    session = Session.open(project)
    new = tmp_path / "other" / "vintage.winebench"
    new.parent.mkdir()
    session.save(new)
    assert picture_path(new, name).read_bytes() == picture.read_bytes()
    assert read(new) == session.project
    session.save(tmp_path / "beside.winebench")
    assert read(tmp_path / "beside.winebench").log[-1].pictures == (name, "row pictures/gone.png")
    session.save(new)  # the copies that are there already are the same


def test_saving_elsewhere_never_goes_over_another_picture(project, picture, tmp_path):
    name = add_picture(project, picture)
    with_pictures(project, name)
    session = Session.open(project)
    new = tmp_path / "other" / "vintage.winebench"
    theirs = made(new.parent / name, "gold")
    before = theirs.read_bytes()
    with pytest.raises(StoreError, match="folder of its own"):
        session.save(new)
    assert theirs.read_bytes() == before
    assert not new.exists()
    assert session.path == project


def test_pictures_of_all_kinds_of_entries_are_copied_once(project, picture, tmp_path):
    name = add_picture(project, picture)
    sample = read(project)
    note = Note(id="note", at=sample.log[-1].at, text="look", pictures=(name,))
    log = tuple(changed(entry, pictures=(name,)) for entry in sample.log)
    new = tmp_path / "other" / "row.winebench"
    copy_pictures(changed(sample, log=(*log, note)), project, new)
    assert os.listdir(new.parent / "row pictures") == ["Cap day 3.png"]
