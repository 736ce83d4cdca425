"""A row that holds several lines, or says how far the water goes."""

import pytest

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import Make, Recipe, SugarLine, WaterLine
from winebench.plan.handed_down.in_one_row import asked_of_row, is_whole, lines_in_row, row_edit
from winebench.units import Amount, Size, Volume

PLUM = Project(id="p", name="Plum", gallon="US")


def put(text, project=PLUM):
    edit, said = row_edit(lines_in_row(text, project.gallon), project)
    return edit.apply(project), said


@pytest.mark.parametrize(
    "text",
    [
        "4 lb damsons", "1 sachet yeast, champagne type", "3 lb plums, stoned and halved",
        "2-3 lb cherries", "1 lb 4 oz sugar", "water", "water to the mark", "2 lb yew berries",
        "500 g honey, 80 brix", "3 lb moonberries", "1 tsp nutrient per gallon", "damsons",
    ],
)  # fmt: skip
def test_one_line_stays_one_line(text):
    assert lines_in_row(text, "US") is None


def test_lines_strung_together_are_added_in_their_order_with_ids_of_their_own():
    project, said = put("3 lb plums, 2 lb sugar and 1 packet yeast")
    assert [type(line).__name__ for line in project.recipe.lines] == [
        "FruitLine", "SugarLine", "YeastLine",
    ]  # fmt: skip
    assert len({line.id for line in project.recipe.lines}) == 3
    assert (project.recipe.basis, project.make) == (PLUM.recipe.basis, PLUM.make)
    assert said == ""


def test_water_to_a_volume_sets_what_the_recipe_is_for_and_says_so():
    project, said = put("water to 3 gal")
    assert project.recipe.basis.text == project.make.size.text == "3 gal"
    assert said == "The recipe is for 3 gal US now, not 1 gal US, and so much is made."
    again, said = put("water to 3 gal", project)
    assert (again, said) == (project, "")  # the water to the mark is there already


def test_another_size_to_make_stays():
    sized = changed(PLUM, make=Make(size=Size("24 bottles"), by="bottles"))
    project, said = put("water to 2 gal", sized)
    assert project.recipe.basis.text == "2 gal"
    assert project.make == sized.make
    assert said.endswith("24 bottles is made of it as before.")


def test_water_by_an_amount_is_another_line_than_water_to_the_mark():
    water = WaterLine(id="w", amount=Amount("1 L"))
    sugar = SugarLine(id="s", sugar="white-sugar", amount=Amount("1 kg"))
    recipe = Recipe(basis=Volume("4 L"), lines=(sugar, water))
    project, _said = put("water to 5 L", changed(PLUM, recipe=recipe))
    assert [line.amount and line.amount.text for line in project.recipe.lines] == [
        "1 kg", "1 L", None,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "gallon", "asked"),
    [
        ("3 lb moonberries, 2 lb sugar", "US", '"moonberries" is not in the catalog'),
        ("3 lb plums, water to 1 gallon", None, "Whose gallon is it"),
        ("3 lb plums, 1 tsp nutrient per gallon", "US", "So much per gallon of how much must?"),
        ("3 lb plums, 2 lb yew berries", "US", "Yew: a poison that must never go in"),
    ],
)
def test_what_has_to_be_told_first_is_asked(text, gallon, asked):
    assert asked_of_row(lines_in_row(text, gallon)).startswith(asked)
    assert not is_whole(text, gallon)


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        ("3 lb plums", True),
        ("3 lb plums, 2 lb sugar", True),
        ("water to 3 gal", True),
        ("3 lb", False),
        ("plums", False),
        ("3 lb moonberries", False),
        ("", False),
    ],
)
def test_only_what_can_be_added_as_it_stands_is_whole(text, whole):
    assert is_whole(text, "US") is whole
