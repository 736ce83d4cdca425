"""Work beside the window's thread: one question at a time, its answer on the window's thread."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from threading import Thread
from typing import Any

from PySide6.QtCore import QObject, Signal


class _Answer(QObject):
    """Carries an answer to the window's thread."""

    ready = Signal(object, object)


class Beside(QObject):
    """Works out one question at a time by a function that touches no widget."""

    answered = Signal(object, object)
    """The question, and what was found; None where the work broke off."""

    def __init__(self, work: Callable[[Any], object], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self.question: object = None
        """What is being worked out, or None."""
        self._thread: Thread | None = None
        self._answer = _Answer()
        self._answer.ready.connect(self._take)

    @property
    def busy(self) -> bool:
        """Return whether a question is being worked out."""
        return self.question is not None

    def begin(self, question: object) -> None:
        """Begin with a question; the one before must have been answered."""
        assert self.question is None
        self.question = question
        # A Python thread, not a pool of Qt's: Qt waits for its pool while it destroys the window
        # and holds the interpreter, which the work in hand needs to end.
        arguments = self._work, question, self._answer
        self._thread = Thread(target=_run, args=arguments, daemon=True)
        self._thread.start()

    def finish(self) -> None:
        """Wait for the work in hand, before the program ends."""
        if self._thread is not None:
            self._thread.join()

    def _take(self, question: object, found: object) -> None:
        self.question = None
        self.answered.emit(question, found)


def _run(work: Callable[[Any], object], question: object, answer: _Answer) -> None:
    """Work it out; what breaks off is told as a thread's error is, and the next one can begin."""
    found: object = None
    try:
        found = work(question)
    finally:
        with suppress(RuntimeError):  # the window is gone already: the answer goes nowhere
            answer.ready.emit(question, found)
