"""Every row of the published tables under tests/trade/tables, each with its own source."""

import pytest

from tests.trade.published import NOT_A_RULE, n, rows, tolerance
from tests.trade.rule_of_quantity import RULES
from winebench.trade import (
    alcohol,
    hydrometer,
    sugar,
)
from winebench.units import Amount


def test_no_row_is_passed_over_in_silence():
    excused = set().union(*NOT_A_RULE.values())
    quantities = {row["quantity"] for _, row in rows()}
    assert quantities == set(RULES) | excused
    assert not set(RULES) & excused


def test_the_tables_are_whole():
    assert len(rows()) > 1700


@pytest.mark.parametrize("quantity", sorted(RULES))
def test_rule_agrees_with_its_published_rows(quantity):
    checked = [row for _, row in rows() if row["quantity"] == quantity]
    assert checked
    for row in checked:
        found = RULES[quantity](row)
        assert found == pytest.approx(n(row["expected"]), abs=tolerance(row)), row


def test_strength_from_gravities_stays_in_the_envelope_of_mass_balance():
    # The rows say: not lower than the low figure, nor higher than the high one, by over 0.3.
    bounds: dict[tuple[str, str], dict[str, float]] = {}
    for _, row in rows():
        if row["quantity"].startswith("abv_envelope_"):
            key = (row["input1"], row["input2"])
            bounds.setdefault(key, {})[row["quantity"]] = n(row["expected"])
    assert len(bounds) == 40
    for (og, fg), bound in bounds.items():
        spread = alcohol.abv_from_gravities(float(og), float(fg))
        assert bound["abv_envelope_low"] - 0.3 <= spread.figure <= bound["abv_envelope_high"] + 0.3
        assert spread.low <= spread.figure <= spread.high


def test_a_hydrometer_in_alcohol_is_right_whether_or_not_the_strength_is_told():
    # OIML R 22 densities with glass. The rows allow 0.0006, what a correction for water misses by.
    checked = [row for _, row in rows() if row["quantity"] == "hydrometer_true_sg_of_ethanol_water"]
    assert len(checked) == 20
    for row in checked:
        for abv in (0.0, n(row["input3"])):
            found = hydrometer.true_sg(n(row["input1"]), n(row["input2"]), 20.0, abv)
            assert found == pytest.approx(n(row["expected"]), abs=2e-5), row


def test_the_glass_term_is_as_large_as_published():
    checked = [row for _, row in rows() if row["quantity"] == "hydrometer_glass_term_alone"]
    assert len(checked) == 4
    for row in checked:
        read, warm, own = (n(row[k]) for k in ("input1", "input2", "input3"))
        without = read * (1 + hydrometer.GLASS_PER_KELVIN * (warm - own))
        glass = hydrometer.true_sg(read, warm, own) - hydrometer.true_sg(without, warm, own)
        assert glass == pytest.approx(n(row["expected"]), abs=3e-5)


def test_thirteen_and_a_half_pounds_of_sugar_make_a_gallon():
    # 27 CFR 24.181: 13.5 pounds of pure dry sugar count as one US gallon. The solution's
    # densities give 0.617 to 0.625 L/kg where the rule has 0.618.
    gained = sugar.volume_gained_l(Amount("13.5 lb").grams() / 1000.0, 100.0)
    assert gained == pytest.approx(Amount("1 gal US").litres(None), rel=0.01)


def test_a_worked_example_of_potential_alcohol_from_a_winery_handbook():
    # Margalit, Winery Technology & Operations, p. 3-4: 22.7 °Brix at 1.095 kg/L gives 13.3 % vol;
    # its own formula takes 2.1 of the °Brix for what does not ferment.
    sugar_g_per_l = (22.7 - 2.1) / 100.0 * 1095.0
    assert alcohol.abv_from_fermented_sugar(sugar_g_per_l) == pytest.approx(13.3, abs=0.2)
