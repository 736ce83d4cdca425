"""What is a little too long for one page of the card goes below the shorter column."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.output import pdf
from tests.plan.damson import STABLE, damson, seen, ticked
from winebench.model.edits import changed
from winebench.model.log import Away, Note
from winebench.output.card import MARGIN_MM, card_pdf
from winebench.plan.work_out import outlook
from winebench.store.samples import load_sample, samples


def lefts(page, words):
    """Return where each of those words that begin a line of a column stands, points."""
    return [each["x0"] for each in page.extract_words(keep_blank_chars=True)
            if each["text"].startswith(words)]  # fmt: skip


def test_steps_too_many_for_their_column_go_on_beside_them_under_the_log(tmp_path):
    sample = next(each for each in samples() if each.name == "damson-design")
    trip = Away(first=sample.at.date(), last=sample.at.date() + timedelta(days=5))
    project = changed(load_sample(sample.name), away=(trip,))  # no log; a caution more
    worked_out = outlook(project, sample.at)
    path = tmp_path / "card.pdf"
    card_pdf(path, project, worked_out, "Letter")
    with pdf.opened(path) as found:
        (page,) = found.pages
        assert list(pdf.outside(page, MARGIN_MM - 0.2)) == []
        assert lefts(page, "Bottle")[0] < page.width / 2 < lefts(page, "Steps")[0]
    words = pdf.words_of(path)
    assert "Later steps" in words
    for step in worked_out.steps:
        assert step.name in words or step.state == "skipped", step.name


@pytest.mark.parametrize("count", [16, 18])
def test_a_log_a_little_too_long_goes_on_under_the_steps(tmp_path, count):
    notes = tuple(
        Note(id=f"n{n}", at=STABLE[-1].at, text=f"remark {n} of the cellar") for n in range(count)
    )
    racked = ticked("third-rack", "2026-11-20T12:00", lost="0.2 L")
    project, path = damson(*STABLE, racked, *notes), tmp_path / "card.pdf"
    card_pdf(path, project, seen(project, "2026-11-25T10:00"), "A4")
    with pdf.opened(path) as found:
        (page,) = found.pages
        assert list(pdf.outside(page, MARGIN_MM - 0.2)) == []
        assert lefts(page, "Rackings") == lefts(page, "Steps")
    words = pdf.words_of(path)
    assert all(f"remark {n} of the cellar" in words for n in range(count))
