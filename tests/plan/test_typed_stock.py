"""Prices and days as people type them into the pantry; costs reckoned by hand beside each check."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.recipes import additive, fruit, project, white
from tests.plan.test_shopping import only, stock
from winebench.model.price import Price
from winebench.model.recipe import FruitLine
from winebench.model.rough_day import RoughDay
from winebench.plan.compose import compose
from winebench.plan.shopping.items import past_keeping
from winebench.plan.shopping.typed_stock import amount_of, money_name, opened_by, price_in
from winebench.units import Amount, UnitsError

TODAY = date(2026, 10, 1)


# --- prices ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "value", "of"),
    [
        ("3.50", 3.5, None), ("3,50", 3.5, None), ("3.50 a lb", 3.5, "1 lb"),
        ("3.50/lb", 3.5, "1 lb"), ("3.50 lb", 3.5, "1 lb"), ("12 a gal", 12.0, "1 gal"),
        ("0.35 an oz", 0.35, "1 oz"),
        ("6 for 30 corks", 6.0, "30 corks"), ("5 per 2 kg", 5.0, "2 kg"),
        ("2.20 each", 2.2, "1 piece"), ("$3.50 a lb", 3.5, "1 lb"), ("3.50 $ a lb", 3.5, "1 lb"),
    ],
)  # fmt: skip
def test_a_price_is_read_with_what_it_is_of(text, value, of):
    found = price_in("$")(text)
    assert found.value == value
    assert found.of == (Amount(of) if of else None)


@pytest.mark.parametrize(
    ("text", "words"),
    [("cheap", "not a price"), ("-3", "not a price"), ("", "not a price"),
     ("3 per 0 lb", "price of nothing"), ("1.20 a pack", "bare number for a pack"),
     ("3 a furlong", "nothing that a price can be of")],
)  # fmt: skip
def test_what_is_no_price_is_one_sentence(text, words):
    with pytest.raises(UnitsError, match=words):
        price_in("EUR")(text)


@pytest.mark.parametrize(
    ("line", "entry", "cost"),
    [
        # 6 lb of sugar at 0.80 a lb
        (white("6 lb"), {"price": "0.80 a lb"}, 4.80),
        # the same by the ounce: 96 oz at 0.05
        (white("6 lb"), {"price": "0.05 an oz"}, 4.80),
        # 3 kg are 3000 / 453.59237 = 6.614 lb at 0.80 (NIST Handbook 44: the pound)
        (white("3 kg"), {"price": "0.80 a lb"}, 5.291),
        # whole packs of 5 lb: two, 10 lb at 0.80
        (white("6 lb"), {"price": "0.80 a lb", "pack": "5 lb"}, 8.00),
        # a pack of 4 lb at 3.40: two
        (white("6 lb"), {"price": "3.40", "pack": "4 lb"}, 6.80),
        # 2 lb in stock: 4 lb more
        (white("6 lb"), {"price": "0.80 a lb", "have": "2 lb"}, 3.20),
        # tablets at 5 for 100: 10 are 0.50
        (additive("sulfite-tablet", "10 tablets"), {"price": "5 for 100 tablets"}, 0.50),
        # a bare number still is of a kilogram
        (white("3 kg"), {"price": "1.20"}, 3.60),
    ],
)
def test_the_cost_is_that_of_the_price_s_own_measure(line, entry, cost):
    found = only(line, stock(line.sugar if hasattr(line, "sugar") else line.additive, **entry))
    assert found.cost == pytest.approx(cost, abs=0.001)
    assert (found.price_of == "") == (Price(entry["price"]).of is not None)


@pytest.mark.parametrize(("gallon", "cost"), [("US", 24.0), ("imperial", 19.985)])
def test_a_price_by_the_gallon_is_of_the_project_s_gallon(gallon, cost):
    # 2 US gallons are 7.570823568 L: at 12 a gallon 24.00; of imperial ones (4.54609 L) there
    # are 1.6653, which come to 19.98 (NIST Handbook 44; Weights and Measures Act 1985).
    juice = FruitLine(id="juice", fruit="apple", amount=Amount("2 gal US"), form="juice")
    made = project(
        juice, basis="2 gal US", gallon=gallon, pantry=(stock("apple", price="12 a gal"),)
    )
    assert compose(made).shopping[0].cost == pytest.approx(cost, abs=0.005)


def test_a_price_that_cannot_be_set_against_the_need_is_said_and_not_counted():
    found = only(white("3 kg"), stock("white-sugar", price="2 a packet"))
    assert found.cost is None
    assert found.notes[0].startswith("Its price is not counted: ")
    no_country = only(
        FruitLine(id="juice", fruit="apple", amount=Amount("10 L"), form="juice"),
        stock("apple", price="12 a gal"), gallon=None,
    )  # fmt: skip
    assert no_country.cost is None
    assert "could be US or imperial" in no_country.notes[0]


@given(st.integers(0, 9_999_999), st.sampled_from(["lb", "oz", "kg", "g"]))
def test_a_price_by_any_weight_costs_the_same(cents, unit):
    # so much a lb is 1/16 of it an oz, and 2.2046 times it a kg
    a_lb = cents / 100
    a_unit = a_lb * Amount(f"1 {unit}").grams() / 453.59237
    by_lb = only(fruit("damson", "3 lb"), stock("damson", price=f"{a_lb:.2f} a lb")).cost
    by_unit = only(fruit("damson", "3 lb"), stock("damson", price=f"{a_unit:.6f}/{unit}")).cost
    assert by_lb == pytest.approx(3 * a_lb)
    assert by_unit == pytest.approx(by_lb, abs=0.002)


# --- when a pack was opened ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("3 March 2025", "2025-03-03", "2025-03-03"), ("2025-03-03", "2025-03-03", "2025-03-03"),
        ("Mar 3, 2025", "2025-03-03", "2025-03-03"), ("20 Dec", "2025-12-20", "2025-12-20"),
        ("March 2024", "2024-03-01", "2024-03-31"), ("2024-02", "2024-02-01", "2024-02-29"),
        ("3/2024", "2024-03-01", "2024-03-31"), ("about March 2024", "2024-03-01", "2024-03-31"),
        ("march", "2026-03-01", "2026-03-31"), ("Dec", "2025-12-01", "2025-12-31"),
        ("2024", "2024-01-01", "2024-12-31"), ("yesterday", "2026-09-30", "2026-09-30"),
    ],
)  # fmt: skip
def test_a_day_a_month_or_a_year_will_do(text, first, last):
    found = opened_by(TODAY)(text)
    assert (found.first.isoformat(), found.last.isoformat()) == (first, last)


@pytest.mark.parametrize(
    ("text", "words"),
    [("2027", "still to come"), ("Oct 2026 or so", "not a day"), ("30 Feb 2024", "not a day"),
     ("13/2024", "not a day"), ("24", "not a day"), ("3/11/2025", "month as a word")],
)  # fmt: skip
def test_what_is_no_past_day_is_one_sentence(text, words):
    with pytest.raises(UnitsError, match=words):
        opened_by(TODAY)(text)


@pytest.mark.parametrize("text", ["2025-00", "2025-03-00", "0 Mar 2025", "00 March 2025"])
def test_a_day_or_month_of_nought_is_none(text):
    with pytest.raises(UnitsError, match="is not a day; write one such as"):
        RoughDay(text)


@given(st.dates())
def test_every_day_is_read_back_from_its_own_text(day):
    assert RoughDay(day.isoformat()).first == RoughDay(day.isoformat()).last == day
    if day.year >= 1900:
        assert RoughDay(RoughDay(day.isoformat()).words).first == day


@pytest.mark.parametrize(
    ("opened", "until", "said"),
    [
        # a year (365 days) from the earliest day that it can have been (common practice)
        ("March 2025", date(2026, 3, 1), "Opened about March 2025,"),
        ("2025", date(2026, 1, 1), "Opened about 2025,"),
        ("3 Mar 2025", date(2026, 3, 3), "Once open, it keeps"),
    ],
)
def test_strength_is_reckoned_from_the_earliest_day_that_it_can_have_been(opened, until, said):
    entry = stock("sulfite-tablet", have="50 tablets", opened=opened)
    item = only(additive("sulfite-tablet", "2 tablets"), entry)
    assert item.keeps_until == until
    assert item.keeping.startswith(said)
    assert ("reckoned as 1 " in item.keeping) == ("about" in said)
    assert past_keeping(item, until + timedelta(days=1))


def test_of_two_open_packs_the_older_counts():
    pantry = (
        stock("sulfite-tablet", have="5 tablets", opened="June 2025"),
        stock("sulfite-tablet", have="5 tablets", opened="2025"),
    )
    item = only(additive("sulfite-tablet", "2 tablets"), *pantry)
    assert "about 2025" in item.keeping


@pytest.mark.parametrize(("text", "value"), [("$3.99", 3.99), ("3.99 $", 3.99), ("£2 a kg", 2.0)])
def test_where_no_money_is_named_any_sign_of_one_is_taken(text, value):
    assert price_in("")(text).value == value
    with pytest.raises(UnitsError):
        price_in("EUR")(text)


@pytest.mark.parametrize("text", ["$", "€", "EUR", "chf", "US$", "kr", "zł", "pounds", " £ "])
def test_prices_are_in_a_sign_a_code_or_a_short_word(text):
    assert money_name(text) == text.strip()


@pytest.mark.parametrize(
    "text", ["what I paid in the shop", "3.50", "EUR 3", "12", "-", "...", "three pounds", "??"]
)
def test_a_sentence_or_a_number_is_no_money(text):
    with pytest.raises(UnitsError, match="a code such as EUR, or one short word"):
        money_name(text)


@pytest.mark.parametrize(
    ("text", "count"),
    [("2 dozen", "24 bottles"), ("a dozen", "12 bottles"), ("1/2 dozen", "6 bottles"),
     ("2 dozen bottles", "24 bottles"), ("24", "24 bottles")],
)  # fmt: skip
def test_things_that_are_counted_come_by_the_dozen(text, count):
    assert amount_of("bottle")(text) == Amount(count)
    with pytest.raises(UnitsError):
        amount_of("g")(text)
