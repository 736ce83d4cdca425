"""What every test of pages needs: no screen, and the application that window tests need too."""

from __future__ import annotations

import os

import pytest

from tests.output.pdf import PAPERS

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


@pytest.fixture(autouse=True)
def _application(qapp):
    return qapp


@pytest.fixture(params=PAPERS)
def paper(request):
    """Return each paper in turn."""
    return request.param
