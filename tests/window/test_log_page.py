"""The log's page: newest first; correcting, deleting and noting, all by keys."""

from __future__ import annotations

from PySide6.QtCore import Qt

from tests.window import hand_outlook as hand
from winebench.model.edits import changed
from winebench.model.log import Action, Note, Reading, Record
from winebench.plan.typed.readings import measured_words


def logged(pane):
    """Return the entries that the pane added or changed."""
    before = set(hand.project().log)
    return [entry for entry in pane.project.log if entry not in before]


def test_a_correction_can_say_that_it_was_another_step(pane, qtbot):
    entry = Action(id="fed", at=hand.NOW, step="first-nitrogen")
    pane.project = changed(pane.project, log=(*pane.project.log, entry))
    pane.set_project(pane.project)
    pane.show_page("log")
    pane.log.select("fed")
    pane.log.correct.click()
    step = pane.log.form.fields["step"]
    assert step.text() == "First nutrient"
    for typed in ("third nutrient", "second nutrient"):
        step.selectAll()
        qtbot.keyClicks(step, typed)
        qtbot.keyClick(step, Qt.Key.Key_Return)
        if typed.startswith("third"):
            assert "First nutrient, Second nutrient" in pane.log.form.refusal.text()
    assert next(e for e in pane.project.log if e.id == "fed").step == "second-nitrogen"


def test_a_correction_reads_what_was_changed_and_leaves_old_words_alone(pane, qtbot):
    old = (Record(name="lost", value="some"), Record(name="litres", value="4"))
    entry = Action(id="rack", at=hand.NOW, step="transfer", records=old)
    pane.project = changed(pane.project, log=(*pane.project.log, entry))
    pane.set_project(pane.project)
    pane.show_page("log")
    pane.log.select("rack")
    pane.log.correct.click()
    form = pane.log.form
    form.fields["record:1"].selectAll()
    qtbot.keyClicks(form.fields["record:1"], "a jugful")
    qtbot.keyClick(form.fields["record:1"], Qt.Key.Key_Return)
    assert '"a jugful" cannot be read as "Into the jug"' in form.refusal.text()
    form.fields["record:1"].selectAll()
    qtbot.keyClicks(form.fields["record:1"], "1 gal US")
    qtbot.keyClick(form.fields["record:1"], Qt.Key.Key_Return)
    corrected = next(e for e in pane.project.log if e.id == "rack")
    assert [r.value for r in corrected.records] == ["some", "1 gal US"]


def test_the_log_is_newest_first_and_deletes_with_an_edit(pane, qtbot):
    pane.heading.log.click()
    assert [e.id for e in pane.log.model.entries][:2] == ["s3", "r3"]
    pane.log.select("n")
    pane.log.delete.click()
    assert [e.id for e in hand.project().log if e not in pane.project.log] == ["n"]


def test_a_reading_is_corrected_in_place_and_keeps_its_id_and_time(pane, qtbot):
    pane.show_page("log")
    pane.log.select("r3")
    pane.log.correct.click()
    form = pane.log.form
    assert form.fields["gravity"].text() == "1.078"
    form.fields["gravity"].setText("1079")
    qtbot.keyClick(form.fields["gravity"], Qt.Key.Key_Return)
    assert logged(pane) == []
    assert 'Did you mean "1.079"?' in form.refusal.text()
    form.fields["gravity"].setText("1,079")
    qtbot.keyClick(form.fields["gravity"], Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert (entry.id, entry.at) == ("r3", hand.day(3))
    assert entry.gravity.value == 1.079
    assert entry.temperature.text == "68 °F"


def test_a_note_is_added_with_enter(pane, qtbot):
    pane.show_page("log")
    qtbot.keyClicks(pane.log.note, "cap sank")
    qtbot.keyClick(pane.log.note, Qt.Key.Key_Return)
    (entry,) = logged(pane)
    assert isinstance(entry, Note)
    assert (entry.text, entry.at) == ("cap sank", hand.NOW)
    assert pane.log.note.text() == ""
    assert pane.project.drafts == ()


def test_a_reading_of_acid_alone_is_said_and_can_be_corrected(pane, qtbot):
    reading = Reading(id="ta", at=hand.NOW, acid_g_per_l=6.5, free_so2_mg_per_l=30.0)
    pane.project = changed(pane.project, log=(*pane.project.log, reading))
    pane.set_project(pane.project)
    assert measured_words(reading) == "acid 6.5 g/L free SO2 30 mg/L"
    pane.show_page("log")
    pane.log.select("ta")
    pane.log.correct.click()
    form = pane.log.form
    assert form.fields["acid"].text() == "6.5"
    form.fields["acid"].setText("6,8")
    form.fields["instrument"].setText("refr")
    qtbot.keyClick(form.fields["acid"], Qt.Key.Key_Return)
    (entry,) = [e for e in pane.project.log if e.id == "ta"]
    assert (entry.acid_g_per_l, entry.free_so2_mg_per_l) == (6.8, 30.0)
    assert (entry.instrument, entry.degassed, entry.clear) == ("refractometer", False, None)


def test_what_is_no_word_of_an_entry_is_asked_about(pane, qtbot):
    pane.show_page("log")
    pane.log.select("r3")
    pane.log.correct.click()
    form = pane.log.form
    for name, typed, said in (
        ("instrument", "spoon", "hydrometer or refractometer"),
        ("degassed", "perhaps", "yes or no"),
        ("clear", "9", "0 (cannot see a lamp through it) to 4"),
        ("acid", "600", "No wine has 600 g/L of acid"),
    ):
        before = form.fields[name].text()
        form.fields[name].setText(typed)
        qtbot.keyClick(form.fields[name], Qt.Key.Key_Return)
        assert said in form.refusal.text()
        form.fields[name].setText(before)
    assert logged(pane) == []


def test_two_records_of_one_name_stay_two(pane, qtbot):
    action = Action(id="two", at=hand.NOW, step="stir",
                    records=(Record(name="x", value="1"), Record(name="x", value="2")))  # fmt: skip
    pane.project = changed(pane.project, log=(*pane.project.log, action))
    pane.set_project(pane.project)
    pane.show_page("log")
    pane.log.select("two")
    pane.log.correct.click()
    form = pane.log.form
    form.fields["note"].setText("both kept")
    qtbot.keyClick(form.fields["note"], Qt.Key.Key_Return)
    (entry,) = [e for e in pane.project.log if e.id == "two"]
    assert [record.value for record in entry.records] == ["1", "2"]


def test_the_form_closes_when_another_entry_is_chosen_and_keeps_what_was_typed(pane, qtbot):
    pane.show_page("log")
    pane.log.select("r3")
    pane.log.correct.click()
    qtbot.keyClicks(pane.log.form.fields["gravity"], "1.07")
    pane.log.select("n")
    assert not pane.log.form.isVisible()
    pane.log.select("r3")
    pane.log.correct.click()
    assert pane.log.form.fields["gravity"].text() == "1.07"


def test_the_delete_key_belongs_to_the_list(pane, qtbot):
    pane.show_page("log")
    pane.log.select("n")
    qtbot.keyClick(pane.log.correct, Qt.Key.Key_Delete)
    assert "n" in {entry.id for entry in pane.project.log}
    pane.log.view.setFocus()
    qtbot.keyClick(pane.log.view, Qt.Key.Key_Delete)
    assert "n" not in {entry.id for entry in pane.project.log}
