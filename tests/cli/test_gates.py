"""Gates of the commands that guard the bottles, as processes on the samples."""

import json
from datetime import datetime, timedelta

import pytest

from tests.cli.program import bad, good, run


@pytest.fixture
def bottled(tmp_path):
    path = tmp_path / "bottled.winebench"
    good("new", path, "--like", "elder-blackberry-bottled")
    return path


def _entries(path):
    return json.loads(path.read_bytes())["log"]


def _bottled_at(path) -> datetime:
    return datetime.fromisoformat(
        next(e["at"] for e in _entries(path) if e.get("step") == "bottle")
    )


def test_check_is_not_sound_while_bottles_ferment(bottled):
    assert "sound" in good("check", bottled)
    later = _bottled_at(bottled) + timedelta(days=5)
    # 1.006 when it was bottled; ten points less is 25 g/L eaten there, and more than 5 bar.
    good("log", bottled, "reading", "--sg", "0.996", "--at", later.isoformat())
    result = run("check", bottled, "--at", (later + timedelta(days=1)).isoformat())
    assert result.returncode == 1
    assert "stop: The wine ferments in its bottles: 1.006 when it was bottled" in result.stdout
    assert ": 1 to settle first" in result.stdout


def test_a_bottling_logged_late_is_refused_where_it_fell_since(bottled):
    at = _bottled_at(bottled)
    data = json.loads(bottled.read_bytes())
    gone = ("bottle", "upright", "lie-down")
    data["log"] = [entry for entry in data["log"] if entry.get("step") not in gone]
    bottled.write_text(json.dumps(data), "utf-8")
    later = (at + timedelta(days=3)).isoformat()
    good("log", bottled, "reading", "--sg", "0.996", "--at", later)
    words = ("log", bottled, "action", "bottle", "--at", at.isoformat())
    said = bad(*words, "--because", "it was done")
    assert "no reason opens it" in said
    assert "it fell to 0.996" in said


def test_nothing_is_ticked_of_bottles_before_the_bottling(raspberry):
    said = bad("log", raspberry, "action", "first-taste", "--because", "it is in bottles")
    assert "First taste cannot be done yet and no reason opens it: the wine in bottles" in said


def test_a_tick_that_opens_nothing_is_answered_so(raspberry):
    said = good("log", raspberry, "action", "declare-stable", "--because", "it looks so")
    assert "Dry and stable: this opens nothing; it is still asked for. Missing:" in said


def test_a_reason_that_nothing_asked_for_is_a_note(raspberry):
    good("log", raspberry, "action", "clean", "--because", "Sunday's visit")
    tick = _entries(raspberry)[-1]
    assert (tick["step"], tick["override"]) == ("clean", "")
    assert tick["note"] == "because Sunday's visit"
