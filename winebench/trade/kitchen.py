"""Kitchen measures: gallons of both countries, ounces, and spoons by their own calibration."""

from __future__ import annotations

from typing import Generic, NamedTuple

from winebench.trade.ranges import Numbers, known, more_than_nothing, volume
from winebench.trade.rules import rule
from winebench.units import Amount

NIST = "NIST Handbook 44, Appendix C; Weights and Measures Act 1985 for imperial"


class Volumes(NamedTuple, Generic[Numbers]):
    """One volume in the measures of both countries."""

    litres: Numbers
    us_gallons: Numbers
    us_quarts: Numbers
    us_fluid_ounces: Numbers
    imperial_gallons: Numbers
    imperial_pints: Numbers
    imperial_fluid_ounces: Numbers


@rule(
    name="volume-in-measures",
    inputs={"litres": "L"},
    unit="L, gal US, qt US, fl oz US, gal imperial, pt imperial, fl oz imperial",
    words="an imperial gallon is 1.2 US gallons, an imperial fluid ounce 0.96 of a US one",
    source=NIST,
    valid="0 to 100 000 L",
    example={"litres": 19.0},
)
def volume_in_measures(litres: Numbers) -> Volumes[Numbers]:
    """Return a volume in litres and in US and imperial measures."""
    whole = volume(litres)
    names = ("gal US", "qt US", "fl oz US", "gal imperial", "pt imperial", "fl oz imperial")
    return Volumes(whole, *(whole / Amount(f"1 {name}").litres(None) for name in names))


class Masses(NamedTuple, Generic[Numbers]):
    """One mass in both systems."""

    grams: Numbers
    ounces: Numbers
    pounds: Numbers


@rule(
    name="mass-in-measures",
    inputs={"grams": "g"},
    unit="g, oz, lb",
    words="16 ounces to the pound, 453.59237 g to the pound",
    source=NIST,
    valid="0 to 1 000 000 g",
    example={"grams": 1000.0},
)
def mass_in_measures(grams: Numbers) -> Masses[Numbers]:
    """Return a mass in grams, ounces and pounds."""
    whole = known(grams, 0.0, 1e6, "a mass (g) of")
    return Masses(whole, whole / Amount("1 oz").grams(), whole / Amount("1 lb").grams())


@rule(
    name="grams-per-teaspoon",
    inputs={"spoons": "spoons", "grams": "g"},
    unit="g",
    words="mass of the spoonfuls / their number: ten level spoons on a kitchen scale calibrate "
    "yours and your powder",
    source="definition",
    valid="1 to 1000 spoons of 0.1 to 20 g",
    example={"spoons": 10.0, "grams": 32.0},
)
def grams_per_teaspoon(spoons: Numbers, grams: Numbers) -> Numbers:
    """Return what one of your own level spoons holds, g."""
    number = known(spoons, 1.0, 1000.0, "a number of spoons of")
    return known(grams / number, 0.1, 20.0, "a spoon (g) of")


@rule(
    name="teaspoons",
    inputs={"grams": "g", "g_per_teaspoon": "g"},
    unit="tsp",
    words="grams / what your level spoon holds (grams-per-teaspoon weighs it; teaspoons-of-powder "
    "knows the usual range)",
    source="definition",
    valid="0 to 10 000 g, spoons of 0.1 to 20 g",
    example={"grams": 2.4, "g_per_teaspoon": 3.2},
)
def teaspoons(grams: Numbers, g_per_teaspoon: Numbers) -> Numbers:
    """Return how many level teaspoons hold so much powder."""
    spoon = more_than_nothing(
        known(g_per_teaspoon, 0.1, 20.0, "a spoon (g) of"), 20.0, "a spoon of"
    )
    return known(grams, 0.0, 10_000.0, "a powder mass (g) of") / spoon


@rule(
    name="celsius-from-fahrenheit",
    inputs={"fahrenheit": "°F"},
    unit="°C",
    words="(degrees - 32) / 1.8",
    source="definition",
    valid="-22 to 230 °F",
    example={"fahrenheit": 68.0},
)
def celsius_from_fahrenheit(fahrenheit: Numbers) -> Numbers:
    """Return a temperature in °C."""
    return (known(fahrenheit, -22.0, 230.0, "a temperature (°F) of") - 32.0) / 1.8


@rule(
    name="fahrenheit-from-celsius",
    inputs={"celsius": "°C"},
    unit="°F",
    words="degrees x 1.8 + 32",
    source="definition",
    valid="-30 to 110 °C",
    example={"celsius": 20.0},
)
def fahrenheit_from_celsius(celsius: Numbers) -> Numbers:
    """Return a temperature in °F."""
    return known(celsius, -30.0, 110.0, "a temperature (°C) of") * 1.8 + 32.0
