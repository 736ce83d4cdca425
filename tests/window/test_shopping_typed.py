"""Shopping and pantry: several things typed at once, prices by the pound, and what stays put."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.window.test_shopping import dialog as dialog  # a fixture
from tests.window.test_shopping import opened, typed
from winebench.model.edits import Change
from winebench.plan.shopping.pantry_typed import pantry_things
from winebench.plan.shopping.typed_stock import price_in
from winebench.units import Amount, UnitsError

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def put_in(dialog, text):
    dialog.new.setFocus()
    QTest.keyClicks(dialog.new, text)
    QTest.keyClick(dialog.new, Qt.Key.Key_Return)


def test_what_the_field_itself_shows_is_three_things(damson, dialog):
    put_in(dialog, "5 lb white sugar, 30 corks, oak chips")
    pantry = {item.what: item.have for item in damson.document.project.pantry}
    assert pantry == {
        "white-sugar": Amount("5 lb"),
        "corks": Amount("30 corks"),
        "oak chips": None,
    }
    assert dialog.new.text() == ""
    damson.document.undo()
    assert damson.document.project.pantry == ()
    assert dialog.new.text() == "5 lb white sugar, 30 corks, oak chips"


@pytest.mark.parametrize(
    ("text", "things"),
    [
        ("6 campden tablets, 2 lb moonberries, corks 30",
         [("sulfite-tablet", "6 tablets"), ("moonberries", "2 lb"), ("corks", "30 corks")]),
        ("1,5 kg plums and 2 oz acid blend", [("plum", "1,5 kg"), ("acid-blend", "2 oz")]),
        ("white sugar 5 lb; yeast", [("white-sugar", "5 lb"), ("yeast", None)]),
    ],
)  # fmt: skip
def test_several_things_are_told_apart(text, things):
    assert pantry_things(text) == tuple(
        (what, Amount(have) if have else None) for what, have in things
    )


def test_one_that_names_nothing_keeps_the_whole_text(damson, dialog):
    put_in(dialog, "5 lb white sugar, 30")
    assert damson.document.project.pantry == ()
    assert dialog.new.text() == "5 lb white sugar, 30"
    assert dialog.refusal.isVisible()


def test_a_new_row_is_scrolled_to_and_the_field_stays_where_it_is(qtbot, damson, dialog):
    place = dialog.new.mapTo(dialog, dialog.new.rect().topLeft())
    put_in(dialog, "2 lb moonberries")
    row = dialog.rows["moonberries", 0]
    qtbot.waitUntil(lambda: not row.name.visibleRegion().isEmpty(), timeout=2000)
    assert dialog.new.mapTo(dialog, dialog.new.rect().topLeft()) == place
    typed(dialog, "white-sugar", "have", "900")  # refused: a sentence comes
    assert dialog.new.mapTo(dialog, dialog.new.rect().topLeft()) == place


def test_a_bare_price_is_of_a_pound_where_the_batch_is_in_pounds(damson, dialog):
    sugar = dialog.rows["white-sugar", 0]
    assert sugar.of.text() == "a lb"
    field = typed(dialog, "white-sugar", "price", "0.80")
    # The recipe's 6 1/4 lb of sugar at 0.80 a lb are 5.00.
    assert (field.text(), sugar.of.text(), sugar.cost.text()) == ("0.80", "a lb", "5.00")
    assert damson.document.project.pantry[0].price.text == "0.80 a lb"  # whatever is changed later
    dialog.reject()
    again = opened(damson).rows["white-sugar", 0]
    assert (again.fields["price"].text(), again.cost.text()) == ("0.80 a lb", "5.00")


def test_a_bare_price_noted_before_is_still_of_a_kilogram(damson, dialog):
    from tests.plan.test_shopping import stock

    pantry = (stock("white-sugar", price="1.20"),)
    damson.document.edit(Change(label="pantry", fields={"pantry": pantry}))
    sugar = dialog.rows["white-sugar", 0]
    # 6 1/4 lb are 2.835 kg: 3.40 at 1.20.
    assert (sugar.of.text(), sugar.cost.text()) == ("a kg", "3.40")


@pytest.mark.parametrize("text", ["8 oz", "2 lb", "1,5 kg"])
def test_what_looks_like_a_weight_is_asked_about(text):
    with pytest.raises(UnitsError, match="looks like an amount"):
        price_in("")(text)


@pytest.mark.parametrize(("text", "value"), [("3.50 lb", 3.5), ("8 an oz", 8.0), ("$8 oz", 8.0)])
def test_what_is_plainly_a_price_is_taken(text, value):
    assert price_in("$" if "$" in text else "")(text).value == value
