"""Labels: where they lie on the sheet in mm, and that their words fit or say so."""

import itertools

import pytest

from tests.output import batches, pdf
from winebench.model.log import Action, Record
from winebench.model.project import Label
from winebench.model.recipe import Make, Recipe, Targets
from winebench.output.label_count import labels_sentence
from winebench.output.label_sheets import SHEETS, label_sheet, sheet_of
from winebench.output.labels import FRAME_MM, PADDING_MM, fitted, labels_pdf
from winebench.output.pages import OutputError
from winebench.plan.label import has_sulfite, label_lines, sweetness
from winebench.units import Gravity

MM = pdf.MM_PER_POINT


@pytest.fixture(params=SHEETS)
def sheet(request):
    return SHEETS[request.param]


def bottled(**more):
    records = (Record(name="count", value="9"),)
    done = Action(id="b", at=batches.after(160), step="bottle", records=records)
    return batches.project(log=(*batches.project().log, done), **more)


def test_sheets_hold_their_labels_inside_the_page_without_overlap(sheet):
    corners = [sheet.corner(index) for index in range(sheet.per_page)]
    for x, y in corners:
        assert x >= 0
        assert y >= 0
        assert x + sheet.label[0] <= sheet.page[0] + 1e-9
        assert y + sheet.label[1] <= sheet.page[1] + 1e-9
    assert len({(round(x, 3), round(y, 3)) for x, y in corners}) == sheet.per_page
    xs = sorted({x for x, _ in corners})
    ys = sorted({y for _, y in corners})
    assert all(b - a >= sheet.label[0] for a, b in itertools.pairwise(xs))
    assert all(b - a >= sheet.label[1] - 1e-9 for a, b in itertools.pairwise(ys))


def test_the_first_sheets_are_21_of_63_5_by_38_1_and_10_of_4_by_2_inches():
    a4, letter = label_sheet("a4-21"), label_sheet("letter-10")
    assert (a4.per_page, a4.label, a4.page) == (21, (63.5, 38.1), (210.0, 297.0))
    assert letter.per_page == 10
    assert letter.label == pytest.approx((4 * 25.4, 2 * 25.4))
    # By hand: (297 - 7 x 38.1) / 2 and (279.4 - 5 x 50.8) / 2.
    assert a4.corner(0)[1] == pytest.approx(15.15)
    assert letter.corner(0)[1] == pytest.approx(12.7)


def test_letter_has_sheets_of_6_and_of_30_too():
    six, thirty = label_sheet("letter-6"), label_sheet("letter-30")
    inch = 25.4
    assert (six.per_page, thirty.per_page) == (6, 30)
    assert six.label == pytest.approx((4 * inch, 10 / 3 * inch))
    assert thirty.label == pytest.approx((2.625 * inch, inch))
    # By hand, in inches: (11 - 3 x 3 1/3) / 2 and (11 - 10 x 1) / 2 from the top,
    # (8.5 - 3 x 2.625 - 2 x 0.125) / 2 from the left.
    assert six.corner(0)[1] == pytest.approx(0.5 * inch)
    assert thirty.corner(0) == pytest.approx((0.1875 * inch, 0.5 * inch))


def test_a_sheet_that_nobody_chose_is_of_the_projects_paper():
    letter, a4 = batches.project(paper="Letter"), batches.project(paper="A4")
    assert (sheet_of(a4).key, sheet_of(letter).key) == ("a4-21", "letter-10")
    chosen = batches.project(paper="A4", label=Label(sheet="letter-30"))
    assert sheet_of(chosen).key == "letter-30"
    assert "US Letter, 10 labels" in labels_sentence(letter, 12)


def test_labels_of_an_american_batch_are_printed_on_letter(tmp_path):
    path = tmp_path / "labels.pdf"
    labels_pdf(path, batches.project(paper="Letter"), batches.outlook(), count=1)
    with pdf.opened(path) as found:
        # ANSI X3.151: 8.5 x 11 in
        assert pdf.size_mm(found.pages[0]) == pytest.approx((215.9, 279.4), abs=0.2)


def test_words_of_a_small_label_are_left_out_before_they_are_too_small_to_read():
    many = label_lines(
        batches.project(label=Label(lines=("Kept cool", "Shared"))), batches.outlook()
    )
    found = fitted(many, SHEETS["letter-30"])
    # 1.3 mm of em is 3.7 points, as small as an ingredient list is printed (common practice)
    assert min(line.size for line in found.lines) >= 1.3
    assert found.warnings
    assert any(line.words == "Home made, not for sale" for line in found.lines)


def test_frames_are_printed_where_the_sheet_has_its_labels(tmp_path, sheet):
    path = tmp_path / "labels.pdf"
    labels_pdf(path, batches.project(), batches.outlook(), sheet.key, sheet.per_page)
    with pdf.opened(path) as found:
        (page,) = found.pages
        assert pdf.size_mm(page) == pytest.approx(pdf.PAPERS[sheet.paper], abs=0.2)
        assert len(page.rects) == sheet.per_page
        assert list(pdf.outside(page)) == []
        for index, rect in enumerate(sorted(page.rects, key=lambda r: (round(r["top"]), r["x0"]))):
            x, y = sheet.corner(index)
            measured = tuple(rect[key] * MM for key in ("x0", "top", "width", "height"))
            wanted = (
                x + FRAME_MM,
                y + FRAME_MM,
                sheet.label[0] - 2 * FRAME_MM,
                sheet.label[1] - 2 * FRAME_MM,
            )
            assert measured == pytest.approx(wanted, abs=0.05)


def test_every_letter_lies_inside_its_frame(tmp_path, sheet):
    path = tmp_path / "labels.pdf"
    labels_pdf(path, batches.project(), batches.outlook(), sheet.key, 1)
    x, y = (edge + FRAME_MM for edge in sheet.corner(0))
    with pdf.opened(path) as found:
        chars = found.pages[0].chars
    assert chars
    for char in chars:
        assert char["x0"] * MM >= x + PADDING_MM - 0.1
        assert char["x1"] * MM <= x + sheet.label[0] - 2 * FRAME_MM - PADDING_MM + 0.1
        assert char["top"] * MM >= y
        assert char["bottom"] * MM <= y + sheet.label[1] - 2 * FRAME_MM


def test_a_second_page_begins_when_the_first_is_full(tmp_path, sheet):
    path = tmp_path / "labels.pdf"
    labels_pdf(path, batches.project(), batches.outlook(), sheet.key, sheet.per_page + 2)
    with pdf.opened(path) as found:
        assert [len(page.rects) for page in found.pages] == [sheet.per_page, 2]


def test_there_is_a_label_for_each_bottle(tmp_path):
    path = tmp_path / "labels.pdf"
    labels_pdf(path, bottled(), batches.outlook())
    with pdf.opened(path) as found:
        assert [len(page.rects) for page in found.pages] == [9]
    labels_pdf(path, batches.project(), batches.outlook())
    with pdf.opened(path) as found:
        assert sum(len(page.rects) for page in found.pages) == 23


def test_a_label_says_what_a_bottle_should(tmp_path):
    path = tmp_path / "labels.pdf"
    assert labels_pdf(path, bottled(), batches.outlook(), "a4-21", 1) == ()
    words = pdf.words_of(path)
    for expected in (
        "Hedge damson",
        "Damsons and elderberries · 2026",
        "about 5.1 % vol (estimate)",
        "750 mL · bottled 11 March 2027",
        "Contains sulfites",
        "Home made, not for sale",
    ):
        assert expected in words, expected


def test_before_a_reading_the_strength_is_the_musts_and_the_day_is_left_to_write():
    unread = batches.outlook(readings=())
    words = [line.words for line in label_lines(batches.project(), unread)]
    assert "Dry · about 12.4 % vol (estimate)" in words
    assert any(word.startswith("750 mL · bottled ____") for word in words)


def test_the_strength_can_be_left_off():
    quiet = batches.project(label=Label(show_strength=False))
    assert not any("vol" in line.words for line in label_lines(quiet, batches.outlook()))


@pytest.mark.parametrize(
    ("gravity", "word"),
    [("0.994", "dry"), ("1.000", "medium dry"), ("1.010", "medium"), ("1.020", "sweet")],
)
def test_sweetness_follows_the_final_gravity_that_is_wanted(gravity, word):
    # Dry is 0.994 here; each gram of sugar a litre adds 0.00038 (sucrose tables), so these
    # are 0, 16, 42 and 68 g/L; the words are those of Regulation (EU) 2019/33.
    wanted = Recipe(targets=Targets(final_gravity=Gravity(gravity)))
    assert sweetness(batches.project(recipe=wanted), batches.outlook(readings=())) == word


def test_what_is_printed_before_the_wine_is_stable_is_said_not_to_be_final(tmp_path):
    # The last reading of this batch is 1.052, and its strength so far 5.1 % vol.
    words = [line.words for line in label_lines(batches.project(), batches.outlook())]
    assert "Sweet · about 5.1 % vol (estimate)" in words
    (said,) = labels_pdf(tmp_path / "l.pdf", batches.project(), batches.outlook(), "a4-21", 1)
    assert said.startswith("Not final until the wine is stable")
    assert "1.052" in said


def test_a_bottled_wine_is_as_sweet_as_its_last_reading():
    # The last reading of this batch is 1.052.
    assert sweetness(bottled(), batches.outlook()) == "sweet"


def test_sulfite_is_told_when_logged_or_written_and_only_then():
    assert has_sulfite(batches.project())
    assert has_sulfite(batches.project(log=(), recipe=Recipe(lines=(batches.sulfite_line(),))))
    without = batches.project(log=())
    assert not has_sulfite(without)
    lines = label_lines(without, batches.outlook())
    assert "Contains sulfites" not in [line.words for line in lines]


def test_what_fined_the_wine_is_on_the_label():
    fined = Action(
        id="f", at=batches.NOW, step="fine", records=(Record(name="what", value="egg white"),)
    )
    words = [line.words for line in label_lines(batches.project(log=(fined,)), batches.outlook())]
    assert "Fined with egg white" in words


def test_too_many_lines_give_way_whole_and_are_named():
    many = tuple(f"Line {number} that the maker wants to see" for number in range(12))
    label = label_lines(batches.project(label=Label(lines=many)), batches.outlook())
    found = fitted(label, SHEETS["a4-21"])
    inside = SHEETS["a4-21"].label[1] - 2 * (FRAME_MM + PADDING_MM)
    assert found.height <= inside
    printed = " ".join(line.words for line in found.lines)
    assert '"Line 11 that the maker wants to see" does not fit the label' in found.warnings[0]
    for line in many:
        assert (line in printed) != any(line in warning for warning in found.warnings)
    for kept in ("Hedge damson", "Contains sulfites", "Home made, not for sale"):
        assert kept in printed


@pytest.mark.parametrize("name", ["plum " * 60, "x" * 400])
def test_an_endless_title_is_cut_with_a_warning_and_never_runs_out_of_the_frame(tmp_path, name):
    path = tmp_path / "labels.pdf"
    warnings = labels_pdf(path, batches.project(name=name), batches.outlook(), "a4-21", 1)
    assert any("title is too long" in warning for warning in warnings)
    x, y = SHEETS["a4-21"].corner(0)
    with pdf.opened(path) as found:
        chars = found.pages[0].chars
        text = found.pages[0].extract_text()
    assert "…" in text
    assert "Home made, not for sale" in text
    assert min(char["x0"] for char in chars) * MM >= x + FRAME_MM
    assert max(char["x1"] for char in chars) * MM <= x + 63.5 - FRAME_MM
    assert min(char["top"] for char in chars) * MM >= y + FRAME_MM
    assert max(char["bottom"] for char in chars) * MM <= y + 38.1 - FRAME_MM


def test_an_unknown_sheet_and_an_impossible_count_are_sentences(tmp_path):
    path = tmp_path / "labels.pdf"
    with pytest.raises(OutputError, match='no label sheet "a7-3"; choose one of: a4-21, letter-10'):
        labels_pdf(path, batches.project(), batches.outlook(), "a7-3")
    for count in (0, -3, 100_000):
        with pytest.raises(OutputError, match="labels cannot be printed; ask for 1 to"):
            labels_pdf(path, batches.project(), batches.outlook(), None, count)
    assert not path.exists()


def test_the_bottles_own_size_is_on_the_label():
    small = batches.project(make=Make(bottle_ml=375.0))
    assert any("375 mL" in line.words for line in label_lines(small, batches.outlook()))
