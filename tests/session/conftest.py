"""What the tests of the open document share: a file to open."""

from pathlib import Path

import pytest

from tests.session.plum import PLUM
from winebench.store.project_file import write


@pytest.fixture
def path(tmp_path: Path) -> Path:
    where = tmp_path / "plum.winebench"
    write(where, PLUM)
    return where
