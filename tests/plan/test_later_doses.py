"""What goes in after the ferment is on the shopping list; amounts reckoned by hand beside each."""

from datetime import datetime, timedelta, timezone

import pytest

from tests.plan.recipes import WATER, YEAST, additive, fruit, project, white
from winebench.model.edits import changed
from winebench.model.log import Action, Reading
from winebench.model.recipe import Targets
from winebench.plan.shopping.text import LATER, shopping_lines
from winebench.plan.work_out import outlook
from winebench.units import Gravity

ZONE = timezone(timedelta(hours=2))
NOW = datetime(2026, 10, 10, 18, tzinfo=ZONE)
GALLON = (
    fruit("damson", "1.8 kg"),
    white("680 g"),
    WATER,
    additive("sulfite-tablet", "1 tablet"),
    YEAST,
)


def seen(*log, **fields):
    made = project(*GALLON, make="5 gal US", start=datetime(2026, 10, 1, 18, tzinfo=ZONE))
    return outlook(changed(made, log=log, **fields), NOW)


def later(found):
    return {dose.name: dose for dose in found.later}


def number(amount):
    return float(amount.split()[-2])


def test_before_the_ph_is_read_the_most_sulfite_that_may_be_wanted_is_bought():
    found = seen()
    litres = round(found.bottles.finished.value, 1)
    # 50 mg/L of SO2, of which potassium metabisulfite holds 57.63 % by its molar masses.
    assert later(found)["Potassium metabisulfite"].amount == (
        f"at most {50 * litres / 1000 / 0.5763:.1f} g"
    )
    assert later(found)["Potassium metabisulfite"].step == "stabilise"
    assert "the pH says how much" in later(found)["Potassium metabisulfite"].sentence


def test_a_ph_that_was_read_settles_the_sulfite_by_henderson_and_hasselbalch():
    found = seen(Reading(id="a", at=NOW - timedelta(days=1), gravity=Gravity("1.020"), ph=3.3))
    litres = round(found.bottles.finished.value, 1)
    free = 0.5 * (1 + 10 ** (3.3 - 1.81))  # 0.5 mg/L molecular, pK 1.81: common practice
    grams = round(free, 1) * litres / 1000 / 0.5763
    assert number(later(found)["Potassium metabisulfite"].amount) == pytest.approx(grams, abs=0.06)
    assert "by the pH that was read" in later(found)["Potassium metabisulfite"].sentence


def test_a_wine_that_stays_dry_gets_neither_sorbate_nor_sugar():
    assert set(later(seen())) == {"Potassium metabisulfite", "A fining"}


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


def test_what_is_done_or_not_wanted_any_more_is_no_longer_on_the_list():
    bottled = Action(id="b", at=NOW - timedelta(days=1), step="bottle")
    assert seen(bottled).later == ()


def test_the_list_as_text_ends_with_what_is_needed_later():
    lines = list(shopping_lines(seen()))
    at = lines.index(f"{LATER}:")
    assert lines[at + 1].startswith("- Potassium metabisulfite: at most ")
