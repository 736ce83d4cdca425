"""Stock against need: other units, two entries of one thing, and how long an open pack keeps."""

from datetime import date

import pytest

from tests.plan.damson import damson, seen, ticked
from tests.plan.recipes import WATER, YEAST, additive, fruit, project, sugar, white
from tests.plan.test_shopping import only, stock
from winebench.model.edits import changed
from winebench.model.price import Price
from winebench.model.project import Draft
from winebench.model.recipe import FruitLine
from winebench.plan.compose import compose
from winebench.plan.shopping.items import past_keeping
from winebench.plan.shopping.pantry import beside_the_list, pantry_with, pantry_without, thing_name
from winebench.plan.shopping.pantry_typed import counted, pantry_thing
from winebench.plan.shopping.text import ALL_BOUGHT, shopping_lines
from winebench.units import Amount, UnitsError

# --- units -----------------------------------------------------------------------------------


def test_stock_in_cups_counts_against_a_weight_through_the_density():
    # USDA SR28 food 19335: 1 US cup of white sugar is 200 g
    item = only(white("1.5 kg"), stock("white-sugar", have="5 cups US"))
    assert item.stock == pytest.approx(1000.0, rel=1e-6)
    assert item.buy == pytest.approx(500.0, rel=1e-6)


def test_a_pack_in_pounds_is_whole_pounds():
    # NIST Handbook 44 App. C: 1 lb = 453.59237 g exactly, so 1 kg is 2.2 lb
    item = only(white("1 kg"), stock("white-sugar", pack="1 lb", price=1.0))
    assert (item.packs, item.buy_text) == (3, "3 × 1 lb")
    assert item.buy == pytest.approx(3 * 453.59237)


def test_a_recipe_in_pounds_is_shown_in_pounds_too():
    assert only(white("3 lb"), stock("white-sugar", have="1 lb")).buy_text == "907 g (2 lb)"


@pytest.mark.parametrize(("gallon", "litres"), [("US", 3.785411784), ("imperial", 4.54609)])
def test_a_bare_gallon_in_stock_is_the_projects(gallon, litres):
    # NIST Handbook 44 App. C; Weights and Measures Act 1985
    juice = FruitLine(id="juice", fruit="apple", amount=Amount("10 L"), form="juice")
    item = only(juice, stock("apple", have="1 gal"), gallon=gallon)
    assert (item.unit, item.price_of) == ("L", "a litre")
    assert item.stock == pytest.approx(litres)


def test_a_bare_gallon_of_no_country_is_a_note_and_not_a_guess():
    juice = FruitLine(id="juice", fruit="apple", amount=Amount("10 L"), form="juice")
    item = only(juice, stock("apple", have="1 gal"), gallon=None)
    assert item.stock == 0.0
    assert "could be US or imperial" in item.notes[0]


def test_tablets_are_bought_by_number_and_may_be_in_stock_by_weight():
    item = only(additive("sulfite-tablet", "10 tablets"), stock("sulfite-tablet", have="2.2 g"))
    assert item.stock == pytest.approx(5.0)  # 0.44 g each, the kitchen's own figure
    assert item.buy_text == "5 tablets"
    assert "swollen" in item.notes[0]


def test_counted_things_are_bought_whole():
    item = only(additive("sulfite-tablet", "1 tablet"), basis="4 gal US", make="5 gal US")
    # 1 1/4 tablets: one is a fifth too little, so that two are crushed and a part is weighed off.
    assert (item.need, item.buy) == ("2 tablets", 2.0)


@pytest.mark.parametrize(
    ("line", "have", "need", "left"),
    [
        ("1 tablet", "100 tablets", "1 tablet", "99 tablets"),
        ("1 1/2 tablets", "4 tablets", "1 1/2 tablets", "2 1/2 tablets"),
        ("1/3 tablet", "4 tablets", "1 tablet", "3 tablets"),  # crushed: 1/2 is half too much
        ("1 tablet", "20 g", "1 tablet", "44 tablets"),  # 20 / 0.44 is 45.45, of which 1 is taken
        ("1 tablet", "0.6 g", "1 tablet", ""),  # 0.36 of one left over is nothing to break
    ],
)
def test_tablets_are_taken_out_of_their_tub_whole_or_halved(line, have, need, left):
    item = only(additive("sulfite-tablet", line), stock("sulfite-tablet", have=have))
    assert (item.need, item.buy_text, item.left_text) == (need, "", left)


def test_packets_of_what_is_sold_by_weight_are_packs():
    item = only(white("3 kg"), stock("white-sugar", have="2 packets", pack="1 kg"))
    assert (item.stock, item.packs) == (2000.0, 1)


def test_an_amount_of_another_kind_is_said_and_not_counted():
    item = only(white("1 kg"), stock("white-sugar", have="2 packets", price=1.0))
    assert item.stock == 0.0
    assert '"2 packets" cannot be set against 1.00 kg; write a weight' in item.notes[0]
    sold = only(YEAST, stock("yeast", pack="1 L", price=3.0))
    assert sold.cost is None, "the price is of a pack that cannot be reckoned with"
    assert "write how many, such as 10 packets" in sold.notes[0]
    assert "A pack of nothing" in only(white("1 kg"), stock("white-sugar", pack="0 kg")).notes[0]


# --- what belongs together -------------------------------------------------------------------


def test_sugar_for_the_start_and_for_a_feed_is_bought_once():
    later = sugar("white-sugar", "200 g", when="feed")
    made = project(white("1 kg"), later, WATER, pantry=(stock("white-sugar", pack="1 kg"),))
    item, *bottling = compose(made).shopping
    assert (item.name, item.need, item.packs) == ("White sugar", "1.20 kg", 2)
    assert [each.what for each in bottling] == ["bottles", "corks", "cleaner"]


def test_another_form_of_a_fruit_has_stock_of_its_own():
    fresh = fruit("elderberry", "1 kg")
    dried = FruitLine(id="dry", fruit="elderberry", amount=Amount("200 g"), form="dried")
    first, second, *_ = compose(
        project(fresh, dried, pantry=(stock("elderberry", have="5 kg"),))
    ).shopping
    assert (first.what, first.buy) == ("elderberry", 0.0)
    assert second.what != first.what
    assert second.buy == pytest.approx(200.0)


def test_two_entries_of_one_thing_add_up():
    pantry = (stock("white-sugar", have="300 g"), stock("White-Sugar", have="1 lb", pack="1 kg"))
    item = only(white("1 kg"), *pantry)
    assert item.stock == pytest.approx(753.59237)
    assert item.stock_text == "300 g + 1 lb"
    assert item.packs == 1


def test_fruit_weighed_stoned_says_what_that_is_as_picked():
    item = only(fruit("damson", "9 kg", prepared=True))
    assert item.notes[0].startswith("Weighed prepared: about 9.")
    assert item.notes[0].endswith("kg as picked.")


def test_the_pantry_is_edited_entry_by_entry():
    made = project(white("1 kg"), pantry=(stock("corks", have="5 corks"), stock("oak", have="1 g")))
    put = changed(made, pantry=pantry_with(made, "white-sugar", price=Price("1")))
    assert [item.what for item in put.pantry] == ["corks", "oak", "white-sugar"]
    more = changed(put, pantry=pantry_with(put, "CORKS", have=Amount("9 corks")))
    assert more.pantry[0] == stock("corks", have="9 corks")
    assert list(beside_the_list(more, ["white-sugar", "corks"])) == [("oak", 0)]
    assert [item.what for item in pantry_without(more, "corks")] == ["oak", "white-sugar"]
    assert (thing_name("white-sugar"), thing_name("oak")) == ("White sugar", "Oak")


# --- keeping: common practice ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "amount", "opened", "until"),
    [
        ("sulfite-tablet", "2 tablets", "2025-03-03", date(2026, 3, 3)),
        ("potassium-sorbate", "2 tsp", "2025-03-03", date(2026, 3, 3)),
        ("potassium-metabisulfite", "1 g", "2025-03-03", date(2026, 3, 3)),
        ("pectic-enzyme", "1 tsp", "2025-03-03", date(2027, 3, 3)),
        ("citric-acid", "1 tsp", "2025-03-03", None),
    ],
)
def test_what_is_open_keeps_its_strength_for_a_time(key, amount, opened, until):
    item = only(additive(key, amount), stock(key, have=amount, opened=opened))
    assert item.keeps_until == until
    assert past_keeping(item, date(2030, 1, 1)) == (until is not None)
    if until:
        assert not past_keeping(item, until)
        assert str(until.year) in item.keeping


def test_nothing_in_stock_cannot_be_past_its_time():
    item = only(additive("pectic-enzyme", "1 tsp"), stock("pectic-enzyme", opened="2000-01-01"))
    assert item.keeps_until is None
    assert "about two years" in item.keeping


# --- what is typed ---------------------------------------------------------------------------


def test_what_cannot_be_read_now_counts_as_nothing_and_not_as_its_beginning():
    held = project(white("3 lb"), pantry=(stock("white-sugar", have="2 lb", price="2.5"),))
    assert counted(held) is held
    unread = changed(held, drafts=(Draft(place="pantry:white-sugar:price", text="2.50/lbx"),))
    (item,) = counted(unread).pantry
    assert (item.have, item.price) == (Amount("2 lb"), None)
    other = changed(held, drafts=(Draft(place="pantry:white-sugar#1:have", text="x"),))
    assert counted(other).pantry == held.pantry


@pytest.mark.parametrize(
    ("text", "what", "have"),
    [("5 lb white sugar", "white-sugar", "5 lb"), ("oak chips", "oak chips", None),
     ("30 corks", "corks", "30 corks"), ("2 packets of yeast", "yeast", "2 packets"),
     ("Pectic Enzyme", "pectic-enzyme", None)],
)  # fmt: skip
def test_a_new_entry_is_read_with_how_much_there_is(text, what, have):
    assert pantry_thing(text) == (what, Amount(have) if have else None)


@pytest.mark.parametrize("text", ["", "  ", "12", "3 lb", "2 packets"])
def test_an_entry_of_nothing_is_refused(text):
    with pytest.raises(UnitsError, match="Write what there is"):
        pantry_thing(text)


# --- what is over ----------------------------------------------------------------------------


def test_of_a_must_with_its_yeast_nothing_is_to_buy_and_of_bottled_wine_nothing_at_all():
    priced = (stock("white-sugar", price="2"), stock("bottles", price="1"))
    log = (ticked("pitch", "2026-10-02T18:00"),)
    at_first = seen(damson(pantry=priced), "2026-10-01T18:00")
    pitched = seen(damson(*log, pantry=priced), "2026-10-05T18:00")
    assert {"white-sugar", "damson", "bottles"} <= {item.what for item in at_first.shopping}
    assert {item.what for item in pitched.shopping} == {"bottles", "corks", "cleaner"}
    cost, before = pitched.bottles.cost, at_first.bottles.cost
    # By hand: 3.4 kg of sugar at 2 are spent; as many bottles at 1 are still to come.
    assert before.to_spend - cost.to_spend == pytest.approx(6.8)
    assert cost.a_bottle == pytest.approx(before.a_bottle)
    bottled = (*log, ticked("bottle", "2026-12-20T12:00+01:00"))
    over = seen(damson(*bottled, pantry=priced), "2026-12-21T18:00+01:00")
    assert over.shopping == ()
    assert ALL_BOUGHT in list(shopping_lines(over))
