"""A whole reading typed into the one field: shown before Enter logs it, asked about, never lost."""

from __future__ import annotations

from datetime import datetime

import pytest
from PySide6.QtCore import Qt

from tests.window.test_reading_bar import NOW, _entry, bar
from winebench.model.edits import changed
from winebench.units import Temperature

__all__ = ["bar"]


def _wall(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=NOW.tzinfo)


@pytest.mark.parametrize(
    ("typed", "gravity", "celsius", "when"),
    [
        # NIST SP 811: (72 - 32) / 1.8 = 22.2
        ("1,038 72F", 1.038, 22.2, "2026-10-06T18:30"),
        ("1.038 at 72F, yesterday 8pm", 1.038, 22.2, "2026-10-05T20:00"),
        ("1.038 22", 1.038, 22.0, "2026-10-06T18:30"),
        ("1.038 yesterday evening", 1.038, None, "2026-10-05T18:00"),
        ("1.038 this morning 22C", 1.038, 22.0, "2026-10-06T08:00"),
        ("Mon 8am 1.038 @ 22 °C", 1.038, 22.0, "2026-10-05T08:00"),
        ("1.038 May 6", 1.038, None, "2026-05-06T12:00"),
    ],
)
def test_gravity_warmth_and_time_are_read_from_one_field(bar, qtbot, typed, gravity, celsius, when):
    qtbot.keyClicks(bar.gravity, typed)
    assert bar.hint.text().startswith("Enter logs ")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    entry = _entry(bar)
    assert (entry.gravity.value, entry.at) == (gravity, _wall(when))
    found = entry.temperature.celsius if entry.temperature else None
    assert found == (None if celsius is None else pytest.approx(celsius, abs=0.05))


def test_the_preview_says_all_that_will_be_logged(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.038 22C yesterday 8pm, smelled of eggs")
    assert bar.hint.text() == (
        "Enter logs 1.038 at 22C read Mon 5 Oct 2026 20:00 with the note “smelled of eggs”."
    )


@pytest.mark.parametrize(
    ("typed", "says", "then"),
    [
        ("1038 22C", 'Did you mean "1.038"?', ("1.038", "22C", "2026-10-06T18:30")),
        ("1.05O 22C", 'Did you mean "1.050"?', ("1.050", "22C", "2026-10-06T18:30")),
        ("1.038 86", 'Did you mean "86 °F"?', ("1.038", "86 °F", "2026-10-06T18:30")),
        ("1.038 yesterdy 8pm", 'Did you mean "Yesterday"?', ("1.038", None, "2026-10-05T20:00")),
    ],
)
def test_a_slip_in_one_part_is_asked_about_and_the_other_parts_stay(bar, qtbot, typed, says, then):
    qtbot.keyClicks(bar.gravity, typed)
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert says in bar.hint.text()
    assert bar.gravity.text() == typed
    assert bar.project.readings == ()
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    entry = _entry(bar)
    warm = entry.temperature.text if entry.temperature else None
    assert (entry.gravity.text, warm, entry.at) == (*then[:2], _wall(then[2]))


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("1.038 1.040", "second gravity"),
        ("1.038 x9", '"x9" means cannot be told'),
        ("1.038 tomorrow", "still to come"),
        ("1.038 14:00 15:00", "second time"),
    ],
)
def test_what_cannot_be_told_is_refused_and_stays(bar, qtbot, typed, says):
    qtbot.keyClicks(bar.gravity, typed)
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert says in bar.hint.text()
    assert bar.gravity.text() == typed
    assert bar.project.readings == ()


def test_a_temperature_in_both_fields_is_asked_about(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.038 22C")
    qtbot.keyClicks(bar.temperature, "20")
    qtbot.keyClick(bar.temperature, Qt.Key.Key_Return)
    assert "stands twice" in bar.hint.text()
    assert bar.temperature.hasFocus()
    bar.temperature.clear()
    qtbot.keyClick(bar.temperature, Qt.Key.Key_Return)
    assert _entry(bar).temperature == Temperature("22C")


def test_half_a_number_put_aside_is_typed_on_behind_its_end(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.0")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Escape)
    bar.open()
    qtbot.keyClick(bar.gravity, Qt.Key.Key_End)
    qtbot.keyClicks(bar.gravity, "38")
    assert bar.gravity.text() == "1.038"


def test_the_fields_say_what_goes_into_them(bar):
    said = [each.text() for each in bar.findChildren(type(bar.hint)) if each.buddy()]
    assert said[:3] == ["Gravity", "Temperature", "When"]
    assert bar.temperature.placeholderText() == "°C"
    assert "1.038 22C yesterday 8pm" in bar.hint.text()
    bar.set_project(changed(bar.project, room=Temperature("68 °F")))
    assert "1.038 72F yesterday 8pm" in bar.hint.text()


def test_clear_and_degassed_are_shown_and_logged(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "0.991 68F degassed, clear")
    assert "de-gassed" in bar.hint.text()
    assert "print through it" in bar.hint.text()
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert (_entry(bar).degassed, _entry(bar).clear, _entry(bar).note) == (True, 3, "")


def test_clear_alone_is_a_reading(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "clear")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert (_entry(bar).gravity, _entry(bar).clear) == (None, 3)
