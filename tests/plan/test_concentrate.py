"""A concentrate by its label: thinned back to plain juice it is plain juice again.

Codex STAN 247-2005: concentrated juice is juice from which water was taken (2.1.2), and juice from
concentrate is that water given back (2.1.1.2). 21 CFR 101.30: apple juice of single strength has
11.5 °Brix, grape 16.0, orange 11.8.
"""

import pytest

from tests.plan.recipes import additive, caution, fruit, project, water, white
from winebench.model.recipe import Measured
from winebench.plan.balance import balanced
from winebench.units import Juice


def concentrate(key, amount, brix, **measured):
    return fruit(key, amount, form="juice", measured=Measured(juice=Juice(brix), **measured))


def test_a_concentrate_thinned_to_plain_juice_has_its_acid():
    # 1 kg at 69 °Brix holds 690 g of solids: at 11.5 °Brix (21 CFR 101.30) that is 6 kg: 5 kg of
    # water, 5.009 L at 0.9982 kg/L (CRC Handbook).
    thinned = balanced(project(concentrate("apple", "1 kg", "69 brix"), water("5.009 L")))
    plain = balanced(project(concentrate("apple", "6 kg", "11.5 brix")))
    assert thinned.brix == pytest.approx(11.5, abs=0.01)
    assert thinned.litres == pytest.approx(plain.litres, rel=1e-3)
    assert thinned.acid_g == pytest.approx(plain.acid_g, rel=1e-3)
    assert thinned.tannin_g == pytest.approx(plain.tannin_g, rel=1e-3)
    assert thinned.nitrogen_mg == pytest.approx(plain.nitrogen_mg, rel=0.01)


def test_a_can_thinned_with_three_of_water_is_as_sharp_as_its_juice():
    # By volume: 1 L at 41.8 °Brix (21 CFR 146.146, 1.187 kg/L by the NBS table) weighs 1.187 kg and
    # holds 496 g; as juice of 11.8 °Brix (1.0475 kg/L) 4.205 kg, 4.01 L: three of water to one.
    can = balanced(project(concentrate("orange", "1 L", "41.8 brix"), water("3 L")))
    juice = balanced(project(concentrate("orange", "4 L", "11.8 brix")))
    assert can.acid_g_per_l == pytest.approx(juice.acid_g_per_l, abs=0.1)


def test_an_acidity_of_its_own_goes_before_it():
    made = balanced(project(concentrate("apple", "1 L", "69 brix", acid_g_per_l=20.0)))
    assert made.acid_g == pytest.approx(20.0, abs=1e-6)


@pytest.mark.parametrize(("key", "brix"), [("apple", "17 brix"), ("lemon-juice-raw", "9 brix"),
                                           ("grape-european-table-type", "25 brix")])  # fmt: skip
def test_ripe_juice_is_no_concentrate(key, brix):
    # In ripe fruit the sugar rises and the acid does not.
    ripe = balanced(project(concentrate(key, "1 kg", brix)))
    plain = balanced(project(fruit(key, "1 kg", form="juice")))
    assert ripe.acid_g == pytest.approx(plain.acid_g, rel=1e-6)


def test_lemons_are_counted_by_acid_and_sugar_together():
    # Lemon juice has 5.7 % acid beside 2.9 % sugar (USDA SR28, Belitz): nine parts in a hundred are
    # dissolved. At 43 °Brix it is five times as strong, and not fifteen times.
    plain = balanced(project(fruit("lemon-juice-raw", "1 kg"))).acid_g
    strong = balanced(project(concentrate("lemon-juice-raw", "1 kg", "43 brix"))).acid_g
    assert strong == pytest.approx(5.0 * plain, rel=0.05)


def test_a_wine_of_concentrate_needs_no_acid_of_a_bottle():
    # 2 kg of grape concentrate at 64 °Brix are 8 kg of juice at 16.0: what the concentrate brings
    # of acid is four times what so much plain juice would.
    made = project(concentrate("grape-american-type", "2 kg", "64 brix"), white("500 g"),
                   water("8 L"), additive("tartaric-acid", "1 g"), basis="10 L")  # fmt: skip
    plain = balanced(project(fruit("grape-american-type", "8 kg", form="juice")))
    assert balanced(made).acid_g == pytest.approx(plain.acid_g + 1.0, rel=1e-6)
    assert caution(made, "doubtful-measure") is None
