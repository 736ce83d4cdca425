"""What every test shares: no test may touch the settings and copies of the person running it."""

import pytest


@pytest.fixture(autouse=True)
def own_state(tmp_path_factory, monkeypatch):
    folder = tmp_path_factory.mktemp("state")
    monkeypatch.setenv("WINEBENCH_STATE", str(folder))
    return folder
