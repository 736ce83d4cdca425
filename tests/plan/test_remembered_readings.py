"""What is remembered of a log's readings is what would be worked out anew."""

from __future__ import annotations

import pytest

from tests.plan.damson import IN_GLASS, at, damson, read, ticked
from winebench.model.edits import DropEntry, PutEntry, changed
from winebench.model.log import Note
from winebench.plan.readings import readings

NOW = at("2026-12-31T12:00+01:00")
NOTE = Note(id="note", at=at("2026-10-06T12:00"), text="pink foam")
EDITS = [
    PutEntry(label="a note", entry=NOTE),
    PutEntry(label="a reading", entry=read("1.050", "2026-10-07T18:00")),
    PutEntry(label="sugar", entry=ticked("sugar-feed", "2026-10-07T18:00")),
    DropEntry(label="a reading less", id=IN_GLASS[-2].id),
    PutEntry(label="a correction", entry=changed(IN_GLASS[-2], note="strained")),
]


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.label)
def test_readings_after_an_edit_are_those_of_a_log_never_seen_before(edit):
    project = damson(*IN_GLASS)
    readings(project, NOW)
    after = edit.apply(project)
    # Entries made anew: nothing is remembered of a log of other objects.
    anew = changed(after, log=tuple(changed(entry, id=entry.id) for entry in after.log))
    assert readings(after, NOW) == readings(anew, NOW)


def test_a_note_changes_nothing_said_of_the_readings():
    project = damson(*IN_GLASS)
    before = readings(project, NOW)
    assert readings(EDITS[0].apply(project), NOW) == before
    assert readings(EDITS[1].apply(project), NOW) != before
