"""A batch made again: the fruit asked anew, another name, and nothing else changed."""

from datetime import timedelta

import pytest
from hypothesis import given, settings

from tests.plan.damson import LINES, damson, ticked
from tests.plan.made_again import LATER, NOW, amount, logged, measured_damson
from tests.store.projects import projects
from winebench.model.edits import changed
from winebench.model.log import Away
from winebench.model.recipe import FruitLine, Measured, Recipe
from winebench.plan.again.last_time import asked_again
from winebench.plan.again.make import as_recipe, from_recipe, make_again, variant
from winebench.plan.work_out import outlook
from winebench.store.project_file import from_bytes, to_bytes
from winebench.units import Gravity, Juice, Mass, Volume


def test_last_years_figures_are_words_and_this_years_are_asked_for():
    project = measured_damson(juice=Gravity("14.5 brix"), acid_g_per_l=9.0, note="from the lane")
    again = make_again(project, NOW)
    assert again.fruits[0].measured == Measured()
    assert again.fruits[0].note == (
        "from the lane; last time: 14.5 °Brix, 9 g/L acid; measure this year's"
    )
    asked = [c for c in outlook(again, NOW).cautions if c.key == "measure-again"]
    assert [c.sentence for c in asked] == list(asked_again(again))
    assert asked[0].about == "fruit"
    assert asked[0].sentence == ("Damsons, last time: 14.5 °Brix, 9 g/L acid; measure this year's.")
    assert asked[0] in next(x for x in outlook(again, NOW).lines if x.id == "fruit").cautions


def test_what_the_log_measured_is_told_too_and_the_request_ends_with_this_years():
    project = damson(ticked("measure-fruit", "2026-10-01T17:30", brix="1.058", ph="3.2"))
    again = make_again(project, NOW)
    assert again.fruits[0].note == "last time: SG 1.058, pH 3.2; measure this year's"
    entry = changed(ticked("measure-fruit", "2026-10-01T17:30", brix="15"), at=NOW)
    done = changed(again, log=(entry,))
    assert not [c for c in outlook(done, NOW).cautions if c.key == "measure-again"]
    third = make_again(done, LATER)
    assert third.fruits[0].note == "last time: 15 °Brix; measure this year's"


def test_a_measurement_of_several_fruits_stands_beside_the_first():
    plum = FruitLine(id="plum", fruit="plum", amount=Mass("1 kg"))
    project = damson(ticked("measure-fruit", "2026-10-01T17:30", brix="13"),
                     recipe=Recipe(lines=(*LINES, plum), basis=Volume("5 gal US")))  # fmt: skip
    first, second = make_again(project, NOW).fruits
    assert first.note == "last time: 13 °Brix of all the fruit together; measure this year's"
    assert second.note == ""


@pytest.mark.parametrize(
    ("name", "again"),
    [
        ("Hedge damson", "Hedge damson, again"),
        ("Hedge damson, again", "Hedge damson, again 2"),
        ("Hedge damson, again 2", "Hedge damson, again 3"),
        ("Hedge damson 2026", "Hedge damson 2027"),
        ("2026 hedge", "2027 hedge"),
        ("Hedge damson 2027", "Hedge damson 2027, again"),
        ("Box 1234567", "Box 1234567, again"),
        ("", "Batch, again"),
    ],
)
def test_its_name_says_that_it_is_another(name, again):
    assert make_again(damson(name=name), NOW).name == again


def test_a_variant_keeps_the_recipe_and_the_fruit_as_measured():
    project = damson(logged("sugar-water", sugar="3800"),
                     ticked("measure-fruit", "2026-10-01T17:30", brix="14"))  # fmt: skip
    made = variant(project, NOW)
    assert (made.name, made.log, made.start) == ("Hedge damson, variant", (), None)
    assert amount(made, "sugar") == "3.4 kg"
    assert made.fruits[0].measured.juice == Juice("14 brix")
    assert variant(made, NOW).name == "Hedge damson, variant 2"
    assert len({project.id, made.id, make_again(project, NOW).id, variant(made, NOW).id}) == 4


def test_a_kept_recipe_is_as_written_and_a_batch_of_it_is_new():
    project = damson(logged("sugar-water", sugar="3800"))
    kept = as_recipe(project, NOW)
    assert (kept.name, kept.recipe, kept.log, kept.start) == (
        project.name, project.recipe, (), None)  # fmt: skip
    first, second = from_recipe(kept, NOW), from_recipe(kept, LATER)
    assert first.recipe == kept.recipe
    assert len({kept.id, first.id, second.id}) == 3


def test_days_away_to_come_hold_for_the_new_batch_and_past_ones_do_not():
    past = Away(first=(NOW - timedelta(days=9)).date(), last=(NOW - timedelta(days=8)).date())
    coming = Away(first=NOW.date(), last=(NOW + timedelta(days=3)).date())
    assert make_again(damson(away=(past, coming)), NOW).away == (coming,)


@given(projects)
@settings(max_examples=60, deadline=None)
def test_of_any_project_a_batch_can_be_made_again_and_saved(project):
    again = make_again(project, NOW)
    assert from_bytes(to_bytes(again), "again") == again
    assert again == make_again(project, NOW)
    kept = ("kitchen", "hydrometer", "make", "pantry", "label", "gallon", "room", "paper", "money")
    assert all(getattr(again, name) == getattr(project, name) for name in kept)
    assert (again.start, again.log, again.drafts) == (None, (), ())
    assert again.id != project.id
    assert again.name != project.name
