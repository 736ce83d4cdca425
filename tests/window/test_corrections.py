"""Correcting an entry of the log: its fields are called and measured as the household does."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from tests.plan.damson import STABLE, damson, stabilised
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


def test_a_dose_is_corrected_within_its_bounds_and_beyond_them_with_a_reason(pane, qtbot):
    # 53.6 mg/L in the must and 160 make 214, over the 200 of fruit wine (see test_doses_given).
    tick = stabilised("2026-11-22T10:00+01:00")
    pane.project = damson(*STABLE, tick)
    pane.set_project(pane.project)
    pane.show_page("log")
    pane.log.select(tick.id)
    pane.log.correct.click()
    form = pane.log.form
    for typed, note, says in (
        ("4000", "", "can harm who drinks it"),
        ("160", "", "this makes 214 mg/L added"),
        ("160", "measured, because it had none free", ""),
    ):
        form.fields["record:0"].setText(typed)
        form.fields["note"].setText(note)
        qtbot.keyClick(form.fields["record:0"], Qt.Key.Key_Return)
        kept = next(entry for entry in pane.project.log if entry.id == tick.id)
        if says:
            assert says in form.refusal.text()
            assert kept == tick
            assert form.fields["record:0"].text() == typed
    assert kept.records[0] == Record(name="mg-per-l", value="160")
    assert (kept.override, kept.note) == ("it had none free", "measured")
