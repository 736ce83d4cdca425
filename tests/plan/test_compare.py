"""Two batches side by side: what differs, by hand, and what cannot be told apart."""

import pytest
from hypothesis import given, settings

from tests.plan.damson import LINES, PITCHED, STABLE, at, damson, read, ticked
from tests.plan.test_again import batches, logged, measured_damson
from winebench.model.edits import changed
from winebench.model.price import Price
from winebench.model.recipe import (
    AdditiveLine,
    FruitLine,
    Recipe,
    SugarLine,
    Targets,
    YeastLine,
)
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
    # Damsons as plums, 216 mg/100 g (from memory of Gu et al. 2004), 0.4 of it kept: 9 kg less 6 %
    # stones (USDA) in 18.93 L is 0.386 g/L, as 2 g of powder more, 0.7 of it tannin, is 0.46.
    more = with_lines(AdditiveLine(id="tannin", additive="grape-tannin", amount=Amount("2 g")))
    found = rows(more, damson())
    row = found["Tannin of the must"]
    assert (row.this, row.that) == ("0.46 g/L", "0.39 g/L")
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


# --- what happened ----------------------------------------------------------------------------

FERMENT = (
    ticked("pitch", "2026-10-02T18:00"),
    read("1.066", "2026-10-05T18:00", "24 °C"),
    read("1.024", "2026-10-09T18:00", "19 °C"),
    read("0.996", "2026-10-30T18:00+01:00"),
)


def fermented(*log, og="1.091"):
    return damson(read(og, "2026-10-02T17:00"), *log)


def test_days_to_a_gravity_lie_between_the_readings_round_it():
    # By hand: 1.066 on day 3, 1.024 on day 7; 1.030 is 36/42 of the way, so on day 6.4.
    # 1.000 is 24/28 of the way from day 7 to 28 October, 1 hour more than 21 days on: day 25.
    quick = fermented(
        ticked("pitch", "2026-10-02T18:00"),
        read("1.028", "2026-10-04T18:00", "24 °C"),
        read("0.996", "2026-10-06T18:00", "24 °C"),
    )
    found = rows(fermented(*FERMENT), quick)
    assert found["Days from the pitch to 1.030"].this == "6.4 (3.0–7.0)"
    assert found["Days from the pitch to 1.000"].this == "25.0 (7.0–28.0)"
    assert found["Days from the pitch to 1.030"].does.startswith("Slower")
    assert found["Days from the pitch to 1.000"].that == "3.8 (2.0–4.0)"


def test_a_reading_just_at_the_line_is_the_day_that_it_was_passed():
    # 1.030 read on day 4 after 1.080 on day 1.
    first, second = read("1.080", "2026-10-03T18:00"), read("1.030", "2026-10-06T18:00")
    last = read("1.010", "2026-10-08T18:00")
    quick = fermented(ticked("pitch", "2026-10-02T18:00"), first, second, last)
    late = fermented(
        ticked("pitch", "2026-10-02T18:00"),
        read("1.060", "2026-10-09T18:00"),
        read("1.010", "2026-10-14T18:00"),
    )
    row = rows(quick, late)["Days from the pitch to 1.030"]
    assert (row.this, row.that) == ("4.0 (1.0–4.0)", "10.0 (7.0–12.0)")


def test_crossings_that_the_readings_cannot_tell_apart_are_alike():
    later = tuple(changed(e, at=at("2026-10-05T06:00")) if e.id.startswith("1.066") else e
                  for e in FERMENT)  # fmt: skip
    found = compare(fermented(*FERMENT), fermented(*later), NOW)
    assert "Days from the pitch to 1.030" in found.alike
    assert found.differences == ()


@pytest.mark.parametrize(
    ("other", "differs"), [("1.091", False), ("1.094", False), ("1.096", True)]
)
def test_gravities_read_within_their_error_are_one_gravity(other, differs):
    # Each is read to two points (common practice): four points apart can be one must.
    found = rows(fermented(*FERMENT), fermented(*FERMENT, og=other))
    assert ("Original gravity, read" in found) is differs


def test_the_warmest_and_the_coolest_are_those_of_the_ferment():
    warm = tuple(changed(e, temperature=read("1.066", "2026-10-05T18:00", "30 °C").temperature)
                 if e.id.startswith("1.066") else e for e in FERMENT)  # fmt: skip
    cellar = read("0.996", "2027-01-30T18:00+01:00", "8 °C")
    found = rows(fermented(*warm, cellar), fermented(*FERMENT))
    assert (found["Warmest that was read"].this, found["Warmest that was read"].that) == (
        "30 °C", "24 °C")  # fmt: skip
    assert "Coolest that was read" not in found


def finished(score="4 of 5", stabilised="40", lost="0.5", bottled="0.993"):
    return damson(
        *STABLE,
        ticked("stabilise", "2026-11-22T10:00+01:00", **{"mg-per-l": stabilised}),
        changed(ticked("second-rack", "2026-11-22T11:00+01:00", before="17", after="16.6")),
        ticked("third-rack", "2026-12-22T11:00+01:00", lost=lost),
        ticked("bottle", "2027-01-10T11:00+01:00", gravity=bottled),
        ticked("first-taste", "2027-03-10T11:00+01:00", score=score, notes="plum skin"),
    )


def test_sulfite_is_added_up_over_the_life_of_the_wine():
    # Four tablets of 0.44 g, 57.6 % SO2 (molar masses), in 18.927 L: 53.6 mg/L; with 40 and 90
    # at the end 94 and 144.
    row = rows(finished(), finished(stabilised="90 mg/L"))["Sulfite added in all"]
    assert (row.this, row.that) == ("94 mg/L", "144 mg/L")


def test_losses_are_added_up_and_set_against_the_must():
    # 0.4 L and 0.5 L, or 2.5 L, of 18.9 L.
    row = rows(finished(lost="2.5 L"), finished())["Lost in racking"]
    assert (row.this, row.that) == ("2.9 L of 18.9 L", "0.9 L of 18.9 L")


def test_the_bottles_gravity_and_the_score_are_compared():
    found = rows(finished(score="2/5", bottled="1.008"), finished())
    assert found["Score at the first taste"].this == "2/5 – plum skin"
    assert found["Gravity in the bottle"].does == EFFECTS["sweetness"].more
    assert rows(finished(score="16 of 20"), finished(score="4/5")) == {}
    assert rows(finished(score="3.5/5"), finished(score="4/5")) == {}
    assert list(rows(finished(score="good"), finished(score="poor"))) == [
        "Score at the first taste"]  # fmt: skip


def test_what_only_one_batch_has_come_to_is_left_out():
    found = compare(finished(), damson(*PITCHED), NOW)
    assert {each.key for each in found.differences} == set()
    assert "Sulfite added in all" not in found.alike


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
