"""The shopping list on paper, measured in millimetres."""

import itertools

import pytest

from tests.output import pdf
from tests.plan.damson import damson, seen
from tests.plan.recipes import additive
from tests.plan.test_shopping import PANTRY, stock
from winebench.model.edits import changed
from winebench.output.pages import OutputError
from winebench.output.shopping import BOX_MM, MARGIN_MM, NAME_MM, shopping_pdf
from winebench.units import Amount

ENZYME = stock("pectic-enzyme", have="2 tsp", pack="50 g", price=4.0, opened="2024-03-01")
PROJECT = damson(pantry=(*PANTRY, ENZYME), money="EUR")


def written(tmp_path, paper, project=PROJECT):
    path = tmp_path / "shopping.pdf"
    shopping_pdf(path, project, seen(project, "2026-10-01T10:00"), paper)
    return path


def boxes_mm(page):
    """Return the boxes to tick as left, top, width and height in mm."""
    found = [[rect[side] * pdf.MM_PER_POINT for side in ("x0", "top", "width", "height")]
             for rect in page.rects]  # fmt: skip
    return [box for box in found if box[2] == pytest.approx(BOX_MM, abs=0.2)]


def test_the_list_is_one_page_inside_its_margins(tmp_path, paper):
    with pdf.opened(written(tmp_path, paper)) as found:
        (page,) = found.pages
        assert pdf.size_mm(page) == pytest.approx(pdf.PAPERS[paper], abs=0.2)
        assert list(pdf.outside(page, MARGIN_MM - 0.3)) == []


def test_each_thing_to_buy_has_a_box_of_four_millimetres_at_the_margin(tmp_path, paper):
    with pdf.opened(written(tmp_path, paper)) as found:
        boxes = boxes_mm(found.pages[0])
    found = seen(PROJECT, "2026-10-01T10:00")
    wanted = [item for item in (*found.shopping, *found.later) if item.buy_text]
    assert len(boxes) == len(wanted) == 9  # with the cleaner and the fining
    for left, _top, _width, height in boxes:
        assert left == pytest.approx(MARGIN_MM, abs=0.2)
        assert height == pytest.approx(BOX_MM, abs=0.2)
    tops = [top for _left, top, _width, _height in boxes]
    assert min(b - a for a, b in itertools.pairwise(tops)) > BOX_MM + 1.5


def test_costs_end_at_the_right_margin_under_each_other(tmp_path, paper):
    with pdf.opened(written(tmp_path, paper)) as found:
        page = found.pages[0]
        ends = [word["x1"] * pdf.MM_PER_POINT for word in page.extract_words()
                if word["text"] == "EUR" and word["top"] < page.height / 2]  # fmt: skip
    right = pdf.PAPERS[paper][0] - MARGIN_MM
    assert sum(end == pytest.approx(right, abs=0.4) for end in ends) >= 5


def test_what_is_wanted_in_the_shop_is_large_enough_to_read_at_arms_length(tmp_path):
    with pdf.opened(written(tmp_path, "A4")) as found:
        sizes = [char["size"] * pdf.MM_PER_POINT for char in found.pages[0].chars]
    assert sum(size > NAME_MM - 0.05 for size in sizes) > 100
    assert min(sizes) > 2.6  # mm, 7.4 points; common practice for leaflets is about 8


def test_the_page_says_what_the_window_says(tmp_path, paper):
    words = pdf.words_of(written(tmp_path, paper))
    for expected in ("Hedge damson", "Shopping list · 1 October 2026", "To buy", "3 × 1 kg",
                     "3.60 EUR", "needed 3.40 kg, in stock 500 g, left over 100 g",
                     "In stock already", "Bottles of 750 mL", "Look at", "buy fresh",
                     "What it comes to", "To spend", "a bottle", "suggested, may be left out",
                     "Needed later", "3 tablets, −5 %", "nothing to buy", "9 bottles",
                     "Labels: 21", "3 to spare"):  # fmt: skip
        assert expected in words, expected


def test_a_long_list_goes_on_on_a_second_page_and_loses_nothing(tmp_path, paper):
    names = [f"Own powder number {number} of the village chemist's many" for number in range(60)]
    lines = (*PROJECT.recipe.lines, *(additive(name, "1 packet") for name in names))
    long = changed(PROJECT, recipe=changed(PROJECT.recipe, lines=lines))
    with pdf.opened(written(tmp_path, paper, long)) as found:
        assert len(found.pages) >= 2
        assert sum(len(boxes_mm(page)) for page in found.pages) == 69
        for page in found.pages:
            assert list(pdf.outside(page, MARGIN_MM - 0.3)) == []
        assert "page 2" in found.pages[1].extract_text()


def test_with_all_in_stock_the_page_says_so(tmp_path):
    have = {"damson": "9 kg", "white-sugar": "4 kg", "pectic-enzyme": "1 kg", "yeast": "1 packet",
            "yeast-nutrient": "1 kg", "sulfite-tablet": "9 tablets", "bottles": "30 bottles",
            "corks": "30 corks", "cleaner": "1 kg"}  # fmt: skip
    pantry = tuple(stock(what, amount) for what, amount in have.items())
    words = pdf.words_of(written(tmp_path, "A4", changed(PROJECT, pantry=pantry)))
    assert "Nothing is to be bought; all of it is in stock." in words


def test_what_is_there_but_past_its_strength_has_a_box_too(tmp_path):
    enough = changed(ENZYME, have=Amount("50 g"))
    project = changed(PROJECT, pantry=(*PANTRY, enough))
    with pdf.opened(written(tmp_path, "A4", project)) as found:
        assert len(boxes_mm(found.pages[0])) == 9  # fresh enzyme in the place of a pack more
    words = pdf.words_of(written(tmp_path, "A4", project))
    assert "Pectic enzyme fresh, 1 × 50 g" in words
    assert "what is in stock is past its strength" in words


def test_an_unknown_paper_is_refused(tmp_path):
    with pytest.raises(OutputError, match="A4 or Letter"):
        written(tmp_path, "A3")
