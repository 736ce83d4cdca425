"""The half page for whoever stirs, measured in millimetres on paper."""

import itertools
from datetime import date

import pytest

from tests.output import pdf
from tests.plan.damson import PITCHED, damson, seen
from winebench.model.edits import changed
from winebench.model.log import Away
from winebench.output.pages import OutputError
from winebench.output.stand_in import BOX_MM, HOW_MM, MARGIN_MM, stand_in_pdf
from winebench.plan.household.stand_in import MOST_DAYS

TRIP = Away(first=date(2026, 10, 5), last=date(2026, 10, 9))
PROJECT = damson(*PITCHED, away=(TRIP,))
OUTLOOK = seen(PROJECT, "2026-10-04T10:00")


def written(tmp_path, paper, project=PROJECT, **span):
    path = tmp_path / "stand-in.pdf"
    stand_in_pdf(path, project, OUTLOOK, paper, **span)
    return path


def drawn_mm(page):
    """Give each thing's top and bottom in mm, but for the cut and the words beside it."""
    middle = page.height / 2
    for kind in ("chars", "rects", "lines", "curves"):
        for thing in getattr(page, kind):
            cut = abs(thing["top"] - middle) < 12 and (
                kind == "lines" or thing.get("size", 9) * pdf.MM_PER_POINT < 2.05
            )
            if not cut:
                yield thing["top"] * pdf.MM_PER_POINT, thing["bottom"] * pdf.MM_PER_POINT


def test_five_days_fill_the_upper_half_of_one_sheet_inside_its_margin(tmp_path, paper):
    with pdf.opened(written(tmp_path, paper)) as found:
        (page,) = found.pages
        assert pdf.size_mm(page) == pytest.approx(pdf.PAPERS[paper], abs=0.2)
        half = pdf.PAPERS[paper][1] / 2
        assert max(bottom for _top, bottom in drawn_mm(page)) <= half - MARGIN_MM + 0.2
        margin = MARGIN_MM / pdf.MM_PER_POINT - 0.5
        for char in page.chars:
            assert margin <= char["x0"]
            assert char["x1"] <= page.width - margin


@pytest.mark.parametrize(("days", "halves"), [(9, 1), (10, 1), (12, 2)])
def test_days_draw_nearer_to_each_other_before_one_is_left_alone_on_a_second_half(
    tmp_path, paper, days, halves
):
    last = date.fromordinal(TRIP.first.toordinal() + days - 1)
    path = written(tmp_path, paper, first=TRIP.first, last=last)
    assert pdf.words_of(path).count("For whoever stirs meanwhile") == halves
    with pdf.opened(path) as found:
        assert list(pdf.outside(found.pages[0], 0.0)) == []
        half = pdf.PAPERS[paper][1] / 2
        assert not any(top < half - 0.5 < half + 0.5 < bottom
                       for top, bottom in drawn_mm(found.pages[0]))  # fmt: skip


def test_the_sheet_is_cut_in_the_middle(tmp_path, paper):
    with pdf.opened(written(tmp_path, paper)) as found:
        page = found.pages[0]
        middles = [line for line in (*page.lines, *page.curves)
                   if abs(line["top"] - page.height / 2) < 1 and line["x0"] < 15]  # fmt: skip
    assert middles


def test_each_day_has_a_box_to_tick_of_four_millimetres(tmp_path, paper):
    with pdf.opened(written(tmp_path, paper)) as found:
        boxes = [rect for rect in found.pages[0].rects
                 if abs(rect["width"] * pdf.MM_PER_POINT - BOX_MM) < 0.2]  # fmt: skip
    assert len(boxes) == 5
    assert all(abs(box["height"] * pdf.MM_PER_POINT - BOX_MM) < 0.2 for box in boxes)
    tops = sorted(box["top"] * pdf.MM_PER_POINT for box in boxes)
    assert min(b - a for a, b in itertools.pairwise(tops)) > BOX_MM + 3


def test_days_what_is_normal_when_to_telephone_and_the_dangers_are_on_it(tmp_path, paper):
    words = pdf.words_of(written(tmp_path, paper))
    for expected in ("For whoever stirs meanwhile: Hedge damson", "Mon 5 Oct to Fri 9 Oct",
                     "Mon 5 Oct", "Fri 9 Oct", "about 18:30", "Stir and push the fruit under",
                     "That is normal", "Telephone me", "rotten", "open a window", "asthma",
                     "It stands"):  # fmt: skip
        assert expected in words, expected


def test_running_words_are_large_enough_to_read_beside_a_pail(tmp_path):
    with pdf.opened(written(tmp_path, "A4")) as found:
        sizes = [char["size"] * pdf.MM_PER_POINT for char in found.pages[0].chars]
    small = [size for size in sizes if size < HOW_MM - 0.05]
    assert len(small) / len(sizes) < 0.05  # only the words over the columns and at the cut
    assert HOW_MM / pdf.MM_PER_POINT > 7.5  # points; common practice for leaflets is 8 or so


def test_many_days_go_on_on_the_next_half_and_the_next_sheet_none_lost(tmp_path, paper):
    last = date(2026, 10, 5).fromordinal(date(2026, 10, 5).toordinal() + MOST_DAYS - 1)
    path = written(tmp_path, paper, first=date(2026, 10, 5), last=last)
    with pdf.opened(path) as found:
        assert len(found.pages) >= 2
        for page in found.pages:
            half = page.height / 2 * pdf.MM_PER_POINT
            for top, bottom in drawn_mm(page):
                assert not top < half - 0.5 < half + 0.5 < bottom, "nothing crosses the cut"
            assert list(pdf.outside(page, 0.0)) == []
        boxes = [rect for page in found.pages for rect in page.rects
                 if abs(rect["width"] * pdf.MM_PER_POINT - BOX_MM) < 0.2]  # fmt: skip
    assert len(boxes) == MOST_DAYS


def test_a_long_name_is_cut_with_a_mark_and_never_runs_into_the_days(tmp_path, paper):
    project = changed(PROJECT, name="Damsons from the hedge behind the old mill " * 3)
    with pdf.opened(written(tmp_path, paper, project)) as found:
        title = found.pages[0].extract_text().splitlines()[0]
    assert "…" in title
    assert title.endswith("Mon 5 Oct to Fri 9 Oct")


def test_an_unknown_paper_is_refused(tmp_path):
    with pytest.raises(OutputError, match="A4 or Letter"):
        written(tmp_path, "A3")
