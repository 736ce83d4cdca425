"""New, open, save, samples, and work that is kept without being asked, on real files."""

import hashlib
import json

import msgspec
import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from tests.window.recipe_keys import rename
from winebench.model.edits import Change, changed
from winebench.model.recipe import Kitchen
from winebench.model.stock import PantryItem
from winebench.places import resources
from winebench.session import Session
from winebench.store import project_file, recent, recovery, samples
from winebench.store.settings import load_settings, save_settings
from winebench.units import Amount
from winebench.window.beginnings import begin, region_gallon, sample_copy
from winebench.window.document import local_now
from winebench.window.files import file_name
from winebench.window.new_dialog import GallonDialog


def test_saving_under_a_name_and_opening_again_gives_the_same_project(raspberry, tmp_path):
    path = tmp_path / "row.winebench"
    raspberry.files.save_to(path)
    saved = raspberry.document.project
    raspberry.files.open_sample("damson-design")
    assert raspberry.document.project.name != saved.name
    assert raspberry.files.open_path(path)
    assert raspberry.document.project == saved
    assert recent.recent_files()[0] == path
    assert "row.winebench" in raspberry.foot.saved.words


def test_a_project_with_a_file_saves_itself_soon_after_an_edit(qtbot, raspberry, tmp_path):
    path = tmp_path / "row.winebench"
    raspberry.files.save_to(path)
    rename(raspberry, "Third row")
    assert raspberry.document.session.dirty
    qtbot.waitUntil(lambda: not raspberry.document.session.dirty, timeout=5000)
    assert project_file.read(path).name == "Third row"
    assert raspberry.foot.saved.words.startswith("Saved ")


def test_closing_keeps_unnamed_work_and_the_next_start_has_it_again(raspberry):
    rename(raspberry, "Third row")
    assert raspberry.close()
    copies = list((recovery.state_folder() / "unsaved").iterdir())
    assert len(copies) == 1
    # The copy belongs to this running process; only a later start may take it up.
    stored = json.loads(copies[0].read_text("utf-8"))
    copies[0].write_text(json.dumps(stored | {"owner": ""}), "utf-8")
    again = begin(None, None, load_settings(), local_now())
    assert again.session.project.name == "Third row"
    assert again.session.path is None
    assert "as you left it" in again.news


def test_closing_saves_a_project_that_has_a_file(raspberry, tmp_path):
    path = tmp_path / "row.winebench"
    raspberry.files.save_to(path)
    rename(raspberry, "Third row")
    assert raspberry.close()
    assert project_file.read(path).name == "Third row"
    assert begin(None, None, load_settings(), local_now()).session.path == path


def test_a_sample_opens_as_a_copy_and_the_original_stays(raspberry):
    path = resources() / "samples" / "damson-design.winebench"
    before = path.read_bytes()
    raspberry.files.open_sample("damson-design")
    rename(raspberry, "Mine now")
    raspberry.keeper.keep()
    assert raspberry.document.session.path is None
    assert path.read_bytes() == before


def test_the_first_start_opens_a_copy_of_a_sample():
    beginning = begin(None, None, load_settings(), local_now())
    assert beginning.session.path is None
    assert beginning.session.project.id not in {
        samples.load_sample(name).id for name in samples.sample_names()
    }


def test_unnamed_work_that_another_project_takes_the_place_of_is_kept_with_its_undo(raspberry):
    rename(raspberry, "Third row")
    raspberry.files.open_sample("damson-design")
    words, take_up = raspberry.files.kept_work()[0]
    assert words == "Third row"
    take_up()
    assert raspberry.document.project.name == "Third row"
    raspberry.document.undo()
    assert raspberry.document.project.name != "Third row"


def test_a_file_named_at_the_start_is_among_the_recent_ones(raspberry, tmp_path):
    path = tmp_path / "row.winebench"
    raspberry.files.save_to(path)
    recent.forget_file(path)
    begin(path, None, load_settings(), local_now())
    assert recent.recent_files()[0] == path


def test_new_asks_whose_gallon_once(qtbot, raspberry):
    raspberry.files.new()
    dialog = raspberry.findChild(GallonDialog)
    QTest.keyClick(dialog.answers["imperial"], Qt.Key.Key_Return)
    project = raspberry.document.project
    assert (project.gallon, project.recipe.lines) == ("imperial", ())
    assert load_settings().gallon == "imperial"
    raspberry.files.new()
    assert raspberry.document.project.id != project.id
    assert raspberry.document.project.gallon == "imperial"
    assert raspberry.recipe.new_line.field.hasFocus()


def test_a_new_batch_is_in_the_kitchen_of_the_one_before(raspberry):
    save_settings(msgspec.structs.replace(load_settings(), gallon="US"))
    own = changed(raspberry.document.project.kitchen, scale_step_g=5.0)
    stock = (PantryItem(what="white-sugar", have=Amount("2 kg")),)
    mine = {"kitchen": own, "pantry": stock, "money": "$"}
    raspberry.document.edit(Change(label="x", fields=mine))
    raspberry.files.new()
    project = raspberry.document.project
    assert (project.kitchen, project.pantry, project.money) == (own, stock, "$")
    assert (project.recipe.lines, project.make.vessels, project.log) == ((), (), ())
    assert "Kitchen, instruments, stock and prices are those of" in raspberry.banner.sentence


def test_what_is_taken_over_is_told_where_only_the_stock_is_another(raspberry):
    save_settings(msgspec.structs.replace(load_settings(), gallon="US"))
    stock = (PantryItem(what="white-sugar", have=Amount("1 kg")),)
    raspberry.document.edit(Change(label="x", fields={"kitchen": Kitchen(), "pantry": stock}))
    raspberry.files.new()
    assert raspberry.document.project.pantry == stock
    assert "stock and prices are those of" in raspberry.banner.sentence


def test_a_new_batch_after_a_sample_has_a_kitchen_of_its_own(raspberry):
    save_settings(msgspec.structs.replace(load_settings(), gallon="imperial"))
    raspberry.files.new()
    assert raspberry.document.project.kitchen == Kitchen()
    assert raspberry.document.project.pantry == ()


@pytest.mark.parametrize(
    ("name", "gallon"), [("en_US", "US"), ("en_GB", "imperial"), ("de_DE", None)]
)
def test_the_region_proposes_the_gallon(name, gallon):
    assert region_gallon(QLocale(name)) == gallon


@pytest.mark.parametrize(
    ("gallon", "paper", "room"), [("US", "Letter", "68 °F"), ("imperial", "A4", "20 °C")]
)
def test_the_gallon_settles_the_paper_and_the_room(raspberry, gallon, paper, room):
    raspberry.files.new()
    dialog = raspberry.findChild(GallonDialog)
    QTest.keyClick(dialog.answers[gallon], Qt.Key.Key_Return)
    project = raspberry.document.project
    assert (project.paper, project.room.text) == (paper, room)


def bad_file(tmp_path, kind):
    path = tmp_path / "bad.winebench"
    good = project_file.to_bytes(samples.load_sample("damson-design"))
    newer = json.loads(good) | {"version": 99}
    contents = {
        "truncated": good[: len(good) // 2],
        "foreign": b'{"hello": 1}',
        "not json": b"\x00\x01PNG",
        "newer": json.dumps(newer).encode(),
    }
    path.write_bytes(contents[kind])
    return path


@pytest.mark.parametrize("kind", ["truncated", "foreign", "not json", "newer"])
def test_a_file_that_cannot_be_read_is_told_in_one_sentence_and_left_alone(
    raspberry, tmp_path, kind
):
    path = bad_file(tmp_path, kind)
    before, project = path.read_bytes(), raspberry.document.project
    assert not raspberry.files.open_path(path)
    assert raspberry.banner.isVisible()
    assert "bad.winebench" in raspberry.banner.sentence
    assert "\n" not in raspberry.banner.sentence
    assert path.read_bytes() == before
    assert raspberry.document.project == project


def test_a_start_with_a_damaged_file_opens_and_says_so(tmp_path):
    path = bad_file(tmp_path, "truncated")
    beginning = begin(path, None, load_settings(), local_now())
    assert "bad.winebench" in beginning.sentence
    assert beginning.session.path is None


def test_a_folder_that_cannot_be_written_to_is_told_and_the_work_stays(raspberry, tmp_path):
    (tmp_path / "file").write_text("in the way")
    rename(raspberry, "Third row")
    raspberry.files.save_to(tmp_path / "file" / "row.winebench")
    assert raspberry.banner.isVisible()
    assert raspberry.document.session.dirty
    assert raspberry.document.project.name == "Third row"
    assert [way.text() for way in raspberry.banner.ways] == ["Save as…"]


def test_a_file_changed_by_another_program_is_not_overwritten_unasked(raspberry, tmp_path):
    path = tmp_path / "row.winebench"
    raspberry.files.save_to(path)
    other = Session.open(path)
    other.apply(Change(label="x", fields={"name": "Theirs"}))
    other.save()
    rename(raspberry, "Mine")
    raspberry.keeper.keep()
    assert project_file.read(path).name == "Theirs"
    assert "changed by another program" in raspberry.banner.sentence
    overwrite = next(way for way in raspberry.banner.ways if way.text() == "Overwrite it")
    QTest.keyClick(overwrite, Qt.Key.Key_Space)
    assert project_file.read(path).name == "Mine"


def test_opening_the_other_version_keeps_mine_among_the_kept_work(raspberry, tmp_path):
    path = tmp_path / "row.winebench"
    raspberry.files.save_to(path)
    other = Session.open(path)
    other.apply(Change(label="x", fields={"name": "Theirs"}))
    other.save()
    rename(raspberry, "Mine")
    raspberry.keeper.keep()
    way = next(way for way in raspberry.banner.ways if way.text() == "Open the other")
    QTest.keyClick(way, Qt.Key.Key_Space)
    assert raspberry.document.project.name == "Theirs"
    assert [words for words, _take in raspberry.files.kept_work()] == ["Mine"]


def test_work_that_can_be_kept_nowhere_is_not_closed_over(raspberry, tmp_path, monkeypatch):
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("WINEBENCH_STATE", str(tmp_path / "file" / "state"))
    rename(raspberry, "Third row")
    assert not raspberry.close()
    assert "Closing again loses it" in raspberry.banner.sentence
    assert raspberry.document.project.name == "Third row"


@pytest.mark.parametrize("act", ["open", "save_as"])
def test_file_dialogs_do_not_stop_the_window(raspberry, act):
    getattr(raspberry.files, act)()
    dialog = raspberry.findChild(QFileDialog)
    assert dialog.isVisible()
    dialog.reject()


def test_a_file_name_is_sound_whatever_the_batch_is_called():
    assert file_name('Plum/Damson: "best" \\ 2026') == "Plum Damson best 2026.winebench"
    assert file_name("???") == "batch.winebench"


def test_a_copy_of_a_sample_ends_just_before_now():
    now = local_now()
    project = sample_copy("raspberry-day-3", now).project
    newest = max(entry.at for entry in project.log)
    assert 0 <= (now - newest).total_seconds() < 2 * 86400


def test_a_log_that_takes_long_to_keep_is_kept_less_often(raspberry, tmp_path, monkeypatch):
    from winebench.window import keeping

    raspberry.files.save_to(tmp_path / "row.winebench")
    moments = [10.0, 10.5, 20.0, 20.01]
    monkeypatch.setattr(keeping, "perf_counter", lambda: moments.pop(0) if moments else 30.0)
    rename(raspberry, "Third row")
    assert raspberry.keeper.keep()
    assert raspberry.keeper._timer.interval() == 5000
    assert raspberry.keeper.keep()
    assert raspberry.keeper._timer.interval() == keeping.QUIET_MS


def left_by_a_crash(path, name):
    """Leave a copy with more than the file holds, of a program that runs no more."""
    kept = changed(project_file.read(path), name=name)
    mark = hashlib.sha256(path.read_bytes()).hexdigest()
    recovery.keep_copy("0123456789abcdef", kept, path, local_now(), mark)
    copy = recovery.state_folder() / "unsaved" / "0123456789abcdef.json"
    copy.write_text(json.dumps(json.loads(copy.read_text("utf-8")) | {"owner": ""}), "utf-8")


def test_a_file_named_at_the_start_opens_with_what_a_crash_left_of_it(row):
    left_by_a_crash(row, "Third row")
    beginning = begin(row, None, load_settings(), local_now())
    assert beginning.session.project.name == "Third row"
    assert beginning.session.path == row
    assert beginning.news == "Here is the work as you left it."


def test_a_file_opened_later_comes_with_what_a_crash_left_of_it(raspberry, row):
    left_by_a_crash(row, "Third row")
    assert raspberry.files.open_path(row)
    assert raspberry.document.project.name == "Third row"
    assert "as you left it" in raspberry.banner.sentence
    assert raspberry.keeper.keep()
    assert project_file.read(row).name == "Third row"
    assert recovery.unsaved_work() == ()


def test_a_file_deleted_while_it_is_open_is_saved_anew_and_that_is_said(raspberry, row):
    assert raspberry.files.open_path(row)
    row.unlink()
    rename(raspberry, "Third row")
    assert raspberry.keeper.keep()
    assert project_file.read(row).name == "Third row"
    assert "was moved or deleted by another program" in raspberry.banner.sentence
    raspberry.banner.put_away()
    rename(raspberry, "Fourth row")
    assert raspberry.keeper.keep()
    assert raspberry.banner.sentence == ""
