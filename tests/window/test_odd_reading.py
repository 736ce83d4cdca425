"""A reading that looks odd beside the log is asked about first; Enter again logs it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from tests.window.test_reading_bar import NOW, bar
from winebench.model.edits import changed
from winebench.model.log import Action, Reading
from winebench.units import Gravity

__all__ = ["bar"]


def _when(text: str):
    return NOW.fromisoformat(text).replace(tzinfo=NOW.tzinfo)


@pytest.fixture
def fermenting(bar):
    log = (
        Action(id="made", at=_when("2026-10-01T18:00"), step="sugar-water"),
        Action(id="pitch", at=_when("2026-10-02T18:00"), step="pitch"),
        Reading(id="first", at=_when("2026-10-05T18:30"), gravity=Gravity("1.061")),
    )
    bar.project = changed(bar.project, log=log)
    bar.set_project(bar.project)
    return bar


def _newest(bar) -> Reading:
    assert len(bar.project.readings) == 2
    return next(one for one in bar.project.readings if one.id != "first")


def test_brix_after_the_yeast_is_asked_about_and_enter_takes_the_refractometer(fermenting, qtbot):
    bar = fermenting
    qtbot.keyClicks(bar.gravity, "24 brix")
    assert not bar.hint.text().startswith("Enter logs")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert '"24 brix" after the yeast: was it read by a refractometer?' in bar.hint.text()
    assert len(bar.project.readings) == 1
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert _newest(bar).instrument == "refractometer"


def test_brix_of_a_hydrometer_is_logged_as_such(fermenting, qtbot):
    qtbot.keyClicks(fermenting.gravity, "hydrometer 7 brix")
    qtbot.keyClick(fermenting.gravity, Qt.Key.Key_Return)
    found = _newest(fermenting)
    assert (found.instrument, found.gravity.text) == ("hydrometer", "7 brix")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("1.075", "1.075; 14 points up since yesterday. It rose, and gravity only falls"),
        ("hydrometer 24 brix", "40 points up since yesterday. It rose"),  # 1.101 by the table
        ("1.001", "That is faster than yeast works"),  # 60 points in a day; 20 to 30 are usual
        ("1.060 1 Oct", "That is before the first step of this batch"),
    ],
)
def test_what_speaks_against_the_log_is_asked_about_once(fermenting, qtbot, typed, says):
    bar = fermenting
    qtbot.keyClicks(bar.gravity, typed)
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert says in bar.hint.text()
    assert bar.hint.text().endswith(" Enter again logs it all the same.")
    assert len(bar.project.readings) == 1
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert _newest(bar).gravity.text in typed


def test_changing_what_is_typed_asks_again(fermenting, qtbot):
    bar = fermenting
    qtbot.keyClicks(bar.gravity, "1.07")
    qtbot.keyClicks(bar.gravity, "5")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    bar.gravity.setText("")
    qtbot.keyClicks(bar.gravity, "1.076")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert "15 points up" in bar.hint.text()
    assert len(bar.project.readings) == 1


@pytest.mark.parametrize(("field", "typed"), [("gravity", "1.055 20C 11pm"), ("time", "23:10")])
def test_an_hour_still_to_come_is_asked_about_before_it_is_yesterday(
    fermenting, qtbot, field, typed
):
    bar = fermenting
    if field == "time":
        qtbot.keyClicks(bar.gravity, "1.055")
    place = getattr(bar, field)
    qtbot.keyClicks(place, typed)
    qtbot.keyClick(place, Qt.Key.Key_Return)
    assert "is still to come today; was it yesterday? Enter takes it." in bar.hint.text()
    assert len(bar.project.readings) == 1
    qtbot.keyClick(place, Qt.Key.Key_Return)
    found = _newest(bar)
    assert (found.at.day, found.at.hour) == (5, 23)
    assert found.gravity.value == 1.055


def test_after_midnight_an_evening_hour_is_the_last_evening(fermenting, qtbot):
    bar = fermenting
    bar.set_now(_when("2026-10-07T00:20"))
    qtbot.keyClicks(bar.gravity, "1.055 11pm")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert (_newest(bar).at.day, _newest(bar).at.hour) == (6, 23)
