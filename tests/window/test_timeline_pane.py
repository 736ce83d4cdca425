"""The pane shows an outlook over time and lets every change leave as an edit."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible, QColor
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QTableView, QWidget

from tests.window import hand_outlook as hand
from winebench.model.edits import changed
from winebench.model.log import Note, Reading
from winebench.plan.outlook import ReadingOutlook
from winebench.plan.work_out import outlook
from winebench.store.samples import load_sample, samples
from winebench.units import Gravity
from winebench.window.theme import theme
from winebench.window.timeline.curve_data import curve_data
from winebench.window.timeline.pane import TimelinePane


def _colour(widget: QWidget, x: float, y: float) -> str:
    return widget.grab().toImage().pixelColor(round(x), round(y)).name()


def _middle(pane: TimelinePane, key: str) -> float:
    return pane.rows.row_rect(key).center().y() - 0.5


# --- the picture ---------------------------------------------------------------------------


def test_curve_and_rows_draw_now_at_the_same_pixel(pane):
    x = pane.axis.pixel(hand.NOW.timestamp())
    sky = theme().palette.sky.name()
    curve_x = pane.curve.mapTo(pane, QPoint(0, 0)).x()
    rows_x = pane.rows.mapTo(pane, QPoint(0, 0)).x()
    assert curve_x == rows_x
    assert _colour(pane.rows, x, 2) == sky
    assert _colour(pane.curve, x, pane.curve.height() / 2) == sky


def test_the_plotted_points_lie_where_the_axis_says(pane):
    reading = hand.readings()[2]
    view = pane.curve.plotItem.vb
    scene = view.mapViewToScene(QPointF(reading.at.timestamp(), reading.corrected))
    assert scene.x() == pytest.approx(pane.axis.pixel(reading.at.timestamp()), abs=1.0)
    assert pane.curve.reading_at(scene) == reading
    assert pane.curve.reading_at(scene + QPointF(40, 0)) is None


def test_what_a_new_entry_moved_is_said_while_another_step_is_chosen(pane):
    assert not pane.moved.isVisible()
    pane.select_step("pitch")
    project = hand.project()
    read = Reading(id="new", at=hand.NOW, gravity=Gravity("1.070"))
    pane.set_project(changed(project, log=(*project.log, read)))
    pane.show_outlook(hand.outlook())
    assert pane.moved.isVisible()
    assert pane.moved.words.startswith("Rack to glass: was Thursday · now Friday · because")
    pane.set_project(project)  # taken back
    pane.show_outlook(hand.outlook())
    assert not pane.moved.isVisible()
    note = Note(id="said", at=hand.NOW, text="smells fine")  # it moves nothing
    pane.set_project(changed(project, log=(*project.log, note)))
    pane.show_outlook(hand.outlook())
    assert not pane.moved.isVisible()


def test_a_done_step_is_a_filled_disc_and_a_due_one_a_ring(pane):
    palette = theme().palette
    done_x = pane.axis.pixel(hand.PITCH.timestamp())
    assert _colour(pane.rows, done_x - 4, _middle(pane, "pitch") + 3) == palette.leaf.name()
    now_x = pane.axis.pixel(hand.NOW.timestamp())
    y = _middle(pane, "second-nitrogen")
    assert _colour(pane.rows, now_x, y) == palette.card.name()
    edge = [QColor(_colour(pane.rows, now_x + reach, y - reach)) for reach in (4, 5, 6)]
    assert min(abs(c.green() - palette.fruit.green()) for c in edge) < 40


def test_a_held_bar_is_hatched_and_an_expected_one_hollow(pane):
    def shades(key: str, days: float) -> set[str]:
        x = pane.axis.pixel(hand.day(days).timestamp())
        image = pane.rows.grab().toImage()
        y = round(_middle(pane, key))
        return {image.pixelColor(round(x) + i, y).name() for i in range(14)}

    assert len(shades("transfer", 7.6)) > 2
    assert shades("lift-fruit", 5.4) == {theme().palette.page.name()}


def test_a_step_out_of_view_says_when_it_is(pane):
    # "about 8 Nov ›" stands at the right end of the row; an empty row has no ink there.
    image = pane.rows.grab().toImage()
    y = round(_middle(pane, "second-rack"))
    right = round(pane.axis.right)
    inked = {
        image.pixelColor(x, y + d).name() for x in range(right - 80, right) for d in (-3, 0, 3)
    }
    assert theme().palette.muted.name() in inked


def test_an_unsupported_forecast_is_hollow(pane):
    filled = pane.curve._band.opts["brush"].color().alpha()
    pane.show_outlook(hand.outlook(readings=(), forecast=hand.forecast(supported=False)))
    assert filled > 0
    assert pane.curve._band.opts["brush"].color().alpha() == 0


def test_the_forecast_starts_at_the_latest_reading(pane):
    data = pane.curve.data
    assert data.at[0] >= data.read_at[-1]
    assert data.crossing.below == 1.030


def test_an_outlook_without_readings_steps_or_forecast_is_shown(pane, qtbot):
    pane.show_outlook(hand.outlook(readings=(), forecast=None, steps=()))
    pane.repaint()
    assert "No reading yet" in pane.curve.accessibleDescription()


def test_the_curve_tells_a_screen_reader_the_forecast(pane):
    said = pane.curve.accessibleDescription()
    assert "the latest is 1.078" in said
    assert hand.forecast().sentence in said
    assert "1.030 about Friday evening" in said


# --- steps and their card ------------------------------------------------------------------


def test_arrow_keys_choose_a_step_and_the_card_follows(pane, qtbot):
    pane.rows.select("fruit-accepted")
    qtbot.keyClick(pane.rows, Qt.Key.Key_Down)
    assert pane.card.name.text() == "Enzyme"
    qtbot.keyClick(pane.rows, Qt.Key.Key_End)
    assert pane.card.name.text() == "Bottle"
    assert "11 of 11: Bottle, held" in pane.rows.accessibleDescription()


def test_a_click_on_a_row_chooses_it(pane, qtbot):
    row = round(pane.rows.row_rect("lift-fruit").center().y())
    qtbot.mouseClick(pane.rows, Qt.MouseButton.LeftButton, pos=QPoint(40, row))
    assert pane.card.step.key == "lift-fruit"


def test_the_card_says_why_what_it_waits_for_and_what_a_delay_costs(pane):
    pane.select_step("transfer")
    card = pane.card
    assert card.moved.text().startswith("was Thursday · now Friday · because")
    assert card.waits.text().count("○") == 2
    assert card.waits.text().count("●") == 1
    assert "not yet: the bag lifted; met: a clean 19 L jug" in card.waits.accessibleName()
    assert "3 days: air and browning" in card.slips.text()
    assert not card.basis.isVisible()
    card.workings.click()
    assert "the gravity forecast" in card.basis.text()
    assert card.basis.isVisible()


# --- the table and the way to the log -----------------------------------------------------


def test_the_table_says_all_that_the_picture_shows(pane, qtbot):
    pane.heading.table.click()
    assert pane.table.isVisible()
    cells = [row.cells for row in pane.table.facts.rows]
    names = [cell[0] for cell in cells]
    assert names[:12] == [step.name for step in hand.steps()]
    assert "Gravity passes 1.030, rack to glass" in names
    assert names[-4:] == ["Reading 1.078", "Reading 1.086", "Reading 1.088", "Reading 1.091"]
    pane.table.selectRow(names.index("Rack to glass"))
    assert pane.card.step.key == "transfer"


def test_the_card_leads_to_its_entry_in_the_log(pane):
    pane.select_step("stir")
    pane.card.entry.click()
    assert pane.log.isVisible()
    assert pane.log._chosen().id == "s3"


# --- for everybody -------------------------------------------------------------------------


def test_everything_that_takes_the_keyboard_has_a_name(pane):
    pane.select_step("transfer")
    pane.card.tick.click()
    nameless = [
        widget
        for widget in pane.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and isinstance(widget, (QAbstractButton, QLineEdit, QTableView))
        and not widget.accessibleName()
    ]
    assert nameless == []
    assert pane.curve.accessibleName()
    assert pane.rows.accessibleName()


def test_the_heading_asks_for_a_reading_and_for_workings(pane, qtbot):
    with qtbot.waitSignal(pane.reading_wanted):
        pane.heading.reading.click()


def test_a_change_of_theme_repaints_in_its_colours(pane):
    theme().choose(True)
    try:
        x = pane.axis.pixel(hand.NOW.timestamp())
        assert _colour(pane.rows, x, 2) == theme().palette.sky.name() == "#85b3e6"
    finally:
        theme().choose(False)


def test_ten_thousand_readings_draw_few_marks(pane):
    many = tuple(
        ReadingOutlook(
            id=str(n), at=hand.day(n / 2500), raw="1.05", corrected=1.09 - n * 5e-6, sentence=""
        )
        for n in range(10_000)
    )
    pane.show_outlook(hand.outlook(readings=many))
    x, _ = pane.curve._marks.getData()
    assert 30 < len(x) <= 150


def test_the_callout_says_the_next_crossing_and_how_it_goes_without_repeating_itself():
    sentence = hand.forecast().crossings[0].sentence
    data = curve_data(hand.outlook())
    crossing = ("1.030 about Friday evening", "between Thursday noon and Sunday", "check Friday")
    assert data.crossing_said() == crossing
    assert data.course_said() == ("Falling steadily",)
    assert sentence.split(" · ")[0] in hand.forecast().sentence


@pytest.mark.parametrize("bundled", samples(), ids=lambda each: each.name)
def test_every_sample_is_shown_in_every_zoom_and_page(pane, bundled):
    sample = load_sample(bundled.name)
    pane.set_project(sample)
    worked_out = outlook(sample, bundled.at)
    pane.show_outlook(worked_out)
    for zoom in pane.heading.zooms:
        pane.zoom_to(zoom)
        for page in ("picture", "table", "log"):
            pane.show_page(page)
            assert not pane.grab().isNull()
    for step in worked_out.steps:
        pane.select_step(step.key)
        assert pane.card.name.text() == step.name
    assert len(pane.table.facts.rows) >= len(worked_out.steps)


@pytest.mark.bench
def test_a_new_outlook_is_painted_within_a_frame(pane):
    from time import process_time

    outlooks = [hand.outlook(at=hand.NOW + timedelta(minutes=n)) for n in range(60)]
    spent = []
    for worked_out in outlooks:
        start = process_time()
        pane.show_outlook(worked_out)
        QApplication.processEvents()
        spent.append(process_time() - start)
    assert sorted(spent)[len(spent) // 2] < 0.016


def test_the_table_opens_on_the_step_that_is_chosen(pane):
    pane.select_step("transfer")
    pane.heading.table.click()
    pane.table.setFocus()
    QApplication.processEvents()
    assert pane.table.step_at(pane.table.currentIndex().row()) == "transfer"
    assert pane.card.step.key == "transfer"
    assert [each.row() for each in pane.table.selectionModel().selectedRows()] == [
        pane.table.currentIndex().row()
    ]


def test_a_screen_reader_is_told_what_holds_the_step(pane):
    pane.select_step("transfer")
    said = QAccessible.queryAccessibleInterface(pane.rows).text(QAccessible.Text.Description)
    step = pane.card.step
    missing = [one.text for one in step.conditions if not one.met]
    assert step.state == "held"
    assert all(text in said for text in missing)
    assert ", held, " in said
