"""A household of gallons, pounds and °F reads the whole outlook in them; a metric one as it was.

Factors: NIST Handbook 44, appendix C (gallon, pound) and the definition of the Fahrenheit scale;
the imperial gallon by the Weights and Measures Act 1985.
"""

import re

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.damson import damson, seen, ticked
from tests.plan.recipes import WATER, YEAST, additive, fruit, project, vessel, white
from winebench.model.recipe import Make
from winebench.plan.customary import Household, household, size_of, unit_words, volume_text
from winebench.plan.gallons_changed import gallons_changed
from winebench.plan.solve import Ask, solve
from winebench.plan.spoken import spoken
from winebench.units import Size, Temperature, Volume

US_GALLON_L, IMPERIAL_GALLON_L, POUND_G = 3.785411784, 4.54609, 453.59237
AMERICAN = Household("US", pounds=True, fahrenheit=True)
METRIC = Household(None, pounds=False, fahrenheit=False)
GOOSEBERRY = (
    fruit("gooseberry", "6 lb"), white("5 lb"), WATER, YEAST, additive("yeast-nutrient", "1 tsp"),
)  # fmt: skip
VESSELS = (vessel("bucket", "primary", "6 gal"), vessel("jug", "secondary", "3 gal", glass=True))


def american(**fields):
    made = project(*GOOSEBERRY, basis="3 gal", vessels=VESSELS, room=Temperature("64F"), **fields)
    return msgspec.structs.replace(made, paper="Letter")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("18 °C or warmer", "64 °F or warmer"),
        ("bring it to 20–23 °C", "bring it to 68–73 °F"),
        ("both within 8 °C of each other", "both within 14 °F of each other"),
        ("metabisulfite for 11.4 L", "metabisulfite for 3 gal (11.4 L)"),
        ("1 gal (3.8 L) and 1.1 L", "1 gal (3.8 L) and 1.2 qt (1.1 L)"),
        ("(50 mg/L in 9.5 L)", "(50 mg/L in 2.5 gal)"),
        ("about 24 kg", "about 53 lb (24 kg)"),
        ("Add 119 g (4 1/4 oz) sugar", "Add 4 1/4 oz (119 g) sugar"),
        ("Add 500 g sugar", "Add 1 lb 2 oz (500 g) sugar"),
        ("Add 90 g sugar", "Add 3 1/4 oz (90 g) sugar"),  # 90 / 28.349523125 = 3.17, in quarters
        ("the must rises by 3 °C", "the must rises by 5 °F"),
        ("a fall of 0.5 °C a day", "a fall of 0.9 °F a day"),
        ("every 10 °C doubles it", "every 18 °F doubles it"),
        ("5 °C warmer than the room", "9 °F warmer than the room"),
        ("±2–3 °C", "±4–5 °F"),
        ("kept at -5 °C, or −20 °C", "kept at 23 °F, or -4 °F"),
        ("from -5 to 5 °C", "from 23 to 41 °F"),
        ("10-15 °C", "50-59 °F"),
        ("between 18 and 20 °C", "between 64 and 68 °F"),
        ("1.090 and 20 °C", "1.090 and 68 °F"),  # two figures, not a range
        ("68 °F (20 °C) or 20 °C (68 °F)", "68 °F (20 °C) or 68 °F (20 °C)"),
        ("between 5 and 10 L", "between 1.3 and 2.6 gal (5–10 L)"),
        ("5–10 L, (5 to 10 L)", "1.3–2.6 gal (5–10 L), (5 to 10 L)"),
        ("in 2 or 3 L of water", "in 2.1 or 3.2 qt (2 or 3 L) of water"),
        ("another by -0.5 L", "another by -17 fl oz (-0.5 L)"),
        ("11.4 L (3 gal US)", "3 gal US (11.4 L)"),
        ("between 1 and 2 kg", "between 2.2 and 4.4 lb (1–2 kg)"),
        ("90 to 180 g sugar, 5–10 g acid", "3.2 to 6.3 oz (90 to 180 g) sugar, 5–10 g acid"),
        ("less -1 kg", "less -2 lb 3 oz (-1 kg)"),
        ("1/2 L", "1/2 L"),  # typed by a person, and no 2 L
        (
            "0.82 g, 6.8 g/L, 40 mg/L, 750 mL, SG 1.090",
            "0.82 g, 6.8 g/L, 40 mg/L, 750 mL, SG 1.090",
        ),
    ],
)
def test_words_are_told_in_gallons_pounds_and_fahrenheit(text, told):
    assert spoken(text, AMERICAN) == told
    assert spoken(text, METRIC) == text


@given(st.floats(0.02, 300.0), st.sampled_from(["US", "imperial"]))
def test_what_is_told_is_the_volume_to_the_digit_told(litres, country):
    words, _, metric = volume_text(litres, country).partition(" (")
    told = Volume(words).litres(country)
    step = {"gal": US_GALLON_L, "qt": 1.0, "fl oz": 0.3}[words.split(" ", 1)[1]] * 0.1 * 1.3
    assert told == pytest.approx(litres, abs=step / 2)
    assert metric == f"{litres:.1f} L)"


def test_a_gallon_is_the_countrys():
    assert volume_text(2 * US_GALLON_L, "US") == "2 gal (7.6 L)"
    assert volume_text(2 * IMPERIAL_GALLON_L, "imperial") == "2 gal (9.1 L)"
    assert volume_text(7.6, None) == "7.6 L"


def test_a_size_to_fill_is_written_in_what_the_household_says_and_never_too_large():
    assert size_of(11.35, american()).text == "2.998 gal"
    bottles = american()
    bottles = msgspec.structs.replace(bottles, make=Make(size=Size("12 bottles"), by="bottles"))
    assert size_of(11.35, bottles).text == "2.998 gal"  # as the recipe is written
    assert size_of(11.358, project(*GOOSEBERRY, basis="11 L")).text == "11.35 L"
    assert size_of(11.35, project(basis="3 gal US", gallon=None)).text == "2.998 gal US"


def test_the_household_is_known_by_its_size_its_weights_and_its_room():
    assert household(american()) == AMERICAN
    litres = project(fruit("gooseberry", "3 kg"), WATER, basis="10 L")
    assert household(litres) == METRIC
    mixed = project(fruit("gooseberry", "3 kg"), WATER, basis="3 gal")
    assert household(mixed) == Household("US", pounds=False, fahrenheit=False)


METRIC_WORDS = re.compile(r"(?<![(\d.])\b\d+(?:\.\d+)? (?:L|kg)\b(?!/)|°C")


def texts_of(found):
    """Give each text of an outlook that a person reads, workings and edits left out."""
    for step in found.steps:
        yield from (step.reason, step.trigger, step.reminder, step.risk, *step.if_slips)
        yield from (one.text for one in step.conditions)
    for caution in found.cautions:
        yield from (caution.sentence, caution.detail, *(each.label for each in caution.repairs))
    for line in found.lines:
        yield from (line.name, line.measure, f"{line.scaled.text} {line.scaled.text_unit}")
    for held in found.vessels:
        yield from (re.sub(r"\([^)]*\)", "", held.headline), held.detail)
        if held.fill:
            yield f"{held.fill.text} {held.fill.text_unit}"
    for item in (*found.shopping, *found.later):
        yield from (item.name, item.need, item.buy_text, item.left_text, *item.notes)
    yield from (f"{one.text} {one.text_unit}" for one in (found.must.liquid, found.must.pail))
    yield from (item.detail for item in found.today)


def without_brackets(text):
    return re.sub(r"\([^()]*\)", "", text)


def test_an_american_outlook_can_be_read_without_knowing_litres_kilograms_or_celsius():
    for made in (american(), american(style="white-sweet"), american(make="2 gal")):
        found = seen(made, "2026-10-01T18:00")
        texts = [without_brackets(text) for text in texts_of(found)]
        assert len(texts) > 100
        assert [text for text in texts if METRIC_WORDS.search(text)] == []
    said = " ".join(texts_of(found))
    assert "°F" in said
    assert " gal" in said


def test_its_figures_keep_their_values_and_are_told_in_gallons_and_pounds():
    found = seen(american(), "2026-10-01T18:00")
    sugar = next(line.scaled for line in found.lines if line.id == "sugar")
    assert (sugar.text, sugar.text_unit) == ("5", "lb")
    assert sugar.value == pytest.approx(5 * POUND_G)
    liquid = found.must.liquid
    assert liquid.text_unit == "gal"
    assert float(liquid.text) == pytest.approx(liquid.value / US_GALLON_L, abs=0.05)
    bucket = found.vessels[0]
    assert bucket.weight.text_unit == "lb"
    assert float(bucket.weight.text) == pytest.approx(bucket.weight.value / 0.45359237, abs=0.5)
    assert bucket.headline.startswith(f"{bucket.fill.text} gal (")


def test_a_metric_outlook_is_told_as_before():
    made = project(fruit("gooseberry", "3 kg"), white("2.3 kg"), WATER, YEAST, basis="10 L",
                   gallon="imperial", vessels=(vessel("bucket", "primary", "20 L"),))  # fmt: skip
    found = seen(made, "2026-10-01T18:00")
    said = " ".join(texts_of(found))
    assert not re.search(r"\b(?:gal|qt|lb)\b|°F", said)
    assert found.vessels[0].headline.endswith(" L with the fruit")


def test_another_gallon_is_told_in_litres_and_what_names_its_country_stays():
    made = project(*GOOSEBERRY, basis="1 gal US", make="2 gal")
    # 2 x 4.54609 L, before 2 x 3.785411784 L
    assert gallons_changed(made, "imperial") == (
        "“2 gal” is now 9.1 L, before 7.6 L. “1 gal US” names its country and stays."
    )
    assert gallons_changed(made, "US") == ""
    litres = project(*GOOSEBERRY, basis="4 L")
    assert "nothing here is written in one" in gallons_changed(litres, "imperial")


# --- where the wine is now -------------------------------------------------------------------


def test_vessels_that_the_wine_has_left_are_empty():
    pail, jug = vessel("pail", "primary", "30 L"), vessel("jug", "secondary", "5 gal")
    make = Make(size=Size("5 gal US"), vessels=(pail, jug))
    in_pail = (ticked("pitch", "2026-10-02T18:00"),)
    moved = (*in_pail, ticked("transfer", "2026-10-09T18:00"))
    over = (*moved, ticked("bottle", "2026-12-20T12:00+01:00", count="19"))
    told = []
    for log, when in ((in_pail, "2026-10-05T10:00"), (moved, "2026-10-10T10:00"),
                      (over, "2026-12-21T10:00+01:00")):  # fmt: skip
        found = seen(damson(*log, make=make), when)
        told.append([(v.stage, v.headline, v.detail) for v in found.vessels])
    (before_pail, before_jug), (after_pail, after_jug), bottled = told
    assert before_pail[0] == before_jug[0] == "to come"
    assert after_pail == ("over", "empty", "moved to glass 9 October 2026")
    assert after_jug == ("now", *before_jug[1:])
    assert found.bottles.sentence == "19 bottles of 750 mL, filled 20 December 2026."
    assert bottled[1] == ("over", "empty", "bottled 20 December 2026")


def test_a_field_for_a_temperature_asks_in_the_scale_of_the_room():
    assert unit_words("°C", AMERICAN) == "such as 68 °F"
    assert unit_words("°C", METRIC) == "°C"
    assert unit_words("mg/L", AMERICAN) == "mg/L"


def test_what_then_reads_is_told_in_gallons():
    found = solve(american(), Ask({"gravity": 1.09}, ("sugar",)))
    liquid = next(one for one in found.figures if one.key == "liquid")
    assert (liquid.before.text_unit, liquid.after.text_unit) == ("gal", "gal")


def test_what_a_person_named_or_typed_is_never_told_in_other_words():
    yeast = msgspec.structs.replace(
        YEAST, coolest=Temperature("58 °F"), warmest=Temperature("76 °F")
    )
    lines = tuple(yeast if line is YEAST else line for line in GOOSEBERRY)
    pail = vessel("30 L bucket", "primary", "8 gal")
    made = project(*lines, basis="3 gal", make="5 gal", vessels=(pail,), room=Temperature("64F"))
    found = seen(made, "2026-10-01T18:00")
    assert next(line.name for line in found.lines if line.id == "yeast") == (
        "Yeast, to 14 %, 58–76 °F"
    )
    heavy = next(caution for caution in found.cautions if caution.key == "heavy-pail")
    assert heavy.sentence.startswith("The 30 L bucket with its must weighs about ")
    assert " lb (" in heavy.sentence
    assert "Yeast, to 14 %, 58–76 °F" in found.bottles.cost.without_price


def test_what_has_no_price_is_named_as_in_the_list():
    found = seen(american(), "2026-10-01T18:00")
    assert {item.name for item in found.shopping} >= set(found.bottles.cost.without_price[:2])
    assert [name for name in found.bottles.cost.without_price if "°C" in name] == []
    assert any("59–77 °F" in name for name in found.bottles.cost.without_price)
