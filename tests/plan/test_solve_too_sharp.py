"""Too much acid: what was added goes first, then water thins it or fruit is left out."""

import pytest

from tests.plan.recipes import WATER, additive, project, sugar, white
from tests.plan.test_solve import amount, applied, juice
from winebench.plan.balance import both_musts
from winebench.plan.solve import Ask, solve
from winebench.plan.solve.answer import solve_as_usual
from winebench.plan.solve.choices import usual


def sharp(*more, acid="10 g"):
    # 4 L of juice at 9 g/L hold 36 g of acid, and 10 g of tartaric come on top.
    return project(juice(acid=9.0), white("300 g"), additive("tartaric-acid", acid), *more,
                   basis="5 L")  # fmt: skip


def test_added_acid_goes_before_the_must_is_thinned():
    # 36 g at 6 g/L make 6 L without the powder; with its 10 g it would take 46 / 6 = 7.67 L.
    made = sharp(WATER)
    found = solve(made, Ask({"acidity": 6.0}, ("acid", "volume")))
    assert amount(found, "volume").exact == pytest.approx(6.0, abs=0.01)
    assert (amount(found, "acid").was, amount(found, "acid").becomes) == ("10 g", "none")
    after = applied(made, found)
    assert [line.id for line in after.recipe.lines] == ["apple-juice-unsweetened", "sugar", "water"]
    assert both_musts(after)[1].acid_g_per_l == pytest.approx(6.0, abs=0.02)
    assert not any("halves" in note for note in found.notes)


def test_added_acid_goes_before_fruit_is_left_out():
    # 5 L at 5.4 g/L are 27 g of acid: 3 L of that juice. With the 10 g it would be 1.9 L.
    made = sharp(WATER)
    found = solve(made, Ask({"acidity": 5.4, "gravity": 1.085}, ("fruit", "acid", "sugar")))
    assert amount(found, "acid").becomes == "none"
    assert amount(found, "fruit").becomes == "3 L"
    assert both_musts(applied(made, found))[1].acid_g_per_l == pytest.approx(5.4, abs=0.02)


def test_a_little_too_much_takes_only_some_of_it_out():
    # 46 g to 40 g in 5 L of 8 g/L: 6 g of the powder go, and nothing else changes.
    found = solve(sharp(WATER), Ask({"acidity": 8.0}, ("acid", "fruit")))
    assert amount(found, "acid").exact == pytest.approx(4.0, abs=0.05)
    assert [each.what for each in found.changes] == ["acid", "water"]  # filled to the mark


def test_what_may_not_change_stays_and_is_named():
    found = solve(sharp(WATER), Ask({"acidity": 6.0}, ("volume",)))
    assert amount(found, "volume").exact == pytest.approx(46.0 / 6.0, abs=0.02)
    assert "There are 10 g of tartaric acid in the recipe" in " ".join(found.notes)


def test_the_ways_out_of_a_fight_are_those_that_the_tick_then_gives():
    made = sharp(WATER)
    fight = solve(made, Ask({"acidity": 6.0}, ("acid",)))
    assert not fight.met
    assert "in 6.0 L" in fight.why_not  # as worked by hand above
    ticked = solve(made, Ask({"acidity": 6.0}, ("acid", "volume")))
    assert amount(ticked, "volume").exact == pytest.approx(6.0, abs=0.01)


def test_added_acid_is_asked_about_at_once_where_there_is_too_much():
    assert "acidity" in usual(sharp(WATER)).held
    assert "tartaric-acid" in usual(sharp(WATER)).change
    bare = project(juice(acid=9.0), sugar("white-sugar", "300 g"), WATER, basis="5 L")
    assert "acidity" not in usual(bare).held  # nothing was added that could go


def test_a_range_that_is_kept_anyway_is_no_fight():
    # 4 L at 7.6 g/L are over the 7.5 that a dark dry wine wants; with sugar to 1.091 the juice
    # grows to about 4.3 L, 30.4 / 4.3 = 7.1 g/L: nothing but the sugar has to change.
    made = project(juice(acid=7.6), white("10 g"), basis="4 L")
    ask, found = solve_as_usual(made, ("sugar", "volume"))
    assert list(ask.held) == ["gravity"]
    assert found.met
    assert both_musts(applied(made, found))[1].acid_g_per_l == pytest.approx(7.1, abs=0.1)
