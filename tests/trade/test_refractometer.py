"""The refractometer against sources other than its own tables."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws import IAPWS95
from iapws._iapws import _Refractive

from winebench.trade import must, refractometer
from winebench.trade.ranges import NotKnown


def index_of_water(celsius):
    """Give the refractive index of water at the sodium line, by IAPWS (release of 1997)."""
    density = IAPWS95(T=celsius + 273.15, P=0.101325).rho
    return _Refractive(density, celsius + 273.15, 0.5893)


@pytest.mark.parametrize("celsius", [10.0, 13.0, 17.0, 21.0, 23.0, 25.0, 28.0, 30.0])
def test_plain_water_reads_nothing_once_its_temperature_is_allowed_for(celsius):
    # A scale on which water at 20 °C reads 0; one °Brix there is 0.001434 (the ICUMSA fit).
    per_brix = refractometer.refractive_index_from_brix(1.0) - 1.3330087
    reads = (index_of_water(celsius) - index_of_water(20.0)) / per_brix
    # The rule begins at 0 °Brix; warm water reads a little less.
    assert reads + refractometer.correction_to_20c(0.0, celsius) == pytest.approx(0.0, abs=0.03)


# OIV-MA-AS2-02 Table I as printed (compendium of 2008, p. 49), beyond the rows of the tables here.
@pytest.mark.parametrize(
    ("brix", "celsius", "expected"),
    [(20.0, 10.0, -0.65), (30.0, 12.0, -0.56), (25.0, 14.0, -0.42), (12.5, 11.0, -0.555)],
)
def test_the_correction_is_that_of_the_compendium(brix, celsius, expected):
    assert refractometer.correction_to_20c(brix, celsius) == pytest.approx(expected, abs=1e-9)


# ISO 1743, glucose syrup, as GOST R 50546-93 prints it: refractive index at 20 and at 30 °C of 6 to
# 26 % dry matter. Warmth moves thin solutions of sucrose and of glucose syrup alike.
@pytest.mark.parametrize(
    ("at_20", "at_30"),
    [
        (1.34215, 1.34102),
        (1.34852, 1.34734),
        (1.35509, 1.35385),
        (1.36534, 1.36402),
        (1.37607, 1.37468),
    ],
)
def test_at_30_degrees_the_correction_is_what_the_indexes_make(at_20, at_30):
    true = refractometer.brix_from_refractive_index(at_20)
    read = refractometer.brix_from_refractive_index(at_30)
    corrected = read + refractometer.correction_to_20c(read, 30.0)
    assert corrected == pytest.approx(true, abs=0.03)


@given(st.floats(0.0, 30.0), st.floats(10.0, 29.0), st.floats(0.0, 1.0))
def test_the_warmer_the_more_is_added(brix, celsius, warmer):
    first = refractometer.correction_to_20c(brix, celsius)
    assert refractometer.correction_to_20c(brix, celsius + warmer) >= first - 1e-12


# Rows of the same annex (French order of 14 Sept 2011, Annex IV) that the rules do not hold.
@pytest.mark.parametrize(
    ("brix", "index", "density", "sugar"),
    [
        (10.5, 1.34860, 1041.1, 87.5),
        (12.0, 1.35093, 1047.2, 103.5),
        (15.0, 1.35568, 1059.8, 136.1),
        (15.4, 1.35632, 1061.6, 140.5),
        (21.5, 1.36635, 1088.5, 209.0),
        (24.0, 1.37060, 1100.1, 237.8),
        (27.0, 1.37582, 1114.2, 273.0),
        (29.5, 1.38025, 1126.3, 302.9),
        (30.0, 1.38115, 1128.7, 308.9),
    ],
)
def test_a_grape_must_between_the_rows(brix, index, density, sugar):
    assert refractometer.refractive_index_from_brix(brix) == pytest.approx(index, abs=5e-5)
    assert refractometer.brix_from_refractive_index(index) == pytest.approx(brix, abs=0.03)
    assert must.grape_must_density(brix) == pytest.approx(density, abs=0.15)
    assert must.grape_must_sugar_g_per_l(brix) == pytest.approx(sugar, abs=0.15)


@pytest.mark.parametrize(("brix", "baume"), [(5.0, -2.0), (6.0, -1.0), (7.0, -1.0), (8.0, 0.0)])
def test_fit_and_balance_agree_on_table_wine(brix, baume):
    # Rogerson & Symington fitted port; adding up extract and alcohol knows nothing of their wines.
    spread = refractometer.abv_from_two_instruments(brix, baume)
    assert spread.high - spread.low < 0.5


def test_no_wine_reads_so():
    with pytest.raises(NotKnown, match="so found"):
        refractometer.abv_from_two_instruments(20.0, -3.0)
    several = refractometer.abv_from_two_instruments(np.array([7.0, 20.0]), np.array([-1.0, -3.0]))
    assert np.isnan(several.figure).tolist() == [False, True]
