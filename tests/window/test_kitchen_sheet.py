"""The kitchen, room and instruments: edited at every key, undone in place."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.recipe_keys import type_over
from winebench.window.batch.kitchen import KitchenDialog


def sheet_of(window):
    window.commands.show_kitchen()
    return window.findChild(KitchenDialog)


def test_weighed_spoons_and_weekends_are_kept_with_the_project(raspberry):
    sheet = sheet_of(raspberry)
    QTest.keyClicks(sheet.fields["kitchen.spoons"], "tartaric acid 4.7 g")
    sheet.weekends.click()
    project = raspberry.document.project
    assert [(s.additive, s.grams_per_teaspoon) for s in project.kitchen.spoons] == [
        ("tartaric-acid", 4.7)
    ]
    assert project.weekends
    sheet.close()


def test_undo_works_inside_the_sheet(raspberry):
    sheet = sheet_of(raspberry)
    room = sheet.fields["room"]
    before = room.text()
    type_over(room, "61 F")
    assert raspberry.document.project.room.text == "61 F"
    QTest.keySequence(room, "Ctrl+Z")
    assert raspberry.document.project.room.text == before
    assert room.text() == before
    QTest.keySequence(room, "Ctrl+Y")
    assert raspberry.document.project.room.text == "61 F"
    sheet.close()


def test_a_bare_number_is_in_the_scale_that_the_field_shows(raspberry):
    sheet = sheet_of(raspberry)
    room = sheet.fields["room"]
    assert raspberry.document.project.room.fahrenheit
    type_over(room, "64")
    assert raspberry.document.project.room.text == "64 °F"
    assert not room.refusal
    sheet.close()


def test_days_are_read_with_the_month_first_and_hours_by_am_and_pm(raspberry):
    sheet = sheet_of(raspberry)
    start = sheet.fields["start"]
    type_over(start, "Oct 6 2026 7pm")
    found = raspberry.document.project.start
    assert (found.month, found.day, found.hour) == (10, 6, 19)
    sheet.close()


def test_another_gallon_is_said_in_litres_and_what_stays(raspberry):
    sheet = sheet_of(raspberry)
    before = sheet.size(), sheet.fields["kitchen.shelf"].pos()
    sheet.choices["gallon"].setFocus()
    QTest.keyClick(sheet.choices["gallon"], Qt.Key.Key_Down)
    assert raspberry.document.project.gallon == "imperial"
    # NIST Handbook 44 and the Weights and Measures Act 1985: 3 x 4.546 L and 3 x 3.785 L
    assert "“3 gal” is now 13.6 L, before 11.4 L" in sheet.refusal.text()
    assert (sheet.size(), sheet.fields["kitchen.shelf"].pos()) == before
    sheet.close()


def test_a_sentence_at_the_foot_moves_no_field(raspberry, qtbot):
    sheet = sheet_of(raspberry)
    qtbot.waitExposed(sheet)
    fields = sheet.fields["kitchen.shelf"], sheet.fields["room"]
    before = sheet.size(), [field.mapToGlobal(field.rect().topLeft()) for field in fields]
    fields[0].setFocus()
    QTest.keyClicks(fields[0], "6 gal pale")
    assert "did you mean pail" in sheet.refusal.text()
    qtbot.wait(50)
    assert (sheet.size(), [f.mapToGlobal(f.rect().topLeft()) for f in fields]) == before
    sheet.close()


def test_six_vessels_of_the_shelf_are_seen_at_once(raspberry):
    sheet = sheet_of(raspberry)
    shelf = sheet.fields["kitchen.shelf"]
    shelf.setFocus()
    shelf.selectAll()
    text = "7.9 gal bucket, 5 gal jug, 3 gal jug, 2 x 1 gal jug, 1/2 gal jug, 2 L jug"
    QTest.keyClicks(shelf, text)
    assert shelf.fontMetrics().horizontalAdvance(text) < shelf.width() - 12
    sheet.close()


def test_label_sheets_are_chosen_beside_the_paper(raspberry):
    sheet = sheet_of(raspberry)
    choice = sheet.choices["label.sheet"]
    while choice.key != "letter-6":
        before = choice.key
        QTest.keyClick(choice, Qt.Key.Key_Down)
        assert choice.key != before
    assert raspberry.document.project.label.sheet == "letter-6"
    sheet.close()
