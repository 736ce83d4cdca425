"""Several days of scribbles in the window: seen as typed, asked about, logged in one step."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QTextCursor
from PySide6.QtTest import QTest

from winebench.model.log import Action, Note, Reading
from winebench.store import project_file
from winebench.window.logging.scribbles import PLACE, ScribblesDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
# The sample's natural moment is Tuesday 6 October 2026, 18:00.


def opened(window, qtbot=None) -> ScribblesDialog:
    if qtbot is not None:  # the keyboard comes back from the dialog that was open
        with qtbot.waitActive(window):
            window.activateWindow()
    QTest.keyClick(window, Qt.Key.Key_F2, Qt.KeyboardModifier.ShiftModifier)
    dialog = window.findChild(ScribblesDialog)
    assert dialog.isVisible()
    return dialog


def rows(dialog) -> list[str]:
    preview = dialog.preview
    return [preview.item(row, 1).text() for row in range(preview.rowCount())]


def typed(qtbot, dialog, text):
    for number, line in enumerate(text.splitlines()):
        if number:
            QTest.keyClick(dialog.text, Qt.Key.Key_Return)
        QTest.keyClicks(dialog.text, line)
    qtbot.waitUntil(
        lambda: [each.text for each in dialog.found.lines] == text.splitlines(), timeout=5000
    )


def press(dialog, words):
    found = next(each for each in dialog.answers if each.text() == words)
    QTest.keyClick(found, Qt.Key.Key_Space)


def test_the_preview_follows_the_typing(qtbot, raspberry):
    dialog = opened(raspberry)
    typed(qtbot, dialog, "Mon 9pm 1.06 70F, stirred")
    assert rows(dialog) == ["Read 1.06 at 70F\nStir and push the fruit under"]
    assert dialog.preview.item(0, 0).text() == "Mon 5 Oct 2026 21:00"
    assert dialog.log.text() == "Log 2 entries"
    dialog.reject()


def test_all_lines_are_logged_as_one_step_that_undo_takes_back(qtbot, raspberry):
    before = raspberry.document.project
    dialog = opened(raspberry)
    typed(qtbot, dialog, "Mon 9pm 1.06 70F, stirred\nTue 7am 1.055\nTue looked pink")
    QTest.keyClick(dialog.log, Qt.Key.Key_Space)
    after = raspberry.document.project
    new = after.log[len(before.log) :]
    assert [type(entry) for entry in new] == [Reading, Action, Reading, Note]
    assert after.drafts == ()
    qtbot.waitUntil(lambda: raspberry.findChild(ScribblesDialog) is None)
    assert raspberry.document.session.undo_label == "log several days"
    with qtbot.waitActive(raspberry):
        raspberry.activateWindow()
    QTest.keySequence(raspberry, "Ctrl+Z")
    assert raspberry.document.project.log == before.log
    again = opened(raspberry, qtbot)
    assert again.text.toPlainText().startswith("Mon 9pm")
    again.reject()


def test_after_logging_the_keyboard_is_on_the_steps_and_no_key_changes_a_name(qtbot, raspberry):
    raspberry.recipe.heading.name.setFocus()
    name = raspberry.document.project.name
    dialog = opened(raspberry)
    typed(qtbot, dialog, "Mon 9pm stirred")
    QTest.keyClick(dialog.log, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: raspberry.findChild(ScribblesDialog) is None)
    with qtbot.waitActive(raspberry):
        raspberry.activateWindow()
    assert raspberry.timeline.rows.hasFocus()
    QTest.keyClicks(raspberry.focusWidget(), "x")
    assert raspberry.document.project.name == name


def test_an_unclear_line_is_asked_about_and_one_key_answers_it(qtbot, raspberry):
    dialog = opened(raspberry)
    typed(qtbot, dialog, "5/10 9pm 64")
    assert "could be 5 Oct 2026 or 10 May 2026" in dialog.question.text()
    assert not dialog.log.isEnabled()
    press(dialog, "5 Oct 2026")
    assert 'Did you mean "1.064"?' in dialog.question.text()
    press(dialog, "1.064")
    assert dialog.text.toPlainText() == "5 Oct 2026 9pm 1.064"
    assert not dialog.question.isVisible()
    assert dialog.log.hasFocus()
    dialog.reject()


def test_who_says_that_the_day_comes_first_is_not_asked_again(qtbot, raspberry):
    dialog = opened(raspberry)
    typed(qtbot, dialog, "4/10 stirred\n5/10 stirred")
    press(dialog, "The day comes first, always")
    assert dialog.found.open == ()
    assert [line.at.day for line in dialog.found.lines] == [4, 5]
    dialog.reject()


def test_what_cannot_be_read_can_stay_as_a_note(qtbot, raspberry):
    dialog = opened(raspberry)
    typed(qtbot, dialog, "Mon 7 of 9 berries sank\nTue 64")
    assert len(dialog.found.open) == 2
    QTest.keyClick(dialog.keep_rest, Qt.Key.Key_Space)
    assert dialog.found.open == ()
    QTest.keyClick(dialog.log, Qt.Key.Key_Space)
    notes = [entry.text for entry in raspberry.document.project.notes]
    assert {"Mon 7 of 9 berries sank", "Tue 64"} <= set(notes)


def test_escape_puts_the_text_aside_and_it_is_in_the_file(qtbot, raspberry, tmp_path):
    dialog = opened(raspberry)
    QTest.keyClicks(dialog.text, "Mon 1.0")  # not even read yet
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()
    assert [d.text for d in raspberry.document.project.drafts if d.place == PLACE] == ["Mon 1.0"]
    raspberry.files.save_to(tmp_path / "raspberry.winebench")
    kept = project_file.read(tmp_path / "raspberry.winebench")
    assert [d.text for d in kept.drafts] == ["Mon 1.0"]
    qtbot.waitUntil(lambda: raspberry.findChild(ScribblesDialog) is None)
    again = opened(raspberry, qtbot)
    assert again.text.toPlainText() == "Mon 1.0"
    again.reject()


def test_what_was_typed_for_one_batch_is_never_logged_in_another(qtbot, raspberry):
    dialog = opened(raspberry)
    typed(qtbot, dialog, "Mon 1.06")
    raspberry.files.open_sample("pear-under-airlock")
    assert not dialog.isVisible()
    assert raspberry.document.project.name == "South wall pear"
    assert raspberry.document.project.drafts == ()


def test_a_chosen_row_brings_the_cursor_to_its_line(qtbot, raspberry):
    dialog = opened(raspberry)
    typed(qtbot, dialog, "Mon 64\nTue 1.05\nTue 65")
    dialog.text.moveCursor(QTextCursor.MoveOperation.Start)
    assert dialog.question.text().startswith("Line 1")
    rect = dialog.preview.visualItemRect(dialog.preview.item(2, 1))
    qtbot.mouseClick(dialog.preview.viewport(), Qt.MouseButton.LeftButton, pos=rect.center())
    assert dialog.text.textCursor().blockNumber() == 2
    assert dialog.question.text().startswith("Line 3")
    dialog.reject()


@pytest.mark.bench
def test_a_week_of_lines_is_read_faster_than_it_is_typed(raspberry):
    from time import perf_counter

    from winebench.plan.scribbles import scribbles

    project, now = raspberry.document.project, raspberry.document.now()
    times = [(day, hour) for day in ("Sun", "Mon", "Tue") for hour in ("7am", "noon", "4pm")]
    text = "\n".join(f"{d} {h} 1.0{65 - i} 70F stirred" for i, (d, h) in enumerate(times))
    scribbles(project, text, now)
    start = perf_counter()
    found = scribbles(project, text + " ok", now)
    assert perf_counter() - start < 0.5
    assert len(found.entries) == 18


def test_every_control_is_named_and_nothing_is_cut_off(qtbot, raspberry):
    from tests.window.test_reachable import cut_off, nameless

    dialog = opened(raspberry)
    typed(qtbot, dialog, "5/10 9pm 64")
    qtbot.wait(50)
    assert nameless(dialog) == []
    assert cut_off(dialog) == []
    assert dialog.sizeHint().width() <= 1366
    dialog.reject()


def test_day_and_hour_of_a_line_stand_on_one_line(raspberry):
    dialog = opened(raspberry)
    QTest.keyClicks(dialog.text, "Wed 8pm 1.064")
    dialog.read()
    QTest.qWait(1)
    preview = dialog.preview
    words = preview.item(0, 0).text()
    need = preview.fontMetrics().horizontalAdvance(words)
    assert need <= preview.columnWidth(0) - 18
    assert preview.columnWidth(1) >= 240
    dialog.reject()
