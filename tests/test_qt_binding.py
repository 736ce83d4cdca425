"""Guards against a Qt binding that cannot be used on this Python."""

import sys

import pytest
from PySide6.QtWidgets import QLabel


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None is immortal from Python 3.12 on")
def test_the_qt_binding_does_not_lose_references_to_none(qtbot):
    # PySide6 6.12.0 drops one reference to None per call on 3.11 and aborts in the end.
    label = QLabel()
    qtbot.addWidget(label)
    before = sys.getrefcount(None)
    for _ in range(1000):
        label.setText("x")
    assert sys.getrefcount(None) - before > -50
