"""The kitchen, room and instruments: edited at every key, undone in place."""

from PySide6.QtTest import QTest

from winebench.window.batch.kitchen import KitchenDialog


def sheet_of(window):
    window.show_kitchen()
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
    room.setFocus()
    room.selectAll()
    QTest.keyClicks(room, "61 F")
    assert raspberry.document.project.room.text == "61 F"
    QTest.keySequence(room, "Ctrl+Z")
    assert raspberry.document.project.room.text == before
    assert room.text() == before
    QTest.keySequence(room, "Ctrl+Y")
    assert raspberry.document.project.room.text == "61 F"
    sheet.close()
