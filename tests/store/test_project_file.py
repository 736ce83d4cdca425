"""The project file: it gives back what it was given, and says what is wrong with it."""

import json
import re
from time import perf_counter

import pytest
from hypothesis import given, settings

from tests.store.projects import large_project, projects
from winebench.model.log import Action, Reading
from winebench.model.project import Project
from winebench.model.recipe import Recipe, WaterLine
from winebench.places import resources
from winebench.store.migrations import NEWEST
from winebench.store.project_file import StoreError, from_bytes, read, to_bytes, write
from winebench.units import Gravity, Volume

SAMPLE = resources() / "samples" / "raspberry-day-3.winebench"
GALLON = Project(id="p", name="Plum", gallon="US", recipe=Recipe(basis=Volume("1 gal")))


def fields():
    return json.loads(SAMPLE.read_text("utf-8"))


def as_bytes(value):
    return json.dumps(value).encode()


def refusal(data):
    """Return the one sentence that refuses these bytes."""
    with pytest.raises(StoreError) as caught:
        from_bytes(data, "plum.winebench")
    sentence = str(caught.value)
    assert sentence.startswith('"plum.winebench": ')
    assert sentence.endswith((".", "?"))
    assert "\n" not in sentence
    return sentence


def changed(place, value):
    """Return the sample's bytes with one thing put elsewhere, such as "recipe.lines.1.amount"."""
    whole = fields()
    inside = whole
    *way, last = [int(part) if part.isdigit() else part for part in place.split(".")]
    for part in way:
        inside = inside[part]
    inside[last] = value
    return as_bytes(whole)


@given(projects)
@settings(max_examples=60, deadline=None)
def test_every_project_reads_back_equal_and_writes_the_same_bytes(project):
    data = to_bytes(project)
    again = from_bytes(data, "again")
    assert again == project
    assert to_bytes(again) == data


def test_the_file_is_sorted_indented_utf8_json_with_its_format_and_version():
    data = to_bytes(read(SAMPLE))
    whole = json.loads(data)
    assert whole["format"] == "winebench"
    assert whole["version"] == NEWEST
    assert set(whole) - {"format", "version"} == set(Project.__struct_fields__)
    pretty = json.dumps(whole, sort_keys=True, indent=2, ensure_ascii=False) + "\n"
    assert data == pretty.encode("utf-8")
    assert "°".encode() in data


def test_an_amount_stays_as_it_was_typed():
    data = changed("recipe.lines.1.amount", "1½ lb + 2,50 oz")
    assert b'"1\xc2\xbd lb + 2,50 oz"' in to_bytes(from_bytes(data, "x"))


def test_a_time_keeps_its_offset():
    log = from_bytes(SAMPLE.read_bytes(), "x").log
    assert b"2026-10-03T19:30:00-04:00" in to_bytes(Project(id="p", name="n", log=log))


def test_a_byte_order_mark_from_an_editor_is_no_harm():
    assert from_bytes(b"\xef\xbb\xbf" + SAMPLE.read_bytes(), "x") == read(SAMPLE)


def test_what_has_a_default_may_be_left_out():
    data = as_bytes({"format": "winebench", "version": 1, "id": "p", "name": "Plum"})
    assert from_bytes(data, "x") == Project(id="p", name="Plum")


@pytest.mark.parametrize(
    ("place", "value", "said"),
    [
        ("colour", "red", "colour is not known here"),
        ("recipe.colour", "red", "recipe.colour is not known here"),
        ("recipe.lines.2.colour", "red", "recipe.lines[2].colour is not known here"),
        ("recipe.lines.1.amount", "2 furlongs", 'recipe.lines[1].amount: "furlongs"'),
        ("recipe.lines.1.amount", 2, "recipe.lines[1].amount: this must be text in quotes"),
        ("recipe.lines.1.kind", "hops", "recipe.lines[1].kind is 'hops'"),
        ("recipe.basis", "3 lb", 'recipe.basis: "3 lb" is a mass'),
        ("recipe.lines", {}, "recipe.lines must be a list in [ ], not a group in { }"),
        ("room", "20 K", 'room: "20 K" is not a temperature'),
        ("name", 5, "name must be text in quotes, not a whole number"),
        ("gallon", "UK", "gallon is 'UK'"),
        ("make.bottle_ml", "big", "make.bottle_ml must be a number, not text in quotes"),
        ("make.bottle_ml", 10**400, "make.bottle_ml"),
        ("reminders", 1, "reminders must be true or false"),
        ("log.0.at", "2026-10-02T17:40:00", "log[0].at is not a time with its offset"),
        ("log.0.at", "yesterday", "log[0].at is not a time with its offset"),
        ("log.0.at", "0026-10-02T17:40:00+02:00", "log[0].at is in the year 26"),
        ("start", "2026-10-02T17:40:00", "start is not a time with its offset"),
        ("away.0.first", "2026-13-01", "away[0].first is not a day"),
        ("log.6.gravity", "1096", 'Did you mean "1.096"?'),
        ("log.1.id", "log-01", 'log[1].id repeats "log-01" of log[0].id'),
        ("log.1.id", "sugar", 'log[1].id repeats "sugar" of recipe.lines[1].id'),
        ("gallon", None, 'make.size: "3 gal" could be US or imperial'),
        ("name", "half \ud800", "half a letter"),
    ],
)
def test_what_is_wrong_is_named_by_its_place(place, value, said):
    assert said in refusal(changed(place, value))


def test_a_missing_part_is_named():
    whole = fields()
    del whole["log"][3]["step"]
    assert "log[3].step is missing" in refusal(as_bytes(whole))


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (SAMPLE.read_bytes()[:700], "truncated"),
        (b"", "empty"),
        (b"\0" * 4096, "empty"),
        (b'{"hello": 1}', "not a project file"),
        (b"[]", "not a project file"),
        (b"\xff\xfe{}", "byte 0 is not UTF-8"),
        (b"<html>", "line 1 column 1"),
        (b"[" * 200_000, "nested too deeply"),
        (b'{"format": "winebench", "version": ' + b"1" * 5000 + b"}", "number"),
        (b'{"format": "winebench", "version": 1, "id": NaN}', "NaN is not a number"),
        (b'{"format": "winebench", "version": 1, "id": 1e999}', "too large a number"),
        (b'{"format": "winebench", "version": 1, "id": "a", "id": "b"}', '"id" stands twice'),
        (b'{"format": "winebench", "version": true}', '"version" must be'),
        (b'{"format": "winebench"}', '"version" must be'),
        (b'{"format": "winebench", "version": 99, "soul": 1}', "newer version"),
    ],
)
def test_what_is_no_project_file_is_refused_in_one_sentence(data, said):
    assert said in refusal(data)


@pytest.mark.parametrize("cut", range(0, 9000, 450))
def test_a_file_cut_anywhere_is_refused(cut):
    refusal(SAMPLE.read_bytes()[:cut])


def test_a_newer_file_is_left_untouched(tmp_path):
    path = tmp_path / "new.winebench"
    path.write_bytes(b'{"format": "winebench", "version": 99}')
    with pytest.raises(StoreError, match="update the program"):
        read(path)
    assert path.read_bytes() == b'{"format": "winebench", "version": 99}'


def test_a_missing_file_a_folder_and_a_device_are_said_to_be_so(tmp_path):
    for path, said in (
        (tmp_path / "none.winebench", "no such file"),
        (tmp_path / "none" / "x.winebench", "no such file"),
        (tmp_path, "is a folder"),
        (type(tmp_path)("/dev/null"), "not a file"),
        (tmp_path / "nul\0.winebench", "cannot be read"),
    ):
        with pytest.raises(StoreError, match=said):
            read(path)


def test_a_bare_gallon_is_read_where_the_project_says_whose():
    assert from_bytes(to_bytes(GALLON), "x") == GALLON


def test_a_project_that_could_not_be_read_back_is_never_written(tmp_path):
    path = tmp_path / "x.winebench"
    path.write_bytes(b"before")
    line = WaterLine(id="w")
    for project, said in (
        (Project(id="p", name="n", recipe=Recipe(basis=Volume("1 gal"))), "US or imperial"),
        (Project(id="p", name="n", recipe=Recipe(lines=(line, line))), "repeats"),
        (Project(id="p", name="half \ud800"), "half a letter"),
        (Project(id="p", name=7), "must be text"),  # type: ignore[arg-type]  # wrong on purpose
    ):
        with pytest.raises(StoreError, match=said):
            write(path, project)
        assert path.read_bytes() == b"before"


def test_no_number_is_quietly_lost_where_json_has_none():
    reading = Reading(id="r", at=read(SAMPLE).log[0].at, ph=float("nan"))
    with pytest.raises(StoreError, match="number that is none"):
        to_bytes(Project(id="p", name="n", log=(reading,)))


def test_a_reading_before_the_pitch_is_no_fault_of_the_file():
    log = read(SAMPLE).log
    pitch = next(e for e in log if isinstance(e, Action) and e.step == "pitch")
    early = Reading(id="early", at=log[0].at.replace(year=2020), gravity=Gravity("1.090"))
    project = Project(id="p", name="n", log=(pitch, early))
    assert from_bytes(to_bytes(project), "x") == project


@pytest.mark.bench
def test_a_year_of_logging_is_read_in_a_moment():
    data = to_bytes(large_project())
    begun = perf_counter()
    from_bytes(data, "x")
    assert len(data) > 80_000
    assert perf_counter() - begun < 0.5


@pytest.mark.parametrize(
    ("place", "value", "said"),
    [
        ("recipe.lines.5.tolerance_percent", -5.0, "between 1 and 25 % vol"),
        ("recipe.lines.5.packet_g", 0.0, "between 0 and 1000000 g"),
        ("recipe.lines.0.measured.ph", 9.0, "between 2 and 6"),
        ("recipe.lines.0.measured.acid_g_per_l", -5.0, "between 0 and 80 g/L"),
        ("make.bottle_ml", 0.0, "between 0 and 100000 mL"),
        ("make.bottle_ml", 1e308, "between 0 and 100000 mL"),
        ("kitchen.tablet_g", -0.44, "between 0 and 1000 g"),
        ("kitchen.tablet_g", 1e308, "between 0 and 1000 g"),
        ("kitchen.smallest_teaspoon", 2.0, "between 0 and 1"),
        ("hydrometer.adds", 1.002, "between -0.05 and 0.05 SG"),
    ],
)
def test_a_number_that_cannot_be_is_named_with_what_can(place, value, said):
    whole = fields()
    inside = whole
    *way, last = [int(part) if part.isdigit() else part for part in place.split(".")]
    for part in way:
        inside = inside[part] if isinstance(inside, list) else inside.setdefault(part, {})
    inside[last] = value
    sentence = refusal(as_bytes(whole))
    shown = re.sub(r"\.(\d+)", r"[\1]", place)
    assert f"{shown} is {value:g}, which cannot be; it must" in sentence
    assert said in sentence


def learned(**other):
    ferment = {"name": "Plum", "batch": "plum", "middles": [0.0] * 5, "spreads": [1.0] * 5}
    return ferment | other


@pytest.mark.parametrize(
    ("ferments", "said"),
    [
        ([learned(middles=[0, 0, -3.5, 0, 0])], "own_ferments[0].middles[2] is -3.5, which cannot"),
        ([learned(spreads=[0, 0, 0, 0, 1.5])], "own_ferments[0].spreads[4] is 1.5, which cannot"),
        ([learned(middles=[0])], "own_ferments[0] needs 5 middles and 5 spreads; learn from it"),
        ([learned(), learned(name="Sloe")], 'own_ferments[1] repeats the batch "plum"; remove one'),
    ],
)
def test_what_was_learned_must_be_whole_possible_and_of_a_batch_once(ferments, said):
    whole = fields()
    whole["own_ferments"] = ferments
    assert said in refusal(as_bytes(whole))


@pytest.mark.parametrize(
    ("losses", "shelf", "said"),
    [
        ([{"must_l": 0.0}], [], "own_losses[0].must_l is 0, which cannot be"),
        ([{"rackings": [{"step": "transfer", "lost_l": -1.0}]}], [],
         "own_losses[0].rackings[0].lost_l is -1, which cannot be"),
        ([{}, {"name": "Sloe"}], [], 'own_losses[1] repeats the batch "plum"; remove one'),
        ([], [{"count": 0}], "kitchen.shelf[0].count is 0, which cannot be"),
        ([], [{"count": 100}], "kitchen.shelf[0].count is 100, which cannot be"),
    ],
)  # fmt: skip
def test_learned_losses_and_the_shelf_must_be_possible(losses, shelf, said):
    whole = fields()
    plain = {"name": "Plum", "batch": "plum", "must_l": 19.0}
    whole["own_losses"] = [plain | one for one in losses]
    jug = {"holds": "5 L", "name": "jug", "role": "secondary"}
    whole.setdefault("kitchen", {})["shelf"] = [jug | one for one in shelf]
    assert said in refusal(as_bytes(whole))
