"""The closed table of units: how a kitchen spells each, what it measures, what pint calls it."""

from __future__ import annotations

from typing import Literal

GallonCountry = Literal["US", "imperial"]

# A bare gallon (quart, pint, cup, fluid ounce) belongs to the project's country; the value is
# (US unit, imperial unit).
COUNTRY_UNITS: dict[str, tuple[str, str]] = {
    "gal": ("gallon", "imperial_gallon"),
    "qt": ("quart", "imperial_quart"),
    "pt": ("pint", "imperial_pint"),
    "cup": ("cup", "imperial_cup"),
    "fl oz": ("fluid_ounce", "imperial_fluid_ounce"),
}
FIXED_UNITS: dict[str, str] = {
    "L": "liter",
    "dL": "deciliter",
    "cL": "centiliter",
    "mL": "milliliter",
    "kg": "kilogram",
    "g": "gram",
    "mg": "milligram",
    "lb": "pound",
    "oz": "ounce",
    "tsp": "teaspoon",
    "tbsp": "tablespoon",
}
# Spellings a cook would write.
SPELLINGS: dict[str, str] = {
    "gal": "gal", "gals": "gal", "gallon": "gal", "gallons": "gal",
    "qt": "qt", "qts": "qt", "quart": "qt", "quarts": "qt",
    "pt": "pt", "pts": "pt", "pint": "pt", "pints": "pt",
    "cup": "cup", "cups": "cup",
    "fl oz": "fl oz", "floz": "fl oz", "fl. oz": "fl oz", "fl.oz": "fl oz",
    "fluid ounce": "fl oz", "fluid ounces": "fl oz",
    "l": "L", "liter": "L", "liters": "L", "litre": "L", "litres": "L",
    "dl": "dL", "cl": "cL", "ml": "mL", "milliliter": "mL", "milliliters": "mL",
    "millilitre": "mL", "millilitres": "mL",
    "kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "kilogramme": "kg", "kilogrammes": "kg",
    "g": "g", "gm": "g", "gram": "g", "grams": "g", "gramme": "g", "grammes": "g",
    "mg": "mg", "milligram": "mg", "milligrams": "mg",
    "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb",
    "oz": "oz", "ounce": "oz", "ounces": "oz",
    "tsp": "tsp", "tsps": "tsp", "teaspoon": "tsp", "teaspoons": "tsp",
    "tbsp": "tbsp", "tbsps": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
    "packet": "packet", "packets": "packet", "sachet": "packet", "sachets": "packet",
    "pkt": "packet", "pkts": "packet", "pkg": "packet", "pkgs": "packet",
    "envelope": "packet", "envelopes": "packet",
    "tablet": "tablet", "tablets": "tablet", "tab": "tablet", "tabs": "tablet",
    "bottle": "bottle", "bottles": "bottle",
    "cork": "cork", "corks": "cork", "piece": "piece", "pieces": "piece",
}  # fmt: skip
COUNTED = ("packet", "tablet", "bottle", "cork", "piece")
DIMENSIONS = (
    dict.fromkeys((*COUNTRY_UNITS, "L", "dL", "cL", "mL", "tsp", "tbsp"), "volume")
    | dict.fromkeys(("kg", "g", "mg", "lb", "oz"), "mass")
    | dict.fromkeys(COUNTED, "count")
)
COUNTRY_WORDS: dict[str, GallonCountry] = {
    "us": "US", "u.s": "US", "usa": "US", "american": "US",
    "imp": "imperial", "imperial": "imperial", "uk": "imperial", "british": "imperial",
}  # fmt: skip
