"""Two batches side by side: the recipe and its must by hand, and what cannot be told apart."""

import pytest
from hypothesis import given, settings

from tests.plan.damson import LINES, at, damson
from tests.plan.made_again import batches, logged, measured_damson
from winebench.model.edits import changed
from winebench.model.price import Price
from winebench.model.recipe import AdditiveLine, FruitLine, Recipe, SugarLine, Targets, YeastLine
from winebench.model.stock import PantryItem
from winebench.plan.again.make import make_again
from winebench.plan.compare import compare
from winebench.plan.compare.effects import COMMON, EFFECTS, INSTEAD
from winebench.store.samples import load_sample, sample_names
from winebench.units import Amount, Gravity, Mass, Volume

NOW = at("2027-09-20T10:00")
GALLONS = Volume("5 gal US")


def with_lines(*lines, drop=(), log=()):
    """Return the damson with lines of the same id replaced, others put behind."""
    new = {line.id: line for line in lines}
    kept = [new.pop(line.id, line) for line in LINES if line.id not in drop]
    return damson(*log, recipe=Recipe(lines=(*kept, *new.values()), basis=GALLONS))


def sugar(amount):
    return with_lines(SugarLine(id="sugar", sugar="white-sugar", amount=Amount(amount)))


def rows(this, that):
    """Return the differences by what differs."""
    return {each.what: each for each in compare(this, that, NOW).differences}


# --- the recipe -------------------------------------------------------------------------------


def test_sugar_is_compared_by_the_litre_of_must_whatever_the_size():
    # Water to the mark makes 18.927 L (5 gal US by definition): 3400 g are 179.6 g/L, 3800 g are
    # 200.8 g/L. Ten litres of the same recipe are the same recipe.
    row = rows(sugar("3.8 kg"), damson())["White sugar"]
    assert (row.this, row.that, row.part) == ("201 g/L", "180 g/L", "recipe")
    assert row.does.startswith("Stronger")
    back = rows(damson(), sugar("3.8 kg"))["White sugar"]
    assert (back.this, back.that) == ("180 g/L", "201 g/L")
    assert back.does.startswith("Weaker")
    half = changed(damson(), make=changed(damson().make, size=Amount("10 L")))
    assert rows(damson(), half) == {}


def test_tannin_and_what_it_makes_of_the_time_to_drink_are_compared():
    # Damsons as plums, 197 mg/100 g (USDA 2015), 0.4 of it kept: 9 kg less 6 % stones (USDA) in
    # 18.93 L is 0.352 g/L, with 2 g of powder more, 0.7 of it tannin, 0.426.
    more = with_lines(AdditiveLine(id="tannin", additive="grape-tannin", amount=Amount("2 g")))
    found = rows(more, damson())
    row = found["Tannin of the must"]
    assert (row.this, row.that) == ("0.43 g/L", "0.35 g/L")
    assert row.does.startswith("More grip")
    assert found["Grape tannin"].that == "none"
    assert "Ready to drink by the recipe" not in found  # a month nobody can tell
    much = with_lines(AdditiveLine(id="tannin", additive="grape-tannin", amount=Amount("12 g")))
    assert rows(much, damson())["Ready to drink by the recipe"].does.startswith("It wants longer")


def test_an_own_time_to_drink_is_compared():
    def drunk(months):
        targets = Targets(drink_months=months)
        return damson(recipe=Recipe(lines=LINES, basis=GALLONS, targets=targets))

    row = rows(drunk(18.0), drunk(6.0))["Wanted to drink from"]
    assert (row.this, row.that) == ("18 months after bottling", "6 months after bottling")
    assert row.does == "Wanted to be kept longer."
    assert rows(drunk(6.0), drunk(6.0)) == {}


def test_what_two_weighings_differ_by_is_no_difference():
    # 3 % of 3.4 kg is 0.1 kg.
    assert "White sugar" not in rows(sugar("3.47 kg"), damson())
    assert "White sugar" in rows(sugar("3.55 kg"), damson())


def test_the_strength_that_more_sugar_makes_is_that_of_the_eus_sugar_for_one_percent():
    # 400 g of sucrose in 18.927 L are 21.13 g/L, split 22.25 g/L (342.30 -> 2 x 180.16 g/mol);
    # 16.83 g/L make one percent (Reg. (EU) usage): 1.3 % vol more. The sugar takes the place of
    # water under the mark, so nothing else changes.
    row = rows(sugar("3.8 kg"), damson())["Strength by the recipe"]
    this, that = (float(text.split()[0]) for text in (row.this, row.that))
    assert this - that == pytest.approx(1.32, abs=0.1)
    assert row.source == COMMON


def test_the_gravity_that_more_sugar_makes_is_that_of_the_us_rule_for_dissolved_sugar():
    # 27 CFR 24.181: 13.5 lb of sugar take up a gallon, 0.618 L/kg; a gram a litre of finished
    # must is so 1/0.9982 - 0.618 = 0.384 points. 21.13 g/L in the place of water: 8.1 points.
    row = rows(sugar("3.8 kg"), damson())["Gravity of the must"]
    assert float(row.this) - float(row.that) == pytest.approx(0.0081, abs=0.0011)
    # 3.45 kg are 2.6 g/L more, one point: no hydrometer tells them apart.
    assert "Gravity of the must" not in rows(sugar("3.45 kg"), damson())


def test_cups_and_grams_of_one_sugar_are_one_sugar():
    # A cup of white sugar weighs 200 g (USDA: cup, granulated): 17 cups are 3.4 kg.
    assert "White sugar" not in rows(sugar("17 cup US"), damson())


def test_a_fruit_in_the_place_of_another_is_another_fruit_and_not_less_of_it():
    plum = with_lines(FruitLine(id="fruit", fruit="plum", amount=Mass("9 kg"), form="frozen"))
    found = rows(plum, damson())
    assert found["Damsons"].this == "none"
    assert found["Damsons"].does == found["Plums"].does == INSTEAD["fruit"]
    less = with_lines(FruitLine(id="fruit", fruit="damson", amount=Mass("6 kg"), form="fresh"))
    found = rows(less, damson())
    assert found["Damsons"].does == EFFECTS["fruit"].less
    assert (found["Damsons, form"].this, found["Damsons, form"].that) == ("fresh", "frozen")


def test_additives_that_only_one_has_say_what_they_do():
    tannin = AdditiveLine(id="tannin", additive="grape-tannin", amount=Amount("3 g"))
    found = rows(with_lines(tannin), damson())
    assert list(found) == ["Grape tannin", "Tannin of the must"]
    # 3 g in 18.927 L.
    assert (found["Grape tannin"].this, found["Grape tannin"].that) == ("0.16 g/L", "none")
    assert found["Grape tannin"].does == EFFECTS["tannin"].more
    acid = AdditiveLine(id="acid", additive="tartaric-acid", amount=Amount("38 g"))
    # 38 g in 18.927 L raise the acidity by 2.0 g/L as tartaric.
    row = rows(with_lines(acid), damson())["Acidity of the must"]
    this, that = (float(text.split()[0]) for text in (row.this, row.that))
    assert this - that == pytest.approx(2.0, abs=0.11)


def test_a_yeast_is_told_by_its_packets_numbers():
    other = with_lines(YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=16.0))
    row = rows(other, damson())["Yeast"]
    assert (row.this, row.that) == ("to 16 %, 15–25 °C", "to 14 %, 15–25 °C")


def test_each_recipe_is_taken_as_it_was_made():
    made = damson(logged("sugar-water", sugar="3800"))
    assert "White sugar" not in rows(made, sugar("3.8 kg"))
    assert "White sugar" in rows(made, damson())
    assert "White sugar" not in rows(make_again(made, NOW), made)


# --- the fruit and its must -------------------------------------------------------------------


def test_fruit_measured_in_one_batch_only_is_no_difference_within_the_tables_range():
    # The damson table has 12 to 17 °Brix or so: a juice inside it says nothing of the recipe.
    measured = measured_damson(juice=Gravity("14 brix"))
    assert "Gravity of the must" not in rows(measured, damson())


def test_juices_measured_in_both_are_compared():
    ripe = measured_damson(juice=Gravity("17 brix"), acid_g_per_l=12.0, ph=3.3)
    found = rows(ripe, measured_damson(juice=Gravity("12 brix"), acid_g_per_l=18.0, ph=3.05))
    juice = found["Damsons, juice"]
    assert (juice.this, juice.that) == ("17.0 °Brix", "12.0 °Brix")
    assert found["Damsons, acid"].does == EFFECTS["juice-acid"].less
    assert found["Damsons, pH"].does == EFFECTS["juice-ph"].more
    same = measured_damson(juice=Gravity("17.3 brix"), acid_g_per_l=12.4, ph=3.35)
    assert rows(ripe, same) == {}


def test_cost_is_compared_where_the_same_things_have_a_price_in_the_same_money():
    def priced(price, money="EUR"):
        item = PantryItem(what="white-sugar", price=Price.of_number(price))
        return changed(damson(), pantry=(item,), money=money)

    (name,) = (what for what in rows(priced(2.0), priced(1.0)) if what.startswith("Cost"))
    assert name.startswith("Cost of a bottle in EUR without ")
    assert rows(priced(2.0), priced(1.0, "GBP")) == {}
    assert rows(priced(1.0), priced(1.0)) == {}


# --- properties -------------------------------------------------------------------------------


@given(batches())
@settings(max_examples=60, deadline=None)
def test_a_batch_does_not_differ_from_itself_or_from_itself_made_again(project):
    found = compare(project, project, NOW)
    assert found.differences == ()
    assert "Damsons" in found.alike
    again = compare(project, make_again(project, NOW), NOW)
    assert [each.what for each in again.differences if each.part == "recipe"] == []


@given(batches(), batches())
@settings(max_examples=60, deadline=None)
def test_the_other_way_round_the_same_things_differ(one, other):
    there, back = rows(one, other), rows(other, one)
    assert there.keys() == back.keys()
    for what, row in there.items():
        assert (row.this, row.that) == (back[what].that, back[what].this)


@pytest.mark.parametrize("name", sample_names())
def test_no_sample_differs_from_itself(name):
    found = compare(load_sample(name), load_sample(name), NOW)
    assert found.differences == ()
    assert len(found.alike) > 8


def test_every_effect_names_its_source():
    for effect in EFFECTS.values():
        assert effect.more
        assert effect.less
        assert effect.source
