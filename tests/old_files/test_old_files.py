"""A file of every version ever released is kept here and reads for ever.

Never change a fixture: add one, saved by the release, when the version is raised.
"""

import json
from pathlib import Path

import pytest

from winebench.store.migrations import NEWEST, UPGRADES, upgraded
from winebench.store.project_file import from_bytes, read, to_bytes

FIXTURES = sorted(Path(__file__).parent.glob("v*.winebench"))


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_every_kept_file_reads_and_comes_back_the_same(path):
    before = path.read_bytes()
    project = read(path)
    data = to_bytes(project)
    assert from_bytes(data, path.name) == project
    assert path.read_bytes() == before
    if path.name.startswith(f"v{NEWEST}_"):
        assert data == before


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_a_kept_file_is_of_the_version_in_its_name(path):
    assert json.loads(path.read_text("utf-8"))["version"] == int(path.stem.split("_")[0][1:])


def test_there_is_a_file_and_an_upgrade_for_every_version():
    assert {int(path.stem.split("_")[0][1:]) for path in FIXTURES} == set(range(1, NEWEST + 1))
    assert set(UPGRADES) == set(range(2, NEWEST + 1))


def test_upgrades_are_made_one_version_at_a_time_in_order():
    ladder = {n: lambda fields, n=n: {"steps": [*fields["steps"], n]} for n in (2, 3, 4)}
    assert upgraded({"steps": []}, 1, 4, ladder) == {"steps": [2, 3, 4]}
    assert upgraded({"steps": []}, 3, 4, ladder) == {"steps": [4]}
    assert upgraded({"steps": []}, 4, 4, ladder) == {"steps": []}


def test_a_field_that_the_model_loses_or_renames_fails_here():
    # The newest fixture holds every part with a value that is not its default.
    newest = Path(__file__).parent / f"v{NEWEST}_everything.winebench"
    whole = json.loads(newest.read_text("utf-8"))
    kinds = {line["kind"] for line in whole["recipe"]["lines"]}
    assert kinds == {"fruit", "sugar", "water", "additive", "yeast"}
    assert {entry["what"] for entry in whole["log"]} == {"reading", "action", "note"}
    assert all(whole[part] for part in ("away", "drafts", "start", "gallon", "pantry", "money",
                                          "weekends", "own_ferments", "own_losses"))  # fmt: skip
    assert whole["kitchen"]["shelf"]
    assert whole["kitchen"]["spoons_owned"]
    assert any(entry["pictures"] for entry in whole["log"])


def test_version_2_keeps_all_of_version_1_and_adds_what_is_empty():
    fields = json.loads((Path(__file__).parent / "v1_everything.winebench").read_text("utf-8"))
    assert UPGRADES[2](dict(fields)) == fields
    project = read(Path(__file__).parent / "v1_everything.winebench")
    assert (project.pantry, project.money, project.weekends) == ((), "", False)
    assert project.own_ferments == project.own_losses == project.kitchen.shelf == ()
    assert all(entry.pictures == () for entry in project.log)


def test_a_file_of_version_2_from_before_a_field_was_added_reads_as_if_it_were_empty():
    whole = json.loads((Path(__file__).parent / "v2_everything.winebench").read_text("utf-8"))
    del whole["own_losses"], whole["kitchen"]["shelf"]
    project = from_bytes(json.dumps(whole).encode(), "earlier")
    assert project.own_losses == project.kitchen.shelf == ()
    assert project.own_ferments


def test_a_price_that_was_a_number_and_a_day_that_was_a_date_read_as_they_were_meant():
    whole = json.loads((Path(__file__).parent / "v2_everything.winebench").read_text("utf-8"))
    whole["pantry"] = [{"what": "white-sugar", "price": 1.35, "opened": "2026-08-01"}]
    (item,) = from_bytes(json.dumps(whole).encode(), "earlier").pantry
    assert (item.price.value, item.price.of, item.price.text) == (1.35, None, "1.35")
    assert item.opened.first.isoformat() == "2026-08-01"
    assert item.opened.exact
    assert not item.left_out
