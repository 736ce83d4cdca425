"""What the log says of a standstill, on the cards of the steps that see to it."""

from datetime import timedelta

from tests.plan.damson import damson, read
from tests.plan.stuck_batch import DOUBTED, GOING, STUCK
from winebench.model.edits import PutEntry


def opened(open_window, log):
    return open_window(damson(*log), log[-1].at + timedelta(hours=1))


def test_doubts_stand_on_the_first_card_and_causes_on_the_next(open_window):
    window = opened(open_window, STUCK)
    window.show_step("doubt-reading")
    card = window.timeline.card
    assert card.clues.isVisible()
    assert "Gas&nbsp;in&nbsp;the&nbsp;sample" in card.clues.text()
    assert "Vinegar" not in card.clues.text()
    window.show_step("warm-and-rouse")
    assert "●&nbsp;<b>Warmth</b>: it stood at 14&nbsp;°C" in card.clues.text()
    assert "○&nbsp;Nutrient: both halves went in." in card.clues.text()
    assert "?&nbsp;<b>pH</b>" in card.clues.text()
    said = card.clues.accessibleName()
    assert said.startswith("points to it: Warmth.")
    assert "not known: pH." in said
    window.show_step("bottle")
    assert not card.clues.isVisible()


def test_a_slow_ferment_shows_them_where_the_next_reading_is_asked_for(open_window):
    # By three equal readings over two and a half days, the last of them on the third.
    log = (*GOING, read("1.0215", "2026-10-16T08:00", "14 °C"),
           read("1.0215", "2026-10-17T08:00", "14 °C"))  # fmt: skip
    window = opened(open_window, log)
    assert window.document.outlook.stuck.state == "slow"
    window.show_step("read-gravity")
    assert window.timeline.card.clues.isVisible()
    assert "restart" not in {step.key for step in window.timeline.rows.steps}


def test_a_new_reading_changes_the_clues_on_the_open_card(open_window, qtbot):
    window = opened(open_window, DOUBTED)
    window.show_step("warm-and-rouse")
    assert "?&nbsp;<b>pH</b>: not measured" in window.timeline.card.clues.text()
    sour = read("1.022", "2026-10-19T19:00", "14 °C", ph=2.8, degassed=True)
    window.document.edit(PutEntry(label="log a reading", entry=sour))
    qtbot.waitUntil(
        lambda: "●&nbsp;<b>pH</b>: 2.8" in window.timeline.card.clues.text(), timeout=5000
    )


def test_the_card_leaves_room_for_curve_and_steps_in_a_small_window(open_window, qtbot):
    window = opened(open_window, DOUBTED)
    window.show_step("warm-and-rouse")
    window.resize(1000, 640)
    timeline = window.timeline
    qtbot.waitUntil(lambda: window.height() == 640, timeout=2000)
    qtbot.wait(100)
    assert timeline.curve.height() >= timeline.curve.minimumHeight()
    assert timeline._card_area.height() <= 0.4 * timeline.height()


def test_at_1366_px_todays_cards_say_how_to_read_it_in_full(open_window):
    window = opened(open_window, STUCK)
    window.resize(1366, 740)
    window.grab()
    card = next(each for each in window.strip.cards if each.item.step == "doubt-reading")
    assert card.item.detail.endswith("read it by hydrometer with its temperature.")
    assert card._detail.toolTip() == ""  # what is cut stands in the tooltip
