"""Another batch laid over the open one, by menu, as picture, as table and aloud."""

from datetime import timedelta

import numpy as np
import pytest
from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QFileDialog, QMenu

from tests.plan.damson import IN_GLASS, PITCHED, damson, read
from tests.plan.stuck_batch import DRY, filed
from winebench.model.edits import Change, DropEntry
from winebench.store import project_file, recent
from winebench.window.theme import theme
from winebench.window.timeline.table import rows_of

OTHER = filed(damson(*DRY, id="other", name="Orchard damson"))


@pytest.fixture
def window(open_window):
    return open_window(damson(*IN_GLASS), IN_GLASS[-1].at + timedelta(days=1))


@pytest.fixture
def other_file(tmp_path):
    path = tmp_path / "orchard.winebench"
    project_file.write(path, OTHER)
    return path


def entry(window, words):
    view = next(a for a in window.menuBar().actions() if a.text() == "&View").menu()
    view.aboutToShow.emit()
    return next(a for a in view.actions() if a.text().replace("&", "").startswith(words))


def lay_menu(window):
    menu = entry(window, "Lay another batch over this one").menu()
    menu.aboutToShow.emit()
    return menu


def lay(qtbot, window, path):
    recent.remember_file(path)
    chosen = next(a for a in lay_menu(window).actions() if a.text().startswith(path.stem))
    chosen.trigger()
    qtbot.waitUntil(lambda: window.timeline.curve.data.other is not None, timeout=2000)


def test_a_recent_batch_is_laid_over_with_both_pitches_at_one_place(qtbot, window, other_file):
    assert not entry(window, "Take it away again").isEnabled()
    lay(qtbot, window, other_file)
    drawn = window.timeline.curve.data.other
    assert drawn.name == "Orchard damson"
    # Both were pitched on 2 October at 18:30, so its readings lie where they were.
    own = [seen.at.timestamp() for seen in window.document.outlook.readings]
    assert drawn.at[0] == own[0]
    assert [round(float(sg), 3) for sg in drawn.gravity[-2:]] == [0.993, 0.993]
    assert [mark.words for mark in drawn.marks][:2] == [
        "Lift the fruit, day 6", "Rack to glass, day 7",
    ]  # fmt: skip
    assert "Orchard damson lies over this batch" in window.banner.sentence
    entry(window, "Take it away again").trigger()
    assert window.timeline.curve.data.other is None
    assert not entry(window, "Take it away again").isEnabled()


def test_any_file_can_be_chosen(qtbot, window, other_file):
    lay_menu(window).actions()[0].trigger()
    dialog = window.findChild(QFileDialog)
    dialog.filesSelected.emit([str(other_file)])
    assert window.timeline.other.name == "Orchard damson"
    dialog.reject()


def test_nothing_of_it_is_stored_or_undone(qtbot, window, other_file):
    before, bytes_before = window.document.project, other_file.read_bytes()
    lay(qtbot, window, other_file)
    assert window.document.project is before
    assert not window.document.session.can_undo
    assert other_file.read_bytes() == bytes_before


def test_a_file_that_cannot_be_laid_over_says_why(qtbot, window, tmp_path):
    bare = tmp_path / "bare.winebench"
    project_file.write(bare, filed(damson(*PITCHED[:3], id="bare", name="Bare plum")))
    recent.remember_file(bare)
    next(a for a in lay_menu(window).actions() if a.text().startswith("bare")).trigger()
    assert "Bare plum has no pitched yeast" in window.banner.sentence
    gone = tmp_path / "gone.winebench"
    recent.remember_file(gone)
    next(a for a in lay_menu(window).actions() if a.text().startswith("gone")).trigger()
    assert "gone.winebench" in window.banner.sentence
    assert window.timeline.other is None


def test_the_open_batch_is_not_offered_to_lie_over_itself(window, tmp_path):
    path = tmp_path / "own.winebench"
    window.files.save_to(path)
    assert not [a for a in lay_menu(window).actions() if a.text().startswith("own")]
    assert isinstance(lay_menu(window), QMenu)


def test_another_batch_opened_lies_alone(qtbot, window, other_file):
    lay(qtbot, window, other_file)
    assert window.files.open_path(other_file)
    qtbot.waitUntil(lambda: window.timeline.curve.data.other is None, timeout=5000)
    assert window.timeline.other is None


def test_it_stays_while_the_batch_is_edited_and_moves_with_its_pitch(qtbot, window, other_file):
    lay(qtbot, window, other_file)
    first = float(window.timeline.curve.data.other.at[0])
    window.document.edit(Change(label="change the name", fields={"name": "Hedge two"}))
    qtbot.wait(300)
    assert float(window.timeline.curve.data.other.at[0]) == first
    pitch = next(a for a in window.document.project.actions if a.step == "pitch")
    window.document.edit(DropEntry(label="take it out", id=pitch.id))
    qtbot.waitUntil(lambda: float(window.timeline.curve.data.other.at[0]) != first, timeout=5000)
    step = next(s for s in window.document.outlook.steps if s.key == "pitch")
    # The must was read half an hour before the yeast went in.
    expected = step.likely.timestamp() - 1800
    assert float(window.timeline.curve.data.other.at[0]) == expected


def test_it_is_drawn_muted_dashed_and_with_diamonds_not_by_colour_alone(qtbot, window, other_file):
    lay(qtbot, window, other_file)
    other = window.timeline.curve._other
    line = other.line.opts["pen"]
    assert line.dashPattern() == [5.0, 4.0]
    assert line.color() == theme().palette.muted
    assert other.marks.opts["symbol"] == "d"
    theme().choose(True)
    assert other.line.opts["pen"].color() == theme().palette.muted
    x, y = other.line.getOriginalDataset()
    assert np.array_equal(x, window.timeline.curve.data.other.at)
    assert len(y) == len(x)


def test_the_scale_makes_room_for_its_gravities(qtbot, window, tmp_path):
    log = tuple(e for e in DRY if not e.id.startswith("1.091"))
    strong = damson(read("1.130", "2026-10-02T18:00"), *log, id="strong", name="Strong")
    path = tmp_path / "strong.winebench"
    project_file.write(path, filed(strong))
    lay(qtbot, window, path)
    low, high = window.timeline.curve.data.gravity_range()
    assert low <= 0.993
    assert high >= 1.130


def test_table_and_screen_reader_have_the_same_facts(qtbot, window, other_file):
    lay(qtbot, window, other_file)
    timeline = window.timeline
    said = timeline.curve.accessibleDescription()
    assert "Orchard damson" in said
    assert "rack to glass on day 7" in said
    timeline.show_page("table")
    rows = [row.cells for row in timeline.table.facts.rows if "Orchard damson" in row.cells[0]]
    drawn = timeline.curve.data.other
    # A reading a day, and every milestone.
    assert len(rows) == len(drawn.at) + len(drawn.marks)
    rack = next(row for row in rows if row[0].startswith("Rack to glass"))
    assert rack[1] == "day 7"
    assert "9 October 2026 in that batch" in rack[-1]
    first = rows[0]
    assert first[0] == "Reading 1.091, Orchard damson"
    assert first[-1].startswith("1.091 corrected")
    window.timeline.lay_over(None)
    assert not [r for r in timeline.table.facts.rows if "Orchard damson" in r.cells[0]]
    assert rows_of(window.document.outlook) == timeline.table.facts.rows


def test_the_pointer_tells_a_reading_of_the_other_batch(qtbot, window, other_file):
    lay(qtbot, window, other_file)
    curve = window.timeline.curve
    window.timeline.zoom_to("to bottling")
    last = curve.data.other
    spot = QPointF(
        curve.axis.pixel(float(last.at[-1])), curve._pixel_of_gravity(float(last.gravity[-1]))
    )
    assert curve._said_at(spot) == "Orchard damson, day 53: 0.993"
    assert curve._said_at(spot + QPointF(60, -40)) == ""


def test_keys_reach_it(qtbot, window, other_file):
    recent.remember_file(other_file)
    lay_entry = entry(window, "Lay another batch")
    assert "&" in lay_entry.text()
    assert "&" in entry(window, "Take it away").text()
