"""`winebench clashes FILE FILE...`, as a process."""

import json

import pytest

from tests.cli.program import bad, good, run
from winebench.model.edits import changed
from winebench.store.project_file import read, write

AT = ("--at", "2026-10-01T10:00:00-04:00")


@pytest.fixture
def two(tmp_path):
    paths = [tmp_path / f"{name}.winebench" for name in ("hedge", "orchard")]
    for path in paths:
        good("new", path, "--like", "damson-design", "--name", path.stem)
        write(path, changed(read(path), log=(), away=()))
    return paths


def test_a_vessel_wanted_twice_is_told_and_ends_with_one(two):
    result = run("clashes", *two, *AT)
    assert (result.returncode, result.stderr) == (1, "")
    words = " ".join(result.stdout.split())
    assert "is wanted by hedge (" in words
    assert "and orchard (" in words
    seen = json.loads(run("clashes", *two, "--json", *AT).stdout)
    assert {stay["name"] for clash in seen for stay in clash["stays"]} == {"hedge", "orchard"}


def test_one_batch_alone_has_nothing_to_be_compared_with(two, tmp_path):
    assert "name two project files or more" in bad("clashes", two[0], *AT)
    assert (
        good("clashes", two[0], two[0], *AT) == "No vessel is wanted by two batches on one day.\n"
    )
    assert "no such file" in bad("clashes", two[0], tmp_path / "gone.winebench")
