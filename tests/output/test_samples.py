"""The bundled samples on paper, seen at their natural moment, by every way a page is made."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QMarginsF
from PySide6.QtGui import QColor, QPageLayout, QPageSize
from PySide6.QtPrintSupport import QPrinter, QPrintPreviewWidget

from tests.output import batches, pdf
from winebench.output import canvas
from winebench.output.calendar import calendar_ics
from winebench.output.card import MARGIN_MM, card_pdf, paint_card
from winebench.output.labels import labels_pdf
from winebench.output.table import readings_csv
from winebench.plan.work_out import outlook
from winebench.store.samples import load_sample, samples

TOP = Path(__file__).parents[2]


@pytest.fixture(params=samples(), ids=lambda sample: sample.name)
def seen(request):
    project = load_sample(request.param.name)
    return project, outlook(project, request.param.at)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_samples_card_holds_its_whole_log_inside_the_page(tmp_path, seen, paper):
    project, worked_out = seen
    path = tmp_path / "card.pdf"
    card_pdf(path, project, worked_out, paper)
    words = pdf.words_of(path)
    with pdf.opened(path) as found:
        # Only the log may need more than a page; a batch not started has none.
        assert len(found.pages) == 1 or len(project.log) > 20
        for page in found.pages:
            assert list(pdf.outside(page, MARGIN_MM - 0.2)) == []
    for line in worked_out.lines:
        assert line.name in words
        assert line.as_written in words
    for reading in worked_out.readings:
        if reading.corrected is not None:
            assert f"{reading.corrected:.4f}" in words
    for step in worked_out.steps:
        if step.state != "skipped":
            assert step.name.split()[0] in words
    for sentence in worked_out.safety:
        assert sentence in words


def test_a_samples_labels_fit(tmp_path, seen):
    project, worked_out = seen
    for sheet in ("a4-21", "letter-10"):
        said = labels_pdf(tmp_path / "labels.pdf", project, worked_out, sheet)
        assert not [sentence for sentence in said if not sentence.startswith("Not final")]
        assert bool(said) == (project.done("bottle") is None)


def test_a_samples_calendar_and_table_can_be_written(seen):
    project, worked_out = seen
    coming = [s for s in worked_out.steps if s.state in ("due", "held", "expected", "missed")]
    calendar = calendar_ics(project, worked_out)
    unfolded = calendar.replace(b"\r\n ", b"").decode()
    for step in coming:
        if step.likely is not None:
            assert f"UID:{project.id}-{step.key}" in unfolded
    assert readings_csv(project, worked_out).count(b"\r\n") >= len(project.readings) + 1


def test_a_printer_with_its_own_margins_prints_where_the_pdf_does(tmp_path):
    direct, printed = tmp_path / "direct.pdf", tmp_path / "printed.pdf"
    card_pdf(direct, batches.project(), batches.outlook(), "A4")
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(printed))
    upright = QPageLayout.Orientation.Portrait
    margins = QMarginsF(5, 7, 5, 7)
    unit = QPageLayout.Unit.Millimeter
    page = QPageSize(QPageSize.PageSizeId.A4)
    printer.setPageLayout(QPageLayout(page, upright, margins, unit))
    assert not printer.fullPage()
    paint_card(printer, batches.project(), batches.outlook())
    with pdf.opened(direct) as one, pdf.opened(printed) as other:
        first, second = one.pages[0].chars, other.pages[0].chars
        assert [c["text"] for c in first] == [c["text"] for c in second]
        for a, b in zip(first, second, strict=True):
            assert a["x0"] == pytest.approx(b["x0"], abs=0.3)
            assert a["top"] == pytest.approx(b["top"], abs=0.3)


def test_the_preview_shows_the_same_pages(qtbot):
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.Letter))
    preview = QPrintPreviewWidget(printer)
    qtbot.addWidget(preview)
    shown = []

    def paint(device: QPrinter) -> None:
        paint_card(device, batches.project(), batches.outlook())
        shown.append(device)

    preview.paintRequested.connect(paint)
    preview.updatePreview()
    qtbot.waitUntil(lambda: bool(shown))
    assert preview.pageCount() == 1


@pytest.mark.parametrize("name", ["INK", "FRUIT", "MUTED"])
def test_inks_of_words_read_well_on_paper_even_in_grey(name):
    # WCAG 2.1, 1.4.3: contrast of small text to its ground is at least 4.5.
    def linear(part: float) -> float:
        return part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4

    ink = QColor(getattr(canvas, name))
    red, green, blue = (linear(part) for part in (ink.redF(), ink.greenF(), ink.blueF()))
    luminance = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    assert 1.05 / (luminance + 0.05) >= 4.5


HEADLESS = """
import sys
from pathlib import Path
from tests.output import batches
from winebench.output.card import card_pdf
from winebench.output.labels import labels_pdf
card_pdf(Path(sys.argv[1]), batches.project(), batches.outlook(), "A4")
labels_pdf(Path(sys.argv[2]), batches.project(), batches.outlook())
"""


def test_pages_need_no_screen_no_window_and_no_setting(tmp_path):
    hidden = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    surroundings = {key: value for key, value in os.environ.items() if key not in hidden}
    card, labels = tmp_path / "card.pdf", tmp_path / "labels.pdf"
    run = subprocess.run(
        [sys.executable, "-c", HEADLESS, str(card), str(labels)],
        cwd=TOP,
        env=surroundings,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    assert run.stderr == ""
    with pdf.opened(card) as found:
        names = {char["fontname"] for char in found.pages[0].chars}
    # Qt prefixes an embedded subset's name, as PDF asks (ISO 32000-1, 9.6.4).
    assert {name.rpartition("+")[2] for name in names} == {"DejaVuSans", "DejaVuSans-Bold"}
    assert "Contains sulfites" in pdf.words_of(labels)


def test_the_card_has_tannin_and_the_time_to_drink_beside_what_is_wanted(tmp_path):
    sample = next(each for each in samples() if each.name == "damson-design")
    project = load_sample(sample.name)
    path = tmp_path / "card.pdf"
    card_pdf(path, project, outlook(project, sample.at), "A4")
    words = pdf.words_of(path)
    assert "Tannin want 0.25–0.85 0.28 g/L" in words
    assert "Drink from want by 12 months 10 months" in words
