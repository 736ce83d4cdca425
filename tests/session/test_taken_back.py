"""Text that can no longer be read takes back what its own beginning changed, in one step."""

import pytest

from tests.session.plum import PLUM, name
from winebench.model.edits import KeepDraft, Several
from winebench.session import Session


def typed(text, stay="name#1.1"):
    return name(text, merges_as=stay)


def unread(text, stay="name#1.1", back="name#1."):
    keep = KeepDraft(label="call it", place="name", text=text)
    return Several(label="call it", merges_as=stay, takes_back=back, edits=(keep,))


def state(session):
    return session.project.name, tuple(draft.text for draft in session.project.drafts)


def test_the_project_is_as_before_the_typing_with_the_text_kept():
    session = Session(PLUM)
    session.apply(typed("S"))
    session.apply(typed("Sl"))
    session.apply(unread("Sl?"))
    assert state(session) == ("Plum", ("Sl?",))
    session.undo()
    assert state(session) == ("Plum", ())
    assert not session.can_undo
    session.redo()
    assert state(session) == ("Plum", ("Sl?",))


def test_all_stays_of_one_typing_are_taken_back_and_none_before_it():
    session = Session(PLUM)
    session.apply(typed("Sloe", "name#1.1"))  # let stand
    session.apply(typed("Q", "name#2.2"))
    session.apply(typed("Quince", "name#2.3"))  # typed wholly anew in the same typing
    session.apply(unread("Quince?", "name#2.3", "name#2."))
    assert state(session) == ("Sloe", ("Quince?",))


@pytest.mark.parametrize("between", ["another field", "save"])
def test_what_comes_between_is_never_taken_back(tmp_path, between):
    session = Session(PLUM, tmp_path / "plum.winebench")
    session.apply(typed("S"))
    if between == "save":
        session.save()
    else:
        session.apply(KeepDraft(label="type", merges_as="x", place="x", text="kept"))
    session.apply(unread("S?"))
    assert state(session) == (("Plum", ("S?",)) if between == "save" else ("S", ("kept", "S?")))


def test_ten_is_not_the_beginning_of_one():
    session = Session(PLUM)
    session.apply(typed("Sloe", "name#10.10"))
    session.apply(unread("?", "name#1.11", "name#1."))
    assert state(session) == ("Sloe", ("?",))
