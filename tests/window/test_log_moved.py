"""The log says of the chosen entry what it moved when it was logged: was, now, because."""

from __future__ import annotations

import threading

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from winebench.model.edits import Change
from winebench.model.log import Note, Reading
from winebench.plan.moved_then import moved_then
from winebench.units import Temperature
from winebench.window.logging.moved_line import NOTHING
from winebench.window.parts.beside import Beside


@pytest.fixture
def log(raspberry):
    raspberry.timeline.show_page("log")
    return raspberry.timeline.log


def told(qtbot, log, entry):
    with qtbot.waitSignal(log.moved.told, timeout=20_000):
        log.select(entry.id)
    return log.moved.words


def test_an_older_reading_says_what_it_moved(qtbot, raspberry, log):
    readings = [e for e in log.model.entries if isinstance(e, Reading) and e.gravity]
    older = readings[1]
    words = told(qtbot, log, older)
    document = raspberry.document
    (first, *_) = moved_then(document.project, older.id, document.now())
    assert words[0] == f"{first.name}: {first.moved.sentence}"
    assert " · because " in words[0]
    assert log.moved.accessibleDescription().startswith(words[0])


def test_an_entry_that_moved_nothing_says_so(qtbot, log):
    note = next(e for e in log.model.entries if isinstance(e, Note))
    assert told(qtbot, log, note) == (NOTHING,)


def test_arrows_held_down_ask_only_for_the_entry_where_they_rest(qtbot, log):
    answers = []
    log.moved.told.connect(answers.append)
    log.view.setFocus()
    log.view.selectRow(0)
    for _ in range(4):
        QTest.keyClick(log.view, Qt.Key.Key_Down)
    with qtbot.waitSignal(log.moved.told, timeout=20_000):
        pass
    assert len(answers) == 1
    assert log.moved._wanted.entry == log.model.entries[4].id


def test_a_choice_made_while_one_is_worked_out_is_answered_once(qtbot, log):
    answers = []
    log.moved.told.connect(answers.append)
    log.select(log.model.entries[1].id)
    log.moved._begin()
    log.select(log.model.entries[4].id)
    with qtbot.waitSignal(log.moved.told, timeout=20_000):
        pass
    qtbot.wait(400)
    assert len(answers) == 1
    assert log.moved._wanted.entry == log.model.entries[4].id


def test_another_room_asks_anew_and_the_old_answer_goes(qtbot, raspberry, log):
    reading = next(e for e in log.model.entries if isinstance(e, Reading) and e.gravity)
    told(qtbot, log, reading)
    document = raspberry.document
    with qtbot.waitSignal(log.moved.told, timeout=20_000):
        room = Change(label="x", fields={"room": Temperature("14 °C")})
        document.edit(room)
    found = moved_then(document.project, reading.id, document.now())
    assert log.moved.words[0] == f"{found[0].name}: {found[0].moved.sentence}"


def test_work_that_breaks_off_lets_the_next_begin(qtbot, monkeypatch):
    broken = []
    monkeypatch.setattr(threading, "excepthook", broken.append)
    beside = Beside(lambda number: 1 // number)
    for number, found in ((0, None), (1, 1)):
        with qtbot.waitSignal(beside.answered, timeout=5_000) as answer:
            beside.begin(number)
        assert answer.args == [number, found]
    assert [each.exc_type for each in broken] == [ZeroDivisionError]


def test_no_row_moves_when_the_answer_comes(qtbot, log):
    log.view.selectRow(0)
    before = log.view.height(), log.moved.height()
    with qtbot.waitSignal(log.moved.told, timeout=20_000):
        pass
    assert (log.view.height(), log.moved.height()) == before
    assert log.moved.words
