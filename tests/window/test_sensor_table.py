"""A sensor's table in the window: chosen, read piece by piece, seen, logged in one step."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from tests.window.test_reachable import cut_off, nameless
from winebench.window.logging.sensor_table import SensorTableDialog, open_table

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)
# The sample's natural moment is Tuesday 6 October 2026, 18:00.
GOOD = "time,gravity,temperature (°F),battery\n2026-10-05T08:00,1.064,70,3\n1.5 d,1.07,70,3\n"


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "sensor.csv"
    path.write_text(GOOD, "utf-8")
    return path


def opened(qtbot, window, path) -> SensorTableDialog:
    open_table(window.document, path, window, window.banner.say)
    dialog = window.findChild(SensorTableDialog)
    qtbot.waitUntil(lambda: not dialog.busy, timeout=20_000)
    return dialog


def words(dialog) -> list[str]:
    view = dialog.view
    cells = [[view.item(row, column) for column in range(3)] for row in range(view.rowCount())]
    return [" | ".join(cell.text() for cell in row if cell) for row in cells]


def test_a_table_is_chosen_in_the_menu_and_logged_in_one_step(qtbot, raspberry, table):
    before = raspberry.document.project
    batch = next(m for m in raspberry.menuBar().actions() if m.text() == "&Batch").menu()
    next(
        a for a in batch.actions() if a.text().replace("&", "") == "Readings from a table…"
    ).trigger()
    raspberry.findChild(QFileDialog).filesSelected.emit([str(table)])
    dialog = raspberry.findChild(SensorTableDialog)
    qtbot.waitUntil(lambda: not dialog.busy)
    assert dialog.log.text() == "Log 2 readings"
    assert 'Column not used: "battery".' in dialog.said.text()
    QTest.keyClick(dialog.log, Qt.Key.Key_Return)
    new = raspberry.document.project.log[len(before.log) :]
    assert [entry.gravity.text for entry in new] == ["1.07", "1.064"]
    assert raspberry.document.session.undo_label == "log readings from a table"
    raspberry.document.undo()
    assert raspberry.document.project.log == before.log


def test_what_is_left_out_stands_under_the_readings_with_its_row(qtbot, raspberry, table):
    rows = "".join(f"2026-10-05T08:{minute:02},1.0{65 - minute},70,3\n" for minute in range(12))
    table.write_text(f"{GOOD}{rows}noon,1.06,70,3\n2026-10-07T08:00,1.05,70,3\n", "utf-8")
    dialog = opened(qtbot, raspberry, table)
    said = words(dialog)
    assert said[4] == "… 6 readings between them …"
    assert said[9] == "Cannot be read: 1 row"
    assert said[10].startswith('row 16 | time "noon" is not a time; write 2026-10-06T18:30')
    assert said[11] == "Outside this batch: 1 row"
    assert "is still to come" in said[12]
    assert nameless(dialog) == []
    qtbot.wait(50)
    assert cut_off(dialog) == []
    dialog.reject()


def test_a_table_logged_before_has_nothing_to_log(qtbot, raspberry, table):
    opened(qtbot, raspberry, table).log.click()
    qtbot.waitUntil(lambda: raspberry.findChild(SensorTableDialog) is None)
    again = opened(qtbot, raspberry, table)
    assert not again.log.isEnabled()
    assert "2 are in the log already" in again.said.text()
    again.reject()


def test_what_is_no_table_is_said_in_the_window(raspberry, table, tmp_path):
    table.write_text("a,b\n1,2\n", "utf-8")
    open_table(raspberry.document, table, raspberry, raspberry.banner.say)
    assert 'no column is named "time"' in raspberry.banner.sentence
    open_table(raspberry.document, tmp_path / "none.csv", raspberry, raspberry.banner.say)
    assert "cannot be read" in raspberry.banner.sentence
    assert raspberry.findChild(SensorTableDialog) is None


def test_the_window_goes_on_while_a_long_table_is_read_and_with_it_in_the_log(
    qtbot, raspberry, table
):
    rows = (f"{n / 1000:.4f} h,{1.08 - n * 2e-7:.5f},70,3" for n in range(60_000))
    table.write_text("time,gravity,temperature (°F),battery\n" + "\n".join(rows), "utf-8")
    open_table(raspberry.document, table, raspberry, raspberry.banner.say)
    dialog = raspberry.findChild(SensorTableDialog)
    assert dialog.busy
    assert not dialog.log.isEnabled()
    qtbot.wait(1)
    assert dialog.busy
    qtbot.waitUntil(lambda: not dialog.busy, timeout=60_000)
    assert len(dialog.found.readings) == 60_000
    dialog.log.click()
    qtbot.waitUntil(lambda: not raspberry.document.forecasts.busy, timeout=60_000)
    QTest.keyClick(raspberry, Qt.Key.Key_F2)
    QTest.keyClicks(raspberry.reading_bar.gravity, "1.06")
    QTest.keyClick(raspberry.reading_bar.gravity, Qt.Key.Key_Return)
    assert raspberry.document.project.log[-1].gravity.text == "1.06"
