"""What is noted beside a gravity now and then: pH, degassed, how clear, a few words."""

from __future__ import annotations

from typing import get_args

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QWidget

from winebench.plan.typed.readings import CLEARNESS, Clearness, TypedReading
from winebench.window.logging.controls import captioned, field
from winebench.window.parts.choice import Choice
from winebench.window.parts.flow import Flow


class MoreFields(QWidget):
    """One more row of the reading bar."""

    chosen = Signal()
    """The maker chose how clear the wine is, or ticked that it was degassed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.ph = field("pH", "3.4", 56)
        self.acid = field("Titratable acidity, g/L as tartaric", "6.0", 56)
        self.free_so2 = field("Free sulfite, mg/L", "30", 56)
        self.degassed = QCheckBox("degassed")
        self.degassed.setAccessibleName("The sample was degassed")
        options = [("", "clearness not noted")]
        options += [(str(value), words) for value, words in enumerate(CLEARNESS)]
        self.clear = Choice("How clear the wine is", options)
        self.note = field("Note on this reading", "what you saw, smelled or did", 280)
        for each in (self.degassed, self.clear):
            each.setMinimumHeight(28)  # as high as the fields beside it
        self.degassed.clicked.connect(self.chosen)
        self.clear.chosen.connect(lambda _key: self.chosen.emit())
        row = Flow(self, gap=6)
        for words, typed in (
            ("pH", self.ph),
            ("Acid, g/L", self.acid),
            ("Free SO₂, mg/L", self.free_so2),
        ):
            row.addWidget(captioned(words, typed))
        row.addWidget(self.degassed)
        row.addWidget(self.clear)
        row.addWidget(captioned("Note", self.note))

    @property
    def clearness(self) -> Clearness | None:
        """Return how clear it was found, 0 to 4, or None where nobody looked."""
        values: tuple[Clearness, ...] = get_args(Clearness)
        chosen = self.clear.currentIndex() - 1
        return values[chosen] if chosen >= 0 else None

    def fill(self, typed: TypedReading) -> None:
        """Show what was typed before."""
        self.ph.setText(typed.ph)
        self.acid.setText(typed.acid)
        self.free_so2.setText(typed.free_so2)
        self.note.setText(typed.note)
        self.degassed.setChecked(typed.degassed)
        self.clear.setCurrentIndex(0 if typed.clear is None else typed.clear + 1)
