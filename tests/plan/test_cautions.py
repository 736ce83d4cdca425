"""Cautions: each fires where it should, keeps still where it should, and its repair repairs."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import (
    GALLON,
    WATER,
    YEAST,
    additive,
    caution,
    cautions,
    fruit,
    project,
    sugar,
    water,
    white,
)
from winebench.model.recipe import Kitchen, Measured, Targets, YeastLine
from winebench.plan.compose import compose
from winebench.units import Amount, Gravity, Temperature

NUTRIENT = additive("yeast-nutrient", "1 tsp")
DAMSON = fruit("damson", "3 lb", form="frozen", prepared=True)
AIM = Targets(gravity_low=Gravity("1.088"), gravity_high=Gravity("1.094"))


def test_a_sound_recipe_has_little_said_of_it():
    made = project(DAMSON, white("1 lb 8 oz"), WATER, NUTRIENT, YEAST, targets=AIM)
    assert all(c.severity == "note" for c in compose(made).cautions)


def test_a_recipe_that_contradicts_its_target_says_so_with_the_amount():
    made = project(DAMSON, white("1 lb"), WATER, targets=AIM, make="5 gal")
    said = caution(made, "contradicts-target")
    assert said.about == "sugar"
    assert "not the 1.088–1.094 you wrote" in said.sentence
    assert said.detail.startswith("Add ")
    assert "to the batch for 1.091" in said.detail
    assert "less water" in said.detail
    sweet = project(DAMSON, white("3 lb"), WATER, targets=AIM)
    assert caution(sweet, "contradicts-target").detail.startswith("Leave out ")


@settings(max_examples=40, deadline=None)
@given(
    amount=st.sampled_from(["1 oz", "1 lb", "3 lb 4 oz", "200 g", "1.9 kg", "0 g"]),
    key=st.sampled_from(["white-sugar", "dextrose", "honey", "maple-syrup"]),
    last=st.sampled_from([WATER, water("2 L"), water("3 L")]),
    fed=st.booleans(),
)
def test_the_repair_takes_the_contradiction_away(amount, key, last, fed):
    lines = [DAMSON, sugar(key, amount), last]
    lines += [sugar("dextrose", "100 g", when="feed")] if fed and key != "dextrose" else []
    made = project(*lines, targets=AIM)
    said = caution(made, "contradicts-target")
    for repair in said.repairs if said else ():
        assert "contradicts-target" not in cautions(repair.edit.apply(made))


def test_a_recipe_without_sugar_is_repaired_with_a_new_line():
    made = project(DAMSON, WATER, targets=AIM)
    (repair,) = caution(made, "contradicts-target").repairs
    after = repair.edit.apply(made)
    assert len(after.recipe.lines) == 3
    assert "contradicts-target" not in cautions(after)


def test_nothing_is_left_out_that_is_not_there():
    grapes = fruit("grape-european-table-type", "4 L", "26 brix", form="juice")
    said = caution(project(grapes, targets=AIM), "contradicts-target")
    assert "Leave out" not in said.detail
    assert "more water" in said.detail
    assert not said.repairs
    little = caution(project(grapes, white("10 g"), targets=AIM), "contradicts-target")
    assert "Leave out" not in little.detail


def test_a_must_too_thin_or_too_sweet_holds_the_yeast():
    # common practice: yeast goes in between 1.070 and 1.110
    assert caution(project(DAMSON, WATER), "gravity-out-of-range").gates == "pitch"
    said = caution(project(DAMSON, white("4 lb"), WATER), "gravity-out-of-range")
    assert "likely to stick" in said.sentence
    assert "gravity-out-of-range" not in cautions(project(DAMSON, white("1.5 lb"), WATER))


def test_more_sugar_than_water_dissolves_is_told_as_that_and_nothing_else():
    # At 20 °C water dissolves sucrose to 66.7 % (CRC Handbook); the sucrose table ends at 84 %.
    made = project(DAMSON, white("9999999 kg"), WATER, NUTRIENT, YEAST, targets=AIM)
    found = [c for c in compose(made).cautions if c.severity in ("hold", "caution")]
    assert [(c.key, c.about) for c in found] == [("gravity-out-of-range", "sugar")]
    assert found[0].gates == "pitch"
    assert "9999999 kg of white sugar is more than the water" in found[0].sentence
    assert compose(made).must.strength.value is None
    assert compose(project(DAMSON, white("3 lb"), WATER)).must.strength.value is not None


def test_acidity_by_a_wide_table_is_a_note_and_by_ones_own_measure_a_caution():
    made = project(DAMSON, white("1.5 lb"), WATER)
    assert caution(made, "too-sharp").severity == "note"
    assert "by the table" in caution(made, "too-sharp").sentence
    own = Measured(juice=Gravity("15 brix"), acid_g_per_l=28.0, liquid_percent=90.0)
    sure = project(fruit("damson", "3 lb", measured=own), white("1.5 lb"), WATER)
    assert caution(sure, "too-sharp").severity == "caution"
    assert "by the table" not in caution(sure, "too-sharp").sentence
    flat = project(white("2 lb"), WATER)
    # 5.5 g/L wanted of 3.785 L: 20.8 g tartaric acid
    assert "21 g tartaric" in caution(flat, "too-little-acid").detail


def test_nitrogen_too_little_and_twice_over():
    assert "little-nitrogen" in cautions(project(DAMSON, white("1.5 lb"), WATER))
    assert "little-nitrogen" not in cautions(project(DAMSON, white("1.5 lb"), WATER, NUTRIENT))
    twice = project(
        DAMSON, white("1.5 lb"), WATER, NUTRIENT, additive("diammonium-phosphate", "1 1/2 tsp")
    )
    assert "two names" in caution(twice, "much-nitrogen").detail


def test_yeast_that_the_sugar_outgrows_and_a_room_that_it_does_not_like():
    def strong(tolerance, grams="1.7 lb", feed=()):
        yeast = YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=tolerance)
        return caution(project(DAMSON, white(grams), WATER, yeast, *feed), "yeast-too-weak")

    assert strong(11.0).severity == "caution"
    assert strong(18.0) is None
    feed = (sugar("dextrose", "1.2 lb", when="feed"),)
    assert strong(18.0, feed=feed).severity in ("note", "caution")
    cold = project(WATER, YEAST, room=Temperature("55 °F"))
    assert "55 °F" in caution(cold, "room-for-yeast").sentence
    assert "no-yeast" in cautions(project(WATER))


@pytest.mark.parametrize(
    ("stands_more", "severity"), [(-0.1, "caution"), (0.0, "note"), (0.9, "note"), (1.0, None)]
)
def test_a_must_within_one_percent_of_what_the_yeast_stands_gets_a_note(stands_more, severity):
    # Common practice: keep one percent in hand between the strength and what the packet stands.
    made = project(DAMSON, white("1.6 lb"), WATER)
    strong = round(compose(made).must.strength.value, 1)
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"),
                      tolerance_percent=round(strong + stands_more, 1))  # fmt: skip
    said = caution(project(*made.recipe.lines, yeast), "yeast-too-weak")
    assert (said.severity if said else None) == severity
    if said:
        near = "over" if severity == "caution" else "close to"
        assert f"{strong:.1f} %, {near} the {yeast.tolerance_percent:g} %" in said.sentence


def test_the_strength_s_workings_say_why_the_hydrometer_may_say_another():
    words = compose(project(DAMSON, white("1.6 lb"), WATER)).must.strength.workings.words
    assert "By the drop in gravity the same wine may come to half a percent or more beside" in words


def test_more_sulfite_than_usual_is_told_beside_its_line():
    # K2S2O5 is 222.31, two SO2 128.12 (IUPAC atomic weights): 57.63 %. A tablet of 0.44 g brings
    # 0.2536 g, in a US gallon of 3.785 L 67.0 mg/L: usual (30 to 75, common practice); two 134.0.
    one, two = (additive("sulfite-tablet", f"{n} tablets") for n in (1, 2))
    assert caution(project(WATER, white("2 lb"), one), "much-sulfite") is None
    said = caution(project(WATER, white("2 lb"), two), "much-sulfite")
    assert said.about == "sulfite-tablet"
    assert said.sentence.startswith("134 mg/L")


@pytest.mark.parametrize(
    ("key", "severity"),
    [("elderberry", "caution"), ("apricot", "caution"), ("rhubarb", "caution"),
     ("quandong", "caution"), ("damson", "note")],
)  # fmt: skip
def test_what_can_poison_is_a_caution(key, severity):
    assert caution(project(fruit(key, "1 kg"), WATER), "fruit-safety").severity == severity
    assert caution(project(fruit("blackberry", "1 kg"), WATER), "fruit-safety") is None


def test_a_fruit_of_ones_own_asks_to_be_measured_until_it_is():
    said = caution(project(fruit("quandong", "1 kg"), WATER), "measure-own-fruit")
    assert "gravity and acidity are guessed" in said.sentence
    half = caution(project(fruit("quandong", "1 kg", "11 brix"), WATER), "measure-own-fruit")
    assert "acidity is guessed" in half.sentence
    own = Measured(juice=Gravity("11 brix"), acid_g_per_l=9.0)
    whole = project(fruit("quandong", "1 kg", measured=own), WATER)
    assert caution(whole, "measure-own-fruit") is None
    assert caution(project(DAMSON, WATER), "measure-own-fruit") is None


def test_a_carton_may_hold_what_stops_yeast():
    for line in (fruit("apple", "1 L", form="juice"), fruit("apple-juice-unsweetened", "1 L"),
                 fruit("plum", "1 kg", form="canned")):  # fmt: skip
        assert "preservative" in cautions(project(line, WATER))
    assert "preservative" not in cautions(project(DAMSON, WATER))


def test_what_cannot_be_counted_as_written_is_told():
    assert "needs-label" in cautions(project(sugar("syrup", "1 lb"), WATER))
    assert "needs-label" in cautions(project(sugar("moonbeam", "1 lb"), WATER))
    labelled = project(sugar("syrup", "1 lb", solids_percent=67.0), WATER)
    assert "needs-label" not in cautions(labelled)
    assert "left out" in caution(project(white("2 packets"), WATER), "not-counted").sentence


def test_lines_that_make_another_volume_than_the_recipes_say_so():
    said = caution(project(white("1 kg"), water("6 L")), "volume-off")
    assert "more than the recipe's 1 gal US (3.8 L)" in said.sentence
    crowded = caution(project(fruit("damson", "9 kg"), WATER), "volume-off")
    assert "past the mark" in crowded.detail
    assert "volume-off" not in cautions(project(DAMSON, white("1.5 lb"), WATER))


def test_an_empty_recipe_has_nothing_said_of_it():
    assert compose(project()).cautions == ()


def test_water_that_is_not_written_yet_is_asked_for_before_any_sugar_is_left_out():
    made = project(DAMSON, white("2 lb"), YEAST, targets=AIM)
    said = caution(made, "contradicts-target")
    assert said.sentence.startswith("Without water this must reads 1.2")
    assert "Leave out" not in said.detail
    (repair,) = said.repairs
    filled = repair.edit.apply(made)
    assert compose(filled).must.liquid.value == pytest.approx(3.785, abs=0.01)


def test_sugar_to_the_target_that_the_yeast_cannot_stand_is_said():
    weak = YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=10)
    detail = caution(
        project(DAMSON, white("1 lb"), WATER, weak, targets=AIM), "contradicts-target"
    ).detail
    assert "and the yeast stands 10 %: take a stronger yeast, or want less." in detail
    strong = YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=16)
    fine = caution(
        project(DAMSON, white("1 lb"), WATER, strong, targets=AIM), "contradicts-target"
    ).detail
    assert "yeast stands" not in fine


def test_yeast_alone_contradicts_nothing():
    assert "contradicts-target" not in {c.key for c in compose(project(YEAST)).cautions}


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        (Measured(juice=Gravity("48 brix")), "48 °Brix is not what fruit gives (4 to 26)."),
        (Measured(ph=5.0), "5 as its pH is not what fruit gives (2.6 to 4.2)."),
        (Measured(acid_g_per_l=60.0), "60 g/L of acid is not what fruit gives (3 to 35)."),
    ],
)
def test_a_measure_that_no_fruit_gives_is_doubted(measured, said):
    # The bounds of the job's own table (common practice).
    made = project(fruit("damson", "3 lb", measured=measured), white("1 lb"), WATER)
    assert caution(made, "doubtful-measure").sentence == said


def test_fruit_without_pectic_enzyme_is_noted():
    bare = project(DAMSON, white("1 lb 8 oz"), WATER, YEAST)
    assert caution(bare, "no-pectic-enzyme").severity == "note"
    helped = project(DAMSON, white("1 lb 8 oz"), WATER, YEAST, additive("pectic-enzyme", "1/2 tsp"))
    assert "no-pectic-enzyme" not in {c.key for c in compose(helped).cautions}


def test_one_click_adds_the_nutrient_that_is_missing():
    """By hand: 1 g of nutrient brings 170 mg N (catalog); US limit 0.96 g/L (27 CFR 24.246)."""
    bare = project(DAMSON, white("1.5 lb"), WATER)
    (repair,) = caution(bare, "little-nitrogen").repairs
    mended = repair.edit.apply(bare)
    assert repair.label == "Add the nutrient"
    assert "little-nitrogen" not in cautions(mended)
    grams = mended.recipe.lines[-1].amount.grams()
    before, after = (compose(one).must.nitrogen.value for one in (bare, mended))
    assert after - before == pytest.approx(grams * 170.0 / 3.785, abs=1.5)
    assert grams <= 0.96 * 3.785 + 0.005  # of a rounded 0.01 g


def test_a_nutrient_that_is_too_little_is_raised_and_not_written_twice():
    bare = project(DAMSON, white("1.5 lb"), WATER, additive("diammonium-phosphate", "0.01 oz"))
    (repair,) = caution(bare, "little-nitrogen").repairs
    mended = repair.edit.apply(bare)
    assert len(mended.recipe.lines) == len(bare.recipe.lines)
    assert mended.recipe.lines[-1].amount.text.endswith("oz")
    assert "little-nitrogen" not in cautions(mended)


def test_one_click_adds_the_pectic_enzyme_that_is_missing():
    """Common practice: half a teaspoon (3.5 g each, catalog) in a US gallon is 1.75 g."""
    for by, written in (("spoon", "1/2 tsp"), ("scale", "1.75 g")):
        bare = project(DAMSON, white("1 lb 8 oz"), WATER, YEAST, kitchen=Kitchen(by=by))
        (repair,) = caution(bare, "no-pectic-enzyme").repairs
        mended = repair.edit.apply(bare)
        assert "no-pectic-enzyme" not in cautions(mended)
        assert mended.recipe.lines[-1].amount.text == written


def test_sorbate_on_the_recipe_is_told_to_be_for_the_end():
    found = compose(project(*GALLON, additive("potassium-sorbate", "1/2 tsp"))).cautions
    told = [one for one in found if one.key == "sorbate-for-the-end"]
    assert [one.severity for one in told] == ["note"]
    assert "in the must it would stop the yeast" in told[0].sentence
    assert not [x for x in compose(project(*GALLON)).cautions if x.key == "sorbate-for-the-end"]
