"""A step's facts in words and marks, for the card."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from winebench.plan.outlook import ClueOutlook, Condition, StepOutlook
from winebench.window.theme import Palette

_STATES = {
    "done": "done",
    "due": "yours to do",
    "held": "held",
    "expected": "expected",
    "missed": "late",
    "skipped": "not needed here",
    "later": "no date yet",
}
_BASES = {
    "done": "the log: it was done",
    "reading": "a reading",
    "forecast": "the gravity forecast",
    "clock": "the time since an earlier step",
    "none": "nothing yet",
}


def state_words(step: StepOutlook) -> str:
    """Return the state in a word or two."""
    return "not ticked; passed" if step.passed else _STATES[step.state]


def headline(step: StepOutlook) -> str:
    """Return when it is and how it stands, each said once."""
    state = state_words(step)
    return step.when if state.startswith(step.when) else f"{step.when} · {state}"


def conditions_html(conditions: Sequence[Condition], palette: Palette) -> str:
    """Return the conditions in a flow: a filled mark where met, a hollow one where not."""
    parts = []
    for condition in conditions:
        mark, colour = ("●", palette.leaf) if condition.met else ("○", palette.ink)
        words = (
            escape(condition.text).replace(" ", "&nbsp;")
            if len(condition.text) < 40
            else (escape(condition.text))
        )
        parts.append(f'<span style="color:{colour.name()}">{mark}</span>&nbsp;{words}')
    return " &nbsp; ".join(parts)


def conditions_aloud(conditions: Sequence[Condition]) -> str:
    """Return the conditions for a screen reader, which may skip the marks."""
    said = (f"{'met' if c.met else 'not yet'}: {c.text}" for c in conditions)
    return "Waits for " + "; ".join(said)


_CLUES = {
    "yes": ("●", "points to it"),
    "no": ("○", "speaks against it"),
    "not known": ("?", "not known"),
}


def clues_html(clues: Sequence[ClueOutlook], palette: Palette) -> str:
    """Return the clues in a flow: filled where the log points to it, "?" where to measure."""
    parts = []
    for clue in clues:
        mark = _CLUES[clue.says][0]
        colour = palette.muted if clue.says == "no" else palette.ink
        name = escape(clue.name).replace(" ", "&nbsp;")
        head = f"{mark}&nbsp;{name if clue.says == 'no' else f'<b>{name}</b>'}"
        text = escape(clue.text).replace(" °C", "&nbsp;°C")
        parts.append(f'<span style="color:{colour.name()}">{head}: {text}</span>')
    return " &nbsp; ".join(parts)


def clues_aloud(clues: Sequence[ClueOutlook]) -> str:
    """Return the clues for a screen reader, which may skip the marks."""
    return " ".join(f"{_CLUES[clue.says][1]}: {clue.name}. {clue.text}" for clue in clues)


def basis_words(step: StepOutlook) -> str:
    """Return where the step's date comes from and what starts it."""
    stake = f"at stake: {_stake(step)}" if step.risk else ""
    return " · ".join(part for part in (_BASES[step.basis], step.trigger, stake) if part)


def _stake(step: StepOutlook) -> str:
    """Return what a step left out or done at the wrong time costs, as part of a sentence."""
    return step.risk[:1].lower() + step.risk[1:].rstrip(".")


def refusal(step: StepOutlook) -> str:
    """Return why a step cannot be ticked at all: what is missing, and what is at stake."""
    missing = [c for c in step.conditions if not c.met]
    things = " and ".join(c.text for c in missing if not c.is_sentence)
    wrong = "; ".join(c.waiting for c in missing if c.is_sentence)
    wait = f"waits for {things}" if things else "is held" if wrong else "cannot be ticked yet"
    wait += f": {wrong}" if wrong else ""
    stake = f" At stake: {_stake(step)}." if step.risk else ""
    return f"{step.name} {wait}; no reason overrides that.{stake}"
