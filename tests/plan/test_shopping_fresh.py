"""What has lost its strength is bought anew, in the shop's packs and for its price."""

from datetime import UTC, datetime

from tests.plan.recipes import GALLON, additive, project
from tests.plan.test_shopping import stock
from winebench.plan.shopping.text import shopping_lines
from winebench.plan.work_out import outlook

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
TABLETS = stock("sulfite-tablet", have="20 tablets", pack="50 tablets", price=3.20,
                opened="March 2024")  # fmt: skip


def seen(*pantry):
    lines = (*GALLON, additive("pectic-enzyme", "1/2 tsp"))
    return outlook(project(*lines, pantry=pantry, money="GBP"), NOW)


def only(found, what):
    return next(item for item in found.shopping if item.what == what)


def test_a_pack_past_its_strength_is_bought_and_paid_for():
    found = seen(TABLETS, stock("pectic-enzyme", have="15 g", pack="20 g", price=4.0,
                                opened="January 2022"))  # fmt: skip
    tablets = only(found, "sulfite-tablet")
    # One tablet of a tub of 50 for 3.20: 49 are left of it, and 6.4 pence go into this wine.
    assert (tablets.buy_text, tablets.left_text) == ("fresh, 1 × 50 tablets", "49 tablets")
    assert (tablets.cost, round(tablets.cost_used, 3), tablets.stock_used) == (3.20, 0.064, 0.0)
    enzyme = only(found, "pectic-enzyme")
    assert (enzyme.buy_text, enzyme.cost) == ("fresh, 1 × 20 g", 4.0)
    assert found.bottles.cost.to_spend == 7.20
    words = "\n".join(shopping_lines(found))
    assert "- Sulfite tablets: fresh, 1 × 50 tablets, 3.20 GBP (what is in stock is past" in words
    assert "In stock already" not in words


def test_a_pack_that_still_has_its_strength_is_used():
    young = stock("sulfite-tablet", have="20 tablets", pack="50 tablets", price=3.20,
                  opened="June 2026")  # fmt: skip
    tablets = only(seen(young), "sulfite-tablet")
    assert (tablets.buy_text, tablets.cost, tablets.left_text) == ("", 0.0, "19 tablets")
