"""What every test shares: no screen, one language, and nobody's own settings and copies."""

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("LC_ALL", "C.UTF-8")


@pytest.fixture(autouse=True)
def own_state(tmp_path_factory, monkeypatch):
    folder = tmp_path_factory.mktemp("state")
    monkeypatch.setenv("WINEBENCH_STATE", str(folder))
    return folder
