"""`winebench learn`, as processes."""

import json

import pytest

from tests.cli.program import bad, good, run, words
from winebench.model.edits import changed
from winebench.store.project_file import read, write
from winebench.store.samples import load_sample

AT = ("--at", "2027-09-20T10:00:00+02:00")
DESIGN = ("--at", "2026-10-01T10:00:00+02:00")
SLOW = "Lane hedge elder and blackberry"
NOTHING = "No batch is learned from: the forecast goes by what is usual."


@pytest.fixture
def files(tmp_path):
    """Return a new batch, two finished ones and one that has only begun, by their short names."""
    made = {}
    for short, name in (
        ("new", "damson-design"),
        ("elder", "elder-blackberry-bottled"),
        ("pear", "pear-under-airlock"),
        ("begun", "raspberry-day-3"),
    ):
        made[short] = tmp_path / f"{short}.winebench"
        write(made[short], load_sample(name))
    return made


def forecast(path):
    return json.loads(good("outlook", path, *DESIGN, "--json"))["forecast"]


def test_it_says_what_each_batch_taught_and_what_comes_of_it(files):
    said = good("learn", files["new"], files["elder"], files["pear"], *AT)
    assert all(len(line) <= 80 for line in said.splitlines())
    assert f"{SLOW}: ran about 55 % slower than the usual" in words(said)
    assert "South wall pear: ran about" in words(said)
    assert "Going by 2 finished batches, your ferments run about" in words(said)
    assert [one.name for one in read(files["new"]).own_ferments] == [SLOW, "South wall pear"]
    assert words(good("learn", files["new"])) == words(said)


def test_the_outlook_says_it_too_and_its_dates_move(files):
    usual = forecast(files["new"])
    good("learn", files["new"], files["elder"], *AT)
    found = forecast(files["new"])
    assert found["learned"].startswith("Going by 1 finished batch, your ferments run about")
    assert usual["learned"] == ""
    assert found["crossings"][-1]["likely"] > usual["crossings"][-1]["likely"]
    text = words(good("outlook", files["new"], *DESIGN))
    assert f"{found['going_by']}." in text
    assert found["learned"] in text


def test_forgetting_brings_the_former_file_back_byte_for_byte(files):
    before = files["new"].read_bytes()
    good("learn", files["new"], files["elder"], files["pear"], *AT)
    said = good("learn", files["new"], "--forget", SLOW)
    assert f"forgotten: {SLOW}" in said
    assert "Going by 1 finished batch" in said
    said = good("learn", files["new"], "--forget", "sample-pear")
    assert words(said) == f"forgotten: South wall pear {NOTHING}"
    assert files["new"].read_bytes() == before
    good("learn", files["new"], files["elder"], files["pear"], *AT)
    assert NOTHING in good("learn", files["new"], "--forget-all")
    assert files["new"].read_bytes() == before


def test_the_order_of_the_files_does_not_matter_to_the_outlook(files, tmp_path):
    other = tmp_path / "other.winebench"
    other.write_bytes(files["new"].read_bytes())
    good("learn", files["new"], files["elder"], files["pear"], *AT)
    good("learn", other, files["pear"], files["elder"], *AT)
    assert forecast(other) == forecast(files["new"])


def test_what_teaches_nothing_is_told_and_the_others_are_learned_from(files):
    result = run("learn", files["new"], files["begun"], files["elder"], files["new"], *AT)
    assert result.returncode == 1
    assert 'begun.winebench: "Row\'s end raspberry" teaches nothing: it has 3' in result.stderr
    assert "is this very batch" in result.stderr
    assert result.stderr.count("\n") == 2
    assert [one.name for one in read(files["new"]).own_ferments] == [SLOW]


def test_a_file_that_cannot_be_read_is_told_and_the_others_are_learned_from(files, tmp_path):
    result = run("learn", files["new"], tmp_path / "gone.winebench", files["elder"], *AT)
    assert result.returncode == 2
    assert "gone.winebench" in result.stderr
    assert result.stderr.count("\n") == 1
    assert [one.name for one in read(files["new"]).own_ferments] == [SLOW]


def test_nothing_is_forgotten_by_a_name_that_is_none_or_two(files, tmp_path):
    good("learn", files["new"], files["elder"], *AT)
    before = files["new"].read_bytes()
    said = bad("learn", files["new"], "--forget", "Plum")
    assert f'nothing was learned from "Plum"; this learned from "{SLOW}"' in said
    twin = tmp_path / "twin.winebench"
    write(twin, changed(read(files["elder"]), id="twin"))
    assert files["new"].read_bytes() == before
    good("learn", files["new"], twin, *AT)
    said = bad("learn", files["new"], "--forget", SLOW)
    assert "name one by its id: sample-elder-blackberry or twin" in said
    assert "not allowed with" in bad("learn", files["new"], "--forget", SLOW, "--forget-all")


def test_a_batch_made_again_learns_from_the_one_it_comes_from_where_that_one_learned(
    files, tmp_path
):
    untaught, taught = tmp_path / "untaught.winebench", tmp_path / "taught.winebench"
    said = words(good("again", files["elder"], "-o", untaught, *AT))
    assert "unless you let it: see winebench learn." in said
    assert read(untaught).own_ferments == ()
    elder = read(files["elder"])
    write(tmp_path / "twin.winebench", changed(elder, id="twin", name="Twin"))
    good("learn", files["elder"], tmp_path / "twin.winebench", *AT)
    said = words(good("again", files["elder"], "-o", taught, *AT))
    assert "unless you let it" not in said
    assert "Going by 2 finished batches" in said
    assert "The forecast learns from it: its ferment ran about" in said
    assert [one.name for one in read(taught).own_ferments] == ["Twin", SLOW]
