"""Set up Winebench on a machine that has Python 3.11 or newer, and nothing else.

Standard library only: this runs before anything is installed.
"""

from __future__ import annotations

import ctypes.util
import os
import shutil
import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
VENV = TOP / ".venv"
HERE = Path("packaging")

# What Qt loads from the system, and the Debian package that brings each.
DRAWING = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
}
SCREEN = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
}


class SetUpError(Exception):
    """The machine lacks something; the message says what to do."""


def say(text: str) -> None:
    """Tell the person what goes on, on standard error."""
    print(text, file=sys.stderr, flush=True)


def python_of_venv() -> Path:
    """Return the interpreter inside the project's own environment."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def make_environment(*locks: str) -> Path:
    """Make .venv with the locked packages and the project; return its Python.

    Raises:
        SetUpError: Python is too old, or a step of the installation failed.

    """
    if sys.version_info < (3, 11):  # noqa: UP036  - older interpreters do run this file
        raise SetUpError("Winebench needs Python 3.11 or newer; install it and run this again.")
    _make_venv()
    python = python_of_venv()
    stamp = VENV / f"installed-{'-'.join(locks)}"
    # Keeping the contents, not a time: a changed lock or pyproject installs again.
    wanted = "\n".join((TOP / HERE / f"{lock}.lock").read_text("utf-8") for lock in locks)
    wanted += (TOP / "pyproject.toml").read_text("utf-8")
    if stamp.is_file() and stamp.read_text("utf-8") == wanted:
        return python
    say("Setting up in .venv (a minute or two, about 400 MB) ...")
    pip = [str(python), "-m", "pip", "install", "-q", "--disable-pip-version-check"]
    for lock in locks:
        _run([*pip, "--require-hashes", "-r", str(HERE / f"{lock}.lock")], "install the packages")
    _run([*pip, "--no-deps", "--no-build-isolation", "-e", "."], "install Winebench itself")
    # As pip does for what it copies; without it the first start is half a second slower, and every
    # start where Python may not write beside the source. Not possible there? Then it is slower.
    subprocess.run([str(python), "-m", "compileall", "-q", "winebench"], cwd=TOP, check=False)
    stamp.write_text(wanted, "utf-8")
    return python


def _make_venv() -> None:
    if python_of_venv().is_file():
        return
    made = subprocess.run([sys.executable, "-m", "venv", str(VENV)], cwd=TOP, check=False)
    if made.returncode:
        shutil.rmtree(VENV, ignore_errors=True)
        if _install_debian(["python3-venv"]):
            _run([sys.executable, "-m", "venv", str(VENV)], "make .venv")
            return
        raise SetUpError(
            "Python's venv module does not work here; on Debian or Ubuntu run "
            "'sudo apt-get install python3-venv' and then this again."
        )


def _run(command: list[str], purpose: str) -> None:
    if subprocess.run(command, cwd=TOP, check=False).returncode:
        raise SetUpError(f"Could not {purpose}; the lines above say why.")


def missing_libraries(wanted: dict[str, str]) -> list[str]:
    """Return the Debian packages of those libraries that this system lacks (Linux only)."""
    if not sys.platform.startswith("linux"):
        return []
    return [package for library, package in wanted.items() if not _loads(library)]


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def bring_libraries(wanted: dict[str, str]) -> bool:
    """Install the missing libraries where allowed; return whether all are there.

    As root on Debian they are installed; else the command to type is named.
    """
    missing = missing_libraries(wanted)
    if not missing or _install_debian(missing):
        return True
    say(
        "Qt needs some libraries of the system. On Debian or Ubuntu run:\n"
        f"  sudo apt-get install --no-install-recommends {' '.join(missing)}\n"
        "On another Linux, install the packages that hold the same libraries."
    )
    return False


def _install_debian(packages: list[str]) -> bool:
    if os.name == "nt" or not shutil.which("apt-get") or os.geteuid() != 0:
        return False
    say(f"Installing from Debian: {' '.join(packages)}")
    environment = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    quiet = {"env": environment, "stdout": subprocess.DEVNULL, "stdin": subprocess.DEVNULL}
    update = ["apt-get", "update", "-qq"]
    install = ["apt-get", "install", "-y", "-qq", "--no-install-recommends", *packages]
    return all(
        subprocess.run(command, check=False, **quiet).returncode == 0  # type: ignore[call-overload]  # keywords shared by both runs
        for command in (update, install)
    )
