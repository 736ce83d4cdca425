"""The one question of a new project: whose gallon."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from winebench.units import GallonCountry
from winebench.window.parts.words import button, heading, label

_ANSWERS: tuple[tuple[GallonCountry, str], ...] = (
    ("US", "US gallons (3.79 L)"),
    ("imperial", "imperial gallons (4.55 L)"),
)


class GallonDialog(QDialog):
    """Asked once; the system's region is proposed. Litres are understood either way."""

    chosen = Signal(str)

    def __init__(self, proposed: GallonCountry | None, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Whose gallon?")
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(heading("Whose gallon do you mean?", 15))
        said = label(
            "A gallon, pint or cup is a fifth larger in imperial measure. This is asked once; "
            "litres, pounds and grams are understood in both.",
            "muted",
            wraps=True,
        )
        said.setMinimumWidth(360)
        column.addWidget(said)
        self.answers = {}
        for country, words in _ANSWERS:
            role = "act" if country == (proposed or "US") else ""
            answer = button(words, words, partial(self._choose, country), role)
            answer.setDefault(country == (proposed or "US"))
            column.addWidget(answer)
            self.answers[country] = answer
        self.answers[proposed or "US"].setFocus()

    def _choose(self, country: GallonCountry) -> None:
        self.chosen.emit(country)
        self.accept()
