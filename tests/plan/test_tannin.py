"""Tannin of the must, worked by hand from published figures; what it asks for, and the ways out."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import (
    WATER,
    additive,
    caution,
    cautions,
    composed_line,
    fruit,
    project,
    white,
)
from winebench.model.recipe import Targets
from winebench.plan.compose import compose
from winebench.plan.solve import Ask, SolveError, solve, usual_values

GALLON_L = 3.785411784


def want(made):
    return next(each for each in compose(made).must.wants if each.key == "tannin")


def tannin(made):
    return want(made).actual


def must(key, amount="1 kg", *lines, **fields):
    form = fields.pop("form", "fresh")
    return project(fruit(key, amount, form=form, prepared=True), white("700 g"), WATER, *lines,
                   **fields)  # fmt: skip


@pytest.mark.parametrize(
    ("key", "mg", "low", "high"),
    [
        # Gu et al., J. Nutr. 134:613 (2004), table 1, mg in 100 g and one deviation either way.
        ("strawberry", 145.0, 120.1, 201.4), ("black-currant", 147.8, 114.8, 180.8),
        ("cranberry", 418.8, 343.5, 494.1), ("blackberry", 27.0, 9.5, 113.1),
        # Wu et al., J. Agric. Food Chem. 52:7846 (2004): 23 mg/100 g in elderberries.
        ("elderberry", 23.0, 15.0, 57.0),
    ],
)  # fmt: skip
def test_fruit_brings_four_tenths_of_its_published_tannin(key, mg, low, high):
    # Of 1 kg in a US gallon a wine keeps 0.4 (0.2 to 0.7): from memory of grapes.
    found = tannin(must(key))
    assert found.value == pytest.approx(mg / 100.0 * 0.4 / GALLON_L, rel=0.02)
    assert found.low == pytest.approx(low / 100.0 * 0.2 / GALLON_L, rel=0.06)
    assert found.high == pytest.approx(high / 100.0 * 0.7 / GALLON_L, rel=0.02)
    assert "laboratories' methods fivefold" in found.workings.words


def test_pressed_juice_brings_less_than_its_fruit():
    pulp, pressed = (tannin(must("pear", form=form)) for form in ("fresh", "juice"))
    assert pressed.value < pulp.value
    assert pressed.low < pulp.low
    # By hand, of 32.7 mg/100 g (USDA 2015): 0.4 and 0.2 of it in a US gallon.
    assert pulp.value == pytest.approx(0.327 * 0.4 / GALLON_L, rel=0.015)
    assert pressed.value == pytest.approx(0.327 * 0.2 / GALLON_L, rel=0.015)


def test_powder_counts_for_what_is_tannin_in_it():
    # By hand: 1 g of powder, 0.7 (0.5 to 0.9) of it tannin, in a US gallon.
    found = tannin(project(white("700 g"), WATER, additive("grape-tannin", "1 g")))
    assert found.value == pytest.approx(0.7 / GALLON_L, rel=1e-4)
    assert (found.low, found.high) == (
        pytest.approx(0.5 / GALLON_L, rel=1e-4),
        pytest.approx(0.9 / GALLON_L, rel=1e-4),
    )
    assert "0.7 (0.5 to 0.9) of tannin powder" in found.workings.words


def test_what_no_source_has_is_not_known_and_says_so():
    found = tannin(must("loganberry"))
    assert (found.value, found.text) == (None, "not known here")
    assert "Of loganberries no published figure is known here" in found.workings.words
    quince = tannin(must("quince"))
    assert quince.value is None
    assert "Common practice counts quinces rich" in quince.workings.words
    # One unknown fruit makes the whole unknown: half a sum is no sum.
    both = project(fruit("plum", "1 kg"), fruit("loganberry", "1 kg"), white("700 g"), WATER)
    assert tannin(both).value is None
    # Drying binds tannin, and how much is not known here.
    assert tannin(must("apricot", form="dried")).value is None


def test_a_figure_from_memory_says_that_it_is():
    assert (
        "from memory: Wu et al., J. Agric. Food Chem. 52:7846 (2004), its table not opened"
        in tannin(must("red-currant")).workings.source
    )
    assert tannin(must("strawberry")).workings.source.startswith("Gu et al., J. Nutr. 134:613")


def test_the_style_wants_what_red_wines_have_and_the_maker_what_they_write():
    # Harbertson 2008: 1,325 red wines, 0.544 g/L with a standard deviation of 0.293.
    found = want(must("plum"))
    assert (found.want_low, found.want_high) == (
        pytest.approx(0.544 - 0.293, abs=0.01), pytest.approx(0.544 + 0.293, abs=0.02),
    )  # fmt: skip
    assert found.want_text == "want 0.25–0.85"
    # The mean of their lightest, Pinot noir, is 0.348: a light fruit wine wants no more.
    assert want(must("plum", style="light-dry")).want_high == pytest.approx(0.348, abs=0.005)
    own = Targets(tannin_low_g_per_l=0.1, tannin_high_g_per_l=0.2)
    assert want(must("plum", targets=own)).want_text == "want 0.1–0.2"


def test_a_thin_must_is_given_its_powder_in_grams_and_spoons():
    made = must("peach", "500 g", style="dark-medium", make="5 gal US")
    said = caution(made, "little-tannin")
    # By hand: 0.5 kg x 0.62 g/kg x 0.4 in a gallon is 0.0328 g/L; 0.15 lack 0.1172 g/L, in 18.93 L
    # and with 0.7 of the powder tannin 3.17 g for the batch, 1 1/4 teaspoons of 2.5 g.
    assert "below the 0.15 wanted" in said.sentence
    assert "3.2 g grape tannin to the batch (1 1/4 tsp) raises it" in said.detail
    (repair,) = said.repairs
    after = repair.edit.apply(made)
    assert "little-tannin" not in cautions(after)
    assert tannin(after).value == pytest.approx(0.15, abs=0.005)


@settings(max_examples=30, deadline=None)
@given(
    key=st.sampled_from(["peach", "raspberry", "pineapple", "apricot", "kiwifruit"]),
    grams=st.integers(100, 1500),
    powder=st.sampled_from(["", "0.2 g", "1/8 tsp"]),
    style=st.sampled_from(["dark-dry", "dark-medium", "light-dry", "sweet"]),
)
def test_the_repair_adds_no_more_than_is_usual(key, grams, powder, style):
    lines = [additive("grape-tannin", powder)] if powder else []
    made = must(key, f"{grams} g", *lines, style=style)
    said = caution(made, "little-tannin")
    for repair in said.repairs if said else ():
        after = repair.edit.apply(made)
        assert "much-tannin-powder" not in cautions(after)
        assert tannin(after).value > tannin(made).value
        # Common practice: at most half a teaspoon, of 2.5 g, in a US gallon.
        assert composed_line(after, after.recipe.lines[-1].id).scaled.value <= 1.26


@pytest.mark.parametrize("key", ["elderberry", "blackberry", "grape-european-table-type", "quince"])
def test_powder_on_fruit_that_is_rich_is_told_beside_it(key):
    # Common practice: none where the fruit brings its own.
    made = must(key, "1 kg", additive("grape-tannin", "1/4 tsp"))
    said = caution(made, "tannin-on-rich-fruit")
    assert (said.about, said.severity) == ("grape-tannin", "caution")
    (repair,) = said.repairs
    after = repair.edit.apply(made)
    assert all(line.id != "grape-tannin" for line in after.recipe.lines)
    assert "tannin-on-rich-fruit" not in cautions(must(key))
    assert "little-tannin" not in cautions(must(key))


def test_where_practice_and_laboratories_differ_both_are_told():
    said = caution(must("elderberry"), "tannin-by-practice")
    assert said.severity == "note"
    assert "practice counts elderberries rich: taste before you add any" in said.sentence
    pressed = must("blackberry", "1 kg", additive("grape-tannin", "1/4 tsp"), form="juice")
    assert "tannin-on-rich-fruit" not in cautions(pressed)


def test_more_powder_than_usual_is_told_and_set_right():
    # Common practice: up to half a teaspoon, of 2.5 g, in a US gallon.
    made = must("peach", "500 g", additive("grape-tannin", "1 tsp"))
    said = caution(made, "much-tannin-powder")
    assert "1.25 g for the recipe" in said.sentence
    assert "much-tannin-powder" not in cautions(said.repairs[0].edit.apply(made))
    assert "much-tannin-powder" not in cautions(
        must("peach", "500 g", additive("grape-tannin", "1/2 tsp"))
    )


def test_a_tannic_must_for_a_light_wine_is_a_note_while_its_range_is_wide():
    said = caution(must("cranberry", "1.5 kg", style="light-dry"), "much-tannin")
    assert said.severity == "note"
    assert "above the 0.35 wanted" in said.sentence
    narrow = Targets(tannin_low_g_per_l=0.0, tannin_high_g_per_l=0.05)
    sure = must("cranberry", "1.5 kg", style="light-dry", targets=narrow)
    assert caution(sure, "much-tannin").severity == "caution"


def test_a_recipe_without_water_or_fruit_has_no_word_of_tannin():
    assert not {"little-tannin", "much-tannin"} & set(cautions(project(fruit("plum", "0 g"))))


# --- solved for -------------------------------------------------------------------------


def amount(found, what):
    return next(each for each in found.changes if each.what == what)


def test_powder_is_what_can_be_solved_for():
    # By hand: 1 kg of plums in 5 L brings 0.788 g, 0.1576 g/L; to 0.25 lack 0.0924 x 5 / 0.7 g.
    made = project(fruit("plum", "1 kg", prepared=True), white("900 g"), WATER, basis="5 L")
    assert usual_values(made)["tannin"] == 0.25
    found = solve(made, Ask({"tannin": 0.25}, ("tannin",)))
    assert amount(found, "tannin").exact == pytest.approx(0.0924 * 5.0 / 0.7, abs=0.005)
    assert (amount(found, "tannin").name, amount(found, "tannin").was) == ("Grape tannin", "none")
    assert tannin(found.edit.apply(made)).value == pytest.approx(0.25, abs=0.005)
    assert any("by halves" in note for note in found.notes)


def test_fruit_and_water_are_solved_for_by_tannin_too():
    # By hand: 1.97 g/kg x 0.4 is 0.788 g/kg: 0.3 g/L in 5 L wants 1.904 kg of plums.
    made = project(fruit("plum", "1 kg", prepared=True), white("900 g"), WATER, basis="5 L")
    found = solve(made, Ask({"tannin": 0.3, "gravity": 1.09}, ("fruit", "sugar")))
    assert amount(found, "fruit").exact == pytest.approx(1904.0, abs=2.0)
    spooned = project(*made.recipe.lines, additive("grape-tannin", "1/4 tsp"), basis="5 L")
    named = solve(spooned, Ask({"tannin": 0.3}, ("grape-tannin",)))
    assert "tsp" in amount(named, "tannin").becomes


def test_tannin_that_fights_is_told_with_the_other():
    made = project(fruit("plum", "1 kg", prepared=True), white("900 g"), WATER, basis="5 L")
    found = solve(made, Ask({"tannin": 0.05, "acidity": 6.0}, ("tannin", "acid")))
    assert not found.met
    assert "no tannin powder, tannin cannot go under 0.16 g/L" in found.why_not
    assert "ask for another tannin, or let the volume change" in found.why_not


def test_unknown_tannin_is_not_solved_for():
    with pytest.raises(SolveError, match="tannin of loganberries is not known here"):
        solve(must("loganberry"), Ask({"tannin": 0.3}, ("tannin",)))
    gravity = solve(must("loganberry"), Ask({"gravity": 1.085}, ("sugar",)))
    assert gravity.met
    assert next(f for f in gravity.figures if f.key == "tannin").after.value is None
