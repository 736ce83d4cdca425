"""Print from the window: preview, printer or PDF, of each kind of page."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QObject, Qt
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewDialog
from PySide6.QtWidgets import QDialog, QWidget

from winebench.output.card import card_pdf, paint_card
from winebench.output.label_sheets import sheet_of
from winebench.output.labels import labels_pdf, paint_labels
from winebench.output.pages import OutputError, whole_page
from winebench.output.shopping import paint_shopping, shopping_pdf
from winebench.output.stand_in import paint_stand_in, stand_in_pdf
from winebench.plan.household.stand_in import StandInError, stand_in
from winebench.plan.outlook import Outlook
from winebench.plan.work_out import outlook
from winebench.store.file_names import file_name
from winebench.store.project_file import SUFFIX
from winebench.window.banner import Banner
from winebench.window.document import Document
from winebench.window.file_dialog import ask_for_files
from winebench.window.parts.fitting import fit_to_screen

Pages = Literal["card", "labels", "stand-in", "shopping"]
_TITLES: dict[Pages, str] = {
    "card": "batch card",
    "labels": "labels",
    "stand-in": "half page for whoever stirs",
    "shopping": "shopping list",
}


class Printing(QObject):
    """Every way to paper; what goes wrong or does not fit is said in the banner."""

    def __init__(self, document: Document, banner: Banner, window: QWidget) -> None:
        super().__init__(window)
        self._document = document
        self._banner = banner
        self._window = window
        self._printer: QPrinter | None = None
        """Kept while a dialog uses it: Qt does not own it."""

    def preview(self, pages: Pages) -> None:
        """Show the pages as they will be printed."""
        printer = self._ready(pages)
        if printer is not None:
            dialog = QPrintPreviewDialog(printer, self._window)
            dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            dialog.setWindowTitle(f"Preview of the {_TITLES[pages]}")
            dialog.paintRequested.connect(lambda device: self._paint(pages, device))
            fit_to_screen(dialog, 820, 640)
            dialog.open()

    def print(self, pages: Pages) -> None:
        """Ask for the printer and print."""
        printer = self._ready(pages)
        if printer is not None:
            dialog = QPrintDialog(printer, self._window)
            dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            dialog.accepted.connect(lambda: self._paint(pages, printer))
            QDialog.open(dialog)  # QPrintDialog.open wants a slot by its C++ name

    def pdf(self, pages: Pages) -> None:
        """Ask for a file and write the pages to it."""
        self._ask(
            f"{self._name()}, {_TITLES[pages]}.pdf",
            "PDF (*.pdf)",
            lambda path: self.save_pdf(pages, path),
        )

    def save_pdf(self, pages: Pages, path: Path) -> None:
        """Write the pages to that PDF."""
        project = self._document.project
        warnings: tuple[str, ...] = ()
        try:
            if pages == "card":
                card_pdf(path, project, self._outlook(), project.paper)
            elif pages == "stand-in":
                stand_in_pdf(path, project, self._outlook(), project.paper)
            elif pages == "shopping":
                shopping_pdf(path, project, self._outlook(), project.paper)
            else:
                warnings = labels_pdf(path, project, self._outlook())
        except (OutputError, StandInError) as problem:
            self._banner.say(str(problem))
            return
        self._say_result(
            f'The {_TITLES[pages]} {"are" if pages == "labels" else "is"} in "{path}".', warnings
        )

    def calendar(self) -> None:
        """Ask for a file and write the steps to it as a calendar."""
        self._ask(f"{self._name()}.ics", "Calendar (*.ics)", self.save_calendar)

    def save_calendar(self, path: Path) -> None:
        """Write the steps and daily chores to that calendar file."""
        from winebench.output.calendar import calendar_ics

        self._save(path, calendar_ics(self._document.project, self._outlook()), "calendar is")

    def readings(self) -> None:
        """Ask for a file and write the readings to it as a table."""
        self._ask(f"{self._name()}.csv", "Table (*.csv)", self.save_readings)

    def save_readings(self, path: Path) -> None:
        """Write every reading to that CSV file, for a spreadsheet."""
        from winebench.output.table import readings_csv

        self._save(path, readings_csv(self._document.project, self._outlook()), "readings are")

    def _name(self) -> str:
        """Return the batch's name as it can stand in the name of a file."""
        return file_name(self._document.project.name).removesuffix(SUFFIX)

    def _save(self, path: Path, data: bytes, what: str) -> None:
        from winebench.output.pages import save_bytes

        try:
            save_bytes(path, data)
        except OutputError as problem:
            self._banner.say(str(problem))
            return
        self._banner.tell(f'The {what} in "{path}".')

    def _ask(self, name: str, kinds: str, take: Callable[[Path], None]) -> None:
        ask_for_files(
            self._window,
            "Save as",
            kinds,
            lambda paths: take(paths[0]),
            wanted="new",
            name=name,
            project=self._document.session.path,
        )

    def _outlook(self) -> Outlook:
        """Return the outlook with its forecast, waited for where it is still being worked out."""
        shown = self._document.outlook
        if shown is None or self._document.forecasts.busy:
            return outlook(self._document.project, self._document.now())
        return shown

    def _ready(self, pages: Pages) -> QPrinter | None:
        """Return a printer set to the pages' paper, or None and say why not."""
        project = self._document.project
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        try:
            labels = pages == "labels"
            paper = sheet_of(project).paper if labels else project.paper
            printer.setPageLayout(whole_page(paper))
        except OutputError as problem:
            self._banner.say(str(problem))
            return None
        printer.setFullPage(True)
        printer.setDocName(f"{project.name}, {_TITLES[pages]}")
        self._printer = printer
        return printer

    def _paint(self, pages: Pages, printer: QPrinter) -> None:
        project = self._document.project
        warnings: tuple[str, ...] = ()
        try:
            if pages == "card":
                paint_card(printer, project, self._outlook())
            elif pages == "stand-in":
                seen = self._outlook()
                paint_stand_in(printer, project, stand_in(project, seen))
            elif pages == "shopping":
                paint_shopping(printer, project, self._outlook())
            else:
                warnings = paint_labels(printer, project, self._outlook())
        except (OutputError, StandInError) as problem:
            self._banner.say(str(problem))
            return
        if warnings:
            self._banner.say(" ".join(warnings))

    def _say_result(self, words: str, warnings: tuple[str, ...]) -> None:
        if warnings:
            self._banner.say(" ".join((words, *warnings)))
        else:
            self._banner.tell(words)
