"""The batch card on paper: nothing lost, nothing clipped, one page where the log is short."""

import itertools
import os
from datetime import timedelta

import pytest

from tests.output import batches, pdf
from winebench.model.log import Action, Note, Reading
from winebench.output.card import MARGIN_MM, card_pdf
from winebench.output.card_log import litres_lost
from winebench.output.pages import OutputError
from winebench.units import Gravity, Temperature


def test_the_page_has_the_papers_size_and_all_lies_inside_its_margin(tmp_path, paper):
    path = tmp_path / "card.pdf"
    card_pdf(path, batches.project(), batches.outlook(), paper)
    with pdf.opened(path) as found:
        assert len(found.pages) == 1
        # A PDF page is a whole number of points.
        assert pdf.size_mm(found.pages[0]) == pytest.approx(pdf.PAPERS[paper], abs=0.2)
        assert list(pdf.outside(found.pages[0], MARGIN_MM - 0.2)) == []


def test_every_line_reading_action_step_and_caution_is_on_the_card(tmp_path, paper):
    path = tmp_path / "card.pdf"
    card_pdf(path, batches.project(), batches.outlook(), paper)
    words = pdf.words_of(path)
    for expected in (
        "Hedge damson",
        "Dark and dry · makes 5 gal US · yeast in 2 October 2026",
        "so far 5.1 (4.8–5.4) % vol",
        "for 1 gal US",
        "Damsons, stoned, frozen 4 lb 9.07 kg 20 lb",
        "Pectic enzyme 1/2 tsp 8.1 g 2 1/2 tsp (+0.2 %)",
        "want 1.088–1.094 1.091",
        "Gravity when dry 0.994",
        "1.078 75 °F 1.0788 pH 3.4",
        "1.052 – 1.0520",
        "Pitch the yeast – Must: 68 °F",
        "Stir and push the fruit under, 2 times – 3 Oct to 4 Oct",
        "Notes",
        "smells of plums",
        "Into the jug: 18.2 L; Lost: 0.7 L",
        "lost in all: 24 fl oz (0.7 L)",
        "Rack to glass – “the only free evening”",
        "Caution The must is sharper than this style wants",
        "done 1 Oct",
        "8 Oct (7–10 Oct)",
        "Jan 2027 (Dec–Mar 2027)",
        "1.030 rack to glass",
        "To write by hand",
        "Sulfite: keep away from people with asthma",
        "Never bottle what can ferment again",
    ):
        assert expected in words, expected
    assert "below 1.030 on the day" in words
    assert "Sweeten to taste" not in words, "a step that is not needed takes no room"


def test_a_card_not_started_is_mostly_lines_to_write_on(tmp_path):
    path = tmp_path / "card.pdf"
    card_pdf(path, batches.project(log=()), batches.outlook(readings=()), "A4")
    with pdf.opened(path) as found:
        (page,) = found.pages
        levels = sorted({round(line["top"], 1) for line in page.lines if line["x0"] < 40})
    gaps = [b - a for a, b in itertools.pairwise(levels)]
    seven_mm = 7 / pdf.MM_PER_POINT
    assert sum(abs(gap - seven_mm) < 0.2 for gap in gaps) >= 10
    assert "not started" in pdf.words_of(path)


def test_a_card_without_forecast_or_reading_says_what_starts_the_curve(tmp_path):
    path = tmp_path / "card.pdf"
    bare = batches.outlook(readings=(), forecast=None, lines=(), steps=(), cautions=())
    card_pdf(path, batches.project(log=()), bare, "A4")
    words = pdf.words_of(path)
    assert "the first reading starts the curve" in words
    assert "Nothing is in the recipe yet." in words


def test_a_single_reading_is_a_curve_of_one_dot(tmp_path):
    path = tmp_path / "card.pdf"
    one = batches.outlook(readings=batches.readings()[:1], forecast=None)
    card_pdf(path, batches.project(), one, "A4")
    with pdf.opened(path) as found:
        assert list(pdf.outside(found.pages[0], MARGIN_MM - 0.2)) == []


def long_log(count: int) -> tuple:
    entries: list = []
    for number in range(count):
        at = batches.after(number / 2)
        entries.append(
            Reading(
                id=f"r{number}",
                at=at,
                gravity=Gravity(f"{1.1 - number * 0.0005:.4f}"),
                temperature=Temperature("20 °C"),
                note=f"look {number}",
            )
        )
        entries.append(Note(id=f"n{number}", at=at + timedelta(hours=1), text=f"remark {number}"))
    return tuple(entries)


def test_a_long_log_goes_on_to_further_pages_and_loses_nothing(tmp_path, paper):
    path = tmp_path / "card.pdf"
    card_pdf(path, batches.project(log=long_log(90)), batches.outlook(), paper)
    with pdf.opened(path) as found:
        assert len(found.pages) >= 2
        for page in found.pages:
            assert list(pdf.outside(page, MARGIN_MM - 0.2)) == []
        assert "page 2" in found.pages[1].extract_text()
    words = pdf.words_of(path).split()
    for number in range(90):
        assert words.count(str(number)) >= 2, number


def test_no_two_words_of_the_card_lie_on_each_other(tmp_path, paper):
    path = tmp_path / "card.pdf"
    name = "A very long name for a batch that somebody typed without looking at the card at all"
    card_pdf(path, batches.project(name=name), batches.outlook(name=name), paper)
    with pdf.opened(path) as found:
        words = found.pages[0].extract_words(keep_blank_chars=True, x_tolerance=1.5)
    for number, one in enumerate(words):
        for other in words[number + 1 :]:
            wide = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
            high = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            # Boxes are as high as the em, so neighbouring lines may touch by a hair.
            assert wide < 0.5 or high < 2.0, (one["text"], other["text"])


def test_words_in_another_script_or_with_markup_print_as_typed(tmp_path):
    path = tmp_path / "card.pdf"
    card_pdf(path, batches.project(name="Śliwka <b>&amp; wiśnia ½"), batches.outlook(), "A4")
    assert "Śliwka <b>&amp; wiśnia ½" in pdf.words_of(path)


@pytest.mark.parametrize(
    ("step", "records", "lost"),
    [
        ("transfer", (("lost", "0.7"),), 0.7),
        ("transfer", (("lost", "1 qt"),), 0.946),  # a US quart is 0.946 L (NIST HB 44)
        ("second-rack", (("before", "18.9 L"), ("after", "18.3 L")), 0.6),
        ("second-rack", (("before", "18"), ("after", "a bit less")), 0.0),
        ("bottle", (), 0.0),
    ],
)
def test_losses_are_read_as_written(step, records, lost):
    made = tuple(batches._record(name, value) for name, value in records)
    action = Action(id="a", at=batches.NOW, step=step, records=made)
    project = batches.project(gallon="US")
    assert litres_lost(action, project) == pytest.approx(lost, abs=0.001)


def test_a_paper_nobody_has_is_named_in_one_sentence(tmp_path):
    path = tmp_path / "card.pdf"
    with pytest.raises(OutputError, match='"A5" is not a paper size known here; choose A4'):
        card_pdf(path, batches.project(), batches.outlook(), "A5")
    assert not path.exists()


def test_a_card_that_cannot_be_saved_leaves_the_old_one(tmp_path):
    path = tmp_path / "card.pdf"
    path.write_text("the old card")
    path.chmod(0o444)
    if os.access(path, os.W_OK):
        path = tmp_path / "no such folder" / "card.pdf"  # root may write anywhere
    with pytest.raises(OutputError) as problem:
        card_pdf(path, batches.project(), batches.outlook(), "A4")
    assert "\n" not in str(problem.value)
    assert str(path) in str(problem.value)
    assert (tmp_path / "card.pdf").read_text() == "the old card"


def test_a_folder_in_the_way_is_told(tmp_path):
    with pytest.raises(OutputError, match="it is a folder"):
        card_pdf(tmp_path, batches.project(), batches.outlook(), "A4")
