"""A low curve: it is painted at every height, cuts no words, and hides where it says nothing."""

from __future__ import annotations

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.plan.damson import damson
from tests.plan.stuck_batch import STUCK
from tests.window import hand_outlook as hand
from winebench.model.edits import changed
from winebench.plan.outlook import Outlook
from winebench.plan.work_out import outlook
from winebench.window.theme import theme

READABLE = 150
"""A curve lower than this has no room for its words beside its lines, px."""


def settle() -> None:
    for _ in range(6):
        QApplication.processEvents()


def seen(kind: str) -> Outlook:
    """Return an outlook whose curve has a crossing to tell, only a course, or a standstill."""
    if kind == "stuck":
        return outlook(damson(*STUCK), STUCK[-1].at)
    crossings = hand.forecast().crossings if kind == "crossing" else ()
    course = "Falling steadily. It slows as the sugar goes. Nothing is wrong with it so far."
    return hand.outlook(forecast=changed(hand.forecast(), crossings=crossings, sentence=course))


@pytest.mark.parametrize("kind", ["crossing", "course", "stuck"])
@pytest.mark.parametrize("width", [300, 810])
def test_the_curve_is_painted_at_every_height(pane, kind, width):
    pane.show_outlook(seen(kind))
    pane.curve.setParent(None)
    pane.curve.setMinimumHeight(0)
    for height in range(37, 300, 3):
        pane.curve.resize(width, height)
        assert not pane.curve.grab().isNull()


def test_a_reading_can_be_logged_in_a_window_made_low(raspberry):
    for height in (520, 560, 640):
        raspberry.resize(960, height)
        raspberry.log_reading()
        settle()
        assert raspberry.reading_bar.isVisible()
        assert not raspberry.timeline.grab().isNull()
        QTest.keyClick(raspberry.reading_bar.gravity, Qt.Key.Key_Escape)


@pytest.mark.parametrize("size", [(1366, 740), (1366, 700), (1920, 1040), (1000, 640)])
def test_while_a_tick_is_asked_for_the_curve_is_readable_or_hidden(raspberry, size):
    raspberry.resize(*size)
    raspberry.show_step("transfer")
    settle()
    curve, card = raspberry.timeline.curve, raspberry.timeline.card
    before = curve.height()
    card.tick.click()
    settle()
    assert curve.isHidden() or curve.height() >= READABLE
    QTest.keyClick(next(iter(card.form.fields.values())), Qt.Key.Key_Escape)
    settle()
    assert (curve.isVisible(), curve.height()) == (True, before)


def test_the_next_reading_is_not_painted_outside_the_plot(pane):
    axis, curve = pane.axis, pane.curve
    at = curve.data.next_reading
    assert axis.holds(at)
    axis.show(at + 86400, at + 15 * 86400)
    settle()
    x, image = axis.pixel(at), curve.grab().toImage()
    assert 4 < x < axis.left  # among the gravities of the scale
    y = round(curve._pixel_of_gravity(float(curve.data.middle[0])))
    ink = theme().palette.ink.name()
    near = (image.pixelColor(round(x) + dx, y + dy) for dx in range(-6, 7) for dy in range(-40, 41))
    assert ink not in {each.name() for each in near}


def test_no_words_are_painted_over_a_standstill(pane):
    # It stands 9 points above the line of 1.030, where that line's words would be.
    level = 1.039
    flat = tuple(level for _ in hand.forecast().times)
    stands = changed(hand.forecast(), middle=flat, low=tuple(sg - 0.02 for sg in flat), high=flat)
    read = tuple(changed(each, corrected=level) for each in hand.readings())
    pane.show_outlook(hand.outlook(forecast=stands, readings=read))
    curve, fruit = pane.curve, theme().palette.fruit
    begun = curve.data.read_at[0]
    curve.axis.show(begun, begun + 12 * 86400)  # no room for words before the first reading
    curve.setParent(None)
    curve.setMinimumHeight(0)
    for height in range(116, 240, 8):  # lower, the flag of now lies on it
        curve.resize(700, height)
        image = curve.grab().toImage()
        y = round(curve._pixel_of_gravity(level))
        ends = (curve.data.read_at[0], curve.data.at[-1])
        first, last = (round(curve.axis.pixel(at)) for at in ends)
        first, last = max(first, round(curve.axis.left)), min(last, round(curve.axis.right))
        seen_at = [
            x for x in range(first + 8, last)
            if any(_near(image.pixelColor(x, y + dy), fruit) for dy in (-1, 0, 1))
        ]  # fmt: skip
        # Its dashes are seen along the whole of it: no veil of words lies on them.
        assert max(b - a for a, b in pairwise((*seen_at, last))) <= 14, height


def _near(one, other) -> bool:
    return sum(abs(a - b) for a, b in zip(one.getRgb()[:3], other.getRgb()[:3], strict=True)) < 60
