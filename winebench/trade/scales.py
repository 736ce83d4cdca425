"""Other scales of gravity: Oechsle, Baumé, and SG where both liquids are at 60 °F or 15 °C."""

from __future__ import annotations

from winebench.trade.gravity import (
    ICUMSA,
    brix_from_sg,
    density_from_brix,
    water_density,
)
from winebench.trade.ranges import NotKnown, Numbers, known
from winebench.trade.rules import rule
from winebench.units import LOWEST_SG

SIXTY_F = (60.0 - 32.0) / 1.8


@rule(
    name="oechsle",
    inputs={"sg": "SG"},
    unit="°Oechsle",
    words="points of gravity above water: 1000 (SG - 1)",
    source="definition",
    valid="SG 0.970 to 1.45",
    example={"sg": 1.090},
)
def oechsle_from_sg(sg: Numbers) -> Numbers:
    """Return degrees Oechsle, 1000 (SG 20/20 - 1)."""
    return (known(sg, LOWEST_SG, 1.45, "a gravity of") - 1.0) * 1000.0


@rule(
    name="sg-from-oechsle",
    inputs={"oechsle": "°Oechsle"},
    unit="SG",
    words="1 + degrees / 1000",
    source="definition",
    valid="-30 to 450 °Oechsle",
    example={"oechsle": 90.0},
)
def sg_from_oechsle(oechsle: Numbers) -> Numbers:
    """Return SG 20/20 of that many degrees Oechsle."""
    return known(oechsle, -30.0, 450.0, "degrees Oechsle of") / 1000.0 + 1.0


@rule(
    name="baume",
    inputs={"sg": "SG", "modulus": "1"},
    unit="°Baumé",
    words="modulus - modulus / SG",
    source="definition; modulus 145 on the 60/60 °F scale, 144.3 on the 15/15 °C scale",
    valid="SG 0.970 to 1.45, modulus 144.3 or 145",
    example={"sg": 1.090, "modulus": 145.0},
)
def baume_from_sg(sg: Numbers, modulus: float = 145.0) -> Numbers:
    """Return degrees Baumé; SG on the modulus's own scale (145: 60/60 °F, 144.3: 15/15 °C)."""
    _check(modulus)
    return modulus - modulus / known(sg, LOWEST_SG, 1.45, "a gravity of")


@rule(
    name="sg-from-baume",
    inputs={"baume": "°Baumé", "modulus": "1"},
    unit="SG",
    words="modulus / (modulus - degrees), on the modulus's own scale",
    source="definition; modulus 145 on the 60/60 °F scale, 144.3 on the 15/15 °C scale",
    valid="-4 to 44 °Baumé, modulus 144.3 or 145",
    example={"baume": 12.0, "modulus": 145.0},
)
def sg_from_baume(baume: Numbers, modulus: float = 145.0) -> Numbers:
    """Return SG of that many degrees Baumé (145: 60/60 °F, 144.3: 15/15 °C)."""
    _check(modulus)
    return modulus / (modulus - known(baume, -4.0, 44.0, "degrees Baumé of"))


def _check(modulus: float) -> None:
    if modulus not in (144.3, 145.0):
        raise NotKnown("the Baumé modulus is 145 (60/60 °F) or 144.3 (15/15 °C).")


@rule(
    name="sg-at-60-f",
    inputs={"sg": "SG"},
    unit="SG 60/60 °F",
    words="the same sucrose solution and water, both at 60 °F",
    source=ICUMSA,
    valid="SG 1.000 to 1.17",
    example={"sg": 1.090},
)
def sg_60f_from_sg(sg: Numbers) -> Numbers:
    """Return SG 60/60 °F of a must with that SG 20/20."""
    return _sg_at(sg, SIXTY_F)


@rule(
    name="sg-at-15-c",
    inputs={"sg": "SG"},
    unit="SG 15/15 °C",
    words="the same sucrose solution and water, both at 15 °C",
    source=ICUMSA,
    valid="SG 1.000 to 1.17",
    example={"sg": 1.090},
)
def sg_15c_from_sg(sg: Numbers) -> Numbers:
    """Return SG 15/15 °C of a must with that SG 20/20."""
    return _sg_at(sg, 15.0)


def _sg_at(sg: Numbers, celsius: float) -> Numbers:
    brix = brix_from_sg(known(sg, 1.0, 1.17, "a must gravity of"))
    return density_from_brix(brix, celsius) / water_density(celsius)


@rule(
    name="sg-from-60-f",
    inputs={"sg": "SG"},
    unit="SG",
    words="SG 20/20 of the sucrose solution that has this gravity with both at 60 °F",
    source=ICUMSA + ", inverted",
    valid="SG 1.000 to 1.17",
    example={"sg": 1.090},
)
def sg_from_sg_60f(sg: Numbers) -> Numbers:
    """Return SG 20/20 of a must with that SG 60/60 °F."""
    return _sg_from(sg, SIXTY_F)


@rule(
    name="sg-from-15-c",
    inputs={"sg": "SG"},
    unit="SG",
    words="SG 20/20 of the sucrose solution that has this gravity with both at 15 °C",
    source=ICUMSA + ", inverted",
    valid="SG 1.000 to 1.17",
    example={"sg": 1.090},
)
def sg_from_sg_15c(sg: Numbers) -> Numbers:
    """Return SG 20/20 of a must with that SG 15/15 °C."""
    return _sg_from(sg, 15.0)


def _sg_from(sg: Numbers, celsius: float) -> Numbers:
    shown = known(sg, 1.0, 1.17, "a must gravity of")
    found = shown
    for _ in range(4):  # the two scales part by less than 0.001, and smoothly
        brix = brix_from_sg(found)
        found = found + shown - density_from_brix(brix, celsius) / water_density(celsius)
    return found
