"""The open document: edits and the way back, the file, and copies of unsaved work."""

import os
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from winebench.model.edits import (
    Change,
    ChangeRecipe,
    DropLine,
    KeepDraft,
    PutEntry,
    PutLine,
    Several,
    settle,
)
from winebench.model.log import Note
from winebench.model.project import Draft, Project
from winebench.model.recipe import SugarLine, WaterLine
from winebench.session import Changes, Session
from winebench.session.history import LONGEST
from winebench.store.errors import ChangedOnDiskError, StoreError
from winebench.store.project_file import read, write
from winebench.store.recovery import unsaved_work
from winebench.units import Amount, Volume

NOW = datetime(2026, 10, 6, 18, 0, tzinfo=UTC)
PLUM = Project(id="p", name="Plum")


def name(text, merges_as="name"):
    return Change(label=f"call it {text}", merges_as=merges_as, fields={"name": text})


def sugar(amount):
    line = SugarLine(id="sugar", sugar="white-sugar", amount=Amount(amount))
    return PutLine(label="change the sugar", merges_as="line:sugar", line=line)


def note(number):
    return PutEntry(label="note", entry=Note(id=f"n{number}", at=NOW, text=str(number)))


# --- edits and the way back ---------------------------------------------------------------


def test_an_edit_says_which_parts_it_changed():
    session = Session(PLUM)
    changes = session.apply(sugar("3 lb"))
    assert changes == Changes(frozenset({"recipe"}))
    assert changes.touches("recipe", "log")
    assert not changes.touches("log")
    both = Several(label="both", edits=(name("Sloe"), note(1)))
    assert session.apply(both).fields == {"name", "log"}
    assert session.undo().fields == {"name", "log"}
    with pytest.raises(ValueError, match="colour"):
        changes.touches("colour")


def test_keystrokes_in_one_field_are_one_step():
    session = Session(PLUM)
    for text in ("S", "Sl", "Slo", "Sloe"):
        session.apply(name(text))
    assert session.undo_label == "call it Sloe"
    session.undo()
    assert session.project is PLUM
    assert not session.can_undo
    assert session.redo_label == "call it Sloe"
    session.redo()
    assert session.project.name == "Sloe"


@pytest.mark.parametrize("between", ["edit", "undo", "save"])
def test_another_edit_an_undo_or_a_save_starts_a_new_step(tmp_path, between):
    session = Session(PLUM, tmp_path / "plum.winebench")
    session.apply(name("S"))
    if between == "edit":
        session.apply(sugar("3 lb"))
    elif between == "undo":
        session.apply(sugar("3 lb"))
        session.undo()
    else:
        session.save()
    session.apply(name("Sl"))
    session.undo()
    assert session.project.name == "S"


def test_edits_of_no_field_never_join():
    session = Session(PLUM)
    session.apply(name("A", merges_as=""))
    session.apply(name("B", merges_as=""))
    session.undo()
    assert session.project.name == "A"


def test_an_edit_that_changes_nothing_is_no_step_and_keeps_what_can_be_redone():
    session = Session(PLUM)
    session.apply(name("Sloe"))
    session.undo()
    for edit in (name("Plum"), DropLine(label="drop", id="none"),
                 KeepDraft(label="keep", place="x", text="")):  # fmt: skip
        assert not session.apply(edit)
    assert session.can_redo
    assert not session.can_undo
    assert not session.dirty


def test_a_field_typed_back_to_what_it_was_leaves_no_step():
    session = Session(PLUM)
    session.apply(name("Plumm"))
    session.apply(name("Plum"))
    assert not session.can_undo
    assert not session.dirty


def test_undo_and_redo_at_the_ends_change_nothing():
    session = Session(PLUM)
    assert not session.undo()
    assert not session.redo()
    assert (session.undo_label, session.redo_label) == ("", "")


def test_a_new_edit_forgets_what_could_be_redone():
    session = Session(PLUM)
    session.apply(name("A"))
    session.undo()
    session.apply(sugar("1 lb"))
    assert not session.can_redo


def test_history_is_long_but_not_endless():
    session = Session(PLUM)
    for number in range(LONGEST + 10):
        session.apply(Change(label="x", fields={"name": str(number)}))
    steps = 0
    while session.undo():
        steps += 1
    assert steps == LONGEST


def test_an_edit_that_could_not_be_saved_is_refused_and_changes_nothing():
    session = Session(PLUM)
    session.apply(name("Sloe"))
    water = WaterLine(id="w", amount=Volume("1 gal"))
    for edit, said in (
        (ChangeRecipe(label="x", fields={"basis": Volume("1 gal")}), r"recipe\.basis.*imperial"),
        (PutLine(label="x", line=water), r"recipe\.lines\[0\]\.amount"),
        (PutEntry(label="x", entry=Note(id="n", at=datetime(2026, 1, 1), text="")), "offset"),
    ):
        with pytest.raises(StoreError, match=said):
            session.apply(edit)
    assert session.undo_label == "call it Sloe"
    assert session.project.recipe == PLUM.recipe


edits = st.one_of(
    st.sampled_from(["A", "AB", "Plum"]).map(name),
    st.sampled_from(["1 lb", "2,5 kg", "3 cup US"]).map(sugar),
    st.integers(0, 3).map(note),
    st.just(DropLine(label="drop", id="sugar")),
    st.sampled_from(["", "1."]).map(lambda t: KeepDraft(label="draft", place="x", text=t)),
)
moves = st.lists(st.one_of(edits, st.sampled_from(["undo", "redo"])), max_size=25)


@given(moves)
@settings(max_examples=150, deadline=None)
def test_undoing_everything_gives_the_first_project_and_redoing_the_last(made):
    session = Session(PLUM)
    for move in made:
        before = session.project
        if move == "undo":
            changes = session.undo()
        elif move == "redo":
            changes = session.redo()
        else:
            changes = session.apply(move)
        assert changes == Changes.between(before, session.project)
        assert session.dirty == (session.project != PLUM)
    while session.can_redo:
        assert session.redo(), "every step changes something"
    last, steps = session.project, 0
    while session.can_undo:
        assert session.undo(), "every step changes something"
        steps += 1
    assert session.project == PLUM
    for _ in range(steps):
        session.redo()
    assert session.project == last
    assert not session.can_redo


def typed(place, text):
    return KeepDraft(label=f"type {place}", merges_as=place, place=place, text=text)


def test_typing_into_a_form_that_is_shut_is_no_step_and_stays_through_undo():
    session = Session(PLUM)
    session.apply(name("Sloe"))
    session.apply(typed("tick:rack:note", "cold"))
    session.apply(typed("tick:rack:at", "Monday"))
    assert session.undo_label == "type tick:rack:at"
    assert session.apply(settle("tick:rack:")) == Changes()
    assert session.undo_label == "call it Sloe"
    session.undo()
    assert session.project.name == "Plum"
    assert {draft.text for draft in session.project.drafts} == {"cold", "Monday"}
    session.redo()
    assert session.project.name == "Sloe"
    assert not session.can_redo


def test_what_settles_its_own_drafts_is_one_step_and_undo_leaves_none_of_them():
    session = Session(PLUM)
    session.apply(typed("tick:rack:note", "cold"))
    session.apply(name("Sloe"))
    session.apply(typed("tick:rack:at", "Monday"))
    session.apply(typed("other", "kept"))
    forgotten = tuple(typed(f"tick:rack:{field}", "") for field in ("note", "at"))
    session.apply(Several(label="tick", settles="tick:rack:", edits=(note(1), *forgotten)))
    labels = []
    while session.can_undo:
        labels.append(session.undo_label)
        session.undo()
        assert not any(draft.place.startswith("tick:") for draft in session.project.drafts)
    assert labels == ["tick", "type other", "call it Sloe"]
    assert session.project == PLUM


@given(st.lists(st.sampled_from(["name", "form", "other", "note", "undo", "redo"]), max_size=25))
def test_settled_drafts_never_come_or_go_and_every_step_changes_something(deeds):
    session = Session(PLUM)
    for number, deed in enumerate(deeds):
        {
            "name": lambda n: session.apply(name(f"Plum {n}", "")),
            "form": lambda n: session.apply(typed(f"form:{n % 2}", f"text {n % 3}")),
            "other": lambda n: session.apply(typed("other", f"text {n}")),
            "note": lambda n: session.apply(note(n)),
            "undo": lambda n: session.undo(),
            "redo": lambda n: session.redo(),
        }[deed](number)
    present = session.project
    session.apply(settle("form:"))
    assert session.project == present

    def of_form():
        return {d for d in session.project.drafts if d.place.startswith("form:")}

    kept = of_form()
    for can, go in (("can_undo", session.undo), ("can_redo", session.redo)):
        while getattr(session, can):
            before = session.project
            go()
            assert session.project != before
            assert of_form() == kept


# --- the file -----------------------------------------------------------------------------


@pytest.fixture
def path(tmp_path):
    where = tmp_path / "plum.winebench"
    write(where, PLUM)
    return where


def test_saving_writes_the_file_and_leaves_nothing_unsaved(path):
    session = Session.open(path)
    assert not session.dirty
    session.apply(name("Sloe"))
    assert session.dirty
    session.save()
    assert not session.dirty
    assert read(path).name == "Sloe"
    session.undo()
    assert session.dirty, "undo goes back past a save"
    session.redo()
    assert not session.dirty


def test_saving_under_another_name_moves_on_to_that_file(path, tmp_path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.save(tmp_path / "sloe.winebench")
    assert session.path == tmp_path / "sloe.winebench"
    assert read(path).name == "Plum"


def test_a_project_without_a_file_asks_for_one():
    with pytest.raises(StoreError, match="choose where"):
        Session(PLUM).save()


def test_a_failed_save_leaves_the_work_unsaved_and_the_session_where_it_was(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    with pytest.raises(StoreError, match="was not saved"):
        session.save(path / "below" / "a.winebench")
    assert session.dirty
    assert session.path == path


def test_a_file_written_by_another_program_is_not_overwritten_unasked(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    assert not session.changed_on_disk()
    write(path, Project(id="p", name="From outside"))
    assert session.changed_on_disk()
    with pytest.raises(ChangedOnDiskError, match="another program"):
        session.save()
    with pytest.raises(ChangedOnDiskError):
        session.save(path)
    assert read(path).name == "From outside"
    assert session.dirty
    session.save(force=True)
    assert read(path).name == "Sloe"
    assert not session.changed_on_disk()


def test_a_file_touched_or_written_again_the_same_is_not_changed(path):
    session = Session.open(path)
    os.utime(path, (0, 0))
    write(path, PLUM)
    assert not session.changed_on_disk()
    session.apply(name("Sloe"))
    session.save()


def test_a_file_that_is_gone_is_written_again(path):
    session = Session.open(path)
    session.apply(name("Sloe"))
    path.unlink()
    session.save()
    assert read(path).name == "Sloe"


def test_opening_a_damaged_file_says_so(path):
    path.write_bytes(b"{")
    with pytest.raises(StoreError, match="truncated"):
        Session.open(path)


# --- copies of unsaved work ---------------------------------------------------------------


def crashed(session, monkeypatch):
    """Return what the next start finds, as if this program had died."""
    monkeypatch.setattr("winebench.store.recovery._running", lambda pid: "")
    return unsaved_work()


def test_unsaved_work_comes_back_dirty_with_its_file(path, monkeypatch):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.autosave(NOW)
    assert unsaved_work() == (), "this program still runs"
    (found,) = crashed(session, monkeypatch)
    again = Session.recover(found)
    assert again.project.name == "Sloe"
    assert again.path == path
    assert again.dirty
    again.save()
    assert read(path).name == "Sloe"
    assert unsaved_work() == ()


def test_recovered_work_does_not_overwrite_what_changed_since(path, monkeypatch):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.autosave(NOW)
    (found,) = crashed(session, monkeypatch)
    write(path, Project(id="p", name="From outside"))
    with pytest.raises(ChangedOnDiskError):
        Session.recover(found).save()


@pytest.mark.parametrize("end", ["save", "undo", "close"])
def test_a_copy_goes_when_nothing_is_unsaved_any_more(path, monkeypatch, end):
    session = Session.open(path)
    session.apply(name("Sloe"))
    session.autosave(NOW)
    if end == "save":
        session.save()
    elif end == "undo":
        session.undo()
        session.autosave(NOW + timedelta(seconds=6))
    else:
        session.close()
    assert crashed(session, monkeypatch) == ()


def test_a_draft_is_part_of_the_work_that_comes_back(monkeypatch):
    session = Session(PLUM)
    session.apply(KeepDraft(label="type", merges_as="x", place="recipe.basis", text="1 ga"))
    session.autosave(NOW)
    (found,) = crashed(session, monkeypatch)
    assert found.project.drafts == (Draft(place="recipe.basis", text="1 ga"),)
