"""`winebench start-days FILE`, as a process."""

import json
from datetime import date, datetime

import pytest

from tests.cli.program import bad, good, run
from winebench.model.edits import changed
from winebench.model.log import Away
from winebench.store.project_file import read, write

AT = ("--at", "2026-10-01T10:00:00-04:00")


@pytest.fixture
def damson(tmp_path):
    path = tmp_path / "damson.winebench"
    good("new", path, "--like", "damson-design")
    away = (Away(first=date(2026, 10, 10), last=date(2026, 10, 14)),)
    write(path, changed(read(path), away=away, log=()))
    return path


def test_each_day_is_told_with_the_first_free_one(damson):
    shown = good("start-days", damson, "--from", "2026-10-07", "--weeks", "2", *AT)
    lines = shown.splitlines()
    assert lines[1].startswith("- Wed 7 Oct 2026")
    assert "You are away that day." in shown
    assert "First free day: Thu 15 Oct 2026." in shown
    assert "frozen until Thursday 15 October" in " ".join(shown.split())


def test_json_is_one_document(damson):
    seen = json.loads(good("start-days", damson, "--json", *AT))
    assert len(seen["days"]) == 42
    assert seen["days"][0]["day"] == "2026-10-01"
    assert {day["free"] for day in seen["days"]} == {True, False}


def test_what_cannot_be_looked_for_is_one_sentence(damson, tmp_path):
    assert "1 to 52" in bad("start-days", damson, "--weeks", "99")
    assert "is not a day" in bad("start-days", damson, "--from", "soon")
    path = tmp_path / "raspberry.winebench"
    good("new", path, "--like", "raspberry-day-3")
    assert "its start stands" in bad("start-days", path)


def test_a_day_that_has_passed_is_refused_and_not_taken_for_today(damson):
    assert "has passed" in bad("start-days", damson, "--from", "2026-09-30", *AT)


def test_days_away_before_the_yeast_are_something_to_settle_first(damson):
    # Steps that cannot wait inside days away make the plan red before it starts.
    made = read(damson)
    write(damson, changed(made, start=datetime.fromisoformat("2026-10-06T18:00:00-04:00")))
    checked = run("check", damson, *AT)
    assert checked.returncode == 1
    assert "hold: Nobody is home from Saturday 10 October" in checked.stdout
    seen = json.loads(good("outlook", damson, "--json", *AT))
    pitch = next(step for step in seen["steps"] if step["key"] == "pitch")
    assert pitch["state"] == "held"
    assert pitch["override"] == "reason"
    assert any("Nobody is home" in one["text"] for one in pitch["conditions"])
