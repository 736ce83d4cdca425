"""What a kitchen writes, read as it was meant or refused with a sentence; never guessed."""

import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from winebench.factors import registry
from winebench.units import (
    Amount,
    Gravity,
    Mass,
    Size,
    Temperature,
    UnitsError,
    Volume,
    gravity_meant,
    parse_number,
)

# NIST Handbook 44, appendix C, and the UK Units of Measurement Regulations 1995: exact.
OUNCE_G, POUND_G = 28.349523125, 453.59237
US_GALLON_L, IMPERIAL_GALLON_L = 3.785411784, 4.54609


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("3 lb 4 oz", 3 * POUND_G + 4 * OUNCE_G),
        ("3lb4oz", 3 * POUND_G + 4 * OUNCE_G),
        ("3 lb, 4 oz", 3 * POUND_G + 4 * OUNCE_G),
        ("3 lb + 4 oz", 3 * POUND_G + 4 * OUNCE_G),
        ("3 lb and 4 oz", 3 * POUND_G + 4 * OUNCE_G),
        ("3 lbs. .5 oz", 3 * POUND_G + 0.5 * OUNCE_G),
        ("2,5 kg", 2500.0),
        ("2.5 kg", 2500.0),
        (".5 kg", 500.0),
        # Thousands, as cookery books print them: no kitchen weighs thousandths of a gram.
        ("1,000 g", 1000.0),
        ("1,200 g", 1200.0),
        ("12,500 grams", 12500.0),
        ("1.000 g", 1.0),
        ("0,125 g", 0.125),
        ("1.235 g", 1.235),
        ("1,25 g", 1.25),
        ("2,250 kg", 2250.0),
        ("1.125 lb", 1.125 * POUND_G),
        ("¾ lb", 0.75 * POUND_G),
        ("1¾ lb", 1.75 * POUND_G),
        ("3⁄4 lb", 0.75 * POUND_G),
        ("1 1/2 lb", 1.5 * POUND_G),
        ("1-1/2 lb", 1.5 * POUND_G),
        ("8 oz", 8 * OUNCE_G),
        ("40 mg", 0.04),
        ("1\u00a0kg", 1000.0),
    ],
)
def test_a_weight_is_read_as_it_was_meant(text, grams):
    amount = Amount(text)
    assert amount.dimension == "mass"
    assert amount.grams() == pytest.approx(grams, rel=1e-12)
    assert Mass(text).text == text


@pytest.mark.parametrize(
    ("text", "us_litres", "imperial_litres"),
    [
        ("1 gal", US_GALLON_L, IMPERIAL_GALLON_L),
        ("1 qt", US_GALLON_L / 4, IMPERIAL_GALLON_L / 4),
        ("1 pt", US_GALLON_L / 8, IMPERIAL_GALLON_L / 8),
        ("1 cup", US_GALLON_L / 16, IMPERIAL_GALLON_L / 16),
        ("8 fl oz", US_GALLON_L / 16, IMPERIAL_GALLON_L / 20),
        ("8 fl. oz.", US_GALLON_L / 16, IMPERIAL_GALLON_L / 20),
        ("1 gal 2 qt", 1.5 * US_GALLON_L, 1.5 * IMPERIAL_GALLON_L),
        ("5 gal US", 5 * US_GALLON_L, 5 * US_GALLON_L),
        ("5 U.S. gallons", 5 * US_GALLON_L, 5 * US_GALLON_L),
        ("1 imp. gal", IMPERIAL_GALLON_L, IMPERIAL_GALLON_L),
        ("1 gal 2 qt imperial", 1.5 * IMPERIAL_GALLON_L, 1.5 * IMPERIAL_GALLON_L),
        ("1 gal (US)", US_GALLON_L, US_GALLON_L),
        ("1 1/2 tsp", 1.5 * US_GALLON_L / 768, 1.5 * US_GALLON_L / 768),
        ("2 Tbsp", 2 * US_GALLON_L / 256, 2 * US_GALLON_L / 256),
        ("1 ML", 0.001, 0.001),
        ("75 cl", 0.75, 0.75),
        ("3,8 L", 3.8, 3.8),
    ],
)
def test_a_volume_is_read_by_the_projects_own_gallon(text, us_litres, imperial_litres):
    assert Volume(text).litres("US") == pytest.approx(us_litres, rel=1e-9)
    assert Volume(text).litres("imperial") == pytest.approx(imperial_litres, rel=1e-9)


@pytest.mark.parametrize("text", ["3 lb (1.4 kg)", "1 lb (8 oz)", "2 kg (4 lb 6 oz)"])
def test_an_amount_given_twice_is_not_added_up(text):
    with pytest.raises(UnitsError, match="gives an amount twice"):
        Amount(text)


@pytest.mark.parametrize("text", ["1 gal", "1 pt", "8 fl oz", "1 gal 2 qt"])
def test_a_bare_gallon_without_a_country_is_refused_and_the_advice_given_works(text):
    assert Amount(text).needs_country
    with pytest.raises(UnitsError, match="US or imperial") as refusal:
        Amount(text).litres(None)
    for advised in (f"{text} US", f"{text} imperial"):
        assert f'"{advised}"' in str(refusal.value)
        assert Amount(advised).litres(None) > 0
        assert not Amount(advised).needs_country


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("1 pinch", "not a unit"),
        ("5 brix", "not a unit"),
        ("20 C", "not a unit"),
        ("9**9**9 kg", "not a unit"),
        ("1e3 kg", "not a unit"),
        ("1 to 2 kg", "not a unit"),
        ("1 lb and", "not a unit"),
        ("2 T", "not a unit"),
        ("3", "no unit"),
        ("3 lb 4", "no unit"),
        ("", "Nothing is written"),
        ("  ", "Nothing is written"),
        ("kg", "not an amount"),
        ("-1 kg", "is less than nothing; write 1 kg"),
        ("1.000.000 g", "not an amount"),
        ("1 000 g", "not an amount"),
        ("100000000 kg", "not an amount"),
        ("3½4 lb", "not an amount"),
        ("3 lb ,5 oz", "not an amount"),
        ("1 lb +", "not an amount"),
        ("1/0 lb", "divides by nothing"),
        ("1 kg 2 L", "adds weight to volume"),
        ("1 tablet 1 packet", "two kinds"),
        ("1 US imperial gal", "two countries"),
    ],
)
def test_what_could_be_misread_is_refused_with_one_sentence(text, sentence):
    with pytest.raises(UnitsError, match=sentence) as refusal:
        Amount(text)
    assert "\n" not in str(refusal.value)


def test_each_kind_of_quantity_takes_only_its_own():
    assert Amount("2 packets").count() == 2
    assert Size("24 bottles").count() == 24
    for kind, text in ((Mass, "1 L"), (Volume, "1 kg"), (Size, "1 kg")):
        with pytest.raises(UnitsError, match="this wants one such as"):
            kind(text)
    with pytest.raises(UnitsError, match="not a volume"):
        Amount("1 kg").litres("US")
    with pytest.raises(UnitsError, match="not a mass"):
        Amount("1 L").grams()
    with pytest.raises(UnitsError, match="not a count"):
        Amount("1 L").count()


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("20 C", 20.0),
        ("68 F", 20.0),
        ("20 degC", 20.0),
        ("20 deg. C", 20.0),
        ("20 ºC", 20.0),
        ("20 ℃", 20.0),
        ("68 ℉", 20.0),
        ("20,5 °C", 20.5),
        ("−5 °C", -5.0),
        ("-5 °C", -5.0),
        ("86 fahrenheit", 30.0),
    ],
)
def test_a_temperature_is_degrees_and_never_coulombs_or_farads(text, celsius):
    assert Temperature(text).celsius == pytest.approx(celsius)
    assert Temperature(text).fahrenheit == (celsius != 20.5 and any(f in text for f in "Ff℉"))


@pytest.mark.parametrize("text", ["68", "20 K", "120 C", "1e1 C", "", "C", "20 fc"])
def test_what_is_no_kitchen_temperature_is_refused(text):
    with pytest.raises(UnitsError):
        Temperature(text)


@pytest.mark.parametrize(
    ("text", "value", "scale"),
    [
        ("1.090", 1.09, "SG"),
        ("1,090", 1.09, "SG"),
        (".998", 0.998, "SG"),
        ("SG 1.090", 1.09, "SG"),
        ("5 brix", 5.0, "Brix"),
        ("22,5 °Bx", 22.5, "Brix"),
    ],
)
def test_a_gravity_is_read_on_its_scale(text, value, scale):
    gravity = Gravity(text)
    assert (gravity.value, gravity.scale, gravity.text) == (value, scale, text)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("1096", "1.096"),
        ("0.0998", "0.998"),
        ("109", "1.090"),
        ("1.24", "1.024"),
        ("1.9", "1.090"),
        ("24", "24 brix"),
    ],
)
def test_a_slip_is_refused_with_what_was_probably_meant(text, meant):
    with pytest.raises(UnitsError, match=f'Did you mean "{meant}"'):
        Gravity(text)
    assert gravity_meant(float(text)) == meant
    Gravity(meant)


@pytest.mark.parametrize("text", ["0.96", "1.21 SG", "51 brix", "-1", "nan", "", "heavy"])
def test_what_no_must_can_have_is_refused(text):
    with pytest.raises(UnitsError):
        Gravity(text)


@pytest.mark.parametrize(
    "quantity", [Amount("3/4 lb"), Volume("1 gal"), Temperature("68 F"), Gravity("22 brix")]
)
def test_a_quantity_keeps_its_words_and_cannot_be_changed(quantity):
    again = pickle.loads(pickle.dumps(quantity))
    assert again == quantity
    assert hash(again) == hash(quantity)
    assert again.text == quantity.text
    assert repr(quantity) == f"{type(quantity).__name__}({quantity.text!r})"
    with pytest.raises(AttributeError, match="cannot be changed"):
        quantity.text = "other"


def test_quantities_are_equal_by_their_words_and_their_kind():
    assert Amount("1 kg") != Amount("1000 g")
    assert Amount("1 kg") != Mass("1 kg")
    assert Temperature("20 C") != Amount("1 kg")


@given(st.integers(0, 999), st.integers(0, 99), st.integers(1, 99))
def test_a_mixed_number_is_its_whole_and_its_fraction(whole, top, bottom):
    number = whole + top / bottom
    for text in (f"{whole} {top}/{bottom}", f"{whole}-{top}/{bottom}", f"{whole} {top} / {bottom}"):
        assert parse_number(text) == pytest.approx(number)
        assert Amount(f"{text} lb").grams() == pytest.approx(number * POUND_G)


@given(st.decimals(0, 9999, places=3))
def test_a_comma_and_a_point_say_the_same(number):
    text = f"{number:f}"
    assert parse_number(text) == parse_number(text.replace(".", ",")) == float(number)


@given(st.text(alphabet="0123456789 ./,-+½¾lbozkg°CFe*()", max_size=14))
def test_any_typing_is_read_or_refused_but_never_breaks(text):
    for read in (Amount, Temperature, Gravity, parse_number):
        try:
            read(text)
        except UnitsError:
            continue


@settings(deadline=None)  # the first example waits for pint
@given(st.floats(0.001, 9999.0))
def test_pint_agrees_on_every_unit_that_is_spelled_alike(number):
    text = f"{number:.3f}"
    for unit in ("kg", "g", "lb", "oz"):
        expected = registry().Quantity(float(text), unit).to("gram").magnitude
        assert Amount(f"{text} {unit}").grams() == pytest.approx(expected)
