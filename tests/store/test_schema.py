"""The published schema says what the reader takes."""

import copy
import json

import jsonschema
import pytest
from hypothesis import given, settings

from tests.store.projects import projects
from winebench.places import resources
from winebench.store.project_file import StoreError, from_bytes, to_bytes
from winebench.store.schema import project_schema, schema_path, schema_text

SAMPLES = sorted((resources() / "samples").glob("*.winebench"))
RULES = jsonschema.Draft202012Validator(
    project_schema(), format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
)


def test_the_committed_schema_is_that_of_the_model():
    assert schema_path().read_text("utf-8") == schema_text(), "run python -m winebench.store.schema"


def test_the_schema_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(json.loads(schema_text()))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_keeps_to_the_schema(path):
    RULES.validate(json.loads(path.read_text("utf-8")))


@given(projects)
@settings(max_examples=25, deadline=None)
def test_every_project_written_keeps_to_the_schema(project):
    RULES.validate(json.loads(to_bytes(project)))


def broken():
    """Give the sample with one thing wrong in it, for each kind of wrong."""
    whole = json.loads(SAMPLES[-1].read_text("utf-8"))
    for place, value in (
        (("colour",), "red"),
        (("recipe", "colour"), "red"),
        (("recipe", "lines", 0, "colour"), "red"),
        (("recipe", "lines", 0, "kind"), "hops"),
        (("recipe", "lines"), {}),
        (("gallon",), "UK"),
        (("make", "bottle_ml"), "big"),
        (("reminders",), 1),
        (("log", 0, "at"), 7),
        (("log", 7, "clear"), 9),
        (("version",), 99),
        (("format",), "other"),
        (("id",), None),
    ):
        one = copy.deepcopy(whole)
        inside = one
        for part in place[:-1]:
            inside = inside[part]
        inside[place[-1]] = value
        yield pytest.param(one, id=".".join(map(str, place)))


@pytest.mark.parametrize("one", list(broken()))
def test_what_the_reader_refuses_the_schema_refuses_too(one):
    assert not RULES.is_valid(one)
    with pytest.raises(StoreError):
        from_bytes(json.dumps(one).encode(), "x")
