"""Time to drink held while the amounts are found; reckoned by hand from the rule of months."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, additive, fruit, project, white
from winebench.model.recipe import Measured
from winebench.plan.compose import compose
from winebench.plan.solve import Ask, SolveError, solve, usual_values
from winebench.plan.solve.targets import read_value, typed_text
from winebench.units import Juice, UnitsError

# The rule (common practice): 6 months, 6 more for each 0.544 g/L of tannin (the mean red wine's:
# Harbertson 2008), one for each percent above 13 and one for each g/L of acid above 8.
LIGHT = project(white("600 g"), WATER, additive("grape-tannin", "2.06 g"), basis="3.7854 L")


def amount(found, what):
    return next(each for each in found.changes if each.what == what)


def after(made, found):
    assert found.met, found.why_not
    return found.edit.apply(made) if found.edit else made


def months(made):
    return compose(made).bottles.drink_from.value


def test_tannin_powder_is_found_for_a_time_to_drink():
    # 8 months is 2 beyond 6: 2 / 6 x 0.544 = 0.1813 g/L; in 3.785 L 0.6864 g, of powder with 0.7
    # of it tannin 0.981 g.
    found = solve(LIGHT, Ask({"drink": 8.0}, ("tannin",)))
    assert amount(found, "tannin").exact == pytest.approx(0.981, abs=0.002)
    assert months(after(LIGHT, found)) == pytest.approx(8.0, abs=0.01)


def test_a_strong_must_is_thinned_for_it():
    # 4.5 L that hold 900 g of sugar, which are 947.4 g once split (342.3 to 360.3 g/mol): at 13 %
    # 218.8 g/L (16.83 for each, EU) are 4.330 L. Ready in 7 months is one percent more: 14 %,
    # 235.6 g/L, 4.021 L. Sugar in water is 0.62 L/kg (27 CFR 24.181: 0.618 to 0.625).
    made = project(white("900 g"), WATER, basis="3 L")
    found = solve(made, Ask({"drink": 7.0}, ("volume",)))
    assert amount(found, "volume").exact == pytest.approx(4.021, abs=0.01)


def test_a_sharp_must_is_thinned_for_it():
    # 10 L of juice at 14 g/L, 12 °Brix and no tannin: 6 months and 6 for its acid. In 8 months it
    # is ready at 10 g/L: 14 L in all, volumes taken to add up: 4 L of water.
    juice = fruit("orange-juice-raw", "10 L", measured=Measured(
        juice=Juice("12 brix"), acid_g_per_l=14.0, tannin_mg_per_100_g=0.0))  # fmt: skip
    found = solve(project(juice), Ask({"drink": 8.0}, ("water",)))
    assert amount(found, "water").exact == pytest.approx(4.0, abs=0.05)


def test_what_is_ready_sooner_is_as_wanted():
    found = solve(LIGHT, Ask({"gravity": 1.080, "drink": 18.0}, ("sugar", "tannin")))
    assert amount(found, "sugar").exact > 600.0
    made = after(LIGHT, found)
    assert made.line("grape-tannin").amount.text == "2.06 g"  # no tannin only to make it slow
    assert months(made) < 18.0


def test_a_recipe_that_is_ready_by_then_is_left_as_it_is():
    found = solve(LIGHT, Ask({"drink": 18.0}, ("tannin",)))
    assert found.met
    assert found.edit is None
    assert "meets this as it stands" in found.notes[0]


def test_two_that_fight_are_named_with_how_far_they_are_apart():
    # 0.5 g/L of tannin asks for 6 x 0.5 / 0.544 = 5.5 months beyond the 6.
    found = solve(LIGHT, Ask({"tannin": 0.5, "drink": 8.0}, ("tannin",)))
    assert not found.met
    assert found.why_not == (
        "Tannin 0.50 g/L alone wants 11.5 months, not the 8 months wanted: hold the time to drink "
        "or the tannin, not both."
    )


def test_a_gravity_that_makes_it_too_strong_fights_with_it():
    # 1.130 of plain sugar water is 30.14 °Brix (NBS table), 340 g/L; 358 g once split, 21.3 %: 8.3
    # months for its strength beyond the 6.
    made = project(white("1 kg"), WATER, basis="4 L")
    found = solve(made, Ask({"gravity": 1.130, "drink": 9.0}, ("sugar",)))
    assert "time to drink" in found.why_not.lower()
    assert "gravity 1.130" in found.why_not
    assert float(found.why_not.split(" months")[0].split()[-1]) == pytest.approx(14.3, abs=0.15)


def test_no_wine_is_ready_before_a_light_one():
    with pytest.raises(SolveError, match="6 months to 120 months can"):
        solve(LIGHT, Ask({"drink": 3.0}, ("tannin",)))


def test_fruit_of_unknown_tannin_says_how_to_go_on():
    made = project(fruit("quince", "2 kg"), white("600 g"), WATER)
    with pytest.raises(SolveError, match=r"quinces is not known here: the time to drink.*F4"):
        solve(made, Ask({"drink": 9.0}, ("fruit",)))
    own = fruit("quince", "2 kg", measured=Measured(tannin_mg_per_100_g=90.0))
    found = solve(project(own, *made.recipe.lines[1:]), Ask({"drink": 9.0}, ("fruit",)))
    assert found.met


def test_it_is_asked_for_at_what_the_style_or_the_maker_wants():
    assert usual_values(LIGHT)["drink"] == 12.0  # half the 24 months of a dark dry wine
    assert typed_text(LIGHT, "drink", 12.0) == "12"
    assert read_value(LIGHT, "drink", "7,5") == 7.5
    with pytest.raises(UnitsError):
        read_value(LIGHT, "drink", "soon")


@settings(max_examples=60, deadline=None)
@given(
    st.floats(0.2, 1.2), st.floats(200.0, 1200.0), st.floats(4.0, 16.0), st.floats(6.5, 20.0),
    st.sampled_from(["water", "fruit", "tannin"]),
)  # fmt: skip
def test_solving_then_looking_returns_the_months(tannin, sugar, acid, wanted, change):
    berry = fruit("plum", "2 kg", measured=Measured(
        juice=Juice("14 brix"), acid_g_per_l=acid, tannin_mg_per_100_g=100.0 * tannin))  # fmt: skip
    lines = (berry, white(f"{sugar:.0f} g"), additive("grape-tannin", "1 g"))
    made = project(*lines, basis="5 L")
    found = solve(made, Ask({"drink": wanted}, (change,)))
    assume(found.met)
    then = after(made, found)
    # Of a must beyond 25 % the rule knows nothing: the style's months are told then.
    assume(all(compose(each).must.strength.value <= 25.0 for each in (made, then)))
    now, then = months(made), months(then)
    assert then == pytest.approx(min(now, wanted), abs=0.06)
