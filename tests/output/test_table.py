"""The readings as CSV."""

import csv
import io

from tests.output import batches
from winebench.model.log import Reading
from winebench.output.table import COLUMNS, readings_csv
from winebench.units import Gravity


def rows(project, outlook) -> list[dict[str, str]]:
    text = readings_csv(project, outlook).decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_each_reading_is_a_row_as_typed_and_as_corrected():
    first, second, third = rows(batches.project(), batches.outlook())
    assert tuple(first) == COLUMNS
    assert first["time"] == "2026-10-02T18:00:00+02:00"
    assert second["gravity_as_read"] == "1.078"
    assert second["temperature"] == "75 °F"
    assert second["temperature_celsius"] == "23.89"  # (75 - 32) / 1.8
    assert second["sg_20_celsius"] == "1.0788"
    assert second["ph"] == "3.4"
    assert third["temperature"] == third["temperature_celsius"] == ""


def test_typed_words_are_never_a_formula_to_a_spreadsheet():
    reading = Reading(id="r0", at=batches.NOW, gravity=Gravity("1.05"), note='=1+1, "x"\nnext')
    (row,) = rows(batches.project(log=(reading,)), batches.outlook())
    assert row["note"] == '\'=1+1, "x"\nnext'


def test_without_readings_there_is_the_header_alone():
    assert (
        readings_csv(batches.project(log=()), batches.outlook())
        == (",".join(COLUMNS) + "\r\n").encode()
    )
