"""Tick a step off: when it was, what to write down, and why if it was held."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.model.edits import PutEntry, new_id
from winebench.model.log import Action, Record
from winebench.model.project import Project
from winebench.plan.customary import household, unit_words
from winebench.plan.outlook import StepOutlook
from winebench.plan.records import refused
from winebench.plan.steps.noting import needs_reason, reason_as_note, still_held
from winebench.plan.typed.fields import Slip, check_year, read_moment
from winebench.window.logging.controls import field
from winebench.window.logging.field_grid import FieldGrid
from winebench.window.parts.asking import AskingForm
from winebench.window.parts.words import button


class TickForm(AskingForm):
    """A few fields in a row or two; Enter ticks the step off, Escape leaves it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._step: StepOutlook | None = None
        self._now: datetime | None = None
        self._project: Project | None = None
        self._body = FieldGrid()
        self.accept = button("Tick it off", "Tick it off", self.submit, "act")
        self.leave_it = button("Leave it", "Leave it as it is", self.leave, "quiet")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 4, 0, 0)
        self._column.setSpacing(6)
        self._column.addWidget(self._body)
        self._column.addLayout(self.foot(self.leave_it, self.accept))

    def open_for(self, step: StepOutlook, now: datetime, project: Project) -> None:
        """Ask what is to be written down for the step; what was typed for it before stays."""
        self._now = now
        self._step, self._project = step, project
        self._build(step, project)
        self.show()
        self.focus_first()

    def _build(self, step: StepOutlook, project: Project) -> None:
        self.ask_for(f"tick:{step.key}", project)
        self.refusal.setText(step.unopened)
        self.refusal.setVisible(bool(step.unopened))
        self.accept.setAccessibleName(f"Tick off {step.name}")
        self.leave_it.setAccessibleName(f"Leave {step.name} as it is")
        body = FieldGrid()
        how = household(project)
        wanted = [(f"record:{r.name}", r.label, unit_words(r.unit, how)) for r in step.record]
        wanted += [("at", "When", "now, or 18:30, or 6 Oct"), ("note", "Note", "")]
        if step.override == "reason":
            asked = needs_reason(step, ()) and not all(c.met or c.notes for c in step.conditions)
            hint = "needed" if asked else "where what is noted does not meet it"
            why = ("override", "Why all the same", f"{hint}; it is printed on the batch card")
            wanted.insert(0 if asked else len(step.record), why)
        for name, words, hint in wanted:
            typed = field(words, hint)
            self.add(name, typed)
            body.add(words, typed, wide=name in ("override", "note"))
        self._column.replaceWidget(self._body, body)
        body.show()  # in a form that is open already: what is not shown takes no keyboard
        self._body.deleteLater()
        self._body = body

    def submit(self) -> None:
        """Tick the step off, or say what is missing."""
        if self._step is None or self._now is None or self._project is None:
            return
        at = read_moment(self.text("at"), self._now)
        if not isinstance(at, Slip):
            at = check_year(self.text("at"), at, self._now) or at
        unread = refused(self._records(self._step), self._step.record, self._project)
        if isinstance(at, Slip):
            self.refuse(at.sentence, "at")
        elif unread is not None:
            self.refuse(unread.sentence, f"record:{unread.name}")
        elif (then := self._stood(at)).override == "never":
            held = "; ".join(one.text for one in then.conditions if not one.met)
            self.refuse(f"It could not be done then, and no reason opens it: {held}.", "at")
        elif needs_reason(then, self._records(then), self._project) and not self.text("override"):
            self._ask_why(then)
        else:
            tick = self._action(self._step, at)
            if not needs_reason(then, tick.records, self._project):
                tick = reason_as_note(tick)
            put = PutEntry(label=f"tick off: {self._step.name}", entry=tick)
            self.finish(put.label, put)

    def _stood(self, at: datetime) -> StepOutlook:
        """Return the step as it stood when it was done: a tick of last week opens nothing new."""
        assert self._step is not None
        assert self._now is not None
        assert self._project is not None
        if at >= self._now:
            return self._step
        from winebench.plan.scribbles.gates import step_at

        return step_at(self._project, at, self._step.key)

    def _ask_why(self, step: StepOutlook) -> None:
        """Say what holds it, where a figure that was written down does not meet it."""
        held = still_held(step, self._records(step), self._project)
        shown = self._step.conditions if self._step else ()
        known = {one.text for one in shown if not one.met}
        words = "; ".join(one.text for one in held if one.notes or one.text not in known)
        waits = f": {words}" if words else ""
        if "override" not in self.fields:
            typed = field("Why all the same", "needed; it is printed on the batch card")
            self.add("override", typed)
            self._body.add("Why all the same", typed, wide=True)
            self._body.place()
        is_held = "is held" if step is self._step else "was held then"
        why = f"Write why you {'do' if step is self._step else 'did'} it all the same."
        said = f"{step.name} {is_held}{waits}. {why} {step.unopened}"
        self.refuse(said.strip(), "override")

    def _records(self, step: StepOutlook) -> tuple[Record, ...]:
        return tuple(
            Record(name=record.name, value=self.text(f"record:{record.name}"))
            for record in step.record
            if self.text(f"record:{record.name}")
        )

    def _action(self, step: StepOutlook, at: datetime) -> Action:
        return Action(
            id=new_id(),
            at=at,
            step=step.key,
            records=self._records(step),
            override=self.text("override"),
            note=self.text("note"),
        )
