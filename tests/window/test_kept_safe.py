"""Other programs, full disks and messages about them: told, and nothing lost."""

import json

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import rename
from winebench.model.edits import changed
from winebench.store import project_file, recovery
from winebench.store.card_draft import load_card
from winebench.store.settings import load_settings
from winebench.window.beginnings import begin
from winebench.window.document import local_now
from winebench.window.logging.scribbles import PLACE, ScribblesDialog
from winebench.window.recipe.card_reader import CardReader

# Qt says so of dialogs where there is no screen.
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def written_elsewhere(row, name):
    project_file.write(row, changed(project_file.read(row), name=name))


def looks_twice(window):
    """Look as the timer does: the second look finds the file quiet."""
    window.watcher.look()
    window.watcher.look()


def way(window, words):
    return next(each for each in window.banner.ways if each.text() == words)


def test_a_change_by_another_program_is_shown_and_told_and_undone(raspberry, row):
    raspberry.files.open_path(row)
    looks_twice(raspberry)
    assert raspberry.banner.sentence == ""
    written_elsewhere(row, "Theirs")
    raspberry.watcher.look()
    assert raspberry.document.project.name == "Row's end raspberry", "it may still be written"
    raspberry.watcher.look()
    assert raspberry.document.project.name == "Theirs"
    assert "changed by another program" in raspberry.banner.sentence
    QTest.keyClick(way(raspberry, "Undo"), Qt.Key.Key_Space)
    assert raspberry.document.project.name == "Row's end raspberry"
    assert raspberry.banner.sentence == ""
    assert raspberry.keeper.keep()
    assert project_file.read(row).name == "Row's end raspberry"


def test_the_timer_looks_by_itself(qtbot, raspberry, row):
    raspberry.watcher._timer.setInterval(20)
    raspberry.files.open_path(row)
    written_elsewhere(row, "Theirs")
    qtbot.waitUntil(lambda: raspberry.document.project.name == "Theirs", timeout=5000)


def test_a_file_broken_by_another_program_is_told_and_not_overwritten(raspberry, row):
    raspberry.files.open_path(row)
    row.write_text('{"format": "wine', "utf-8")
    looks_twice(raspberry)
    assert "The work here is as it was." in raspberry.banner.sentence
    assert {each.text() for each in raspberry.banner.ways} >= {"Overwrite it", "Save as…"}
    rename(raspberry, "Mine")
    assert raspberry.keeper.keep()
    assert row.read_text("utf-8") == '{"format": "wine'
    assert "kept aside" in raspberry.banner.sentence
    assert raspberry.foot.saved.words == "Kept aside, not in row.winebench"
    QTest.keyClick(way(raspberry, "Overwrite it"), Qt.Key.Key_Space)
    assert project_file.read(row).name == "Mine"


def test_unsaved_work_is_not_put_by_for_what_another_program_wrote(raspberry, row):
    raspberry.files.open_path(row)
    rename(raspberry, "Mine")
    written_elsewhere(row, "Theirs")
    looks_twice(raspberry)
    assert raspberry.document.project.name == "Mine"
    raspberry.keeper.keep()
    assert "changed by another program" in raspberry.banner.sentence
    assert project_file.read(row).name == "Theirs"


@pytest.fixture
def blocked(raspberry, row):
    """Return a window whose file's folder is away, with its path."""
    raspberry.files.open_path(row)
    row.parent.rename(row.parent.with_name("away"))
    yield raspberry
    if not row.parent.exists():
        row.parent.with_name("away").rename(row.parent)


def test_work_that_cannot_be_saved_is_kept_aside_and_saved_when_it_can_be(qtbot, blocked, row):
    blocked.keeper._again.setInterval(50)
    rename(blocked, "Mine")
    blocked.keeper.keep()
    assert blocked.banner.sentence.endswith("Your work is kept aside meanwhile.")
    assert [each.text() for each in blocked.banner.ways] == ["Save as…"]
    row.parent.with_name("away").rename(row.parent)
    qtbot.waitUntil(lambda: not blocked.document.session.dirty, timeout=5000)
    assert project_file.read(row).name == "Mine"
    assert blocked.banner.sentence == ""


def test_a_warning_is_seen_again_under_the_news_that_passed_over_it(blocked):
    rename(blocked, "Mine")
    blocked.keeper.keep()
    warning = blocked.banner.sentence
    blocked.banner.tell("Stir: done.")
    assert blocked.banner.sentence == "Stir: done."
    blocked.banner.put_away()
    assert blocked.banner.sentence == warning
    blocked.banner.put_away()
    assert not blocked.banner.isVisible()


def test_what_can_be_kept_nowhere_says_both_reasons(blocked, tmp_path, monkeypatch):
    (blocked_state := tmp_path.with_name("in-the-way")).write_text("x")
    monkeypatch.setenv("WINEBENCH_STATE", str(blocked_state))
    rename(blocked, "Mine")
    assert not blocked.keeper.keep()
    assert "row.winebench" in blocked.banner.sentence
    assert "Unsaved work cannot be kept" in blocked.banner.sentence
    assert blocked.foot.saved.words == "Not kept anywhere"


def left(key, path, name):
    """Leave a copy of that file's work by a program that runs no more."""
    recovery.keep_copy(key, changed(project_file.read(path), name=name), path, local_now(), "x")
    copy = recovery.state_folder() / "unsaved" / f"{key}.json"
    copy.write_text(json.dumps(json.loads(copy.read_text("utf-8")) | {"owner": ""}), "utf-8")


def test_two_windows_work_on_one_file_is_all_there_after_both_died(raspberry, row):
    left("0123456789abcdef", row, "First window")
    left("fedcba9876543210", row, "Second window")
    assert raspberry.files.open_path(row)
    shown = raspberry.document.project.name
    offered = {words.partition(",")[0] for words, _take in raspberry.files.kept_work()}
    assert {shown} | offered == {"First window", "Second window"}


def test_the_start_tells_of_a_copy_that_cannot_be_read():
    folder = recovery.state_folder() / "unsaved"
    folder.mkdir(parents=True)
    (folder / "0123456789abcdef.json").write_text('{"half')
    first = begin(None, None, load_settings(), local_now())
    assert "Unsaved work cannot be read" in first.sentence
    assert first.session.project.name
    assert begin(None, None, load_settings(), local_now()).sentence == ""


def types_steadily(field, words):
    """Type without ever a pause as long as the one after which things are kept."""
    for letter in words:
        QTest.keyClicks(field, letter)
        QTest.qWait(40)


def test_a_card_is_kept_while_it_is_still_being_typed(raspberry):
    raspberry.files.read_card()
    reader = raspberry.findChild(CardReader)
    types_steadily(reader.text, "3 lb plums, 2 lb sugar")
    kept = load_card().text
    assert kept
    assert "3 lb plums, 2 lb sugar".startswith(kept)
    reader.reject()


def test_several_days_are_kept_while_they_are_still_being_typed(raspberry):
    dialog = ScribblesDialog(raspberry.document, raspberry)
    dialog.open()
    types_steadily(dialog.text, "Mon 8am 1.064 22C")
    assert any(d.place == PLACE and d.text for d in raspberry.document.project.drafts)
    dialog.reject()


def test_a_card_that_cannot_be_kept_is_said_so(qtbot, raspberry, tmp_path, monkeypatch):
    (in_the_way := tmp_path / "file").write_text("x")
    monkeypatch.setenv("WINEBENCH_STATE", str(in_the_way))
    raspberry.files.read_card()
    reader = raspberry.findChild(CardReader)
    QTest.keyClicks(reader.text, "3 lb plums")
    qtbot.waitUntil(lambda: "cannot be kept" in reader.said.text())
    reader.reject()
