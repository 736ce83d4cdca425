"""What goes in after the ferment is on the shopping list; amounts reckoned by hand beside each."""

import math
from datetime import datetime, timedelta, timezone

import pytest

from tests.plan.recipes import GALLON, additive, project
from tests.plan.test_shopping import stock
from winebench.model.edits import changed
from winebench.model.log import Action, Reading
from winebench.model.recipe import Targets
from winebench.plan.shopping.text import LATER, note_of, shopping_lines, to_buy
from winebench.plan.work_out import outlook
from winebench.units import Gravity

ZONE = timezone(timedelta(hours=2))
NOW = datetime(2026, 10, 10, 18, tzinfo=ZONE)
BY_POWDER = tuple(line for line in GALLON if line.id != "sulfite-tablet")


def seen(*log, lines=GALLON, make="5 gal US", **fields):
    made = project(*lines, make=make, start=datetime(2026, 10, 1, 18, tzinfo=ZONE))
    return outlook(changed(made, log=log, **fields), NOW)


def later(found):
    return {dose.name: dose for dose in found.later}


def number(amount):
    return float(amount.split()[-2])


def test_before_the_ph_is_read_the_most_sulfite_that_may_be_wanted_is_bought():
    found = seen(lines=BY_POWDER)
    litres = round(found.bottles.finished.value, 1)
    # 50 mg/L of SO2, of which potassium metabisulfite holds 57.63 % by its molar masses.
    dose = later(found)["Potassium metabisulfite"]
    assert dose.amount == f"at most {50 * litres / 1000 / 0.5763:.2f} g"
    assert dose.step == "stabilise"
    assert "the pH says how much" in dose.sentence


def test_a_household_that_uses_tablets_is_told_tablets():
    found = seen()
    dose = later(found)["Sulfite tablets"]
    # 16.1 L x 50 mg/L / 0.5763 = 1.40 g, at 0.44 g each 3.2 tablets: 3, which is 5 % less.
    assert dose.needed == 3.0
    assert (dose.amount, dose.measure) == ("at most 1.40 g", "3 tablets, −5 %")
    assert dose.buy_text == "3 tablets"
    assert "Potassium metabisulfite" not in later(found)


def test_a_dose_too_small_for_halves_of_tablets_or_spoons_is_measured_as_a_stock():
    # One US gallon leaves 3.01 L: 3.0 x 50 / 0.5763 = 0.26 g, at 0.44 g each 0.59 tablets. Half
    # is 15.5 % too little, over the 15 %. Ten per cent is 0.1 g in a mL: 2.6 mL.
    dose = later(seen(make="1 gal US"))["Sulfite tablets"]
    assert dose.measure == "crush and weigh 0.26 g, or 2.6 mL of a 10 % stock"
    assert note_of(dose, NOW.date()).startswith("Crush and weigh 0.26 g")
    assert dose.buy_text == "1 tablet"
    # 10 g at 5.9 g a spoon are 1.69 spoons: 1 3/4 is nearest with eighths (1.625 is 4 % short).
    assert dose.notes[0].startswith(
        "10 % stock: 10 g (1 3/4 tsp) dissolved in water to make 100 mL"
    )
    powder = later(seen(make="1 gal US", lines=BY_POWDER))["Potassium metabisulfite"]
    assert powder.measure == "weigh 0.26 g on a finer scale, or 2.6 mL of a 10 % stock"


def test_a_ph_that_was_read_settles_the_sulfite_by_henderson_and_hasselbalch():
    read = Reading(id="a", at=NOW - timedelta(days=1), gravity=Gravity("1.020"), ph=3.3)
    found = seen(read, lines=BY_POWDER)
    litres = round(found.bottles.finished.value, 1)
    free = 0.5 * (1 + 10 ** (3.3 - 1.81))  # 0.5 mg/L molecular, pK 1.81: common practice
    grams = round(free, 1) * litres / 1000 / 0.5763
    dose = later(found)["Potassium metabisulfite"]
    assert number(dose.amount) == pytest.approx(grams, abs=0.06)
    assert "by the pH that was read" in dose.sentence


def test_as_much_sulfite_of_sodium_is_less_powder():
    # SO2 in sodium metabisulfite 67.4 %, in potassium's 57.63 %: molar masses.
    sodium = (*BY_POWDER, additive("sodium-metabisulfite", "1 g"))
    mine = later(seen(lines=sodium))["Sodium metabisulfite"].needed
    usual = later(seen(lines=BY_POWDER))["Potassium metabisulfite"].needed
    assert mine / usual == pytest.approx(0.5763 / 0.674, rel=1e-3)


def test_a_wine_that_stays_dry_gets_neither_sorbate_nor_sugar():
    assert set(later(seen())) == {"Sulfite tablets", "A fining"}


# --- what is in stock, and what the rest of the list leaves over ------------------------------


def test_what_is_left_of_the_pack_counts_for_what_comes_later():
    # 5 tablets go into the must and 3 come later: one pack of 100 leaves 95, then 92.
    tablets = stock("sulfite-tablet", pack="100 tablets", price=5.0)
    dose = later(seen(pantry=(tablets,)))["Sulfite tablets"]
    assert (dose.stock_text, dose.buy_text, dose.left_text) == (
        "95 tablets left over", "", "92 tablets"
    )  # fmt: skip
    # At 5.00 a hundred, 8 tablets of the wine are 0.40; all of the 5.00 is to spend.
    cost = seen(pantry=(tablets,)).bottles.cost
    assert cost.to_spend == pytest.approx(5.0)
    assert cost.used == pytest.approx(0.40)
    assert cost.from_stock == pytest.approx(0.0)


def test_tablets_in_the_pantry_are_used_where_the_recipe_names_no_sulfite():
    found = seen(lines=BY_POWDER, pantry=(stock("sulfite-tablet", have="20 tablets", price=0.05),))
    dose = later(found)["Sulfite tablets"]
    assert (dose.stock, dose.buy) == (20.0, 0.0)
    assert found.bottles.cost.from_stock == pytest.approx(3 * 0.05)


def test_a_fining_may_be_left_out_and_bentonite_on_the_shelf_is_told_by_weight():
    assert later(seen())["A fining"].suggested
    assert "A fining" not in later(seen(pantry=(stock("fining", left_out=True),)))
    found = seen(pantry=(stock("bentonite", have="100 g"),))
    litres = round(found.bottles.finished.value, 1)
    dose = later(found)["Bentonite"]
    assert dose.needed == pytest.approx(0.5 * litres)  # 0.5 g/L: common practice
    assert dose.left == pytest.approx(100 - 0.5 * litres)


def test_a_sweet_wine_gets_sorbate_and_the_sugar_of_the_mass_balance():
    made = project(*GALLON, make="5 gal US", start=datetime(2026, 10, 1, 18, tzinfo=ZONE))
    recipe = changed(made.recipe, targets=Targets(final_gravity=Gravity("1.010")))
    found = outlook(changed(made, recipe=recipe), NOW)
    litres = round(found.bottles.finished.value, 1)
    dry = round(found.must.dry_gravity.value, 3)
    # rho V + m = rho' (V + 0.617 m): water at 20 degC has 0.9982 kg/L.
    kilograms = 0.9982 * litres * (1.010 - dry) / (1 - 0.617 * 0.9982 * 1.010)
    amount = later(found)["White sugar"].amount
    grams = number(amount) * (1000 if amount.endswith("kg") else 1)
    assert grams == pytest.approx(1000 * kilograms, rel=0.01)
    assert "Potassium sorbate" in later(found)


def test_sugar_to_sweeten_comes_from_what_the_packs_leave_over():
    # 3.4 kg of the recipe from four packs of 1 kg leave 600 g; the rest is bought in packs too.
    made = project(*GALLON, make="5 gal US", start=datetime(2026, 10, 1, 18, tzinfo=ZONE),
                   pantry=(stock("white-sugar", pack="1 kg", price=1.2),),
                   targets=Targets(final_gravity=Gravity("1.010")))  # fmt: skip
    dose = later(outlook(made, NOW))["White sugar"]
    assert dose.stock == pytest.approx(600, abs=0.5)
    assert dose.had == "600 g left over"
    assert dose.packs == math.ceil((dose.needed - 600) / 1000 - 1e-9)
    cost = outlook(made, NOW).bottles.cost
    # 4 packs of 1.20, and what is missing for the sweetening; all that goes in is at 1.20 a kg
    assert cost.to_spend == pytest.approx(1.2 * (4 + dose.packs))
    assert cost.used == pytest.approx(1.2 * (3.4 + dose.needed / 1000), rel=1e-6)


def test_what_is_done_or_not_wanted_any_more_is_no_longer_on_the_list():
    bottled = Action(id="b", at=NOW - timedelta(days=1), step="bottle")
    assert seen(bottled).later == ()


def test_the_list_as_text_ends_with_what_is_needed_later():
    lines = list(shopping_lines(seen()))
    at = lines.index(f"{LATER}:")
    assert lines[at + 1].startswith("- Sulfite tablets: at most 1.40 g (3 tablets, −5 %) for “Stab")
    assert lines[at + 1].endswith("; to buy 3 tablets.")


def test_sorbate_of_the_recipe_is_that_of_the_end_and_is_not_bought_twice():
    # Half a teaspoon a gallon; the sorbate of a recipe never goes into the must.
    lines = (*GALLON, additive("potassium-sorbate", "1/2 tsp"))
    sweet = {"recipe": changed(project(*lines).recipe, style="sweet")}
    found = seen(lines=lines, pantry=(stock("potassium-sorbate", price=40.0),), **sweet)
    made = seen(lines=lines, pantry=(stock("potassium-sorbate", pack="50 g", price=2.0),), **sweet)
    dose = later(found)["Potassium sorbate"]
    listed = next(item for item in found.shopping if item.what == "potassium-sorbate")
    assert dose.needed < listed.needed
    assert (dose.had, dose.buy_text, dose.cost_used) == (
        f"{listed.need.split(' (')[0]} on the list already",
        "",
        0.0,
    )
    assert later(made)["Potassium sorbate"].buy_text == ""


def test_what_has_lost_its_strength_is_bought_fresh_for_later_too():
    tub = stock("sulfite-tablet", have="100 tablets", opened="March 2024")
    found = seen(pantry=(tub,))
    dose = later(found)["Sulfite tablets"]
    # 5 of 100 go into the must, by number; by strength none of them does (common practice).
    assert (dose.had, dose.buy_text) == ("95 tablets left over", "")
    assert to_buy(dose, NOW.date()) == "fresh, at most 1.40 g"
    lines = list(shopping_lines(found))
    assert any(
        line.endswith("; 95 tablets left over, to buy fresh, at most 1.40 g.") for line in lines
    )
    assert sum("It is past that: buy fresh." in line for line in lines) == 1
