"""`winebench log FILE picture ENTRY_ID PICTURE`, as a process."""

import json

from tests.cli.program import bad, good
from tests.store.test_pictures import made
from winebench.store.project_file import read


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


def test_the_log_is_listed_with_the_ids_that_a_picture_wants(raspberry):
    log = read(raspberry).entries
    lines = good("log", raspberry, "list").splitlines()
    assert [line.rpartition("[")[2].rstrip("]") for line in lines] == [entry.id for entry in log]
    assert all(
        line.startswith(f"{e.at:%Y-%m-%d %H:%M}  ") for line, e in zip(lines, log, strict=True)
    )
    found = json.loads(good("log", raspberry, "list", "--json"))
    assert [each["id"] for each in found] == [entry.id for entry in log]
    assert "Pitch the yeast" in next(e["says"] for e in found if e["says"].startswith("Pitch"))


def test_an_entry_is_named_by_its_time_or_as_the_last(raspberry, tmp_path):
    picture = made(tmp_path / "cap.jpg")
    last = read(raspberry).entries[-1]
    good("log", raspberry, "picture", "last", picture)
    assert read(raspberry).entries[-1].pictures == ("raspberry pictures/cap.jpg",)
    times = [entry.at for entry in read(raspberry).entries]
    alone = next(entry for entry in read(raspberry).entries if times.count(entry.at) == 1)
    written = f"{alone.at:%Y-%m-%d %H:%M}"
    good("log", raspberry, "picture", written, picture)
    (found,) = (entry for entry in read(raspberry).log if entry.id == alone.id)
    assert len(found.pictures) == 1 + (alone.id == last.id)
    assert "nothing is logged at" in bad("log", raspberry, "picture", "2020-01-02 03:04", picture)
