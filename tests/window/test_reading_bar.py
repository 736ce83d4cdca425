"""A reading is one key, a number, Enter; a slip is asked about, nothing typed is lost."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtWidgets import QLineEdit, QPushButton

from tests.window import hand_outlook
from winebench.model.edits import changed
from winebench.model.log import Action, Reading
from winebench.model.project import Project
from winebench.plan.typed.fields import read_moment
from winebench.units import Gravity, Temperature
from winebench.window.logging.reading_bar import ReadingBar

NOW = datetime(2026, 10, 6, 18, 30, tzinfo=timezone(timedelta(hours=2)))
CELSIUS = Project(id="c", name="in Celsius", room=Temperature("19 °C"))


@pytest.fixture
def bar(qtbot):
    made = ReadingBar()
    qtbot.addWidget(made)
    made.set_project(CELSIUS)
    made.set_now(NOW)
    made.project = CELSIUS

    def edited(edit):
        made.project = edit.apply(made.project)
        made.set_project(made.project)

    made.edit_wanted.connect(edited)
    with qtbot.waitExposed(made):
        made.open()
    return made


def _entry(bar: ReadingBar) -> Reading:
    (entry,) = bar.project.readings
    assert isinstance(entry, Reading)
    assert bar.project.drafts == ()
    return entry


def test_a_number_and_enter_log_a_reading_now(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.064")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    entry = _entry(bar)
    assert entry.gravity == Gravity("1.064")
    assert (entry.at, entry.temperature, entry.instrument) == (NOW, None, "hydrometer")
    assert not bar.isVisible()
    assert bar.gravity.text() == ""


@pytest.mark.parametrize("typed", ["1.090", "1,090"])
@pytest.mark.parametrize("locale", ["C", "en_US", "de_DE", "fr_FR", "pl_PL"])
def test_comma_and_point_are_the_same_gravity_under_every_locale(bar, qtbot, typed, locale):
    before = QLocale()
    try:
        QLocale.setDefault(QLocale(locale))
        qtbot.keyClicks(bar.gravity, typed)
        qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    finally:
        QLocale.setDefault(before)
    assert _entry(bar).gravity.value == 1.090


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("1096", "1.096"), ("1.96", "1.096"), ("0.0998", "0.998"), ("24", "24 brix"), ("64", "1.064")],
)
def test_a_slip_is_asked_about_and_enter_again_takes_what_was_meant(bar, qtbot, typed, meant):
    qtbot.keyClicks(bar.gravity, typed)
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert bar.project.readings == ()
    assert f'Did you mean "{meant}"?' in bar.hint.text()
    assert bar.gravity.text() == typed
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert _entry(bar).gravity == Gravity(meant)


def test_typing_on_after_a_slip_takes_the_question_back(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1096")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    bar.gravity.selectAll()
    qtbot.keyClicks(bar.gravity, "1.069")
    assert "Did you mean" not in bar.hint.text()
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert _entry(bar).gravity == Gravity("1.069")


def test_words_are_refused_with_one_sentence_and_stay(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "sweet")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert bar.project.readings == ()
    assert bar.hint.text() == '"sweet" is not a gravity; write one such as 1.090.'
    assert bar.gravity.text() == "sweet"


def test_a_bare_86_in_a_celsius_kitchen_is_asked_about(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.064")
    qtbot.keyClicks(bar.temperature, "86")
    qtbot.keyClick(bar.temperature, Qt.Key.Key_Return)
    assert bar.project.readings == ()
    assert 'Did you mean "86 °F"?' in bar.hint.text()
    assert bar.temperature.hasFocus()
    qtbot.keyClick(bar.temperature, Qt.Key.Key_Return)
    assert _entry(bar).temperature == Temperature("86 °F")


def test_a_bare_number_is_read_in_the_scale_of_the_room(bar, qtbot):
    bar.project = changed(hand_outlook.project(), log=())
    bar.set_project(bar.project)
    assert bar.temperature.placeholderText() == "°F"
    qtbot.keyClicks(bar.gravity, "1.064")
    qtbot.keyClicks(bar.temperature, "68")
    qtbot.keyClick(bar.temperature, Qt.Key.Key_Return)
    assert _entry(bar).temperature.celsius == pytest.approx(20.0)


def test_escape_puts_the_bar_aside_with_all_that_was_typed(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.0")
    qtbot.keyClicks(bar.rest.note, "smells fine")
    with qtbot.waitSignal(bar.closed):
        qtbot.keyClick(bar.gravity, Qt.Key.Key_Escape)
    assert not bar.isVisible()
    bar.open()
    assert (bar.gravity.text(), bar.rest.note.text()) == ("1.0", "smells fine")
    assert bar.project.readings == ()


def test_what_was_typed_for_one_batch_is_never_logged_in_another(bar, qtbot):
    qtbot.keyClicks(bar.gravity, "1.06")
    bar.set_project(hand_outlook.project())
    assert bar.gravity.text() == ""
    bar.set_project(bar.project)
    assert bar.gravity.text() == "1.06"


def test_a_half_typed_reading_is_kept_with_its_project(bar, qtbot):
    bar.more.click()
    qtbot.keyClicks(bar.gravity, "1.0")
    qtbot.keyClicks(bar.temperature, "21")
    qtbot.keyClicks(bar.time, "yester")
    qtbot.keyClicks(bar.rest.ph, "3")
    qtbot.keyClicks(bar.rest.note, "smells of bread")
    qtbot.mouseClick(bar.refractometer, Qt.MouseButton.LeftButton)
    bar.rest.degassed.click()
    bar.rest.clear.setCurrentIndex(3)
    bar.rest.clear.activated.emit(3)
    again = ReadingBar()
    qtbot.addWidget(again)
    again.set_project(bar.project)
    fields = (again.gravity, again.temperature, again.time, again.rest.ph, again.rest.note)
    assert [each.text() for each in fields] == ["1.0", "21", "yester", "3", "smells of bread"]
    assert (again.instrument, again.rest.clearness) == ("refractometer", 2)
    assert again.rest.degassed.isChecked()


def test_a_refractometer_reads_brix(bar, qtbot):
    qtbot.mouseClick(bar.refractometer, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(bar.gravity, "22,5")
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    entry = _entry(bar)
    assert (entry.instrument, entry.gravity.scale, entry.gravity.value) == (
        "refractometer",
        "Brix",
        22.5,
    )


def test_more_fields_are_logged_with_the_reading(bar, qtbot):
    bar.more.click()
    qtbot.keyClicks(bar.gravity, "0.996")
    qtbot.keyClicks(bar.rest.ph, "3,45")
    bar.rest.degassed.setChecked(True)
    bar.rest.clear.setCurrentIndex(5)
    qtbot.keyClick(bar.rest.ph, Qt.Key.Key_Return)
    entry = _entry(bar)
    assert (entry.ph, entry.degassed, entry.clear) == (3.45, True, 4)


def test_an_empty_bar_logs_nothing(bar, qtbot):
    qtbot.keyClick(bar.gravity, Qt.Key.Key_Return)
    assert bar.project.readings == ()
    assert bar.isVisible()


def _pitched_on_20_september(bar: ReadingBar) -> None:
    pitch = Action(id="p", at=datetime(2026, 9, 20, 20, tzinfo=NOW.tzinfo), step="pitch")
    bar.project = Project(id="c", name="in Celsius", room=Temperature("19 °C"), log=(pitch,))
    bar.set_project(bar.project)


@pytest.mark.parametrize("typed", ["6 Dec 18:30", "6 Sep", "18 Sep 20:00"])
def test_a_reading_long_before_the_yeast_went_in_is_asked_about(bar, qtbot, typed):
    _pitched_on_20_september(bar)
    qtbot.keyClicks(bar.gravity, "1.012")
    qtbot.keyClicks(bar.time, typed)
    qtbot.keyClick(bar.time, Qt.Key.Key_Return)
    assert bar.project.readings == ()
    assert f'"{typed}" is read as' in bar.hint.text()
    assert "before the yeast went in on 20 Sep 2026; check the date" in bar.hint.text()
    assert bar.time.hasFocus()
    qtbot.keyClick(bar.time, Qt.Key.Key_Return)
    assert bar.project.readings == ()


@pytest.mark.parametrize("typed", ["19 Sep 21:00", "18 Sep 2026 20:00", "2026-09-18", "6 Oct"])
def test_a_must_read_before_its_yeast_can_still_be_logged(bar, qtbot, typed):
    _pitched_on_20_september(bar)
    qtbot.keyClicks(bar.gravity, "1.090")
    qtbot.keyClicks(bar.time, typed)
    qtbot.keyClick(bar.time, Qt.Key.Key_Return)
    assert _entry(bar).at == read_moment(typed, NOW)


def test_every_control_of_the_bar_has_a_name(bar):
    bar.more.click()
    unnamed = [
        w
        for kind in (QLineEdit, QPushButton)
        for w in bar.findChildren(kind)
        if not w.accessibleName()
    ]
    assert unnamed == []
    assert bar.rest.clear.accessibleName()
    assert bar.rest.degassed.accessibleName()


def test_acid_and_free_sulfite_are_logged_beside_or_without_a_gravity(bar, qtbot):
    bar.more.click()
    qtbot.keyClicks(bar.rest.acid, "6,5")
    qtbot.keyClicks(bar.rest.free_so2, "28")
    qtbot.keyClick(bar.rest.free_so2, Qt.Key.Key_Return)
    entry = _entry(bar)
    assert (entry.gravity, entry.acid_g_per_l, entry.free_so2_mg_per_l) == (None, 6.5, 28.0)


def test_an_acidity_that_no_wine_has_is_asked_about_in_its_field(bar, qtbot):
    bar.more.click()
    qtbot.keyClicks(bar.rest.acid, "650")
    qtbot.keyClick(bar.rest.acid, Qt.Key.Key_Return)
    assert bar.project.readings == ()
    assert "No wine has 650 g/L of acid" in bar.hint.text()
