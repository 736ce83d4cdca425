"""A card of any text at all: every word is in one row, and every row is used, kept or open."""

import re

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from winebench.plan.handed_down.into_project import card_note
from winebench.plan.handed_down.judge import judged
from winebench.plan.handed_down.marks import PICTURES
from winebench.plan.handed_down.read_card import read_card

BITS = """
3 lb 1/2 ½ 2-3 tsp kg gal plums sugar water to yeast SG 1.085 TA 6.5 % of and & + - – ( ) , ; : . /
1. • juice lemons 2 makes gallon US per Method: Stir daily one a half packet tablet sulfite 0 1e9
1,5 | [ ] ² ٣ … moonberries acid honey Brix x cans each day 4 later feed in syrup off the stalk * #
_ concentrate 45 optional pH ~ heaped can half T. (SG 1850) wine tin bottles 6
"""
WORDS = st.sampled_from([*BITS.split(), "\n", "\t", "\r\n", "\u2028"])
CARDS = st.one_of(
    st.text(max_size=120), st.lists(WORDS, max_size=40).map(" ".join), st.lists(WORDS).map("".join)
)
# Bullets, boxes, numbering, emoji and what parts items: all that may lie between two rows.
BETWEEN = re.compile(
    rf"(?:\s|[{PICTURES}]|[-–—•·*‣◦▪▫●○■□☐☑✓✔>|,;:.+&/_`~#]|\[[ xX]?\]|"
    r"\(?\d{1,2}[.)]\s|\band\b|\bplus\b|"
    r"\b(?:dissolved|melted|boiled|stirred|simmered)\b|\bin(?:to)?\b)*"
)


@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=300)
@given(CARDS)
def test_every_item_of_any_text_is_in_exactly_one_row(card):
    reading = judged(read_card(card))
    end = 0
    for each in reading.rows:
        item = each.item
        assert item.text == card[item.start : item.end]
        assert item.text.strip()
        assert item.start >= end
        assert BETWEEN.fullmatch(card[end : item.start] + " "), card[end : item.start]
        end = item.end
    assert BETWEEN.fullmatch(card[end:] + " "), card[end:]


@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow], max_examples=200)
@given(CARDS, st.sampled_from(["US", "imperial", None]))
def test_every_row_is_used_kept_or_open(card, gallon):
    reading = judged(read_card(card, gallon=gallon))
    note = card_note(reading, with_title=True)
    for each in reading.rows:
        if each.is_open:
            assert each.remarks
            assert f"? {each.item.words}" in note
        elif each.kind in ("title", "method"):
            assert each.item.words in note
        else:
            assert each.line is not None or each.field is not None or each.kind == "heading"
