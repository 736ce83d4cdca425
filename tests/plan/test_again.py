"""A batch made again: what the log says went in, the fruit asked anew, and nothing else changed."""

from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import LINES, NEARLY_STABLE, at, damson, read, ticked
from tests.store.projects import projects
from winebench.model.edits import changed
from winebench.model.log import Away, Record
from winebench.model.recipe import (
    AdditiveLine,
    FruitLine,
    Make,
    Measured,
    Recipe,
    SpoonWeight,
    SugarLine,
    Targets,
)
from winebench.plan.again.done_amounts import as_amount
from winebench.plan.again.last_time import asked_again
from winebench.plan.again.make import as_recipe, from_recipe, make_again, taken_from_log, variant
from winebench.plan.work_out import outlook
from winebench.store.project_file import from_bytes, to_bytes
from winebench.store.soundness import faults
from winebench.units import Amount, Gravity, Juice, Mass, Size, Volume

NOW = at("2027-09-20T10:00")
LATER = at("2028-09-20T10:00")


def amount(project, line_id):
    line = project.line(line_id)
    return None if line is None else line.amount.text


def logged(step, **records):
    made = tuple(Record(name=name.replace("_", "-"), value=value)
                 for name, value in records.items())  # fmt: skip
    return changed(ticked(step, "2026-10-01T18:00"), records=made)


def five_of_one(*log):
    """Return the damson written for one US gallon and made five times."""
    lines = tuple(
        changed(line, amount=Mass("680 g")) if isinstance(line, SugarLine) else line
        for line in LINES
    )
    return damson(*log, recipe=Recipe(lines=lines, basis=Volume("1 gal US")))


# --- what the log says ------------------------------------------------------------------------


def test_a_batch_made_as_written_keeps_its_lines_word_for_word():
    project = damson(*NEARLY_STABLE)
    assert make_again(project, NOW).recipe == project.recipe
    assert taken_from_log(project) == ()


def test_sugar_that_was_weighed_otherwise_takes_the_place_of_what_was_written():
    # 3800 g in a batch of five times the recipe is 3800 / 5 = 760 g for one.
    project = five_of_one(logged("sugar-water", sugar="3800"))
    again = make_again(project, NOW)
    assert amount(again, "sugar") == "760 g"
    assert taken_from_log(project) == ("White sugar: 3.80 kg went in, not 3.40 kg.",)
    assert again.recipe.basis == project.recipe.basis
    assert again.make == project.make


@pytest.mark.parametrize("sugar", ["3400", "3.45 kg", "7 lb 8 oz", "3340 g", "heaps", ""])
def test_sugar_within_the_scales_own_error_or_unreadable_stays_as_written(sugar):
    # 7 lb 8 oz is 3402 g; 2 % of 3400 g is 68 g.
    project = damson(logged("sugar-water", sugar=sugar))
    assert amount(make_again(project, NOW), "sugar") == "3.4 kg"
    assert taken_from_log(project) == ()


def test_sugar_of_two_lines_is_asked_about_and_not_guessed():
    honey = SugarLine(id="honey", sugar="honey", amount=Mass("500 g"))
    project = damson(logged("sugar-water", sugar="4500"))
    project = changed(project, recipe=changed(project.recipe, lines=(*LINES, honey)))
    assert make_again(project, NOW).recipe.lines == project.recipe.lines
    (told,) = taken_from_log(project)
    assert "White sugar and Honey: 4.50 kg went in" in told
    assert "stay as written" in told


def test_sugar_fed_twice_is_added_up_and_put_on_the_recipe():
    # 200 g and 300 g in five times the recipe: 100 g for one, kept back to be fed.
    project = five_of_one(logged("sugar-feed", grams="200"), logged("sugar-feed", grams="300 g"))
    line = make_again(project, NOW).recipe.lines[-1]
    assert (line.sugar, line.amount.text, line.when) == ("white-sugar", "100 g", "feed")
    assert taken_from_log(project) == (
        "White sugar, fed later: 500 g went in, which was not on the recipe.",
    )


def test_sulfite_written_as_mg_per_litre_becomes_grams():
    # Potassium metabisulfite is 57.6 % SO2 by molar masses (2 x 64.06 / 222.3): 60 mg/L in
    # 18.93 L is 1136 mg of SO2, so 1.97 g; the four tablets of the recipe weigh 1.76 g.
    project = damson(logged("sulfite-must", mg_per_l="60 mg/L"))
    assert make_again(project, NOW).line("sulfite").amount.grams() == pytest.approx(1.97, abs=0.01)
    assert taken_from_log(project) == ("Sulfite tablets: 1.97 g went in, not 1.76 g.",)


@pytest.mark.parametrize("grams", ["4 tablets", "1.76", "1.8 g"])
def test_the_same_tablets_in_other_words_change_nothing(grams):
    project = damson(logged("sulfite-must", grams=grams, mg_per_l="54"))
    assert amount(make_again(project, NOW), "sulfite") == "4 tablets"


def test_a_spoon_of_nutrient_is_any_weight_that_a_level_spoon_of_it_has():
    # 5 tsp of 3.5 to 5.2 g are 17.5 to 26 g (resources/catalog/additives.csv).
    fits = damson(logged("first-nitrogen", grams="12"), logged("second-nitrogen", grams="12"))
    assert amount(make_again(fits, NOW), "nutrient") == "5 tsp"
    more = damson(logged("first-nitrogen", grams="13"), logged("second-nitrogen", grams="14"))
    assert amount(make_again(more, NOW), "nutrient") == "27 g"


def test_a_spoon_that_was_weighed_has_that_weight():
    kitchen = changed(damson().kitchen, spoons=(SpoonWeight(additive="yeast-nutrient",
                                                            grams_per_teaspoon=4.0),))  # fmt: skip
    project = damson(
        logged("first-nitrogen", grams="12"), logged("second-nitrogen", grams="12"), kitchen=kitchen
    )
    assert amount(make_again(project, NOW), "nutrient") == "24 g"


def test_a_dose_without_an_amount_counts_as_planned():
    # 20 g first, and half of 5 tsp x 4.5 g for the second: 31.25 g.
    project = damson(logged("first-nitrogen", grams="20"))
    assert amount(make_again(project, NOW), "nutrient") == "31.25 g"


def test_acid_at_a_later_step_comes_on_top_and_with_the_must_in_its_place():
    acid = AdditiveLine(id="acid", additive="tartaric-acid", amount=Amount("26 g"))
    recipe = Recipe(lines=(*LINES, acid), basis=Volume("5 gal US"))
    later = damson(logged("transfer", tartaric_acid="5 g"), recipe=recipe)
    assert amount(make_again(later, NOW), "acid") == "31 g"
    first = damson(logged("sugar-water", tartaric_acid="20 g"), recipe=recipe)
    assert amount(make_again(first, NOW), "acid") == "20 g"
    new = damson(logged("transfer", tartaric_acid="5 g"), logged("stabilise", tartaric_acid="4 g"))
    assert make_again(new, NOW).recipe.lines[-1].amount.text == "9 g"


def test_sorbate_that_never_went_in_is_off_the_recipe_and_what_went_in_is_on_it():
    sorbate = AdditiveLine(id="sorbate", additive="potassium-sorbate", amount=Amount("4 g"))
    recipe = Recipe(lines=(*LINES, sorbate), basis=Volume("5 gal US"))
    none = damson(logged("stabilise", sorbate="none"), recipe=recipe)
    assert make_again(none, NOW).line("sorbate") is None
    assert taken_from_log(none) == ("Potassium sorbate: none went in, so it is off the recipe.",)
    some = damson(logged("stabilise", sorbate="3"))
    line = make_again(some, NOW).recipe.lines[-1]
    assert (line.additive, line.amount.text) == ("potassium-sorbate", "3 g")


def test_what_it_was_fined_with_is_on_the_recipe_by_its_own_word_too():
    known = damson(logged("fine", what="Bentonite", grams="8"))
    assert make_again(known, NOW).recipe.lines[-1].additive == "bentonite"
    own = damson(logged("fine", what="egg white", grams="8"))
    assert make_again(own, NOW).recipe.lines[-1].additive == "egg white"
    assert make_again(damson(logged("fine", what="Bentonite")), NOW).recipe == damson().recipe


def test_the_sorted_weight_of_the_one_fruit_counts():
    project = damson(logged("fruit-accepted", weight="8.4 kg"))
    assert amount(make_again(project, NOW), "fruit") == "8.4 kg"
    told = logged("fruit-accepted", weight="2 kg blackberries, 800 g elderberries")
    assert amount(make_again(damson(told), NOW), "fruit") == "9 kg"


def test_the_gravity_it_was_sweetened_to_is_wanted_again():
    project = damson(logged("sweeten", gravity="1.010"))
    assert make_again(project, NOW).recipe.targets.final_gravity == Gravity("1.010")
    same = changed(
        project,
        recipe=changed(project.recipe, targets=Targets(final_gravity=Gravity(" 1,010 "))),
    )
    assert make_again(same, NOW).recipe == same.recipe


def test_a_recipe_for_nothing_is_made_again_as_written_and_says_why():
    project = damson(logged("sugar-water", sugar="3800"), make=Make(size=Size("5 gal")),
                     gallon=None)  # fmt: skip
    assert make_again(project, NOW).recipe == project.recipe
    (told,) = taken_from_log(project)
    assert told.startswith("The log's amounts were left out: ")
    assert "US or imperial" in told


@pytest.mark.parametrize(
    ("grams", "text"),
    [(760.0, "760 g"), (1234.56, "1.235 kg"), (0.4444, "0.4444 g"), (31.25, "31.25 g"),
     (12_345_678.0, "12346 kg"), (1e-9, "0.000001 g")],
)  # fmt: skip
def test_amounts_are_written_as_a_kitchen_writes_them(grams, text):
    assert as_amount(grams).text == text


# --- the fruit --------------------------------------------------------------------------------


def measured_damson(*log, note="", **measured):
    fruit = changed(LINES[0], measured=Measured(**measured), note=note)
    return damson(*log, recipe=Recipe(lines=(fruit, *LINES[1:]), basis=Volume("5 gal US")))


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


# --- the new project --------------------------------------------------------------------------


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


amounts = st.sampled_from(["0", "none", "3", "12 g", "0,9", "1 1/2 oz", "2 tablets", "1/2 tsp",
                           "3900", "9 kg", "a lot", "52 mg/L", "1.008"])  # fmt: skip
named = st.sampled_from([
    ("sugar-water", "sugar"), ("sugar-water", "tartaric-acid"), ("sulfite-must", "grams"),
    ("sulfite-must", "mg-per-l"), ("enzyme", "grams"), ("first-nitrogen", "grams"),
    ("second-nitrogen", "grams"), ("sugar-feed", "grams"), ("fine", "grams"), ("fine", "what"),
    ("stabilise", "sorbate"), ("stabilise", "mg-per-l"), ("sweeten", "gravity"),
    ("fruit-accepted", "weight"), ("transfer", "bentonite"), ("measure-fruit", "brix"),
])  # fmt: skip


@st.composite
def batches(draw):
    """Return the damson batch with made-up amounts in its log."""
    log = []
    for number, ((step, name), value) in enumerate(draw(st.lists(st.tuples(named, amounts),
                                                                 max_size=8))):  # fmt: skip
        made = changed(logged(step), records=(Record(name=name, value=value),), id=f"log-{number}")
        log.append(made)
    readings = (read("1.091", "2026-10-02T18:00"),) if draw(st.booleans()) else ()
    return damson(*log, *readings)


@given(batches())
@settings(max_examples=150, deadline=None)
def test_again_and_again_keeps_the_recipe(project):
    once = make_again(project, NOW)
    twice = make_again(once, LATER)
    assert twice.recipe == once.recipe
    assert taken_from_log(once) == ()
    assert list(faults(once)) == []
    changed_lines = once.recipe.lines != damson().recipe.lines or once.recipe.targets != Targets()
    assert changed_lines or taken_from_log(project) == ()
