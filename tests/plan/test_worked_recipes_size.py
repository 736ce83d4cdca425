"""Whole recipes worked by hand: two measured fruits, imperial gallons, spoons, bottles, a vessel.

Sources as in `test_worked_recipes_sweet`; losses are the program's own common practice, written
out: lees 6 % of the must, a racking 0.15 L at one US gallon and 0.5 L at five, samples 0.2 L.
"""

import pytest

from tests.plan.recipes import WATER, additive, fruit, line, project, vessel, water, white
from tests.plan.test_worked_recipes_sweet import GALLON, POUND, SG, SUGAR, by_hand
from winebench.model.recipe import Measured, YeastLine
from winebench.plan.balance import balanced
from winebench.plan.compose import compose
from winebench.units import Amount, Juice

IMPERIAL = 4.54609
"""Weights and Measures Act 1985, L."""
ACID = 0.3
"""How near the acid must come, g/L."""


def counts(found):
    bottles = found.bottles
    return bottles.bottles, bottles.corks


def test_blackberries_and_apple_juice_both_measured():
    # 1. Blackberries 1.2 kg, 85 % juice of 9.0 °Brix and 14 g/L: juice 1.020 kg; CRC 9 % 1.0340:
    #    0.986 L; solids 0.0918, water 0.9282 kg; acid 0.986 x 14 = 13.8 g.
    # 2. Apple juice 2 L at 12.0 °Brix and 5 g/L: CRC 12 % 1.0465: 2.093 kg; solids 0.2512, water
    #    1.8418 kg; acid 10.0 g.
    # 3. Sugar 0.500, water 1 L = 0.998 kg: solids 0.843 of 4.611 kg = 18.28 °Brix.
    # 4. CRC 18 % 1.0722, 19 % 1.0766: 1.0734 g/mL; SG 1.0734 / 0.9982 = 1.0753.
    # 5. 4.611 / 1.0734 = 4.296 L; acid 23.8 / 4.296 = 5.5 g/L.
    # 6. Fermentable: sucrose 0.500 x 1.0526 = 0.526; juice solids 0.65 of 0.092 (berries 0.60 to
    #    0.70, common practice) and 0.87 of 0.251 (apple: USDA SR28 09016, sugars 9.6 g of 11.5
    #    °Brix is 0.84; the group's 0.87): 0.060 + 0.218; 0.804 kg in 4.296 L = 187 g/L.
    berries = fruit("blackberry", "1.2 kg", prepared=True, measured=Measured(
        juice=Juice("9 brix"), acid_g_per_l=14.0, liquid_percent=85.0))  # fmt: skip
    apple = fruit("apple-juice-unsweetened", "2 L", measured=Measured(
        juice=Juice("12 brix"), acid_g_per_l=5.0))  # fmt: skip
    made = project(berries, apple, white("500 g"), water("1 L"), basis="4.3 L")
    found = balanced(made)
    assert found.brix == pytest.approx(18.28, abs=0.05)
    assert found.sg == pytest.approx(1.0753, abs=SG)
    assert found.litres == pytest.approx(4.296, abs=0.01)
    assert found.acid_g_per_l == pytest.approx(5.5, abs=ACID)
    assert found.sugar_g_per_l == pytest.approx(187, rel=SUGAR)
    assert compose(made).must.measured


def test_two_and_a_quarter_pounds_in_an_imperial_gallon_and_in_a_us_one():
    # 2 lb 4 oz = 1.0206 kg. In 4.546 L: 224.5 g/L; water 4.546 - 0.618 x 1.0206 = 3.915 L, 3.908
    # kg; 4.929 / 4.546 / 0.9982 = 1.0861. In 3.785 L: 269.6 g/L, 1.1034.
    for gallon, litres, sg in (("imperial", IMPERIAL, 1.0861), ("US", GALLON, 1.1034)):
        made = project(white("2 lb 4 oz"), WATER, basis="1 gal", gallon=gallon)
        assert by_hand(2.25 * POUND, litres) == pytest.approx(sg, abs=0.0005)
        assert compose(made).must.gravity.value == pytest.approx(sg, abs=SG)


def test_five_imperial_gallons_of_blackcurrant():
    # Per imperial gallon: 3 lb of blackcurrants (1.361 kg, off the stalk), 80 % juice of 12.0
    # °Brix with 35 g/L; sugar 2 lb 4 oz (1.0206 kg); water to the mark.
    # 1. Juice 1.0886 kg; solids 0.1306; CRC 12 % 1.0465: 1.040 L; acid 36.4 g.
    # 2. Solids 1.1512 kg in 4.546 L: by 24.181 water 3.834 L, 3.828 kg; 4.979 / 4.546 / 0.9982:
    #    SG 1.0972. Acid 36.4 / 4.546 = 8.0 g/L.
    # 3. Five: must 22.73 L. Lees 0.06 x 22.73 = 1.364; three rackings of 0.15 + 0.35 x (22.73 -
    #    3.785) / 15.142 = 0.588, 1.764; samples 0.2: 19.40 L are left: 25 bottles (18.75 L), 28
    #    corks. A packet of yeast for up to 23 L: one.
    # 4. Sugar 11 lb 4 oz, fruit 15 lb; enzyme 5 tsp.
    mine = Measured(juice=Juice("12 brix"), acid_g_per_l=35.0, liquid_percent=80.0)
    currants = fruit("black-currant", "3 lb", prepared=True, measured=mine)
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"), packet_litres=23.0)
    made = project(currants, white("2 lb 4 oz"), WATER, additive("pectic-enzyme", "1 tsp"), yeast,
                   basis="1 gal", make="5 gal", gallon="imperial")  # fmt: skip
    found = compose(made)
    assert found.must.gravity.value == pytest.approx(1.0972, abs=SG)
    assert found.must.acidity.value == pytest.approx(8.0, abs=ACID)
    assert found.must.liquid.value == pytest.approx(5 * IMPERIAL, abs=0.01)
    assert counts(found) == (25, 28)
    assert found.bottles.finished.value == pytest.approx(19.40, abs=0.02)
    assert line(found, "yeast").scaled.value == 1
    assert line(found, "sugar").measure == "11 lb 4 oz"
    assert line(found, "black-currant").measure == "15 lb"
    assert line(found, "pectic-enzyme").measure == "5 tsp"


def test_acid_by_the_spoon():
    # Per US gallon: sugar 900 g, malic acid 2 tsp (4.5 g each: published spoon weights) = 9.0 g,
    # citric acid 1 tsp = 4.8 g.
    # 1. As tartaric by molar masses: 9.0 x 75.04 / 67.04 = 10.07; 4.8 x 75.04 / 64.04 = 5.62;
    #    15.70 g in 3.785 L = 4.15 g/L.
    # 2. At three gallons: 6 tsp are 2 tbsp, 3 tsp stay 3 tsp; nothing is rounded.
    # 3. At half a gallon of citric: 1/2 tsp. At 0.3 gallons: 0.3 tsp, with eighths 1/4: -17 %.
    made = project(
        white("900 g"), WATER, additive("malic-acid", "2 tsp"), additive("citric-acid", "1 tsp")
    )
    assert compose(made).must.acidity.value == pytest.approx(4.15, abs=ACID)
    spoons = {}
    for size in ("3 gal", "0.5 gal", "0.3 gal"):
        found = compose(project(*made.recipe.lines, make=size))
        spoons[size] = line(found, "citric-acid")
        if size == "3 gal":
            assert line(found, "malic-acid").measure == "2 tbsp"
    assert spoons["3 gal"].measure == "3 tsp"
    assert spoons["0.5 gal"].measure == "1/2 tsp"
    assert spoons["0.3 gal"].measure == "1/4 tsp"
    assert spoons["0.3 gal"].measure_error_percent == pytest.approx(-16.7, abs=0.1)


def test_twenty_four_bottles_with_their_losses():
    # 24 x 0.75 = 18 L are wanted. With a must of m litres: lees 0.06 m; three rackings of 0.15 +
    # 0.35 x (m - 3.785) / 15.142 = 0.18751 + 0.069343 m in all; samples 0.2:
    #   m (1 - 0.06 - 0.069343) = 18 + 0.2 + 0.18751, so m = 18.38751 / 0.870657 = 21.119 L.
    # Sugar 2 lb a US gallon: 907.18 x 21.119 / 3.785412 = 5061 g; sulfite 21.119 / 3.785 = 5.58
    # tablets, in halves 5 1/2 (-1.4 %); yeast to 20 L a packet: two; 27 corks.
    yeast = YeastLine(id="yeast", amount=Amount("1 packet"), packet_litres=20.0)
    made = project(white("2 lb"), WATER, additive("sulfite-tablet", "1 tablet"), yeast,
                   make="24 bottles", by="bottles")  # fmt: skip
    found = compose(made)
    assert found.must.liquid.value == pytest.approx(21.119, abs=0.005)
    assert found.bottles.finished.value == pytest.approx(18.0, abs=0.005)
    assert counts(found) == (24, 27)
    assert line(found, "sugar").scaled.value == pytest.approx(5061, rel=0.001)
    tablets = line(found, "sulfite-tablet")
    assert tablets.measure == "5 1/2 tablets"
    assert tablets.measure_error_percent == pytest.approx(-1.4, abs=0.1)
    assert line(found, "yeast").scaled.value == 2
    bought = {item.what: item.buy for item in found.shopping}
    assert (bought["sulfite-tablet"], bought["yeast"], bought["corks"]) == (6.0, 2.0, 27.0)


def test_a_must_to_fill_a_five_gallon_jug():
    # 5.5 US gallons of must = 20.820 L, of damsons 15 lb (6.804 kg, stoned) that give 90 % juice.
    # 1. Pulp 0.1 x 6.804 / 1.05 = 0.648 L; liquid and pulp 21.468 L in a pail of 7.9 gal
    #    (29.905 L) are 72 %: it fits under the three quarters.
    # 2. To glass: less lees 0.06 x 20.820 = 1.249 and the first racking 0.15 + 0.35 x (20.820 -
    #    3.785) / 15.142 = 0.544: 19.027 L. The jug holds 18.927 L: full, and 0.10 L over.
    # 3. Less two more rackings (1.088) and samples 0.2: 17.74 L: 23 bottles, 26 corks.
    mine = Measured(juice=Juice("14 brix"), acid_g_per_l=20.0, liquid_percent=90.0)
    made = project(
        fruit("damson", "15 lb", prepared=True, measured=mine), white("9 lb"), WATER,
        basis="5.5 gal", make="5.5 gal",
        vessels=(vessel("pail", "primary", "7.9 gal"),
                 vessel("jug", "secondary", "5 gal", glass=True)),
    )  # fmt: skip
    found = compose(made)
    pail, jug = found.vessels
    assert pail.fill_l == pytest.approx(21.468, abs=0.02)
    assert pail.fits
    assert jug.fill_l == pytest.approx(18.927, abs=0.001)
    assert "3 fl oz (0.1 L) in all for top-up" in jug.detail
    assert counts(found) == (23, 26)


def test_a_gallon_gives_four_bottles_and_why_is_said():
    # 3.785 L: lees 0.227, three rackings of 0.15, samples 0.03 x 3.785 = 0.114: 2.995 L. Four
    # bottles are 3 L: the last lacks 5 mL, and 15 may be lacking (Directive 76/211/EEC, from
    # memory). Seven corks: four and three to spare.
    found = compose(project(white("2 lb"), WATER))
    assert found.bottles.finished.value == pytest.approx(2.994, abs=0.005)
    assert counts(found) == (4, 7)
    notes = {item.what: item.notes for item in found.shopping}
    assert notes["bottles"] == ("3.0 L of wine are left to bottle: 4 full, the last 5 mL short.",)
    assert notes["corks"][0].startswith("One a bottle and 3 to spare")


def test_an_ounce_of_cleaner_a_gallon_is_suggested_and_may_be_left_out():
    # Common practice: an ounce (28.35 g, NIST Handbook 44) in a US gallon; three gallons: 85 g.
    found = compose(project(white("2 lb"), WATER, make="3 gal"))
    (cleaner,) = (item for item in found.shopping if item.what == "cleaner")
    assert cleaner.needed == pytest.approx(85.05, abs=0.01)
    assert cleaner.need == "85 g (3 oz)"
    assert cleaner.suggested
