"""Pictures in the log page: added, seen small, opened, taken out; what is missing is said."""

import os

import pytest
from PySide6.QtCore import QMimeData, QObject, QPoint, QPointF, Qt, QUrl, Slot
from PySide6.QtGui import QDesktopServices, QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog

from tests.store.test_pictures import made
from tests.window.test_reachable import nameless
from winebench.store.project_file import read

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


@pytest.fixture
def kept(raspberry, tmp_path):
    """Return the window on a project that has a file, its log page open, an entry chosen."""
    raspberry.files.save_to(tmp_path / "row.winebench")
    return chosen(raspberry)


@pytest.fixture
def viewer(qtbot):
    """Stand where the system's viewer is: note what would be opened."""

    class Viewer(QObject):
        seen: list[str] = []

        @Slot(QUrl)
        def show(self, url):
            self.seen.append(url.toLocalFile())

    made = Viewer()
    made.seen = []
    QDesktopServices.setUrlHandler("file", made, "show")
    yield made.seen
    QDesktopServices.unsetUrlHandler("file")


def chosen(window):
    window.timeline.show_page("log")
    window.timeline.log.view.selectRow(1)
    return window


def seen(qtbot, window) -> list[str]:
    """Return the words under the small pictures, when all are there."""
    row, log = window.timeline.log.pictures, window.timeline.log
    newest_first = tuple(reversed(window.document.project.entries))
    qtbot.waitUntil(lambda: log.model.entries == newest_first)  # shown a moment after the edit
    qtbot.waitUntil(lambda: not row.busy)
    return [row.item(place).text() for place in range(row.count())]


def entry_of(window):
    return window.timeline.log._chosen()


def add(qtbot, window, *paths):
    QTest.mouseClick(window.timeline.log.add_picture, Qt.MouseButton.LeftButton)
    dialog = window.findChild(QFileDialog)
    dialog.filesSelected.emit([str(path) for path in paths])
    dialog.close()
    return seen(qtbot, window)


def test_a_picture_is_chosen_and_seen_small_under_the_log(qtbot, kept, tmp_path):
    log = kept.timeline.log
    assert not log.pictures.isVisible()
    words = add(qtbot, kept, made(tmp_path / "a" / "cap.png"), made(tmp_path / "a" / "lees.jpg"))
    assert words == ["cap.png", "lees.jpg"]
    assert log.pictures.isVisible()
    assert not log.pictures.item(0).icon().isNull()
    assert entry_of(kept).pictures == ("row pictures/cap.png", "row pictures/lees.jpg")
    assert "2 pictures: cap.png, lees.jpg" in log.model.index(1, 2).data()
    assert nameless(kept) == []
    assert kept.document.session.undo_label == "add a picture"
    kept.document.undo()
    qtbot.waitUntil(lambda: not log.pictures.isVisible())


def test_a_project_without_a_file_is_to_be_saved_first(raspberry, tmp_path):
    window = chosen(raspberry)
    QTest.mouseClick(window.timeline.log.add_picture, Qt.MouseButton.LeftButton)
    assert window.findChild(QFileDialog) is None
    assert "Save the project first" in window.banner.sentence


def test_a_picture_dropped_on_a_row_belongs_to_its_entry(qtbot, kept, tmp_path):
    log = kept.timeline.log
    picture = made(tmp_path / "a" / "cap.png")
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(picture))])
    row = log.view.visualRect(log.model.index(3, 1)).center()
    place = log.view.viewport().mapTo(log, row)
    copy, left, no_key = (
        Qt.DropAction.CopyAction,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    enter = QDragEnterEvent(QPoint(place), copy, data, left, no_key)
    QApplication.sendEvent(log, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(log, QDropEvent(QPointF(place), copy, data, left, no_key))
    assert seen(qtbot, kept) == ["cap.png"]
    assert log.model.entries[3].pictures == ("row pictures/cap.png",)
    assert entry_of(kept) == log.model.entries[3]


def test_enter_opens_the_picture_with_the_systems_viewer(qtbot, kept, tmp_path, viewer):
    add(qtbot, kept, made(tmp_path / "a" / "cap.png"))
    QTest.keyClick(kept.timeline.log.pictures, Qt.Key.Key_Return)
    assert viewer == [str(tmp_path / "row pictures" / "cap.png")]


def test_a_missing_picture_says_so_and_is_not_opened(qtbot, kept, tmp_path, viewer):
    add(qtbot, kept, made(tmp_path / "a" / "cap.png"), made(tmp_path / "a" / "lees.png"))
    os.remove(tmp_path / "row pictures" / "cap.png")
    (tmp_path / "row pictures" / "lees.png").write_text("words")
    kept.timeline.log.view.selectRow(2)
    kept.timeline.log.view.selectRow(1)
    assert seen(qtbot, kept) == ["cap.png is missing", "lees.png cannot be shown"]
    QTest.keyClick(kept.timeline.log.pictures, Qt.Key.Key_Return)
    assert "is missing; put it back" in kept.banner.sentence
    kept.timeline.log.pictures.setCurrentRow(1)
    QTest.keyClick(kept.timeline.log.pictures, Qt.Key.Key_Return)
    assert "is no picture that can be shown" in kept.banner.sentence
    assert viewer == []


def test_what_is_no_picture_is_refused_and_the_others_are_added(qtbot, kept, tmp_path):
    words = tmp_path / "a.txt"
    words.write_text("words")
    assert add(qtbot, kept, made(tmp_path / "a" / "cap.png"), words) == ["cap.png"]
    assert '"a.txt" is no picture that can be shown' in kept.banner.sentence


def test_delete_takes_the_picture_off_the_entry_and_leaves_entry_and_file(qtbot, kept, tmp_path):
    add(qtbot, kept, made(tmp_path / "a" / "cap.png"))
    count = len(kept.document.project.log)
    kept.timeline.log.pictures.setFocus()
    QTest.keyClick(kept.timeline.log.pictures, Qt.Key.Key_Delete)
    assert seen(qtbot, kept) == []
    assert entry_of(kept).pictures == ()
    assert len(kept.document.project.log) == count
    assert (tmp_path / "row pictures" / "cap.png").exists()
    kept.document.undo()
    qtbot.waitUntil(lambda: entry_of(kept).pictures == ("row pictures/cap.png",))


def test_saving_elsewhere_takes_the_pictures_along(qtbot, kept, tmp_path):
    add(qtbot, kept, made(tmp_path / "a" / "cap.png"))
    new = tmp_path / "elsewhere" / "other.winebench"
    new.parent.mkdir()
    kept.files.save_to(new)
    assert (new.parent / "row pictures" / "cap.png").exists()
    assert read(new).log == kept.document.project.log
    assert seen(qtbot, kept) == ["cap.png"]
