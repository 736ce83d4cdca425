"""A log in order, thinned and remembered: after an edit the same as worked out anew."""

from datetime import timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, at
from winebench.model import in_order as ordering
from winebench.model.in_order import difference, in_order
from winebench.model.log import Note, Reading
from winebench.plan import sparse as thinning
from winebench.plan.sparse import MANY, sparse
from winebench.units import Gravity

START = at("2026-10-02T19:00")


def entry(number, minutes, kind):
    """Return a sensor's reading, one by hand, or a note."""
    when = START + timedelta(minutes=minutes)
    if kind == "note":
        return Note(id=f"n{number}", at=when, text="looked")
    note = "by hand" if kind == "hand" else ""
    gravity = Gravity(f"{1.0 + (7 * number % 90) / 1000:.3f}")
    return Reading(id=f"e{number}", at=when, gravity=gravity, note=note)


kinds = st.sampled_from(["sensor", "sensor", "hand", "note"])
edits = st.lists(
    st.tuples(st.sampled_from(["add", "drop", "correct"]), st.integers(0, 10**6), kinds),
    min_size=1,
    max_size=12,
)


def edited(log, edit, number):
    what, where, kind = edit
    place = where % max(len(log), 1)
    if what == "drop":
        return log[:place] + log[place + 1 :]
    if what == "correct" and log:
        return (*log[:place], entry(number, where % 5000, kind), *log[place + 1 :])
    return (*log, entry(number, where % 5000, kind))


@settings(max_examples=40, deadline=None)
@given(edits=edits, times=st.lists(st.integers(0, 40), min_size=1, max_size=12))
def test_a_log_after_edits_is_in_the_order_of_sorting_it_anew(edits, times):
    log = (*PITCHED, *(entry(n, 120 * minutes, "hand") for n, minutes in enumerate(times)))
    for number, edit in enumerate(edits, 1000):
        log = edited(log, edit, number)
        found, anew = in_order(log), ordering._sorted(log)
        assert [list(map(id, part)) for part in found] == [list(map(id, part)) for part in anew]


@settings(max_examples=15, deadline=None)
@given(edits=edits, times=st.integers(1, 4))
def test_a_log_after_edits_is_thinned_as_one_never_seen_before(edits, times):
    log = (*PITCHED, *(entry(n, 3 * (n // times), "sensor") for n in range(MANY + 60)))
    sparse(log)
    for number, edit in enumerate(edits, 10_000):
        log = edited(log, edit, number)
        found = sparse(log)
        thin = thinning._thin(in_order(log).readings)
        kept = {id(each) for each in (*thin.kept.values(), *thin.by_hand)}
        entries = in_order(log).entries
        newest = {id(each) for each in in_order(log).readings[-thinning.NEWEST :]}
        stays = [e for e in entries if not isinstance(e, Reading) or id(e) in kept | newest]
        assert list(map(id, found)) == list(map(id, stays))


@given(before=st.text("abc", max_size=9), after=st.text("abc", max_size=9))
def test_the_difference_of_two_logs_turns_one_into_the_other(before, after):
    known = {letter: Note(id=letter, at=START, text=letter) for letter in "abc"}
    one, other = (tuple(known[letter] for letter in word) for word in (before, after))
    change = difference(one, other)
    end = change.start + len(change.gone)
    assert one[change.start : end] == change.gone
    assert (*one[: change.start], *change.come, *one[end:]) == other
    assert (before == after) == (not change.gone and not change.come)
