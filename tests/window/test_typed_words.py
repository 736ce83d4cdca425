"""Vessels typed in words, without a window."""

import pytest

from winebench.plan.typed.vessels import read_vessels, vessels_text
from winebench.units import UnitsError


def test_vessels_are_read_with_their_roles():
    pail, jug, other = read_vessels("26 L pail, 19 L glass jug; 3,8 L demijohn", (), "US")
    assert (pail.role, jug.role, other.role) == ("primary", "secondary", "secondary")
    assert (pail.glass, jug.glass, other.glass) == (False, True, True)
    assert other.holds.litres(None) == pytest.approx(3.8)


def test_vessels_written_out_are_read_back_the_same():
    vessels = read_vessels("6 gal pail, 2 3/4 gal glass jug", (), "US")
    assert read_vessels(vessels_text(vessels), vessels, "US") == vessels


@pytest.mark.parametrize("text", ["pail", "0 L pail", "3 lb pail", "2 furlongs pail"])
def test_a_vessel_without_a_volume_is_refused(text):
    with pytest.raises(UnitsError):
        read_vessels(text, (), "US")
