"""Settings, recent files, earlier versions: kept where they can be, missed nowhere."""

import os
import time
from pathlib import Path

from winebench.model.project import Project
from winebench.store import backups
from winebench.store.project_file import StoreError, read, write
from winebench.store.recent import KEPT, forget_file, recent_files, remember_file
from winebench.store.settings import Settings, load_settings, save_settings
from winebench.store.state import state_folder

import pytest  # isort: skip


def test_settings_come_back_as_they_were_kept():
    wanted = Settings(notices=False, gallon="imperial", last_file="a b.winebench",
                      window_geometry=bytes(range(256)))  # fmt: skip
    assert load_settings() == Settings()
    assert save_settings(wanted)
    assert load_settings() == wanted


@pytest.mark.parametrize("text", [b"{", b"\xff", b"[]", b'{"gallon": "UK"}', b"[" * 100_000])
def test_damaged_settings_are_kept_aside_and_the_defaults_hold(text):
    path = state_folder() / "settings.json"
    path.write_bytes(text)
    assert load_settings() == Settings()
    assert (state_folder() / "damaged-settings.json").read_bytes() == text
    assert save_settings(Settings(notices=False))
    assert not load_settings().notices


def test_a_setting_of_a_later_version_does_no_harm():
    (state_folder() / "settings.json").write_bytes(b'{"notices": false, "sparkles": 3}')
    assert not load_settings().notices


def test_a_state_folder_that_cannot_be_made_stops_nothing(tmp_path, monkeypatch):
    (tmp_path / "file").write_bytes(b"")
    monkeypatch.setenv("WINEBENCH_STATE", str(tmp_path / "file" / "state"))
    assert load_settings() == Settings()
    assert not save_settings(Settings())
    remember_file(tmp_path / "plum.winebench")
    assert recent_files() == ()
    write(tmp_path / "plum.winebench", Project(id="p", name="One"))
    write(tmp_path / "plum.winebench", Project(id="p", name="Two"))
    assert read(tmp_path / "plum.winebench").name == "Two"


def test_recent_files_are_newest_first_once_each_and_few(tmp_path):
    paths = [tmp_path / f"{n}.winebench" for n in range(KEPT + 3)]
    for path in paths:
        remember_file(path)
    remember_file(paths[5])
    assert recent_files()[0] == paths[5]
    assert len(recent_files()) == len(set(recent_files())) == KEPT
    forget_file(paths[5])
    assert paths[5] not in recent_files()


def age(path: Path, seconds: float) -> None:
    os.utime(path, (time.time() - seconds,) * 2)


def test_the_version_before_a_save_is_kept_but_not_in_the_persons_folder(tmp_path):
    path = tmp_path / "plum.winebench"
    write(path, Project(id="p", name="One"))
    write(path, Project(id="p", name="Two"))
    (earlier,) = backups.earlier_versions(path)
    assert read(earlier).name == "One"
    assert os.listdir(tmp_path) == ["plum.winebench"]


def test_saves_close_together_keep_the_version_before_them_all(tmp_path):
    path = tmp_path / "plum.winebench"
    for number in range(5):
        write(path, Project(id="p", name=str(number)))
    (earlier,) = backups.earlier_versions(path)
    assert read(earlier).name == "0"


def test_only_the_last_few_versions_are_kept(tmp_path):
    path = tmp_path / "plum.winebench"
    for number in range(backups.KEPT + 4):
        write(path, Project(id="p", name=str(number)))
        for kept in backups.earlier_versions(path):
            age(kept, backups.SPACING_S + 5)
    names = [read(kept).name for kept in backups.earlier_versions(path)]
    assert names == [str(backups.KEPT + 2 - n) for n in range(backups.KEPT)]


def test_a_damaged_file_is_told_of_with_its_earlier_version(tmp_path):
    path = tmp_path / "plum.winebench"
    write(path, Project(id="p", name="One"))
    write(path, Project(id="p", name="Two"))
    path.write_bytes(path.read_bytes()[:50])
    with pytest.raises(StoreError, match="an earlier version is kept as") as caught:
        read(path)
    assert str(backups.earlier_versions(path)[0]) in str(caught.value)
