"""What every test of pages needs: no screen, and the application that window tests need too."""

from __future__ import annotations

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


@pytest.fixture(autouse=True)
def _application(qapp):
    return qapp
