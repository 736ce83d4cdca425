"""What every window test needs: no screen, one look."""

from __future__ import annotations

import os

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


@pytest.fixture(autouse=True)
def _light(qapp):
    from winebench.window.theme import theme

    theme().choose(False)
    qapp.setFont(theme().base_font())


@pytest.fixture
def open_window(qtbot):
    """Return a function that opens a window on a sample, a project or a session."""
    from winebench.session import Session
    from winebench.store import samples
    from winebench.window.main_window import MainWindow

    def opened(of, at=None):
        if isinstance(of, str):
            at = at or next(each.at for each in samples.samples() if each.name == of)
            session = Session(samples.load_sample(of))
        else:
            session = of if isinstance(of, Session) else Session(of)
        window = MainWindow(session, at)
        qtbot.addWidget(window, before_close_func=_finish)
        window.open_session(session, at)
        window.resize(1366, 740)
        window.show()
        with qtbot.waitActive(window):
            window.activateWindow()
        qtbot.waitUntil(lambda: not window.document.forecasts.busy, timeout=20_000)
        return window

    return opened


def _finish(window):
    from PySide6.QtWidgets import QDialog

    for dialog in window.findChildren(QDialog):
        if dialog.isVisible():
            dialog.close()  # what it keeps belongs to this test, not to the next one
    window.document.forecasts.finish()
    window.timeline.log.moved.finish()
    window.notices.finish()


@pytest.fixture
def damson(open_window):
    return open_window("damson-design")


@pytest.fixture
def raspberry(open_window):
    return open_window("raspberry-day-3")


@pytest.fixture
def row(tmp_path):
    """Return the file of a batch that no window has opened yet."""
    from winebench.store import project_file, samples

    path = tmp_path / "row.winebench"
    project_file.write(path, samples.load_sample("raspberry-day-3"))
    return path


@pytest.fixture
def empty(open_window):
    from datetime import datetime, timedelta, timezone

    from winebench.window.beginnings import new_project

    at = datetime(2026, 10, 6, 18, 0, tzinfo=timezone(timedelta(hours=-4)))
    return open_window(new_project("US", "Letter"), at)


@pytest.fixture
def pane(qtbot):
    """Return a timeline that shows the hand-made batch; its project takes what it wants edited."""
    from tests.window import hand_outlook as hand
    from winebench.window.timeline.pane import TimelinePane

    made = TimelinePane()
    qtbot.addWidget(made)
    made.resize(810, 640)
    made.project = hand.project()

    def edited(edit):
        made.project = edit.apply(made.project)
        made.set_project(made.project)

    made.edit_wanted.connect(edited)
    made.set_project(made.project)
    made.show_outlook(hand.outlook())
    with qtbot.waitExposed(made):
        made.show()
    return made
