"""Time to drink: what the must suggests beside what is wanted, by hand from common practice."""

import pytest

from tests.plan.recipes import WATER, YEAST, additive, caution, cautions, fruit, project, white
from winebench.model.recipe import Measured, Targets
from winebench.plan.compose import compose
from winebench.units import Gravity

MEASURED = Measured(juice=Gravity("10 brix"), acid_g_per_l=7.0, liquid_percent=90.0)


def want(made):
    return next(each for each in compose(made).must.wants if each.key == "drink")


@pytest.mark.parametrize(
    ("style", "ready", "best"),
    [("dark-dry", 12, 24), ("dark-medium", 9, 18), ("light-dry", 6, 12), ("sweet", 12, 24)],
)
def test_the_style_wants_it_at_half_its_best_age(style: str, ready: int, best: int) -> None:
    # The style table has the best ages; that a wine is ready at half of them is common practice.
    made = project(white("1 kg"), WATER, style=style)
    found = want(made)
    assert (found.want_low, found.want_high) == (None, ready)
    assert found.want_text == f"want by {ready} months"
    drink_from = compose(made).bottles.drink_from
    assert drink_from is not None
    assert drink_from.workings is not None
    assert drink_from.workings.source.startswith("common practice")
    assert f"ready about {ready} months after bottling" in drink_from.workings.words
    assert f"about {best};" in drink_from.workings.words


def test_it_is_ready_by_its_strength_acid_and_tannin():
    # 1 kg of sugar is 1052.6 g once split (molar masses): over 3.785 L and 16.83 g/L for one
    # percent (EU) 16.5 %, 3.5 above 13; no acid, no tannin: 6 + 3.5 months.
    found = want(project(white("1 kg"), WATER, style="sweet")).actual
    assert (found.value, found.unit) == (pytest.approx(9.5, abs=0.05), "months")
    # Grape tannin of 2.06 g, 0.7 of it tannin, in 3.785 L: 0.381 g/L, 0.7 of the mean red wine's.
    made = project(white("600 g"), WATER, additive("grape-tannin", "2.06 g"))
    assert want(made).actual.value == pytest.approx(6.0 + 0.7 * 6.0, abs=0.03)


def test_the_range_of_the_tannin_is_the_range_of_the_months():
    found = want(project(fruit("plum", "1 kg"), white("700 g"), WATER)).actual
    assert found.low < found.value < found.high
    # Tannin of plums is known twice over at the best: months must not look sharper than that.
    assert found.high - found.low > 2.0


def test_where_the_tannin_is_not_known_the_style_alone_says_it():
    made = project(fruit("loganberry", "1 kg"), white("700 g"), WATER, style="light-dry")
    assert want(made).actual.value == 6.0
    assert want(made).actual.low is None
    assert "for want of the must's own figures" in want(made).actual.workings.words


def test_a_strong_and_tannic_must_that_is_wanted_early_says_what_to_change():
    lines = (fruit("plum", "4 lb", measured=MEASURED), white("1.8 lb"), WATER, YEAST)
    made = project(*lines, targets=Targets(drink_months=4.0))
    said = caution(made, "ready-late")
    assert said.severity == "caution"
    assert said.sentence.startswith("You want to drink from 4 months after bottling; this must")
    assert "for its tannin" in said.detail
    assert "for its strength" in said.detail
    assert said.detail.endswith("or wait.")
    (repair,) = said.repairs
    after = repair.edit.apply(made)
    assert "ready-late" not in cautions(after)
    assert after.recipe.targets.drink_months == round(want(made).actual.value)


def test_even_a_light_wine_wants_its_six_months():
    made = project(fruit("pineapple", "1 kg", measured=MEASURED), white("720 g"), WATER,
                   style="light-dry", targets=Targets(drink_months=3.0))  # fmt: skip
    assert caution(made, "ready-late").detail == "Even a light wine wants about 6 months: wait."
    later = project(*made.recipe.lines, style="light-dry", targets=Targets(drink_months=7.0))
    assert caution(later, "ready-late") is None


def test_a_style_s_own_months_are_rough_and_only_much_later_is_told():
    lines = (white("740 g"), WATER, YEAST)
    plum = project(fruit("plum", "700 g", measured=MEASURED), *lines, style="light-dry")
    assert want(plum).actual.value > 6.0
    assert caution(plum, "ready-late") is None
    cranberry = project(fruit("cranberry", "1.5 kg"), *lines, style="light-dry")
    assert caution(cranberry, "ready-late").severity == "note"


def test_a_weak_wine_that_is_to_be_kept_is_told_of():
    # Common practice: below 9.5 to 10 % a wine keeps poorly.
    weak = (fruit("blackberry", "2.4 kg", "20 brix"), white("290 g"), WATER)
    assert compose(project(*weak)).must.gravity.value >= 1.070
    assert compose(project(*weak)).must.strength.value < 10.0
    assert caution(project(*weak), "keeps-poorly").severity == "caution"
    soon = project(*weak, targets=Targets(drink_months=6.0))
    assert caution(soon, "keeps-poorly").severity == "note"
    assert caution(project(*weak, targets=Targets(drink_months=3.0)), "keeps-poorly") is None
    strong = project(fruit("blackberry", "1 kg", "9 brix"), white("740 g"), WATER)
    assert caution(strong, "keeps-poorly") is None
