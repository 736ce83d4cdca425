"""A week of scribbles: each line read as its writer meant it, or asked about; nothing lost."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import IN_GLASS, PITCHED, at, damson, read, ticked
from tests.plan.scribbling import NOW, entries, one, reading
from winebench.model.log import Action, Note, Reading, Record
from winebench.plan.scribbles import keep_unread, scribbles
from winebench.plan.steps import rules
from winebench.units import Gravity, Temperature

# --- the notebook of the task: each line as people write it -----------------------------------


def test_a_gravity_and_its_warmth_on_a_weekday():
    found = reading("Mon 1.064 22C")
    assert (found.at, found.gravity, found.temperature) == (
        at("2026-10-05T12:00"),
        Gravity("1.064"),
        Temperature("22C"),
    )


def test_a_reading_and_a_deed_on_one_line_are_two_entries_the_reading_first():
    found = one("6/10 8am 1.062 70F stirred", order="day-first").entries
    assert [type(entry) for entry in found] == [Reading, Action]
    assert {entry.at for entry in found} == {at("2026-10-06T08:00")}
    assert found[0].temperature.celsius == pytest.approx(21.1, abs=0.05)  # NIST SP 811: (F-32)/1.8
    assert found[1].step == "stir"


def test_a_smell_is_written_down_with_the_stirring():
    (found,) = entries("tue: stirred, smelled fine")
    assert (found.at, found.step) == (at("2026-10-06T12:00"), "stir")
    assert found.records == (Record(name="smell", value="fine"),)


def test_yesterday_is_the_day_before_now():
    assert reading("yesterday 1.058").at == at("2026-10-08T12:00")


def test_day_3_counts_from_the_yeast():
    assert reading("day 3 1.050").at.date() == date(2026, 10, 5)
    asked = one("day 3 1.050", ticked("fruit-accepted", "2026-10-01T17:00"))
    assert "no pitch is logged" in asked.trouble


def test_day_3_counts_from_a_yeast_that_stands_among_the_lines():
    before = PITCHED[:-1]
    found = scribbles(damson(*before), "2 Oct 18:30 pitched\nday 3 1.066", NOW)
    assert found.open == ()
    assert [line.at.date().day for line in found.lines] == [2, 5]
    assert found.entries[0].step == "pitch"


def test_the_bag_is_lifted_with_what_was_lost():
    (found,) = entries("Thu evening lifted the bag, lost 0.3 L")
    assert (found.at, found.step) == (at("2026-10-08T18:00"), "lift-fruit")
    assert found.records == (Record(name="lost", value="0.3 L"),)


def test_a_date_in_full_is_taken_as_it_stands():
    found = reading("2026-10-05 18:00 1.052 21 °C")
    assert (found.at, found.temperature.celsius) == (at("2026-10-05T18:00"), 21)


def test_a_pitch_that_nothing_holds_is_ticked():
    (found,) = entries("2 Oct 18:30 pitched", *PITCHED[:-1])
    assert (found.step, found.at) == ("pitch", at("2026-10-02T18:30"))


# --- figures and deeds -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "meant"),
    [("Tue 1096", "1.096"), ("Tue 1.96", "1.096"), ("Tue 64", "1.064"), ("Tue 0.0998", "0.998"),
     ("Tue 1.064 86", "86 °F"), ("Tue pH 34", "3.4")],
)  # fmt: skip
def test_slips_are_asked_about_as_in_the_reading_bar(text, meant):
    line = one(text)
    assert f'Did you mean "{meant}"?' in line.trouble
    assert line.offers[0].label == meant
    assert one(line.offers[0].line).trouble == ""


def test_a_reading_that_looks_odd_is_logged_and_told():
    found = scribbles(damson(*PITCHED), "Mon 1.050\nTue 1.066", NOW)
    assert found.open == ()
    assert "gravity only falls" in found.lines[1].doubts[0]


def test_two_gravities_on_one_line_are_asked_about():
    assert "second gravity" in one("Mon 1.066, 1.060").trouble


def test_brix_by_refractometer_ph_and_gas_are_read():
    (brix,) = entries("2 Oct 9am 20 brix refractometer")
    assert (brix.gravity.scale, brix.instrument) == ("Brix", "refractometer")
    found = reading("Tue 1,061 pH 3,4 degassed")
    assert (found.gravity.text, found.ph, found.degassed) == ("1,061", 3.4, True)


@pytest.mark.parametrize(
    "text",
    ["2026-10-06,1.062,21", "Tue 1.062/21C", "Tue 1.062@21C stirred", "Tue stirred,1.062 21 °C",
     "Tue: SG 1.062; temp 21 C", "Tue 1.062 at 21 degrees C", "Tue - 1.062 - 21C",
     "Tue at 21C it read 1.062"],
)  # fmt: skip
def test_figures_are_found_however_they_are_parted(text):
    line = one(text)
    assert line.trouble == ""
    (found,) = (entry for entry in line.entries if isinstance(entry, Reading))
    assert (found.gravity.value, found.temperature.celsius) == (1.062, 21)


def test_cups_are_no_temperature():
    assert "cannot be told" in one("Tue added 2 c water").trouble


def test_two_times_on_one_line_are_asked_about():
    assert '"8pm" is a second time' in one("Tue 8am stirred, 8pm stirred").trouble


@pytest.mark.parametrize("words", ["did not stir", "forgot to stir", "should stir more", "stir?"])
def test_what_was_not_done_is_a_note(words):
    (found,) = entries(f"Tue {words}")
    assert isinstance(found, Note)
    assert found.text == words


def test_racked_is_the_racking_that_comes_next():
    log = (*PITCHED, ticked("lift-fruit", "2026-10-08T20:00"), read("1.024", "2026-10-09T18:00"))
    (first,) = entries("today 19:00 racked 3.8 L, lost 0.2 L", *log)
    assert (first.step, {r.name: r.value for r in first.records}) == (
        "transfer",
        {"litres": "3.8 L", "lost": "0.2 L"},
    )
    late = scribbles(damson(*IN_GLASS), "7 Nov 0.996, racked because lees smelled",
                     at("2026-11-08T12:00+01:00")).lines[0]  # fmt: skip
    assert late.entries[1].step == "second-rack"


def test_words_beside_a_deed_are_kept_with_it():
    (found,) = entries("Tue stirred twice, gently")
    assert (found.step, found.note) == ("stir", "stirred twice; gently")


def test_a_misspelt_deed_is_asked_about():
    line = one("last night stired")
    assert 'Did you mean "stirred"?' in line.trouble
    assert one(line.offers[0].line).entries[0].step == "stir"


def test_every_step_can_be_noted_by_its_own_name():
    from winebench.plan.scribbles.steps import step_told

    told = {key: step_told(rule.name.lower(), lambda _key: True) for key, rule in rules().items()}
    assert [key for key, found in told.items() if found is None] == []


def test_a_whole_first_week_is_read_as_it_was():
    text = """1 Oct 5pm sorted the fruit
6pm crushed, added the sugar and water, sulfite
2 Oct 8am enzyme
6pm 1.091 20C
6:30pm pitched the yeast
3 Oct evening stirred, foaming
Sun 6pm 1.078 21C stirred; first half of the nutrient 7 g
Mon 6pm 1.066, stirred, smells of plums
Thu 8pm lifted the bag 6.2 kg, colour deep red
Fri 6pm 1.024, racked 18.1 L, lost 0.7 L, topped up 0.4 L"""
    found = scribbles(damson(), text, NOW)
    assert [line.trouble for line in found.lines if line.trouble] == []
    assert [getattr(entry, "step", "read") for entry in found.entries] == [
        "fruit-accepted", "sugar-water", "sulfite-must", "enzyme", "read", "pitch", "stir",
        "sign-of-life", "read", "stir", "first-nitrogen", "read", "stir", "lift-fruit", "read",
        "transfer", "top-up",
    ]  # fmt: skip
    nutrient, lifted, racked, topped = (found.entries[place] for place in (10, 13, 15, 16))
    assert nutrient.note == "first half of the nutrient 7 g"
    assert lifted.records == (Record(name="bag", value="6.2 kg"),)
    assert lifted.note == "colour deep red"
    assert {r.name: r.value for r in racked.records} == {"litres": "18.1 L", "lost": "0.7 L"}
    assert topped.records == (Record(name="litres", value="0.4 L"),)


def test_a_weekday_that_fits_a_week_before_says_so():
    found = scribbles(damson(*PITCHED), "2 Oct windy\nThu stirred\nSun stirred", NOW)
    assert "if you mean Thu 1 Oct 2026" not in " ".join(found.lines[1].doubts)
    found = scribbles(damson(*PITCHED), "2 Oct windy\nFri stirred\nSun stirred", NOW)
    assert found.lines[1].at == at("2026-10-09T12:00")
    assert "if you mean Fri 2 Oct 2026" in found.lines[1].doubts[0]


@given(
    st.lists(st.text(st.sampled_from("zqxj"), min_size=2, max_size=6), min_size=1, max_size=4),
    st.permutations(["1.061", "stirred", "22C"]),
    st.integers(0, 3),
    st.sampled_from([" ", ", ", "; ", " and "]),
)
@settings(max_examples=150, deadline=None)
def test_no_word_is_lost_whatever_stands_beside_it(words, figures, count, between):
    line = one(f"Tue {between.join([*figures[:count], *words])}")
    assert line.trouble == ""
    kept = " ".join(" ".join((entry.note, getattr(entry, "text", ""))) for entry in line.entries)
    assert all(word in kept for word in words)


# --- nothing lost, nothing twice ---------------------------------------------------------------


def test_what_leans_on_a_line_kept_as_a_note_is_kept_as_one_too():
    text = "2 Oct 18:30 pitched\nMon stirred"  # nobody had read the must: the pitch was held
    project = damson(*PITCHED[:4])
    assert [line.number for line in scribbles(project, text, NOW).open] == [1]
    kept = scribbles(project, keep_unread(project, text, NOW), NOW)
    assert [type(entry) for entry in kept.entries] == [Note, Note]


def test_logging_the_same_lines_again_adds_nothing():
    project = damson(*PITCHED)
    text = "Mon 8am 1.066 22C stirred\nTue looked cloudy\nWed 1.050"
    first = scribbles(project, text, NOW)
    assert len(first.entries) == 4
    after = first.edit().apply(project)
    again = scribbles(after, text, NOW)
    assert [line.known for line in again.lines] == [True, True, True]
    assert again.entries == ()


def test_one_edit_logs_all_with_fresh_ids():
    project = damson(*PITCHED)
    after = scribbles(project, "Mon 1.066\nTue 1.060, stirred", NOW).edit().apply(project)
    ids = [entry.id for entry in after.log]
    assert len(ids) == len(set(ids)) == len(PITCHED) + 3


def test_a_line_that_cannot_be_read_is_kept_word_for_word_as_a_note():
    text = "Mon 1.066\n3/10 tasted 12 of it\n  Tue 64"
    found = scribbles(damson(*PITCHED), text, NOW)
    assert len(found.open) == 2
    kept = scribbles(damson(*PITCHED), keep_unread(damson(*PITCHED), text, NOW), NOW)
    assert kept.open == ()
    notes = [entry.text for entry in kept.entries if isinstance(entry, Note)]
    assert sorted(notes) == ["3/10 tasted 12 of it", "Tue 64"]


def test_a_book_is_no_notebook():
    with pytest.raises(ValueError, match="401 lines"):
        scribbles(damson(), "x\n" * 401, NOW)


def test_a_note_without_a_day_is_of_now_and_stands_there_once():
    project = damson(*PITCHED)
    found = scribbles(project, "note: 3/11 cellar smelled", NOW)
    assert [(e.at, e.text) for e in found.entries] == [(NOW, "3/11 cellar smelled")]
    later = found.edit().apply(project)
    again = scribbles(later, "note: 3/11 cellar smelled", NOW + timedelta(hours=2))
    assert again.entries == ()


PIECES = st.sampled_from(
    ["Mon", "3/11", "8am", "1.062", "70F", "stirred", ",", "tue:", "note:", "yesterday", "day 3",
     "Fri evening", "lifted the bag", "lost 0.3 L", "5 Nov", "pitched", "2026-11-05", "18:00", "°C",
     "64", "because", "½", "ph 3.4", "\t", "İ", "racked", "99:99", "0000-00-00", "1/2 tsp",
     "tomorrow", "now", "on Fri", "added", "honey", "juice", "500 g", "not", "in 2 days", "bottles"]
)  # fmt: skip
LINES = st.lists(st.one_of(PIECES, st.text(max_size=8)), max_size=8).map(" ".join)


@given(st.lists(LINES, max_size=6).map("\n".join))
@settings(max_examples=300, deadline=None)
def test_whatever_is_scribbled_every_line_stays_and_can_be_kept(text):
    project = damson(*PITCHED)
    found = scribbles(project, text, NOW)
    rows = [row for row in text.splitlines() if row.strip()]
    assert [line.text for line in found.lines] == rows
    for line in found.lines:
        answers = (line.trouble, line.entries, line.heading)
        assert any(answers), line
        assert not (line.trouble and line.entries)
    assert all(entry.at <= NOW for entry in found.entries)
    kept = scribbles(project, keep_unread(project, text, NOW), NOW)
    assert kept.open == ()
    kept.edit().apply(project)
