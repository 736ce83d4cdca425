"""The must that the recipe makes: its figures on bars, its volume in the vessels."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from winebench.plan.outlook import Caution, Outlook
from winebench.window.parts.caution import CautionList
from winebench.window.parts.figure import FigureLabel
from winebench.window.parts.words import Elided, button, heading
from winebench.window.recipe.shares import SharesBar, acid_shares, sugar_shares
from winebench.window.recipe.vessel_drawing import VesselDrawing
from winebench.window.recipe.want_bar import WantBar

_TYPICAL = "by typical fruit"
_MEASURED = "by your own fruit"


class MustView(QWidget):
    """Bars, vessels and the cautions about both."""

    edit_wanted = Signal(object)
    workings_wanted = Signal(object)
    targets_wanted = Signal()
    reach_wanted = Signal()
    """Change the recipe so that it reaches its targets."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bars: dict[str, WantBar] = {}
        self.vessels: list[VesselDrawing] = []
        self.said = Elided("", "muted", small=True)
        self.open_targets = button(
            "Targets ▾",
            "Show or hide what is wanted of the wine",
            self.targets_wanted.emit,
            "quiet",
        )
        self.reach = button(
            "Reach…", "Reach the targets by changing amounts", self.reach_wanted.emit, "quiet"
        )
        self.cautions = CautionList(most=2)
        self.bottles = FigureLabel("Wine to bottle", left=True, by_tab=True)
        self.bottles_words = Elided("", "muted", small=True)
        self._bars = QVBoxLayout()
        self._bars.setSpacing(0)
        self.sugar_from = SharesBar("Sugar from")
        self.acid_from = SharesBar("Acid from")
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(4)
        self._arrange()
        self.cautions.edit_wanted.connect(self.edit_wanted)
        self.bottles.workings_wanted.connect(self.workings_wanted)

    def _arrange(self) -> None:
        head = QHBoxLayout()
        head.setContentsMargins(4, 0, 0, 0)
        head.setSpacing(12)
        head.addWidget(heading("The must it makes", 14))
        head.addWidget(self.said, 1)
        head.addWidget(self.reach)
        head.addWidget(self.open_targets)
        foot = QHBoxLayout()
        foot.addWidget(self.bottles)
        foot.addWidget(self.bottles_words, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 4)
        column.setSpacing(3)
        column.addLayout(head)
        column.addLayout(self._bars)
        column.addWidget(self.cautions)
        column.addLayout(self._grid)
        column.addLayout(foot)
        for bar in (self.sugar_from, self.acid_from):
            column.addWidget(bar)

    def show_outlook(self, outlook: Outlook) -> None:
        """Show the must as it is now."""
        self.said.say(_MEASURED if outlook.must.measured else _TYPICAL)
        for want in outlook.must.wants:
            bar = self.bars.get(want.key)
            if bar is None:
                bar = self.bars[want.key] = WantBar()
                bar.workings_wanted.connect(self.workings_wanted)
                self._bars.addWidget(bar)
            bar.show_want(want)
        self.cautions.show_cautions(about_must(outlook))
        self._show_vessels(outlook)
        self.sugar_from.show_shares(sugar_shares(outlook.lines))
        self.acid_from.show_shares(acid_shares(outlook.lines))
        self.bottles.show_figure(outlook.bottles.finished)
        self.bottles.setFixedWidth(self.bottles.sizeHint().width())
        self.bottles_words.say(outlook.bottles.sentence)

    def show_targets_open(self, is_open: bool) -> None:
        """Say whether the targets are open."""
        self.open_targets.setText("Targets ▴" if is_open else "Targets ▾")

    def _show_vessels(self, outlook: Outlook) -> None:
        while len(self.vessels) > len(outlook.vessels):
            gone = self.vessels.pop()
            gone.hide()
            gone.deleteLater()
        while len(self.vessels) < len(outlook.vessels):
            place = len(self.vessels)
            drawing = VesselDrawing()
            drawing.workings_wanted.connect(self.workings_wanted)
            self._grid.addWidget(drawing, place // 2, place % 2)
            self.vessels.append(drawing)
        for drawing, vessel in zip(self.vessels, outlook.vessels, strict=True):
            drawing.show_vessel(vessel)


def about_must(outlook: Outlook) -> tuple[Caution, ...]:
    """Return the cautions about the must and the vessels, which no line causes by itself."""
    return tuple(c for c in outlook.cautions if c.about in ("must", "vessels"))
