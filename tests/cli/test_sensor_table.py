"""`winebench log FILE readings TABLE.csv`, as a process: shown first, written when told to."""

import json

import pytest

from tests.cli.program import bad, good, run
from tests.cli.test_scribbles import AT, batch, log_of

__all__ = ["batch"]
HEAD = "time,gravity,temperature (°F),battery\n"
ROWS = "2026-10-06T18:30+02:00,1.0643,68.4,3.9\n2026-10-06T19:30+02:00,1.0638,68.6,3.9\n"


@pytest.fixture
def table(tmp_path):
    path = tmp_path / "sensor.csv"
    path.write_text(HEAD + ROWS, "utf-8")
    return path


def test_a_table_is_only_shown_until_it_is_to_be_written(batch, table):
    before = batch.read_bytes()
    shown = good("log", batch, "readings", table, *AT)
    assert "Read 1.0643 at 68.4 °F" in shown
    assert 'Column not used: "battery".' in shown
    assert "Nothing was written; --write logs 2 readings." in shown
    assert batch.read_bytes() == before
    count = len(log_of(batch))
    assert "Logged 2 readings" in good("log", batch, "readings", table, "--write", *AT)
    assert [entry["gravity"] for entry in log_of(batch)[count:]] == ["1.0643", "1.0638"]


def test_a_table_logged_twice_adds_nothing_and_leaves_the_file_alone(batch, table):
    good("log", batch, "readings", table, "--write", *AT)
    before = batch.read_bytes()
    assert "nothing new to log" in good("log", batch, "readings", table, "--write", *AT)
    assert batch.read_bytes() == before
    table.write_text(HEAD + ROWS + "2026-10-06T20:30+02:00,1.0630,68.6,3.9\n", "utf-8")
    assert "Logged 1 reading in" in good("log", batch, "readings", table, "--write", *AT)


def test_rows_that_cannot_be_read_are_named_and_the_rest_is_logged(batch, table):
    table.write_text(f"{HEAD}{ROWS}6 Oct,1.06,68,3\n2026-09-01T08:00,1.09,68,3\n", "utf-8")
    result = run("log", batch, "readings", table, "--write", *AT)
    assert (result.returncode, result.stderr) == (1, "")
    assert 'row 4: time "6 Oct" is not a time; write' in result.stdout
    assert "row 5: Tue 1 Sep 2026 08:00 is more than a day before" in result.stdout
    assert "Logged 2 readings" in result.stdout


def test_json_is_one_document(batch, table):
    table.write_text(f"{HEAD}{ROWS}6 Oct,1.06,68,3\n", "utf-8")
    result = run("log", batch, "readings", table, "--json", "--write", *AT)
    seen = json.loads(result.stdout)
    assert (seen["written"], seen["rows"], seen["new"], seen["known"]) == (True, 3, 2, 0)
    assert [left["row"] for left in seen["unread"]] == [4]
    assert seen["first"][0]["gravity"] == "1.0643"
    assert seen["ignored_columns"] == ["battery"]


def test_what_is_no_table_is_refused(batch, table, tmp_path):
    assert "cannot be read" in bad("log", batch, "readings", tmp_path / "none.csv")
    table.write_text("when;density\n1;2\n", "utf-8")
    assert 'no column is named "time"' in bad("log", batch, "readings", table)
    assert "still to come" in bad("log", batch, "readings", table, "--at", "2200-01-01T00:00")


@pytest.mark.parametrize("data", [b"PK\x03\x04\x14\x00", b"\x89PNG\r\n\x1a\n\x00", bytes(64)])
def test_a_file_that_is_no_text_is_refused_as_such(batch, table, data):
    table.write_bytes(data)
    assert "it is no text; save the table as CSV" in bad("log", batch, "readings", table)
