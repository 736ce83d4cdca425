"""Saves that fail, whatever the reason, leave the old file whole."""

import os
import stat
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from tests.store.projects import large_project
from winebench.store.atomic import write_bytes
from winebench.store.errors import StoreError
from winebench.store.project_file import read, write

LIMITED = """
import resource, sys
from pathlib import Path
from tests.store.projects import large_project
from winebench.store.project_file import StoreError, write
import signal
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))
try:
    write(Path(sys.argv[1]), large_project("Second"))
except StoreError as problem:
    print(problem)
"""


def leftovers(folder: Path) -> list[str]:
    return [path.name for path in folder.iterdir() if path.name.endswith(".part")]


def test_a_save_replaces_the_file_and_leaves_nothing_beside_it(tmp_path):
    path = tmp_path / "plum.winebench"
    write(path, large_project("First"))
    write(path, large_project("Second"))
    assert read(path).name == "Second"
    assert os.listdir(tmp_path) == ["plum.winebench"]


def test_a_link_stays_a_link_and_its_target_is_replaced(tmp_path):
    target, link = tmp_path / "real", tmp_path / "link"
    target.write_bytes(b"old")
    link.symlink_to(target)
    write_bytes(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"


def test_links_in_a_circle_are_one_sentence(tmp_path):
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    with pytest.raises(StoreError, match="circle"):
        write_bytes(tmp_path / "a", b"new")


def test_the_file_keeps_its_mode(tmp_path):
    path = tmp_path / "plum"
    path.write_bytes(b"old")
    path.chmod(0o640)
    write_bytes(path, b"new")
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("none/plum", "its folder does not exist"),
        ("file/plum", "a file, not a folder"),
        ("folder", "it is a folder"),
        ("n" * 300, "name is too long"),
        ("nul\0", "cannot be a file name"),
    ],
)
def test_where_nothing_can_be_written_is_one_sentence(tmp_path, name, said):
    (tmp_path / "file").write_bytes(b"")
    (tmp_path / "folder").mkdir()
    with pytest.raises(StoreError, match=said) as caught:
        write_bytes(tmp_path / name, b"new")
    assert str(caught.value).endswith(".")
    assert leftovers(tmp_path) == []


@pytest.mark.skipif(sys.platform == "win32", reason="no named pipes in folders there")
def test_what_is_no_file_is_never_replaced_nor_read(tmp_path):
    # A pipe stands for every device: whoever reads it before the save would wait for ever.
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(StoreError, match="a device or a pipe"):
        write(pipe, large_project("First"))
    assert stat.S_ISFIFO(pipe.stat().st_mode)
    assert leftovers(tmp_path) == []


def test_a_long_name_can_still_be_saved(tmp_path):
    path = tmp_path / ("ł" * 120 + ".winebench")
    write_bytes(path, b"new")
    assert path.read_bytes() == b"new"


@pytest.mark.skipif(sys.platform != "linux", reason="/sys is Linux's")
def test_a_folder_that_lets_no_one_write_is_one_sentence():
    # Not even root may make a file there.
    with pytest.raises(StoreError, match="was not saved"):
        write_bytes(Path("/sys/kernel/plum.winebench"), b"new")


@pytest.fixture
def plain_folder():
    """Give a folder of a user who is not root; the test runs as that user meanwhile."""
    with tempfile.TemporaryDirectory() as name:
        nobody = 65534 if os.geteuid() == 0 else os.geteuid()
        os.chown(name, nobody, -1)
        if os.geteuid() == 0:
            os.setresuid(nobody, nobody, 0)
        try:
            yield Path(name)
        finally:
            if nobody == 65534:
                os.setresuid(0, 0, 0)
            os.chmod(name, 0o755)


@pytest.mark.skipif(sys.platform != "linux", reason="needs Linux's users")
def test_a_write_protected_file_is_left_alone(plain_folder):
    path = plain_folder / "plum"
    path.write_bytes(b"old")
    path.chmod(0o444)
    with pytest.raises(StoreError, match="write-protected"):
        write_bytes(path, b"new")
    assert path.read_bytes() == b"old"


@pytest.mark.skipif(sys.platform != "linux", reason="needs Linux's users")
def test_a_read_only_folder_leaves_the_old_file(plain_folder):
    path = plain_folder / "plum"
    path.write_bytes(b"old")
    plain_folder.chmod(0o555)
    with pytest.raises(StoreError, match="may not write in that folder"):
        write_bytes(path, b"new")
    assert path.read_bytes() == b"old"


@pytest.mark.skipif(sys.platform == "win32", reason="no file size limit there")
def test_running_out_of_room_leaves_the_old_file_and_no_leftover(tmp_path):
    # The limit makes the kernel refuse the write halfway, as a full disk does.
    path = tmp_path / "plum.winebench"
    write(path, large_project("First"))
    before = path.read_bytes()
    done = subprocess.run(
        [sys.executable, "-c", LIMITED, str(path)], capture_output=True, text=True, check=True
    )
    assert done.stdout.count("\n") == 1
    assert "was not saved: the file would be larger" in done.stdout
    assert path.read_bytes() == before
    assert leftovers(tmp_path) == []


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no always-full device here")
def test_a_full_disk_says_what_to_do():
    from winebench.store.atomic import _reason

    with pytest.raises(OSError, match="No space") as caught, open("/dev/full", "wb", 0) as full:
        full.write(b"new")
    assert _reason(caught.value) == "the disk is full; make room and save again"


def test_leftovers_of_dead_saves_are_swept_and_those_of_others_are_not(tmp_path):
    dead = subprocess.Popen([sys.executable, "-c", ""])
    dead.wait()
    swept = tmp_path / f".plum.{dead.pid}-0123abcd.part"
    old = tmp_path / f".plum.{os.getpid()}-00000000.part"
    for path in (swept, old):
        path.write_bytes(b"half")
    os.utime(old, (time.time() - 3600,) * 2)
    kept = [
        tmp_path / f".plum.{os.getpid()}-0123abcd.part",  # a save under way
        tmp_path / f".pear.{dead.pid}-0123abcd.part",  # another file's
        tmp_path / ".plum.notes.part",  # not ours
    ]
    for path in kept:
        path.write_bytes(b"half")
    write_bytes(tmp_path / "plum", b"new")
    assert not swept.exists()
    assert not old.exists()
    assert all(path.exists() for path in kept)
