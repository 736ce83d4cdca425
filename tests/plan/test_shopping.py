"""The shopping list: needs less stock, whole packs, cost; reckoned by hand beside each check."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import damson, seen
from tests.plan.recipes import GALLON, project, white
from winebench.model.edits import changed
from winebench.model.price import Price
from winebench.model.rough_day import RoughDay
from winebench.model.stock import PantryItem
from winebench.plan.compose import compose
from winebench.plan.shopping.items import NO_PRICES, money_text
from winebench.plan.shopping.text import shopping_lines
from winebench.plan.shopping.typed_stock import price_in
from winebench.plan.work_out import recipe_outlook
from winebench.units import Amount, UnitsError


def stock(what, have=None, pack=None, price=None, opened=None, **fields):
    """Return a pantry entry; a price may be a bare number or as it is typed."""
    number = isinstance(price, int | float)
    return PantryItem(
        what=what,
        have=Amount(have) if have else None,
        pack=Amount(pack) if pack else None,
        price=Price.of_number(price) if number else Price(price) if price else None,
        opened=RoughDay(opened) if opened else None,
        **fields,
    )


def items(made):
    return {item.what: item for item in compose(made).shopping}


def only(line, *pantry, **fields):
    """Return the one item that a line comes to."""
    return compose(project(line, pantry=pantry, **fields)).shopping[0]


# --- the worked example: a one-gallon recipe made at five gallons ----------------------------

PANTRY = (
    stock("damson", have="2 kg", price=2.50),
    stock("white-sugar", have="500 g", pack="1 kg", price=1.20),
    stock("yeast", price=2.20),
    stock("sulfite-tablet", pack="100 tablets", price=5.00),
    stock("bottles", have="30 bottles", price=0.50),
    stock("corks", pack="30 corks", price=6.00),
)
FIVE = project(*GALLON, make="5 gal US", pantry=PANTRY, money="EUR")


@pytest.mark.parametrize(
    ("what", "need", "buy", "left", "spend", "used", "from_stock"),
    [
        # 5 x 1.8 = 9 kg, 2 there: 7 kg at 2.50
        ("damson", "9.00 kg", "7.00 kg", "", 17.50, 17.50, 5.00),
        # 5 x 680 g = 3.4 kg, 0.5 there: 2.9 kg is 3 packs at 1.20; 2.9/3 of them used
        ("white-sugar", "3.40 kg", "3 × 1 kg", "100 g", 3.60, 3.48, 0.60),
        # 18.9 L, and a packet serves 23 L
        ("yeast", "1 packet (5 g)", "1 packet", "", 2.20, 2.20, 0.00),
        ("sulfite-tablet", "5 tablets", "1 × 100 tablets", "95 tablets", 5.00, 0.25, 0.00),
        # 18.93 L less 6 % lees, three rackings of 0.5 L and 0.2 L of samples: 16.1 L, 21 bottles
        ("bottles", "21 bottles", "", "9 bottles", 0.00, 0.00, 10.50),
        # 21 and three spare
        ("corks", "24 corks", "1 × 30 corks", "6 corks", 6.00, 4.80, 0.00),
    ],
)
def test_each_line_of_the_worked_example(what, need, buy, left, spend, used, from_stock):
    item = items(FIVE)[what]
    assert (item.need, item.buy_text, item.left_text) == (need, buy, left)
    got = (item.cost, item.cost_used, item.stock_used)
    assert got == pytest.approx((spend, used, from_stock), abs=1e-6)


def test_the_worked_example_in_all_has_two_totals_and_the_stock():
    cost = compose(FIVE).bottles.cost
    # 17.50 + 3.60 + 2.20 + 5.00 + 6.00, and so on down the columns of the table above
    assert cost.to_spend == pytest.approx(34.30)
    assert cost.used == pytest.approx(28.23)
    assert cost.from_stock == pytest.approx(16.10)
    assert cost.a_bottle == pytest.approx(44.33 / 21)
    assert cost.sentence == (
        "To spend 34.30 EUR, of which 28.23 EUR goes into this wine; with 16.10 EUR from the "
        "stock it costs 44.33 EUR, 2.11 EUR a bottle."
    )
    assert cost.without_price == ()


def test_without_stock_the_sentence_is_the_short_one():
    pantry = tuple(changed(item, have=None) for item in PANTRY)
    cost = compose(changed(FIVE, pantry=pantry, money="")).bottles.cost
    # 9 x 2.5 + 4 x 1.2 + 2.2 + 5 + 21 x 0.5 + 6 = 51.00; used 22.5 + 4.08 + 2.2 + 0.25 + 10.5 + 4.8
    assert cost.sentence == "To spend 51.00, of which 44.33 goes into this wine: 2.11 a bottle."


def test_with_all_in_stock_nothing_is_spent_and_the_wine_still_costs():
    have = {"damson": "9 kg", "white-sugar": "4 kg", "yeast": "1 packet", "corks": "30 corks",
            "sulfite-tablet": "5 tablets", "bottles": "21 bottles"}  # fmt: skip
    pantry = tuple(changed(item, have=Amount(have[item.what])) for item in PANTRY)
    made = compose(changed(FIVE, pantry=pantry))
    assert [item.buy_text for item in made.shopping if not item.suggested] == [""] * 6
    assert made.bottles.cost.sentence == (
        "Nothing to spend; 44.33 EUR from the stock goes into this wine: 2.11 EUR a bottle."
    )


def test_what_has_no_price_is_named_and_not_counted():
    cost = compose(project(*GALLON, pantry=(stock("yeast", price=2.0),), money="$")).bottles.cost
    assert cost.to_spend == pytest.approx(2.0)
    assert "want of a price: Damsons; White sugar; Sulfite tablets; Bottles" in cost.sentence
    assert len(cost.without_price) == 5
    bare = compose(project(*GALLON)).bottles.cost
    assert (bare.sentence, bare.to_spend) == (NO_PRICES, None)


@pytest.mark.parametrize(
    ("money", "words"), [("EUR", "1.50 EUR"), ("$", "$1.50"), ("£", "£1.50"), (" ", "1.50")]
)
def test_money_is_written_as_the_maker_names_it(money, words):
    assert money_text(1.5, money) == words


@pytest.mark.parametrize(("money", "text"), [("EUR", "1,20 EUR"), ("$", "$1.20"), ("", "1.20")])
def test_a_price_may_be_typed_with_its_money(money, text):
    assert price_in(money)(text).value == 1.2


def test_less_than_a_bottle_wants_no_bottle_and_has_no_price_by_it():
    made = compose(project(white("100 g"), make="0.5 L", pantry=PANTRY))
    assert [item.what for item in made.shopping] == ["white-sugar", "cleaner"]
    assert made.bottles.cost.a_bottle is None
    # 100 g for 3.79 L is 13.2 g for half a litre, all of it in stock: 13.2 g at 1.20 a kg
    assert (
        made.bottles.cost.sentence == "Nothing to spend; 0.02 from the stock goes into this wine."
    )


# --- the text --------------------------------------------------------------------------------


def test_the_text_can_be_pasted_into_a_message():
    pantry = (*PANTRY[:3], stock("sulfite-tablet", have="60 tablets", opened="2025-03-03"))
    words = "\n".join(shopping_lines(seen(damson(pantry=pantry), "2026-10-01T10:00")))
    assert words.startswith(
        "Shopping for Hedge damson, 5 gal US\n\nTo buy:\n- Damsons, frozen: 7.00"
    )
    assert "- White sugar: 3 × 1 kg, 3.60; needed 3.40 kg, in stock 500 g, left over 100 g" in words
    assert "about a year: until March 2026 (common practice). It is past that: buy fresh." in words
    assert "Not counted, for want of a price" in words.splitlines()[-1]
    fresh = "- Sulfite tablets: fresh, 4 tablets (what is in stock is past its strength); needed 4"
    assert fresh in words
    assert "In stock already" not in words  # what has no strength is no stock


def test_typing_elsewhere_does_not_work_the_list_out_again():
    first = recipe_outlook(damson(pantry=PANTRY))
    assert recipe_outlook(damson(pantry=PANTRY)).shopping is first.shopping


# --- properties ------------------------------------------------------------------------------

weights = st.integers(1, 99_999).map(lambda grams: f"{grams / 10:g} g")
haves = st.one_of(st.none(), weights)
prices = st.one_of(st.none(), st.floats(0, 1e4))


@settings(deadline=None, max_examples=150)
@given(st.integers(1, 99_999), haves, haves, prices)
def test_enough_is_bought_in_whole_packs_and_never_for_less_than_nothing(grams, have, pack, price):
    item = only(white(f"{grams / 10:g} g"), stock("white-sugar", have, pack, price))
    tiny = 1e-6 * item.needed
    assert item.buy >= item.needed - item.stock - tiny
    assert item.left == pytest.approx(item.stock + item.buy - item.needed, abs=2 * tiny)
    if pack:
        size = Amount(pack).grams()
        assert item.packs == round(item.buy / size)
        assert item.buy == pytest.approx(item.packs * size)
        assert item.buy < max(item.needed - item.stock, 0.0) + size + tiny, "no pack too many"
    else:
        assert item.packs is None
    if price is None:
        assert item.cost is None
    else:
        assert item.cost >= item.cost_used - tiny * max(price, 1.0) >= -tiny * max(price, 1.0)
        assert item.stock_used >= 0.0
        assert math.isfinite(item.cost)


@settings(deadline=None, max_examples=150)
@given(st.integers(1, 99_999), st.integers(0, 99_999), st.integers(0, 99_999), haves, prices)
def test_more_stock_never_costs_more(grams, less, more, pack, price):
    bought = [
        only(white(f"{grams / 10:g} g"), stock("white-sugar", f"{have / 10:g} g", pack, price or 1))
        for have in sorted((less, more))
    ]
    assert bought[1].cost <= bought[0].cost + 1e-9
    assert bought[1].buy <= bought[0].buy + 1e-9


@settings(deadline=None, max_examples=100)
@given(
    st.sampled_from(["damson", "white-sugar", "sulfite-tablet", "yeast", "bottles", "corks"]),
    st.text("0123456789,./ gkLmtslabeprcko", min_size=1, max_size=12),
)
def test_whatever_can_be_read_can_be_in_the_pantry(what, text):
    try:
        amount = Amount(text)
    except UnitsError:
        return
    item = PantryItem(what=what, have=amount, pack=amount, price=Price("1"))
    found = items(changed(FIVE, pantry=(item,)))[what]
    assert found.buy >= 0.0
    assert found.cost is None or found.cost >= 0.0


@pytest.mark.parametrize("typed", ["99999999999999999999", "1e9"])
def test_a_number_that_is_no_price_is_not_parted(typed):
    with pytest.raises(UnitsError, match="is not a price"):
        Price(typed)
