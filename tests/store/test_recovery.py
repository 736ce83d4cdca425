"""Unsaved work is found again after a crash, and only then."""

import json
import os
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from winebench.model.project import Project
from winebench.store.project_file import StoreError, write
from winebench.store.recovery import forget_copy, keep_copy, unreadable_work, unsaved_work
from winebench.store.state import state_folder

NOW = datetime(2026, 10, 6, 18, 0, tzinfo=UTC)
PLUM = Project(id="p", name="Plum")
CRASH = """
import os, signal, sys
from datetime import datetime, timezone
from pathlib import Path
from winebench.model.project import Project
from winebench.store.recovery import keep_copy, unsaved_work
path = Path(sys.argv[2]) if len(sys.argv) > 2 else None
now = datetime(2026, 10, 6, 18, 0, tzinfo=timezone.utc)
keep_copy(sys.argv[1], Project(id="p", name="Plum"), path, now, "mark")
assert sys.argv[1] not in {work.key for work in unsaved_work()}, "its owner still runs"
os.kill(os.getpid(), signal.SIGKILL)
"""


def crash(key: str, *path: Path) -> None:
    done = subprocess.run([sys.executable, "-c", CRASH, key, *map(str, path)], check=False)
    assert done.returncode == -9


pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="kill -9, and Linux's /proc")


def test_work_of_a_crashed_program_is_found_until_it_is_forgotten(tmp_path):
    crash("aaaaaaaa", tmp_path / "plum.winebench")
    crash("bbbbbbbb")
    found = {unsaved.key: unsaved for unsaved in unsaved_work()}
    assert set(found) == {"aaaaaaaa", "bbbbbbbb"}
    assert found["aaaaaaaa"].project == PLUM
    assert found["aaaaaaaa"].path == tmp_path / "plum.winebench"
    assert found["aaaaaaaa"].kept_at == NOW
    assert found["aaaaaaaa"].on_disk == "mark"
    assert found["bbbbbbbb"].path is None
    forget_copy("aaaaaaaa")
    forget_copy("bbbbbbbb")
    assert unsaved_work() == ()


def test_a_copy_that_its_file_holds_already_is_not_offered(tmp_path):
    write(tmp_path / "plum.winebench", PLUM)
    crash("aaaaaaaa", tmp_path / "plum.winebench")
    assert unsaved_work() == ()
    assert list((state_folder() / "unsaved").iterdir()) == []


def test_a_copy_that_cannot_be_read_hides_no_other():
    crash("aaaaaaaa")
    (state_folder() / "unsaved" / "cccccccc.json").write_bytes(b'{"half')
    (state_folder() / "unsaved" / "dddddddd.json").write_bytes(
        b'{"path": null, "kept_at": "2026-10-06T18:00:00Z", "on_disk": "", "owner": "x", '
        b'"project": "{}"}'
    )
    assert [unsaved.key for unsaved in unsaved_work()] == ["aaaaaaaa"]


def put_copy(key: str, data: bytes) -> Path:
    folder = state_folder() / "unsaved"
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{key}.json"
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("data", [b'{"half', b"", b"\x00\xff", b"[" * 200_000])
def test_a_damaged_copy_is_told_of_once_and_kept(data):
    path = put_copy("cccccccc", data)
    (sentence,) = unreadable_work()
    aside = path.with_name("damaged-cccccccc.json")
    assert sentence.startswith("Unsaved work cannot be read: ")
    assert sentence.endswith(f'It stays in "{aside}".')
    assert aside.read_bytes() == data
    assert unreadable_work() == ()
    assert unsaved_work() == ()


def test_a_copy_of_a_newer_program_is_told_of_and_left_for_it():
    crash("aaaaaaaa")
    path = state_folder() / "unsaved" / "aaaaaaaa.json"
    copy = json.loads(path.read_text("utf-8"))
    copy["project"] = json.dumps(json.loads(copy["project"]) | {"version": 99})
    path.write_text(json.dumps(copy), "utf-8")
    before = path.read_bytes()
    for _start in (1, 2):
        (sentence,) = unreadable_work()
        assert "saved by a newer version" in sentence
        assert sentence.endswith("It stays there.")
        assert path.read_bytes() == before


def test_where_every_copy_can_be_read_nothing_is_told():
    crash("aaaaaaaa")
    assert unreadable_work() == ()


def test_a_copy_of_a_process_number_used_again_is_offered():
    # The owner's mark holds its start time and this start of the machine, not its number alone.
    crash("aaaaaaaa")
    path = state_folder() / "unsaved" / "aaaaaaaa.json"
    copy = json.loads(path.read_text("utf-8"))
    copy["owner"] = f"{os.getpid()}-{copy['owner'].split('-', 1)[1]}"
    path.write_text(json.dumps(copy), "utf-8")
    assert [unsaved.key for unsaved in unsaved_work()] == ["aaaaaaaa"]


def test_a_copy_that_cannot_be_kept_is_said_so(tmp_path, monkeypatch):
    (tmp_path / "file").write_bytes(b"")
    monkeypatch.setenv("WINEBENCH_STATE", str(tmp_path / "file"))
    with pytest.raises(StoreError, match="save the project yourself"):
        keep_copy("aaaaaaaa", PLUM, None, NOW)
    assert unsaved_work() == ()
    with pytest.raises(ValueError, match="hex"):
        keep_copy("../evil", PLUM, None, NOW)
