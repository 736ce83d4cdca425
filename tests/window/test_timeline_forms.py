"""Ticking off, correcting and noting: all by keys, nothing typed is lost, nothing unsafe passes."""

from __future__ import annotations

from datetime import timedelta

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window import hand_outlook as hand
from winebench.model.edits import changed
from winebench.model.log import Action, Record
from winebench.plan.outlook import Condition


def logged(pane):
    """Return the entries that the pane added or changed."""
    before = set(hand.project().log)
    return [entry for entry in pane.project.log if entry not in before]


def test_ticking_off_a_due_step_logs_it_now(pane, qtbot):
    pane.select_step("second-nitrogen")
    qtbot.mouseClick(pane.card.tick, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(pane.card.form.fields["note"], "half the dose")
    qtbot.keyClick(pane.card.form.fields["note"], Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert isinstance(entry, Action)
    assert pane.project.drafts == ()
    assert (entry.step, entry.at, entry.note, entry.override) == (
        "second-nitrogen",
        hand.NOW,
        "half the dose",
        "",
    )


def test_a_held_step_is_ticked_only_with_a_typed_reason(pane, qtbot):
    pane.select_step("transfer")
    pane.card.tick.click()
    form = pane.card.form
    qtbot.keyClicks(form.fields["record:lost"], "0,4")
    qtbot.keyClick(form.fields["at"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert "is held" in form.refusal.text()
    qtbot.keyClicks(form.fields["override"], "pail needed")
    qtbot.keyClick(form.fields["override"], Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert entry.override == "pail needed"
    assert entry.records == (Record(name="lost", value="0,4"),)


def show_with(pane, key, **fields):
    """Show the hand-made batch with that step changed."""
    seen = hand.outlook()
    steps = tuple(changed(step, **fields) if step.key == key else step for step in seen.steps)
    pane.show_outlook(changed(seen, steps=steps))
    pane.select_step(key)
    pane.card.tick.click()
    return pane.card.form


def test_a_figure_that_is_asked_for_opens_the_tick_where_it_is_written_down(pane, qtbot):
    # Some gates want no more than a figure with the tick itself, here at least 0.3 L lost.
    asked = Condition(text="a loss noted", met=False, notes=("lost",), least=0.3)
    form = show_with(pane, "transfer", override="reason", conditions=(asked,))
    qtbot.keyClicks(form.fields["record:lost"], "0.1")
    qtbot.keyClick(form.fields["record:lost"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert "is held: a loss noted (noted: 0.1). Write why" in form.refusal.text()
    form.fields["record:lost"].selectAll()
    qtbot.keyClicks(form.fields["record:lost"], "0.4")
    qtbot.keyClick(form.fields["record:lost"], Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert entry.override == ""


def test_a_free_step_asks_why_where_what_is_written_down_would_hold_it(pane, qtbot):
    asked = Condition(text="a loss below 1 L", met=True, notes=("lost",), below=1.0)
    form = show_with(pane, "transfer", override="free", conditions=(asked,))
    assert "override" not in form.fields
    qtbot.keyClicks(form.fields["record:lost"], "1.5")
    qtbot.keyClick(form.fields["record:lost"], Qt.Key.Key_Return)
    assert logged(pane) == []
    qtbot.keyClicks(form.fields["override"], "spilt some")
    qtbot.keyClick(form.fields["override"], Qt.Key.Key_Return)
    assert logged(pane)[0].override == "spilt some"


def test_what_a_reason_leaves_held_is_said_before_the_tick(pane, qtbot):
    said = "Ticked with a reason it opens nothing: bottling still waits."
    seen = hand.outlook()
    steps = tuple(
        changed(step, unopened=said) if step.key == "transfer" else step for step in seen.steps
    )
    pane.show_outlook(changed(seen, steps=steps))
    pane.select_step("transfer")
    pane.card.tick.click()
    form = pane.card.form
    assert form.refusal.isVisibleTo(form)
    assert form.refusal.text() == said
    qtbot.keyClick(form.fields["at"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert form.refusal.text().endswith(said)


def test_an_amount_is_read_before_the_tick_and_kept_as_typed(pane, qtbot):
    pane.select_step("transfer")
    pane.card.tick.click()
    form = pane.card.form
    qtbot.keyClicks(form.fields["override"], "pail needed")
    qtbot.keyClicks(form.fields["record:lost"], "a smidge")
    qtbot.keyClick(form.fields["record:lost"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert form.refusal.text().startswith('"a smidge" cannot be read as "Lost"')
    assert form.fields["record:lost"].text() == "a smidge"
    form.fields["record:lost"].selectAll()
    qtbot.keyClicks(form.fields["record:lost"], "1 pint US")
    qtbot.keyClick(form.fields["record:lost"], Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert entry.records == (Record(name="lost", value="1 pint US"),)
    pane.show_page("log")
    # A US pint is 473 mL (NIST Handbook 44 App. C).
    assert "Lost: 1 pint US (0.47 L)" in pane.log.model.index(0, 2).data()


def test_what_is_dangerous_is_refused_with_its_reason(pane):
    pane.select_step("bottle")
    pane.card.tick.click()
    assert not pane.card.form.isVisible()
    assert logged(pane) == []
    assert pane.card.answer.text() == (
        "Bottle waits for three equal readings over 14 days; no reason overrides that. "
        "At stake: bursting bottles."
    )


def test_a_form_put_aside_keeps_what_was_typed_in_it(pane, qtbot):
    pane.select_step("second-nitrogen")
    pane.card.tick.click()
    qtbot.keyClicks(pane.card.form.fields["note"], "half")
    qtbot.keyClick(pane.card.form.fields["note"], Qt.Key.Key_Escape)
    pane.show_outlook(hand.outlook(at=hand.NOW + timedelta(minutes=1)))
    pane.card.tick.click()
    assert pane.card.form.fields["note"].text() == "half"


def test_what_is_typed_into_a_form_is_kept_with_the_project(pane, qtbot):
    pane.select_step("second-nitrogen")
    pane.card.tick.click()
    qtbot.keyClicks(pane.card.form.fields["note"], "half")
    pane.show_page("log")
    pane.log.select("r3")
    pane.log.correct.click()
    QTest.keyClicks(pane.log.form.fields["gravity"], "1.07")
    qtbot.keyClicks(pane.log.note, "cap sa")
    kept = {draft.place: draft.text for draft in pane.project.drafts}
    assert kept == {"tick:second-nitrogen:note": "half", "correct:r3:gravity": "1.07",
                    "note": "cap sa"}  # fmt: skip


def test_a_coming_day_without_its_year_is_asked_about(pane, qtbot):
    pane.select_step("second-nitrogen")
    pane.card.tick.click()
    form = pane.card.form
    qtbot.keyClicks(form.fields["at"], "6 Dec")
    qtbot.keyClick(form.fields["at"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert "is read as 6 Dec 2025" in form.refusal.text()
    qtbot.keyClicks(form.fields["at"], " 2025")
    qtbot.keyClick(form.fields["at"], Qt.Key.Key_Return)
    assert "the yeast in the must" in form.refusal.text()  # a year ago no yeast was in it
    qtbot.keyClicks(form.fields["override"], "it was another must")
    qtbot.keyClick(form.fields["override"], Qt.Key.Key_Return)
    assert [entry.at.date().isoformat() for entry in logged(pane)] == ["2025-12-06"]


def test_a_tick_of_a_day_past_is_held_to_what_was_known_on_that_day(pane, qtbot):
    # Two days after the pitch no reading lay below 1.030: what is free now was not free then.
    form = show_with(pane, "transfer", override="free", conditions=())
    qtbot.keyClicks(form.fields["at"], "4 Oct 18:00")
    qtbot.keyClick(form.fields["at"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert "was held then: a reading below 1.030" in form.refusal.text()
    form.fields["at"].clear()
    qtbot.keyClick(form.fields["at"], Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert (entry.at, entry.override) == (hand.NOW, "")
