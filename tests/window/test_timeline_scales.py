"""The curve's scales are painted anew whenever what they measure changes."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from tests.plan.damson import damson
from tests.plan.stuck_batch import STUCK
from tests.window import hand_outlook as hand
from winebench.model.edits import changed
from winebench.plan.work_out import outlook
from winebench.window.timeline.curve_data import curve_data
from winebench.window.timeline.moments import ZOOMS
from winebench.window.timeline.pane import TimelinePane


def _painted(pane: TimelinePane) -> tuple[QImage, QImage]:
    """Return the curve's picture now, and the one painted with nothing kept from before."""
    QApplication.processEvents()
    kept = pane.curve.grab().toImage()
    pane.curve.resetCachedContent()
    return kept, pane.curve.grab().toImage()


@pytest.mark.parametrize("name", list(ZOOMS))
def test_the_scales_are_painted_anew_with_every_zoom(pane, name):
    pane.zoom_to(name)
    pane.axis.zoom(1.3)
    before, _ = _painted(pane)
    pane.zoom_to(name)
    after, anew = _painted(pane)
    dates = QRect(0, pane.curve.height() - 24, pane.curve.width(), 24)
    assert after == anew
    assert after.copy(dates) != before.copy(dates)


def test_the_scales_are_painted_anew_for_another_batch(pane):
    before, _ = _painted(pane)
    pane.set_project(changed(hand.project(), id="another"))
    pane.show_outlook(hand.outlook(at=hand.NOW + timedelta(days=40), forecast=None))
    after, anew = _painted(pane)
    dates = QRect(0, pane.curve.height() - 24, pane.curve.width(), 24)
    assert after == anew
    assert after.copy(dates) != before.copy(dates)


def test_the_gravities_are_painted_anew_for_a_sweeter_must(pane):
    before, _ = _painted(pane)
    sweeter = tuple(changed(r, corrected=r.corrected + 0.04) for r in hand.readings())
    pane.show_outlook(hand.outlook(readings=sweeter))
    after, anew = _painted(pane)
    gravities = QRect(0, 0, round(pane.axis.left), pane.curve.height())
    assert after == anew
    assert after.copy(gravities) != before.copy(gravities)


def test_a_standstill_is_drawn_level_under_the_lines_that_it_has_yet_to_pass():
    log = STUCK
    data = curve_data(outlook(damson(*log), log[-1].at + timedelta(hours=1)))
    assert [below for below, _name in data.thresholds] == [1.030, 1.000]
    assert data.crossing is None
    # 1.022 read at 14 °C stands for 1.021, to the end of the curve.
    assert {round(float(sg), 3) for sg in data.middle} == {1.021}
    assert data.low[-1] < 1.000
