"""Print from the window: preview, PDF and calendar, and what goes wrong said in the banner."""

import pdfplumber
import pytest
from PySide6.QtPrintSupport import QPrintDialog, QPrintPreviewDialog
from PySide6.QtWidgets import QFileDialog

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def test_the_batch_card_as_pdf_holds_the_batch(raspberry, tmp_path):
    path = tmp_path / "card.pdf"
    raspberry.printing.save_pdf("card", path)
    with pdfplumber.open(path) as pdf:
        text = "".join(page.extract_text() for page in pdf.pages)
    assert raspberry.document.project.name in text
    assert str(path) in raspberry.banner.sentence


def test_the_labels_as_pdf_are_one_for_each_bottle(raspberry, tmp_path):
    path = tmp_path / "labels.pdf"
    raspberry.printing.save_pdf("labels", path)
    with pdfplumber.open(path) as pdf:
        boxes = [box for page in pdf.pages for box in page.rects]
    assert len(boxes) == raspberry.document.outlook.bottles.bottles


def test_the_calendar_holds_the_batch(raspberry, tmp_path):
    path = tmp_path / "wine.ics"
    raspberry.printing.save_calendar(path)
    assert path.read_bytes().startswith(b"BEGIN:VCALENDAR")


def test_the_readings_are_a_table_for_a_spreadsheet(raspberry, tmp_path):
    path = tmp_path / "wine.csv"
    raspberry.printing.save_readings(path)
    lines = path.read_text("utf-8").splitlines()
    assert len(lines) == 1 + len(raspberry.document.project.readings)
    raspberry.printing.save_readings(tmp_path / "nowhere" / "wine.csv")
    assert raspberry.banner.isVisible()


def test_the_half_page_for_whoever_stirs_as_pdf_holds_its_days(raspberry, tmp_path):
    path = tmp_path / "stand-in.pdf"
    raspberry.printing.save_pdf("stand-in", path)
    with pdfplumber.open(path) as pdf:
        text = pdf.pages[0].extract_text()
    assert "Sat 24 Oct to Mon 26 Oct" in text  # the sample's own days away
    assert text.count("Only look") == 3
    assert str(path) in raspberry.banner.sentence


@pytest.mark.parametrize("pages", ["card", "labels", "stand-in"])
def test_the_preview_opens_and_paints_its_pages(qtbot, raspberry, pages):
    raspberry.printing.preview(pages)
    dialog = raspberry.findChild(QPrintPreviewDialog)
    assert dialog.isVisible()
    qtbot.wait(50)
    assert raspberry.banner.isVisible() == (pages == "labels")
    if pages == "labels":  # it ferments still
        assert raspberry.banner.sentence.startswith("Not final until the wine is stable")
    dialog.reject()


def test_printing_asks_for_the_printer_without_stopping_the_window(raspberry):
    raspberry.printing.print("card")
    dialog = raspberry.findChild(QPrintDialog)
    assert dialog.isVisible()
    dialog.reject()


def test_asking_for_a_pdf_proposes_a_sound_name(raspberry):
    raspberry.printing.pdf("card")
    dialog = raspberry.findChild(QFileDialog)
    assert dialog.selectedFiles()[0].endswith("batch card.pdf")
    dialog.reject()


def test_a_pdf_that_cannot_be_written_is_told(raspberry, tmp_path):
    (tmp_path / "file").write_text("in the way")
    raspberry.printing.save_pdf("card", tmp_path / "file" / "card.pdf")
    assert "file" in raspberry.banner.sentence
    assert raspberry.banner.isVisible()
