"""A batch made again: what the log says went in takes the place of what was written."""

import pytest
from hypothesis import given, settings

from tests.plan.damson import LINES, NEARLY_STABLE, damson, ticked
from tests.plan.made_again import LATER, NOW, amount, batches, logged
from winebench.model.edits import changed
from winebench.model.recipe import AdditiveLine, Make, Recipe, SpoonWeight, SugarLine, Targets
from winebench.plan.again.done_amounts import as_amount
from winebench.plan.again.make import make_again, taken_from_log
from winebench.store.soundness import faults
from winebench.units import Amount, Gravity, Mass, Size, Volume


def five_of_one(*log):
    """Return the damson written for one US gallon and made five times."""
    lines = tuple(
        changed(line, amount=Mass("680 g")) if isinstance(line, SugarLine) else line
        for line in LINES
    )
    return damson(*log, recipe=Recipe(lines=lines, basis=Volume("1 gal US")))


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


def test_sulfite_weighed_once_and_noted_in_mg_per_litre_once_is_added_up():
    # 1 g and 30 mg/L in 18.93 L: 0.568 g of SO2, 0.986 g of metabisulfite.
    first = ticked("sulfite-must", "2026-10-01T19:00", grams="1 g")
    second = ticked("sulfite-must", "2026-10-01T20:00", **{"mg-per-l": "30"})
    line = make_again(damson(first, second), NOW).line("sulfite")
    assert line.amount.grams() == pytest.approx(1.99, abs=0.01)


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
