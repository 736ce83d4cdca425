"""A handed-down card as a whole: what its lines together cannot do, and the project it becomes."""

import re
from datetime import datetime, timedelta, timezone

import pytest

from tests.plan.recipes import WATER, fruit, project, white
from winebench.model.edits import changed
from winebench.plan.handed_down.into_project import card_edit, card_project
from winebench.plan.handed_down.judge import judged
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.work_out import outlook, recipe_outlook
from winebench.units import Amount

AT = datetime(2026, 10, 6, 18, 0, tzinfo=timezone(timedelta(hours=-4)))
GALLON_L = 3.785411784  # NIST Handbook 44


def read(card, **told):
    return judged(read_card(card, **told))


def row(reading, text):
    return next(each for each in reading.rows if each.item.text == text)


def said(reading, text):
    return " ".join(remark.sentence for remark in row(reading, text).remarks)


def ways(reading, text):
    return [way.text for remark in row(reading, text).remarks for way in remark.ways]


def crc_percent(density):
    """Return % sucrose of that density at 20 °C, between rows of the CRC Handbook's table
    (Concentrative Properties of Aqueous Solutions: 19 % 1.0766, 22 % 1.0899, 24 % 1.0990).
    """
    table = ((19.0, 1.0766), (22.0, 1.0899), (24.0, 1.0990))
    low, high = (table[0], table[1]) if density < 1.0899 else (table[1], table[2])
    return low[0] + (density - low[1]) / (high[1] - low[1]) * (high[0] - low[0])


def test_a_card_whose_sugar_cannot_give_its_gravity_says_so_at_the_sugar_with_the_repair():
    # Worked by hand with the CRC table and water of 0.99823 kg/L at 20 °C (CRC): for SG 1.085 the
    # must is 1.0831 kg/L and 20.47 % sugar, so a US gallon holds 839 g: 1 lb 13.6 oz. The card has
    # 2 lb = 907.2 g, 68 g too much; 239.7 g/L reads 1.092.
    density = 1.085 * 0.99823
    grams = density * 10 * crc_percent(density) * GALLON_L
    assert grams == pytest.approx(839, abs=1.0)
    reading = read("2 lb sugar, water to 1 gallon, SG 1.085, 1 packet yeast", gallon="US")
    assert "will read 1.092, not the 1.085 you wrote" in said(reading, "2 lb sugar")
    assert row(reading, "2 lb sugar").state == "look"
    (repair,) = ways(reading, "2 lb sugar")
    amount = Amount(repair.removesuffix(" white sugar"))
    assert amount.grams() == pytest.approx(grams, abs=4.0)
    mended = read(f"{repair}, water to 1 gallon, SG 1.085, 1 packet yeast", gallon="US")
    assert row(mended, repair).state == "read"


def test_a_card_without_sugar_is_told_how_much_to_add_on_a_line_of_its_own():
    reading = read("4 lb damsons, water to 1 gallon, SG 1.090, yeast", gallon="US")
    (way,) = [w for r in row(reading, "SG 1.090").remarks for w in r.ways if w.apart]
    mended = read(f"{way.text}\n{reading.text}", gallon="US")
    assert "will read" not in " ".join(r.sentence for each in mended.rows for r in each.remarks)


def test_nothing_is_said_of_the_whole_while_something_is_open():
    reading = read("3 lb moonberries, 2 lb sugar, water to 4.5 L, SG 1.085")
    assert "will read" not in said(reading, "2 lb sugar")
    answered = read(reading.text, answers={"moonberries": "fruit"})
    assert "will read" in said(answered, "2 lb sugar")


def test_a_card_that_names_no_gravity_is_not_measured_by_a_style_it_never_named():
    reading = read("3 lb plums, 1 lb 12 oz sugar, water to 4.5 L, 1 packet yeast")
    assert [each.state for each in reading.rows] == ["read"] * 4
    assert reading.remarks == ()


def test_a_strength_that_the_gravities_cannot_make_says_so():
    # 131.25 x (1.085 - 1.010) = 9.8 % by the common relation; the published ones part by half
    # a percent.
    reading = read("SG 1.085, FG 1.010, 15 % abv")
    sentence = said(reading, "15 % abv")
    assert "not 15 %" in sentence
    assert float(re.search(r"about ([\d.]+) %", sentence)[1]) == pytest.approx(9.8, abs=0.5)
    assert read("SG 1.085, FG 1.010, 10 % abv").rows[2].remarks == ()


def test_a_figure_given_twice_is_wrong_until_one_of_them_goes():
    reading = read("Makes 5 L\n2 lb sugar\nwater to 4.5 L")
    assert row(reading, "water to 4.5 L").state == "wrong"
    assert ways(reading, "water to 4.5 L") == [""]
    assert not read("Makes 4.5 L\n2 lb sugar\nwater to 4.5 L").is_open


def test_a_volume_of_nothing_is_wrong_beside_another_and_alone():
    for makes in ("makes 1 gal\n", ""):
        reading = read(f"{makes}4 lb plums\nwater to 0 gal", gallon="US")
        assert row(reading, "water to 0 gal").state == "wrong"


def test_what_only_the_method_names_is_said_so_that_it_is_not_missed():
    card = "3 lb plums\nMethod\nPour on water to 4.5 L. Stir in 2 lb of sugar and the 3 lb plums."
    reading = read(card)
    found = reading.rows[-1]
    assert [way.text for r in found.remarks for way in r.ways] == [
        "water to 4.5 L",
        "2 lb of sugar",
    ]
    assert found.kind == "method"


def test_water_by_the_measure_gives_the_volume_that_the_card_does_not_say():
    reading = read("2 lb sugar, 4 L water, yeast")
    (remark,) = reading.remarks
    # 907 g of sugar takes up 0.62 L a kilogram (ICUMSA densities; 27 CFR 24.181): 4.56 L.
    assert remark.sentence.startswith(
        "The card does not say how much it makes; its lines make 4.6 L"
    )
    assert card_project(reading).recipe.basis.text == "4.6 L"


def test_the_project_of_a_card_is_the_one_that_its_lines_would_make_by_hand():
    reading = read("3 lb plums, 2 lb sugar, water to 1 gallon", gallon="US")
    by_hand = project(fruit("plum", "3 lb"), white("2 lb"), WATER)
    card, hand = recipe_outlook(card_project(reading)), recipe_outlook(by_hand)
    assert card.must.gravity.value == hand.must.gravity.value
    assert card.must.acidity.value == hand.must.acidity.value


# --- the edit -------------------------------------------------------------------------------

CARD = "Aunt's plum wine\n3 lb plums, 2 lb sugar, water to 1 gallon, SG 1.085\nStir daily."


def test_a_card_fills_an_empty_project_in_one_edit():
    edit = card_edit(read(CARD, gallon="US"), project(basis="5 L"), AT)
    made = edit.apply(project(basis="5 L"))
    assert made.name == "Aunt's plum wine"
    assert (made.recipe.basis.text, made.make.size.text) == ("1 gallon", "1 gallon")
    assert made.recipe.targets.gravity_low.text == "1.085"
    assert len({line.id for line in made.recipe.lines}) == 3
    assert [note.text for note in made.notes] == ["Stir daily."]
    assert outlook(made, AT).make_text == "1 gallon US"


def test_a_card_added_to_a_recipe_leaves_its_lines_name_and_size():
    before = project(fruit("damson", "4 lb"), WATER, make="5 gal")
    made = card_edit(read(CARD, gallon="US"), before, AT).apply(before)
    assert (made.name, made.make, made.recipe.basis) == (
        before.name, before.make, before.recipe.basis,
    )  # fmt: skip
    assert made.recipe.lines[:2] == before.recipe.lines
    assert len(made.recipe.lines) == 5
    assert made.notes[0].text == "Aunt's plum wine\nStir daily."
    twice = card_edit(read(CARD, gallon="US"), made, AT).apply(made)
    assert len({line.id for line in twice.recipe.lines}) == 8


def test_a_card_of_the_other_country_keeps_its_own_gallons():
    before = project(fruit("damson", "4 lb"), WATER, gallon="US")
    made = card_edit(read("2 pints grape juice", gallon="imperial"), before, AT).apply(before)
    assert made.gallon == "US"
    assert made.recipe.lines[-1].amount.litres(made.gallon) == pytest.approx(2 * 4.54609 / 8)


def test_a_project_without_a_country_takes_the_cards():
    before = changed(project(basis="5 L"), gallon=None)
    assert (
        card_edit(read("3 pints water", gallon="imperial"), before, AT).apply(before).gallon
        == "imperial"
    )


def test_what_is_still_open_goes_into_the_note_with_a_question_mark():
    made = card_edit(read("3 lb plums\n3 lb moonberries"), project(basis="5 L"), AT).apply(
        project(basis="5 L")
    )
    assert made.notes[0].text == "? 3 lb moonberries"
    assert len(made.recipe.lines) == 1
