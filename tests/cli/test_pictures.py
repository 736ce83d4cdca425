"""`winebench log FILE picture ENTRY_ID PICTURE`, as a process."""

from tests.cli.test_commands import bad, good, raspberry
from tests.store.test_pictures import made
from winebench.store.project_file import read

__all__ = ["raspberry"]


def test_a_picture_is_kept_with_its_entry(raspberry, tmp_path):
    entry = read(raspberry).log[-1]
    picture = made(tmp_path / "cap.jpg")
    said = good("log", raspberry, "picture", entry.id, picture)
    assert 'Kept as "raspberry pictures/cap.jpg"' in said
    assert read(raspberry).log[-1].pictures == ("raspberry pictures/cap.jpg",)
    good("log", raspberry, "picture", entry.id, picture)
    assert read(raspberry).log[-1].pictures[1] == "raspberry pictures/cap 2.jpg"


def test_what_is_no_picture_and_an_entry_that_is_none_are_refused(raspberry, tmp_path):
    before = raspberry.read_bytes()
    entry = read(raspberry).log[-1].id
    words = tmp_path / "cap.png"
    words.write_text("no picture")
    assert "is no picture that can be shown" in bad("log", raspberry, "picture", entry, words)
    program = made(tmp_path / "cap.png").rename(tmp_path / "cap.desktop")
    assert "is no picture that can be shown" in bad("log", raspberry, "picture", entry, program)
    picture = made(tmp_path / "cap.png")
    assert "no entry of the log has the id" in bad("log", raspberry, "picture", "none", picture)
    assert "is no file" in bad("log", raspberry, "picture", entry, tmp_path / "none.png")
    assert raspberry.read_bytes() == before
    assert not (tmp_path / "raspberry pictures").exists()
