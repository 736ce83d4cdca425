"""A style that the catalog does not have is said, planned as plain dry, and kept as typed."""

import pytest

from tests.plan.damson import damson, seen
from tests.plan.stuck_batch import filed
from winebench.catalog.styles import style
from winebench.model.edits import changed
from winebench.model.recipe import Vessel
from winebench.store.project_file import from_bytes, to_bytes
from winebench.units import Volume

NOW = "2026-10-01T19:00"


def styled(word):
    base = damson()
    return changed(base, recipe=changed(base.recipe, style=word))


@pytest.mark.parametrize(
    ("word", "said"),
    [
        ("grandad's port", '"grandad\'s port" is no style known here'),
        ("", "No style is chosen"),
        ("  ", "No style is chosen"),
    ],
)
def test_a_style_that_is_not_known_is_said_and_planned_as_dry(word, said) -> None:
    project = styled(word)
    found = seen(project, NOW)
    (note,) = [one for one in found.cautions if one.key == "unknown-style"]
    assert note.severity == "note"
    plain = style("dark-dry").name
    assert note.sentence == f"{said}: what you do not want otherwise is planned as for {plain}."
    assert found.style == (word.strip() or plain)
    wanted = seen(damson(), NOW).must.wants
    assert [one.want_text for one in found.must.wants] == [one.want_text for one in wanted]
    assert from_bytes(to_bytes(filed(project)), "x").recipe.style == word


def test_a_known_style_is_no_matter_to_speak_of() -> None:
    assert not [one for one in seen(damson(), NOW).cautions if one.key == "unknown-style"]


def test_words_that_were_emptied_have_something_that_stands_for_them() -> None:
    base = damson(name="  ")
    empty = {"fruit": {"fruit": ""}, "sugar": {"sugar": " "}, "enzyme": {"additive": ""}}
    lines = tuple(changed(line, **empty.get(line.id, {})) for line in base.recipe.lines)
    vessels = (
        Vessel(id="a", name="", role="primary", holds=Volume("30 L")),
        Vessel(id="b", name=" ", role="secondary", holds=Volume("20 L")),
    )
    make = changed(base.make, vessels=vessels)
    found = seen(changed(base, recipe=changed(base.recipe, lines=lines), make=make), NOW)
    assert found.name == "Fruit wine"
    names = {line.id: line.name for line in found.lines}
    assert names["fruit"].startswith("Unnamed fruit")
    assert names["sugar"] == "Unnamed sugar"
    assert names["enzyme"] == "Unnamed additive"
    assert [vessel.name for vessel in found.vessels] == ["Unnamed pail", "Unnamed jug"]
