"""Projects to give commands to."""

import pytest

from tests.cli.program import good


@pytest.fixture
def damson(tmp_path):
    path = tmp_path / "damson.winebench"
    good("new", path, "--like", "damson-design")
    return path


@pytest.fixture
def raspberry(tmp_path):
    path = tmp_path / "raspberry.winebench"
    good("new", path, "--like", "raspberry-day-3")
    return path
