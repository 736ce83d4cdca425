"""`winebench scale` with vessels, as processes."""

import json

import pytest

from tests.cli.program import bad, good, words
from winebench.store.project_file import read, write
from winebench.store.samples import load_sample

SHELF = "27 L pail, 3 gal US jug, 2 x 1 gal US jug"


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "damson.winebench"
    write(path, load_sample("damson-design"))
    return path


TOP_UP = "The top-up jug will hold 2.3 qt of 1 gal (2.1 L of 3.8): use it first, for the air in it."


def test_vessels_are_chosen_from_the_shelf_and_both_are_kept(file):
    # By hand: 18.93 x 0.94 - 0.5 = 17.29 L of wine, 15.14 L of jugs full, 2.15 L over
    said = words(good("scale", file, "--to", "5 gal US", "--in", "shelf", "--shelf", SHELF,
                      "-o", file))  # fmt: skip
    assert (
        "The top-up jug will hold 2.3 qt of 1 gal (2.1 L of 3.8): use it first, for the air in it."
        in said
    )
    assert ", losses by common practice: it will do." in said
    assert "note: The pail with its must weighs about 49 lb (22 kg)" in said
    kept = read(file)
    assert [v.name for v in kept.make.vessels] == ["pail", "jug", "jug", "top-up jug"]
    assert [owned.count for owned in kept.kitchen.shelf] == [1, 1, 2]
    found = json.loads(good("scale", file, "--in", "the shelf", "--json"))
    assert found["said"][0] == TOP_UP
    assert [round(v["fill_l"], 2) for v in found["vessels"]][1:] == [11.36, 3.79, 2.15]


def test_too_small_a_shelf_is_one_sentence_and_nothing_is_written(file):
    before = file.read_bytes()
    said = bad("scale", file, "--to", "5 gal US", "--in", "shelf", "--shelf", "5 gal US pail",
               "-o", file)  # fmt: skip
    assert "No pail of the shelf is large enough" in said
    assert "the shelf has 5 gal (18.9 L)" in said
    assert said.strip().count("\n") == 0
    assert "Nothing is on the shelf" in bad("scale", file, "--in", "shelf")
    assert file.read_bytes() == before


def test_a_vessel_is_filled_and_vessels_are_given_by_name(file):
    # By hand: M x 0.94 - 0.54 = 19 L, the racking's loss being 0.54 L there
    found = json.loads(good("scale", file, "--to", "fill 19 L jug", "--in", "30 L pail, 19 L jug",
                            "--json"))  # fmt: skip
    assert found["make"] == "5.492 gal US"
    assert found["vessels"][1]["fill_l"] == pytest.approx(19.0, abs=0.01)
    assert "say --to what size" in bad("scale", file)
    assert "has no volume" in bad("scale", file, "--to", "fill jug")
