"""Desktop notices while the window is open: each once, and never when switched off."""

from datetime import timedelta

import pytest

from winebench.model.edits import Change
from winebench.store.settings import load_settings


class Desk:
    """A desktop that remembers what it was told."""

    def __init__(self):
        self.told = []

    def send(self, notice):
        self.told.append(notice)
        return True

    def close(self):
        pass


@pytest.fixture
def late(open_window, raspberry):
    """The raspberry a day later, nothing stirred or read meanwhile."""
    at = raspberry.document.now() + timedelta(days=1)
    window = open_window(raspberry.document.project, at)
    desk = Desk()
    window.notices.start(desk)
    window.notices._timer.stop()
    return window, desk


def told(window, desk):
    window.notices.settle()
    return [notice.step for notice in desk.told]


def test_a_due_stir_is_told_once(late):
    window, desk = late
    window.notices.look()
    window.notices.look()
    assert told(window, desk).count("stir") == 1


def test_nothing_is_told_when_notices_are_switched_off(late):
    window, desk = late
    window.commands.switch_notices()
    window.notices.look()
    assert told(window, desk) == []
    assert load_settings().notices is False
    window.commands.switch_notices()
    window.notices.look()
    assert "stir" in told(window, desk)


def test_a_batch_can_be_left_alone(late):
    window, desk = late
    window.document.edit(Change(label="x", fields={"reminders": False}))
    window.notices.look()
    assert told(window, desk) == []
