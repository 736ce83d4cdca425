"""A moment to look from: what was logged later is not there yet, and the wall clock stays."""

import json

import pytest

from tests.cli.program import good
from tests.plan.damson import STABLE, damson, read, ticked
from tests.plan.stuck_batch import filed
from winebench.model.edits import changed
from winebench.store.project_file import write

LOG = (*STABLE, ticked("bottle", "2026-11-30T11:00+01:00"), read("0.993", "2026-12-02T11:00+01:00"))


def of_2024(*log):
    """Return the batch as made in 2024: past by any clock that runs this."""
    past = (changed(entry, at=entry.at.replace(year=2024)) for entry in log)
    return filed(damson(*past, start=None))


@pytest.fixture
def batch(tmp_path):
    path = tmp_path / "damson.winebench"
    write(path, of_2024(*LOG))
    return path


def states(text: str) -> dict[str, str]:
    return {step["key"]: step["state"] for step in json.loads(text)["steps"]}


def test_what_was_done_later_is_still_to_come_when_looking_from_the_past(batch, monkeypatch):
    monkeypatch.setenv("TZ", "Europe/Berlin")
    before = batch.read_bytes()
    then = good("outlook", batch, "--at", "2024-10-04T12:00", "--json")
    assert states(then)["bottle"] == "expected"
    assert states(then)["pitch"] == "done"
    found = json.loads(then)
    assert all(reading["at"] < "2024-10-04T12:00" for reading in found["readings"])
    later = sum(f"{entry.at:%m-%dT%H:%M}" > "10-04T12:00" for entry in LOG)
    assert found["looks_back"] == (
        f"Looking back to 4 October 2024 at 12:00: {later} later entries of the log are left out; "
        "the recipe is as it is written today."
    )
    assert batch.read_bytes() == before
    text = " ".join(good("outlook", batch, "--at", "2024-10-04T12:00").split())
    assert found["looks_back"] in text


def test_a_day_to_come_leaves_nothing_out_and_says_nothing(batch):
    found = json.loads(good("outlook", batch, "--at", "2190-01-01T12:00", "--json"))
    assert found["looks_back"] == ""
    assert states(json.dumps(found))["bottle"] == "done"


@pytest.mark.parametrize("command", ["check", "shopping", "calendar", "card"])
def test_each_command_says_that_it_looks_back(batch, tmp_path, command):
    out = ("-o", tmp_path / "page") if command in ("calendar", "card") else ()
    text = " ".join(good(command, batch, *out, "--at", "2024-10-04T12:00").split())
    assert "Looking back to 4 October 2024 at 12:00:" in text


@pytest.mark.parametrize("written", ["2024-10-20T18:30+02:00", "2024-10-20T16:30Z"])
def test_an_offset_says_the_instant_and_the_wall_clock_keeps_its_changes(
    batch, monkeypatch, written
):
    # In Berlin clocks go back on Sunday 27 October 2024 at 03:00 (EU Directive 2000/84/EC).
    monkeypatch.setenv("TZ", "Europe/Berlin")
    by_offset = json.loads(good("outlook", batch, "--at", written, "--json"))
    assert by_offset == json.loads(good("outlook", batch, "--at", "2024-10-20T18:30", "--json"))
    assert by_offset["at"] == "2024-10-20T18:30:00+02:00"
    times = [step["likely"] or "" for step in by_offset["steps"]]
    after = [time for time in times if "2024-10-28" < time < "2025-03-29"]
    assert after
    assert all(time.endswith("+01:00") for time in after)


def test_what_is_logged_keeps_the_offset_that_was_typed(batch, monkeypatch):
    monkeypatch.setenv("TZ", "Europe/Berlin")
    good("log", batch, "note", "seen", "--at", "2024-10-20T12:30-04:00")
    log = json.loads(batch.read_text("utf-8"))["log"]
    assert [entry["at"] for entry in log if entry.get("text") == "seen"] == [
        "2024-10-20T12:30:00-04:00"
    ]
