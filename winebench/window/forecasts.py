"""Forecasts off the window's thread: known ones at once, new ones when they are ready."""

from __future__ import annotations

from collections import OrderedDict
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from winebench.forecast.api import Evidence, Forecast
from winebench.window.parts.beside import Beside

if TYPE_CHECKING:
    from winebench.forecast.learned import Learned

Question = tuple[Evidence, tuple[float, ...], "Learned | None"]
_KEPT = 64


def _work(question: Question) -> Forecast | None:
    from winebench.forecast.forecaster import forecast  # numpy: late, off the first paint

    try:
        return forecast(*question)
    except ValueError:  # evidence that no forecast can rest on
        return None


class Forecasts(QObject):
    """Answer from what is known; else start working it out and tell by `arrived`.

    One forecast is worked out at a time, and only what the newest outlook asked for: fast
    typing costs one more forecast, not one for every key.
    """

    arrived = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._known: OrderedDict[Question, Forecast | None] = OrderedDict()
        self._latest: dict[object, Forecast] = {}
        self._beside = Beside(_work, self)
        self._beside.answered.connect(self._take)
        self._waiting: list[Question] = []
        self._held = False

    def begin(self) -> None:
        """Drop what an earlier outlook asked for and nobody has begun to work out."""
        self._waiting.clear()

    def __call__(
        self, evidence: Evidence, below: tuple[float, ...], learned: Learned | None = None
    ) -> Forecast | None:
        """Return the forecast if it is known, else None (or the last one of the same readings).

        The last one stands in while the must's own figures are being typed, so that the
        curve does not blink at every key; never one that learned from other batches.
        """
        question = (evidence, below, learned)
        readings = (evidence.observations, evidence.events, below, learned)
        if question not in self._known:
            self._ask(question)
            return self._latest.get(readings)
        self._known.move_to_end(question)
        found = self._known[question]
        if found is not None:
            self._latest[readings] = found
        return found

    def _ask(self, question: Question) -> None:
        if not self._beside.busy and not self._held:
            self._beside.begin(question)
        elif question != self._beside.question and question not in self._waiting:
            self._waiting.append(question)

    def _take(self, question: Question, found: Forecast | None) -> None:
        self._known[question] = found
        while len(self._known) > _KEPT:
            self._known.popitem(last=False)
        if self._waiting:
            self._ask(self._waiting.pop(0))
        self.arrived.emit()

    def hold(self) -> None:
        """Work nothing out until `release`: before the first paint it would be in its way."""
        self._held = True

    def release(self) -> None:
        """Begin with what was asked for meanwhile."""
        self._held = False
        if self._waiting and not self._beside.busy:
            self._ask(self._waiting.pop(0))

    @property
    def busy(self) -> bool:
        """Return whether a forecast is being worked out, or waits for it."""
        return self._beside.busy or bool(self._waiting)

    def forget(self) -> None:
        """Let no forecast of the document before stand in for the next."""
        self._latest.clear()

    def finish(self) -> None:
        """Wait for the work in hand, before the program ends."""
        self._waiting.clear()
        self._beside.finish()
