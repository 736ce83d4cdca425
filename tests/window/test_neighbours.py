"""A vessel that another recent batch holds is told once, after the batch is open."""

from datetime import timedelta

import pytest
from PySide6.QtTest import QTest

from winebench.model.edits import Change, changed
from winebench.store import recent, samples
from winebench.store.project_file import write


@pytest.fixture
def other(tmp_path):
    """Keep a copy of the sample's batch, with its vessels, among the recent files."""
    path = tmp_path / "other.winebench"
    project = changed(samples.load_sample("damson-design"), id="other", name="Other damson", log=())
    write(path, project)
    recent.remember_file(path)
    return path


def waited(qtbot, window):
    qtbot.waitUntil(lambda: not window.files.neighbours.busy, timeout=20_000)
    return window.banner.sentence


def test_a_pail_that_another_batch_holds_is_told(qtbot, other, open_window):
    window = open_window("damson-design")
    words = waited(qtbot, window)
    assert "is wanted by" in words
    assert "Other damson (" in words
    assert "one and the same" in words
    assert window.banner.isVisible()


def test_it_is_taken_back_once_an_edit_settles_it(qtbot, other, open_window):
    window = open_window("damson-design")
    assert "is wanted by" in waited(qtbot, window)
    start = window.document.project.start
    window.document.edit(Change(label="name", fields={"name": "Hedge damson 2"}))
    assert window.banner.isVisible()
    window.document.edit(Change(label="later", fields={"start": start + timedelta(days=900)}))
    assert not window.banner.isVisible()


def test_it_waits_until_nothing_else_is_said(qtbot, other, open_window):
    window = open_window("damson-design")
    window.banner.say("Something that matters more.")
    QTest.qWait(3500)
    assert window.banner.sentence == "Something that matters more."
    window.banner.put_away()
    assert "is wanted by" in waited(qtbot, window)


def test_files_that_cannot_be_read_are_passed_over(qtbot, other, open_window):
    other.write_text("no project", "utf-8")
    recent.remember_file(other.with_name("gone.winebench"))
    window = open_window("damson-design")
    assert waited(qtbot, window) == ""


def test_without_other_batches_nothing_is_looked_at(damson):
    assert not damson.files.neighbours.busy
