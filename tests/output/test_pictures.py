"""Pictures of entries: their count on the card, and which files are any."""

import pytest
from PySide6.QtCore import QSize

from tests.output import batches, pdf
from tests.store.test_pictures import made
from winebench.model.edits import changed
from winebench.model.log import Action, Note, Reading
from winebench.output.card import MARGIN_MM, card_pdf
from winebench.output.pictures import check_picture, formats, small_copy
from winebench.plan.picture_words import picture_words
from winebench.store.errors import StoreError


def test_the_card_says_how_many_pictures_an_entry_has_and_their_names(tmp_path):
    project = batches.project()
    pictures = {Reading: ("p/cap.jpg",), Note: ("p/a.png", "p/b.png"), Action: ("p/lees.jpg",)}
    log = tuple(changed(entry, pictures=pictures[type(entry)]) for entry in project.log)
    path = tmp_path / "card.pdf"
    card_pdf(path, changed(project, log=log), batches.outlook(), "A4")
    words = pdf.words_of(path)
    readings = sum(isinstance(entry, Reading) for entry in log)
    assert words.count("picture cap.jpg") == readings > 0
    assert "smells of plums; 2 pictures: a.png, b.png" in words
    assert "Pitch the yeast – Must: 68 °F; picture lees.jpg" in words
    with pdf.opened(path) as found:
        for page in found.pages:
            assert list(pdf.outside(page, MARGIN_MM - 0.2)) == []


@pytest.mark.parametrize(
    ("names", "said"),
    [
        ((), ""),
        (("row pictures/cap.jpg",), "picture cap.jpg"),
        (tuple(f"p/{n}.jpg" for n in "abcde"), "5 pictures: a.jpg, b.jpg, c.jpg and 2 more"),
    ],
)
def test_pictures_in_words(names, said):
    assert picture_words(changed(batches.project().log[0], pictures=names)) == said


def test_every_common_kind_of_picture_is_read_and_small_copies_keep_their_shape(tmp_path):
    for ending in ("jpg", "png", "bmp", "webp", "tif"):
        assert ending in formats()
        path = made(tmp_path / f"cap.{ending}")
        check_picture(path)
        assert small_copy(path, QSize(16, 16)).size() == QSize(16, 12)


@pytest.mark.parametrize("ending", ["svg", "pdf", "desktop", "html", ""])
def test_what_may_be_more_than_a_picture_is_none(tmp_path, ending):
    path = made(tmp_path / "cap.png").rename(tmp_path / f"cap.{ending}")
    with pytest.raises(StoreError, match="is no picture that can be shown"):
        check_picture(path)
