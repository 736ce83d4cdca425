"""What cannot be is refused, what law and room allow is named: gravities, gas, sulfite."""

import numpy as np
import pytest

from winebench.trade import alcohol, bottling, sorbate, sulfite_running
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import rules, run_work, work

NAMES = sorted(rules())


@pytest.mark.parametrize("rule", ["abv-from-gravities", "abv-by-each-relation"])
@pytest.mark.parametrize(
    ("og", "fg", "makes", "reads"),
    [
        (1.000, 0.990, "0.0", "1.000"),
        (1.020, 0.980, "3.5", "0.995"),
        (1.050, 0.985, "8.9", "0.988"),
    ],
)
def test_gravities_that_no_wine_can_have_are_refused(rule, og, fg, makes, reads):
    # ICUMSA: 1.020 holds 51.7 g/L as sucrose, 1.050 holds 130; one g/L makes 0.0682 % vol at most
    # (molar masses). OIML R 22: 3.5 % vol in water is 0.9949, 8.9 % 0.9878.
    with pytest.raises(NotKnown, match=f"one of the two.*{makes} % vol.*reads {reads}, not {fg}"):
        work(rule, og=og, fg=fg)
    together = rules()[rule].function(np.array([og, og]), np.array([fg, og]))
    assert all(np.isnan(each[0]) and not np.isnan(each[1]) for each in together)


def test_the_driest_wines_are_believed():
    # 14 % vol in water is 0.9818 (OIML R 22); 0.984 leaves it 6 g/L of extract, which is little.
    assert alcohol.abv_from_gravities(1.090, 0.984).figure > 13.5
    # A pair of readings may be off by 0.002 together.
    assert alcohol.abv_from_gravities(1.000, 0.9981).figure > 0.0


def test_gas_never_fills_more_than_the_room():
    # 4.4 kg: stoichiometry gives 1.12 m³ in all (0.4886 x 0.95 / 1.83 g/L), 0.279 on the peak day;
    # air that is well mixed while it is pushed out keeps e^-x of itself.
    assert bottling.gas_share_of_room_percent(4.4, 10.0) == pytest.approx(2.75, abs=0.01)
    assert bottling.gas_share_of_room_percent(100.0, 1.0) == pytest.approx(99.82, abs=0.01)
    small = bottling.gas_share_of_room_percent(1.0, 10_000.0)
    assert small == pytest.approx(1e2 * 1000 * 0.4886 * 0.95 / 1.83 / 4 / 1e7, rel=1e-3)
    # NIOSH, immediately dangerous concentrations, carbon dioxide, May 1994: OSHA 5000 ppm over a
    # shift, NIOSH and ACGIH 30 000 ppm for a short time, 40 000 immediately dangerous.
    words = rules()["gas-share-of-room"].words
    assert "0.5 % over 8 h (OSHA), 3 % for 15 min (ACGIH and NIOSH" in words
    assert "4 % is immediately dangerous" in words


@pytest.mark.parametrize("name", ["gas-mass", "gas-released", "gas-share-of-room"])
def test_a_rule_of_gas_says_which_sugar_it_means(name):
    assert "simple sugar" in rules()[name].valid
    # 342.3 g of sucrose take up 18 g of water: 360.3 g of simple sugar (molar masses).
    assert bottling.gas_g(1000.0 * 360.312 / 342.297) == pytest.approx(514.3, abs=0.1)


@pytest.mark.parametrize("name", NAMES)
def test_a_rule_that_cannot_take_nothing_says_so(name):
    rule = rules()[name]
    for argument, unit in rule.inputs.items():
        if unit == "word":
            continue
        try:
            rule.function(**{**rule.example, argument: 0.0})
        except NotKnown as refusal:
            if "more than nothing" in str(refusal):
                assert " over 0 to " in rule.valid


def test_the_limit_of_sulfite_for_fruit_wine_comes_first_and_is_the_one_taken():
    # French order of 2 Oct 1997 on food additives, annex III C, part 2, as SO2: "boissons
    # fermentées à base de fruits" 200, "made wine" 260; that Reg (EC) 1333/2008 category 14.2.4
    # has the same is from memory.
    assert sulfite_running.so2_left_mg_per_l(100.0) == 100.0
    assert sulfite_running.so2_left_mg_per_l(100.0, "EU-made-wine") == 160.0
    assert next(iter(sulfite_running.LIMITS_MG_PER_L)) == "EU-fruit-wine"
    said = run_work("so2-left-to-limit", ["total=110"])
    assert said.result == "90.0"
    assert said.words.index("fruit wine 200") < said.words.index("grape wine alone")
    assert "annex III C, part 2" in said.source


def test_limits_of_sulfite_in_grape_wine_are_those_of_the_regulation():
    # Reg (EU) 2019/934 Annex I Part B: 150 red, 200 white under 5 g/L sugar; 200, 250 from there.
    # 27 CFR 4.22(b)(1), as of 1 April 2004: not more than 350 parts per million of total SO2.
    left = [sulfite_running.so2_left_mg_per_l(100.0, limit) for limit in
            ("EU-grape-wine-red-dry", "EU-grape-wine-white-dry", "EU-grape-wine-red-sweet",
             "EU-grape-wine-white-sweet", "US")]  # fmt: skip
    assert left == [50.0, 100.0, 100.0, 150.0, 250.0]


@pytest.mark.parametrize(
    ("rule", "pairs", "found"),
    [
        # 19 L of 10 °Brix weigh 19.73 kg: (1.973 + 200) / 219.73 is 91.9 %.
        ("volume-gained", ["sugar_kg=200", "litres=19", "brix=10"], "91.9"),
        # 19 L of SG 1.080 (19.33 °Brix) weigh 20.48 kg: (3.96 + 200) / 220.48 is 92.5 %.
        ("staged-original-gravity", ["litres=19", "sg_first=1.08", "fed_kg=200"], "92.5"),
    ],
)
def test_more_sugar_than_dissolves_is_refused_by_the_figure_that_was_found(rule, pairs, found):
    with pytest.raises(NotKnown, match=f"a Brix so found of {found}"):
        run_work(rule, pairs)


def test_wine_of_other_fruit_may_hold_as_much_sorbic_acid_as_wine_of_grapes():
    # French order of 2 Oct 1997 on food additives, annex III C, part 1, as sorbic acid: wines,
    # "vins de fruits" and "made wine" 200 mg/L, one row.
    assert sorbate.sorbic_left_mg_per_l(0.0, "EU") == 200.0
