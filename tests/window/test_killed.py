"""The window killed in the middle of the work, as a process; the next start has it again."""

import os
import signal
import subprocess
import sys

import pytest

from winebench.model.edits import changed
from winebench.store import samples
from winebench.store.project_file import write

TYPED_THEN_KILLED = """
import os, signal, sys
from pathlib import Path
from PySide6.QtTest import QTest
from winebench.store.settings import load_settings
from winebench.window import app
from winebench.window.beginnings import begin
from winebench.window.document import local_now
from winebench.window.main_window import MainWindow

application = app._application()
path = Path(sys.argv[1]) if sys.argv[1] else None
beginning = begin(path, None, load_settings(), local_now())
window = MainWindow(beginning.session)
window.open_session(beginning.session)
window.show()
assert window.timeline  # its loading stops everything for a moment, once
QTest.qWait(100)
QTest.keyClicks(window.recipe.new_line.field, sys.argv[2])
QTest.qWait(int(sys.argv[3]))
os.kill(os.getpid(), signal.SIGKILL)
"""
NEXT_START = """
from winebench.store.settings import load_settings
from winebench.window.beginnings import begin
from winebench.window.document import local_now

found = begin(None, None, load_settings(), local_now())
project = found.session.project
print(project.name, [each.text for each in project.drafts], found.news, sep="|")
"""


@pytest.fixture
def run(tmp_path):
    moved = {"WINEBENCH_STATE": str(tmp_path / "state"), "QT_QPA_PLATFORM": "offscreen"}

    def running(script, *words):
        command = [sys.executable, "-c", script, *map(str, words)]
        return subprocess.run(
            command, env=os.environ | moved, capture_output=True, text=True, check=False
        )

    return running


def typed_then_killed(run, path, words, wait_ms=500):
    result = run(TYPED_THEN_KILLED, path, words, wait_ms)
    assert result.returncode == -signal.SIGKILL, result.stderr


def next_start(run):
    result = run(NEXT_START)
    assert result.returncode == 0, result.stderr
    name, drafts, news = result.stdout.strip().split("|")
    return name, drafts, news


@pytest.fixture
def hedge(tmp_path):
    path = tmp_path / "hedge.winebench"
    write(path, changed(samples.load_sample("damson-design"), name="Hedge"))
    return path


def test_a_line_half_typed_half_a_second_ago_is_there_again(run, hedge):
    typed_then_killed(run, hedge, "3 lb slo")
    assert next_start(run) == ("Hedge", "['3 lb slo']", "")


def test_the_file_worked_on_last_opens_first_and_older_unsaved_work_is_told(run, hedge):
    typed_then_killed(run, "", "2 lb qui")  # the sample of a first start, without a file
    typed_then_killed(run, hedge, "3 lb slo")
    name, drafts, news = next_start(run)
    assert (name, drafts) == ("Hedge", "['3 lb slo']")
    assert news == "1 more with unsaved work is under Project > Kept work."


def test_unnamed_work_touched_after_a_file_opens_first(run, hedge):
    typed_then_killed(run, hedge, "3 lb slo")
    (hedge.parent / "state" / "settings.json").unlink()
    typed_then_killed(run, "", "2 lb qui")
    name, drafts, news = next_start(run)
    assert (name, drafts) == ("Row's end raspberry", "['2 lb qui']")
    assert news == "Here is the work as you left it."


def test_killed_before_anything_was_typed_the_file_opened_last_opens_again(run, hedge):
    typed_then_killed(run, "", "2 lb qui")
    typed_then_killed(run, hedge, "", 0)
    assert next_start(run)[0] == "Hedge"
