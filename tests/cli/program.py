"""The program as a process, as a person starts it on a terminal."""

import subprocess
import sys
from pathlib import Path


def run(*arguments: object, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-W", "error", "-m", "winebench", *map(str, arguments)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=cwd,
        check=False,
    )


def good(*arguments: object) -> str:
    result = run(*arguments)
    assert result.returncode == 0, result.stderr
    assert result.stderr == ""
    return result.stdout


def bad(*arguments: object) -> str:
    result = run(*arguments)
    assert result.returncode == 2, result.stdout
    assert result.stdout == ""
    assert result.stderr.startswith("winebench: ")
    assert result.stderr.count("\n") == 1, "one line: what, where, what to do"
    return result.stderr


def words(said: str) -> str:
    """Return what was said as on one endless line."""
    return " ".join(said.split())
