"""Dialogs for files open where the last file was, and propose the batch's name."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog

from winebench.store.settings import load_settings
from winebench.window import file_dialog

ASKING = {
    "save": (lambda window: window.files.save_as(), "Rows end raspberry.winebench"),
    "card": (lambda window: window.printing.pdf("card"), "Rows end raspberry, batch card.pdf"),
    "labels": (lambda window: window.printing.pdf("labels"), "Rows end raspberry, labels.pdf"),
    "calendar": (lambda window: window.printing.calendar(), "Rows end raspberry.ics"),
    "readings": (lambda window: window.printing.readings(), "Rows end raspberry.csv"),
}


def asked(window) -> QFileDialog:
    return window.findChildren(QFileDialog)[-1]


@pytest.fixture
def documents(tmp_path, monkeypatch):
    """Return the folder that the system calls the person's documents."""
    folder = tmp_path / "Documents"
    folder.mkdir()
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "user-dirs.dirs").write_text('XDG_DOCUMENTS_DIR="$HOME/Documents"\n')
    found = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    if Path(found) != folder:
        pytest.skip("this system names the documents folder otherwise")
    return folder


@pytest.mark.parametrize("kind", list(ASKING))
def test_a_new_file_is_proposed_by_the_batchs_name(raspberry, kind):
    ask, name = ASKING[kind]
    ask(raspberry)
    (chosen,) = asked(raspberry).selectedFiles()
    assert Path(chosen).name == name


def test_the_first_dialog_shows_the_documents(raspberry, documents):
    raspberry.files.open()
    assert Path(asked(raspberry).directory().absolutePath()) == documents


def test_the_next_dialog_of_any_kind_shows_the_folder_used_last(raspberry, tmp_path):
    shelf = tmp_path / "shelf"
    shelf.mkdir()
    raspberry.files.save_as()
    asked(raspberry).filesSelected.emit([str(shelf / "batch.winebench")])
    assert (shelf / "batch.winebench").exists()
    assert load_settings().last_folder == str(shelf)
    for ask in (raspberry.files.open, lambda: raspberry.printing.pdf("card")):
        ask()
        assert Path(asked(raspberry).directory().absolutePath()) == shelf


def test_a_folder_that_is_gone_is_shown_no_more(raspberry, tmp_path):
    shelf = tmp_path / "shelf"
    shelf.mkdir()
    file_dialog.remember_folder(shelf / "card.pdf")
    assert file_dialog.folder_to_show(None) == shelf
    shelf.rmdir()
    project = tmp_path / "batch.winebench"
    assert file_dialog.folder_to_show(project) == tmp_path
