"""kill -9 at any instant of a save: the file is the old version or the new, never a third."""

import random
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.store.projects import large_project
from winebench.store.project_file import read, write

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="kill -9 is a POSIX matter")
SAVER = """
import sys
from pathlib import Path
from tests.store.projects import large_project
from winebench.store.project_file import write
versions = [large_project("First", 380), large_project("Second", 420)]
print("ready", flush=True)
while True:
    for version in versions:
        write(Path(sys.argv[1]), version)
"""
ONCE = """
import sys
from pathlib import Path
from winebench.store.atomic import write_bytes
write_bytes(Path(sys.argv[1]), b"new" * 50000)
"""


def kill_saves(path: Path, kills: int, seed: int) -> None:
    chance = random.Random(seed)
    write(path, large_project("First", 380))
    for _ in range(kills):
        with subprocess.Popen(
            [sys.executable, "-c", SAVER, str(path)], stdout=subprocess.PIPE
        ) as p:
            assert p.stdout is not None
            p.stdout.readline()
            time.sleep(chance.uniform(0.0, 0.12))
            p.send_signal(signal.SIGKILL)
        found = read(path)
        assert (found.name, len(found.log)) in {("First", 380), ("Second", 420)}
    write(path, large_project("Last"))
    assert [each.name for each in path.parent.iterdir()] == [path.name], "leftovers are swept"


def test_the_file_is_whole_after_some_kills(tmp_path):
    kill_saves(tmp_path / "plum.winebench", kills=12, seed=1)


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_the_file_is_whole_after_many_kills(tmp_path):
    kill_saves(tmp_path / "plum.winebench", kills=200, seed=2)


def strace(path: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """Run one save of the file under strace; -y names the file behind each handle."""
    command = ["strace", "-f", "-y", *options, sys.executable, "-B", "-c", ONCE, str(path)]
    return subprocess.run(command, capture_output=True, text=True, check=False)


@pytest.mark.skipif(shutil.which("strace") is None, reason="strace is not here")
@pytest.mark.parametrize(
    ("call", "of", "expected"),
    [
        ("openat", ".part", b"old"),
        ("write", ".part", b"old"),
        ("fsync", ".part", b"old"),
        ("rename", ".part", b"old"),
        ("fsync", "save0>", b"new" * 50000),
    ],
)
def test_a_kill_at_each_system_call_of_a_save_leaves_one_whole_version(
    tmp_path, call, of, expected
):
    folder = tmp_path / "save0"
    folder.mkdir()
    path = folder / "plum"
    path.write_bytes(b"old")
    seen = strace(path, "-e", f"trace={call}")
    if "ptrace" in seen.stderr:
        pytest.skip("this machine does not let strace look")
    assert path.read_bytes() == b"new" * 50000
    calls = [line for line in seen.stderr.splitlines() if f"{call}(" in line]
    when = 1 + next(n for n, line in enumerate(calls) if of in line)
    path.write_bytes(b"old")
    # A signal is delivered before the call does anything.
    killed = strace(path, "-e", f"trace={call}", "-e", f"inject={call}:signal=SIGKILL:when={when}")
    last = [line for line in killed.stderr.splitlines() if f"{call}(" in line][-1]
    assert of in last, "the kill hit another call"
    assert path.read_bytes() == expected
