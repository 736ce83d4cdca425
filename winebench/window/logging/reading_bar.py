"""Log a reading: one key, a number, Enter. The rest of it is there when wanted."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from winebench.model.edits import Edit, PutEntry, Several, new_id, settle
from winebench.model.log import Action, Reading
from winebench.model.project import Project
from winebench.plan.scribbles.one_field import example, typed_reading
from winebench.plan.typed.fields import Instrument, Scale
from winebench.plan.typed.readings import Place, Question, TypedReading, measured_words
from winebench.store.local_zone import LOCAL_ZONE
from winebench.window.logging.controls import captioned, choice, field
from winebench.window.logging.more import MoreFields
from winebench.window.logging.unlogged import PLACE, keep_unlogged, unlogged
from winebench.window.parts.flow import Flow
from winebench.window.parts.words import button, give_role, label
from winebench.window.timeline.ticks import long_moment

_TEACH = (
    "As the instrument shows it, uncorrected; or all of it in one, as {example}. "
    "Enter logs it; Escape puts it aside."
)


def teaching(scale: Scale) -> str:
    """Return what an empty bar says."""
    return _TEACH.format(example=example(scale))


class ReadingBar(QFrame):
    """A compact bar; a likely slip is asked about and Enter again takes what was meant."""

    edit_wanted = Signal(object)
    closed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._now: datetime | None = None
        self._scale: Scale = "C"
        self._pitched: datetime | None = None
        self._question: Question | None = None
        self._project: Project | None = None
        self._shown = TypedReading()
        self._unsettled = False
        """Whether undo would take back what was typed here."""
        self.setAccessibleName("Log a reading")
        self.setObjectName("readingBar")
        self.gravity = field("Gravity as read", "1.0__", 200)
        self.temperature = field("Temperature of the sample", "°C", 64)
        self.time = field("When it was read", "now, or Mon 18:30", 164)
        self.hydrometer = choice(
            "hydrometer", "Read with a hydrometer", lambda: self._choose("hydrometer")
        )
        self.refractometer = choice(
            "refractometer", "Read with a refractometer", lambda: self._choose("refractometer")
        )
        self.more = choice("more ▾", "Show pH, degassed, clearness and a note", self._show_more)
        self.log = button("Log it", "Log the reading", self._submit, "act")
        self.aside = button(
            "Aside", "Put the reading aside; what is typed stays", self._put_aside, "quiet"
        )
        self.rest = MoreFields()
        self.hint = label(teaching("C"), "muted", wraps=True)
        self._arrange()
        self._connect()

    def _arrange(self) -> None:
        self.hydrometer.setChecked(True)
        self.rest.hide()
        row = Flow(gap=6)
        for words, typed in (
            ("Gravity", self.gravity),
            ("Temperature", self.temperature),
            ("When", self.time),
        ):
            row.addWidget(captioned(words, typed))
        for widget in (self.hydrometer, self.refractometer, self.more):
            row.addWidget(widget)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.hint, 1)
        foot.addWidget(self.aside)
        foot.addWidget(self.log)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 8, 12, 8)
        column.setSpacing(6)
        column.addLayout(row)
        column.addWidget(self.rest)
        column.addLayout(foot)

    def _connect(self) -> None:
        for typed in (*self._fields.values(), self.rest.note):
            typed.textEdited.connect(self._take_back_question)
        self.rest.chosen.connect(self._keep)

    @property
    def instrument(self) -> Instrument:
        """Return what the reading was taken with."""
        return "refractometer" if self.refractometer.isChecked() else "hydrometer"

    def _choose(self, instrument: Instrument) -> None:
        self._show_instrument(instrument)
        self._take_back_question()

    def _show_instrument(self, instrument: Instrument) -> None:
        self.hydrometer.setChecked(instrument == "hydrometer")
        self.refractometer.setChecked(instrument == "refractometer")
        self.gravity.setPlaceholderText("1.0__" if instrument == "hydrometer" else "°Brix")

    def _show_more(self) -> None:
        self.rest.setVisible(self.more.isChecked())

    def set_project(self, project: Project) -> None:
        """Take the project's scale, as its room is written in, and when its yeast went in."""
        pitches = (e.at for e in project.entries if isinstance(e, Action) and e.step == "pitch")
        self._pitched = next(pitches, None)
        self._scale = "F" if project.room.fahrenheit else "C"
        self.temperature.setPlaceholderText(f"°{self._scale}")
        if self.hint.text() in (teaching("C"), teaching("F")):
            self._say(teaching(self._scale))
        self._project = project
        kept = unlogged(project)
        if kept != self._shown:
            # Another batch, or a step of undo: what is typed belongs to its project.
            self._fill(kept)

    def _fill(self, typed: TypedReading) -> None:
        self._shown = typed
        self.gravity.setText(typed.gravity)
        self.temperature.setText(typed.temperature)
        self.time.setText(typed.time)
        self._show_instrument(typed.instrument)
        self.rest.fill(typed)
        self._question = None
        self._say(teaching(self._scale))

    def _keep(self) -> None:
        """Keep what is typed with the project, key by key."""
        self._shown = self._typed()
        self._unsettled = True
        if self._project is not None:
            self.edit_wanted.emit(keep_unlogged(self._project, self._shown))

    def set_now(self, now: datetime) -> None:
        """Say what "now" is; local wall time with its offset."""
        self._now = now

    def open(self) -> None:
        """Show the bar with the keyboard in its gravity field, what was put aside there chosen.

        Typing replaces it, and undo brings it back; an arrow or End goes on behind it.
        """
        self.show()
        self.gravity.setFocus(Qt.FocusReason.OtherFocusReason)
        self.gravity.selectAll()

    def _put_aside(self) -> None:
        self.hide()
        self.closed.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        """Let undo go past what was typed here: nobody would see it taken back."""
        super().hideEvent(event)
        if self._unsettled and not event.spontaneous():
            self._unsettled = False
            self.edit_wanted.emit(settle(PLACE))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter logs, Escape puts aside."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._submit()
        elif event.key() == Qt.Key.Key_Escape:
            self._put_aside()
        else:
            super().keyPressEvent(event)

    def _typed(self) -> TypedReading:
        return TypedReading(
            gravity=self.gravity.text(),
            temperature=self.temperature.text(),
            time=self.time.text(),
            instrument=self.instrument,
            ph=self.rest.ph.text(),
            acid=self.rest.acid.text(),
            free_so2=self.rest.free_so2.text(),
            degassed=self.rest.degassed.isChecked(),
            clear=self.rest.clearness,
            note=self.rest.note.text(),
        )

    def _submit(self) -> None:
        asked = self._question
        if asked is not None and asked.meant:
            self._field(asked).setText(asked.meant)
        answer = self._answer(new_id(), sure=asked is not None and asked.odd and not asked.meant)
        if isinstance(answer, Question):
            self._ask(answer)
        else:
            self._log(answer)

    def _answer(self, entry_id: str, *, sure: bool = False) -> Reading | Question:
        now = self._now or datetime.now(LOCAL_ZONE)
        return typed_reading(
            self._typed(), entry_id, now, self._scale, self._pitched, self._project, sure=sure
        )

    def _log(self, reading: Reading) -> None:
        put: Edit = PutEntry(label="log a reading", entry=reading)
        if self._project is not None:
            nothing = keep_unlogged(self._project, TypedReading())
            put = Several(label=put.label, settles=PLACE, edits=(put, nothing))
        self.edit_wanted.emit(put)
        if self._project is not None and unlogged(self._project) != TypedReading():
            return  # refused, and said why; what is typed stays in its fields
        self._fill(TypedReading())
        self.hide()
        self.closed.emit()

    def _ask(self, question: Question) -> None:
        self._question = question
        enter = " Enter again logs it all the same." if question.odd else ""
        enter = " Enter takes it." if question.meant else enter
        self._say(question.sentence + enter, asking=True)
        place = self._field(question)
        if self.rest.isAncestorOf(place):
            self.more.setChecked(True)
            self._show_more()
        place.setFocus(Qt.FocusReason.OtherFocusReason)
        place.selectAll()

    def _field(self, question: Question) -> QLineEdit:
        return self._fields[question.place]

    @property
    def _fields(self) -> dict[Place, QLineEdit]:
        return {
            "gravity": self.gravity,
            "temperature": self.temperature,
            "time": self.time,
            "ph": self.rest.ph,
            "acid": self.rest.acid,
            "free_so2": self.rest.free_so2,
        }

    def _take_back_question(self) -> None:
        """Show what would be logged, as soon as something is typed again."""
        self._question = None
        self._keep()
        answer = self._answer("")
        if isinstance(answer, Reading):
            self._say(_echo(answer, self._now or datetime.now(LOCAL_ZONE)))
        else:
            self._say(answer.sentence if answer.odd else teaching(self._scale))

    def _say(self, sentence: str, *, asking: bool = False) -> None:
        self.hint.setText(sentence)
        give_role(self.hint, "asking" if asking else "muted")
        self.hint.setIndent(8 if asking else 0)  # a label keeps its first style's padding
        self.setAccessibleDescription(sentence)


def _echo(reading: Reading, now: datetime) -> str:
    """Return what Enter will log, word for word."""
    said = [measured_words(reading).removeprefix("Read ")]
    if reading.at != now:
        said.append(f"read {long_moment(reading.at)}")
    if reading.note:
        said.append(f"with the note “{reading.note}”")
    return f"Enter logs {' '.join(said)}."
