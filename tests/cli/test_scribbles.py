"""`winebench log FILE scribbles NOTES.txt`, as a process: shown first, written when told to."""

import json
import subprocess
import sys

import pytest

from tests.cli.program import bad, good, run
from tests.plan.damson import LINES, PITCHED, damson
from winebench.model.edits import changed
from winebench.store.project_file import write
from winebench.units import Amount

AT = ("--at", "2026-10-09T20:00:00+02:00")
NOTES = "Mon 8am 1.066 22C\nTue 1.060, stirred\n"


@pytest.fixture
def batch(tmp_path):
    lines = tuple(
        changed(line, amount=Amount(line.amount.text)) if line.amount else line for line in LINES
    )
    project = damson(*PITCHED)
    path = tmp_path / "damson.winebench"
    write(path, changed(project, recipe=changed(project.recipe, lines=lines)))
    return path


@pytest.fixture
def notes(tmp_path):
    path = tmp_path / "notes.txt"
    path.write_text(NOTES, "utf-8")
    return path


def log_of(path):
    return json.loads(path.read_text("utf-8"))["log"]


def test_the_lines_are_only_shown_until_they_are_to_be_written(batch, notes):
    before = batch.read_bytes()
    shown = good("log", batch, "scribbles", notes, *AT)
    assert "Mon 5 Oct 2026 08:00  Read 1.066 at 22C" in shown
    assert "Nothing was written; --write logs 3 entries." in shown
    assert batch.read_bytes() == before
    assert "Logged 3 entries" in good("log", batch, "scribbles", notes, "--write", *AT)
    assert len(log_of(batch)) == 9
    assert "nothing new to log" in good("log", batch, "scribbles", notes, "--write", *AT)
    assert len(log_of(batch)) == 9


def test_an_open_line_holds_the_writing_until_it_is_answered(batch, notes):
    notes.write_text(f"{NOTES}5/10 tasted sweet\n", "utf-8")
    before = batch.read_bytes()
    result = run("log", batch, "scribbles", notes, "--write", *AT)
    assert (result.returncode, result.stderr) == (1, "")
    assert "could be 5 Oct 2026 or 10 May 2026" in result.stdout
    assert batch.read_bytes() == before
    good("log", batch, "scribbles", notes, "--write", "--day-first", *AT)
    assert any(entry.get("text") == "tasted sweet" for entry in log_of(batch))


def test_what_cannot_be_read_can_be_kept_as_a_note(batch, notes):
    notes.write_text("Tue 64\n", "utf-8")
    good("log", batch, "scribbles", notes, "--write", "--keep-unread", *AT)
    assert [entry["text"] for entry in log_of(batch) if entry["what"] == "note"] == ["Tue 64"]


def test_json_is_one_document_with_the_ways_to_answer(batch, notes):
    seen = json.loads(good("log", batch, "scribbles", notes, "--json", *AT))
    assert seen["written"] is False
    assert [line["number"] for line in seen["lines"]] == [1, 2]
    assert seen["lines"][0]["entries"][0]["gravity"] == "1.066"
    notes.write_text("Tue 64\n", "utf-8")
    asked = json.loads(run("log", batch, "scribbles", notes, "--json", *AT).stdout)
    assert asked["lines"][0]["offers"][0] == {"label": "1.064", "line": "Tue 1.064"}


def test_lines_come_from_standard_input_too(batch):
    command = [sys.executable, "-W", "error", "-m", "winebench", "log", str(batch), "scribbles"]
    command += ["-", *AT]
    result = subprocess.run(
        command, input=NOTES, capture_output=True, text=True, encoding="utf-8", check=False
    )
    assert (result.returncode, result.stderr) == (0, "")
    assert "--write logs 3 entries" in result.stdout


def test_notes_that_are_no_text_are_refused(batch, notes, tmp_path):
    assert "cannot be read" in bad("log", batch, "scribbles", tmp_path / "none.txt")
    notes.write_bytes(b"\xff\xfe\x00M")
    assert "not UTF-8" in bad("log", batch, "scribbles", notes)
    assert "still to come" in bad("log", batch, "scribbles", notes, "--at", "2200-01-01T00:00")


@pytest.mark.parametrize("data", [b"Tue \xff\xfe 64\n" * 500, bytes(64)])
def test_standard_input_that_is_no_text_is_refused_as_such(batch, data):
    command = [
        sys.executable,
        "-W",
        "error",
        "-m",
        "winebench",
        "log",
        str(batch),
        "scribbles",
        "-",
    ]
    result = subprocess.run(command, input=data, capture_output=True, check=False)
    assert (result.returncode, result.stdout) == (2, b"")
    assert result.stderr == b'winebench: "-" is not UTF-8 text; save it as plain text\n'
