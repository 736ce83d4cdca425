"""The open document: what an edit changes, and the way back and forth."""

from datetime import datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.session.plum import NOW, PLUM, name
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
from winebench.model.recipe import SugarLine, WaterLine
from winebench.session import Changes, Session
from winebench.session.history import LONGEST
from winebench.store.errors import StoreError
from winebench.units import Amount, Volume


def sugar(amount):
    line = SugarLine(id="sugar", sugar="white-sugar", amount=Amount(amount))
    return PutLine(label="change the sugar", merges_as="line:sugar", line=line)


def note(number):
    return PutEntry(label="note", entry=Note(id=f"n{number}", at=NOW, text=str(number)))


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
