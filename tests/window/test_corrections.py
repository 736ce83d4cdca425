"""Correcting an entry of the log: its fields are called and measured as the household does."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from tests.window import hand_outlook as hand
from winebench.model.edits import changed
from winebench.model.log import Action, Record
from winebench.units import Temperature


@pytest.mark.parametrize(
    ("room", "said", "hint"), [("66 °F", "Must", "such as 68 °F"), ("19 °C", "Must, °C", "°C")]
)
def test_a_correction_asks_for_degrees_as_the_household_reads_them(pane, qtbot, room, said, hint):
    log = (*pane.project.log, Action(id="stirred", at=hand.NOW, step="stir"))
    pane.project = changed(pane.project, room=Temperature(room), log=log)
    pane.set_project(pane.project)
    pane.show_page("log")
    pane.log.select("stirred")
    pane.log.correct.click()
    fields = pane.log.form.fields.values()
    must = next(typed for typed in fields if typed.accessibleName() == said)
    assert must.placeholderText() == hint
    typed = f"{20 if hint == '°C' else 70} {hint[-2:]}"
    qtbot.keyClicks(must, typed)
    qtbot.keyClick(must, Qt.Key.Key_Return)
    (kept,) = (entry for entry in pane.project.log if entry.id == "stirred")
    assert kept.records == (Record(name="temperature", value=typed),)
