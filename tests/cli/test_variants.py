"""`winebench again` and `winebench compare`, as processes."""

import json

import pytest

from tests.cli.program import bad, good
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.store.project_file import read, write
from winebench.store.samples import load_sample

AT = ("--at", "2027-09-20T10:00:00+02:00")


@pytest.fixture
def bottled(tmp_path):
    """Return a finished batch whose log has more sugar than its recipe."""
    project = load_sample("elder-blackberry-bottled")
    more = (Record(name="sugar", value="2150"),)
    log = tuple(
        changed(entry, records=more) if getattr(entry, "step", "") == "sugar-water" else entry
        for entry in project.log
    )
    path = tmp_path / "hedge.winebench"
    write(path, changed(project, log=log))
    return path


def test_again_writes_a_new_batch_and_lists_what_the_log_changed(bottled, tmp_path):
    before, new = bottled.read_bytes(), tmp_path / "new.winebench"
    said = good("again", bottled, "-o", new, *AT)
    assert "Lane hedge elder and blackberry, again" in said
    assert "White sugar: 2.15 kg went in, not 2.00 kg." in " ".join(said.split())
    made = read(new)
    # 2150 g in 10 L of a recipe for 5 L.
    assert made.line("sugar").amount.text == "1.075 kg"
    assert (made.log, made.start, made.kitchen) == ((), None, read(bottled).kitchen)
    assert bottled.read_bytes() == before
    assert good("check", new)


def test_again_asks_for_this_years_fruit(tmp_path):
    old, new = tmp_path / "pear.winebench", tmp_path / "new.winebench"
    good("new", old, "--like", "pear-under-airlock")
    said = " ".join(good("again", old, "-o", new).split())
    assert "Pears, last time: 11.8 °Brix, 3.2 g/L acid, pH 3.7; measure this year's." in said


def test_again_never_writes_over_a_file(bottled):
    before = bottled.read_bytes()
    assert "exists already" in bad("again", bottled, "-o", bottled)
    assert bottled.read_bytes() == before


def test_again_twice_at_one_moment_is_the_same_file(bottled, tmp_path):
    first, second = tmp_path / "1.winebench", tmp_path / "2.winebench"
    for path in (first, second):
        good("again", bottled, "-o", path, *AT)
    assert first.read_bytes() == second.read_bytes()


def test_compare_tells_each_difference_and_what_it_does(bottled, tmp_path):
    plain = tmp_path / "plain.winebench"
    write(plain, load_sample("elder-blackberry-bottled"))
    said = good("compare", bottled, plain, *AT)
    assert all(len(line) <= 80 for line in said.splitlines())
    words = " ".join(said.split())
    assert "White sugar: this 215 g/L; that 200 g/L Stronger if it ends as dry" in words
    found = json.loads(good("compare", bottled, plain, *AT, "--json"))
    sugar = next(each for each in found["differences"] if each["what"] == "White sugar")
    assert (sugar["this"], sugar["that"], sugar["part"]) == ("215 g/L", "200 g/L", "recipe")
    assert sugar["does"]
    assert sugar["source"]
    assert "Blackberries" in found["alike"]


def test_compare_with_itself_has_nothing_to_tell(bottled):
    assert good("compare", bottled, bottled).count("Nothing differs") == 1
    assert json.loads(good("compare", bottled, bottled, "--json"))["differences"] == []


def test_compare_says_which_file_cannot_be_read(bottled, tmp_path):
    assert "gone.winebench" in bad("compare", bottled, tmp_path / "gone.winebench")
    broken = tmp_path / "broken.winebench"
    broken.write_text("{", "utf-8")
    assert "broken.winebench" in bad("compare", broken, bottled, "--json")
