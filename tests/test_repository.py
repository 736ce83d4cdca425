"""What must never be in a commit: addresses of package indexes, paths of a machine."""

import re
import shutil
import subprocess
from pathlib import Path

TOP = Path(__file__).parent.parent
TEXT = {".py", ".md", ".toml", ".lock", ".json", ".csv", ".in", ".winebench", ".ics", ""}


OURS = ("winebench", "resources", "tests", "packaging")


def committed() -> list[Path]:
    """Return what is committed; where git cannot tell, all files of the project's folders."""
    if shutil.which("git") and (TOP / ".git").exists():
        command = ["git", "ls-files", "-z"]
        listed = subprocess.run(command, cwd=TOP, capture_output=True, text=True, check=True)
        return [TOP / name for name in listed.stdout.split("\0") if name]
    inside = [path for folder in OURS for path in (TOP / folder).rglob("*") if path.is_file()]
    return [path for path in inside if path.suffix != ".pyc"] + sorted(TOP.glob("*.*"))


def test_locks_hold_hashes_and_no_address():
    for lock in (TOP / "packaging").glob("*.lock"):
        text = lock.read_text("utf-8")
        assert "--hash=sha256:" in text
        assert not re.search(r"https?://|--index|--find-links|file:", text), lock.name


def test_no_file_names_a_package_index_or_a_home_folder():
    wrong = re.compile(r"https?://[^\s\"')]*(pypi|pythonhosted|/simple/)|/(home|root)/\w+/")
    for path in committed():
        if path.suffix in TEXT and path != Path(__file__) and path.is_file():
            assert not wrong.search(path.read_text("utf-8")), path.name


def test_uv_lock_is_not_committed_because_it_records_addresses():
    assert "uv.lock" in (TOP / ".gitignore").read_text("utf-8").split()


def test_locks_hold_every_dependency_of_the_project():
    text = (TOP / "pyproject.toml").read_text("utf-8")
    block = text.split("dependencies = [", 1)[1].split("\n]", 1)[0]
    names = re.findall(r'^\s*"([A-Za-z0-9_-]+)', block, re.MULTILINE)
    assert len(names) >= 8
    for lock in ("requirements.lock", "requirements-dev.lock"):
        locked = (TOP / "packaging" / lock).read_text("utf-8").lower()
        for name in names:
            assert re.search(rf"^{name.lower()}==", locked, re.MULTILINE), (lock, name)
