"""Gates that ask what was written down: sulfite, sorbate, pH, warmth, trial, days in the cold.

What a comment states as the rule is common practice unless a source stands beside it.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import (
    PITCHED,
    STABLE,
    at,
    damson,
    planned,
    read,
    stabilised,
    ticked,
    waiting,
)
from winebench.model.edits import changed
from winebench.model.log import Action, Record
from winebench.model.recipe import AdditiveLine
from winebench.plan.outlook import StepOutlook
from winebench.plan.steps.noting import needs_reason, number_written, still_held
from winebench.units import Amount

UNTIL_BOTTLES = "2026-12-02T11:00+01:00"
KNOWN = "the sulfite known: note how much went in with the stabilising, or what is free now"
QUIET = (
    ticked("sweeten", "2026-11-24T10:00+01:00", grams="900 g"),
    read("1.012", "2026-11-24T11:00+01:00"),
    read("1.012", "2026-12-01T10:00+01:00"),
)


def bottle(*log, **fields) -> StepOutlook:
    return planned(damson(*STABLE, *log, **fields), UNTIL_BOTTLES, "bottle")


def sorbated(text: str) -> StepOutlook:
    return bottle(stabilised("2026-11-22T10:00+01:00", sorbate=text), *QUIET)


@pytest.mark.parametrize(
    ("records", "known"),
    [
        ({}, False),
        ({"mg-per-l": "none"}, False),
        ({"mg-per-l": "0"}, False),
        ({"sorbate": "4 g"}, False),
        ({"mg-per-l": "40"}, True),
        ({"sulfite": "2 g"}, True),
        ({"sulfite": "5 tablets"}, True),
    ],
)
def test_an_empty_tick_is_no_known_sulfite(records, known) -> None:
    # Bottled only with the sulfite known.
    found = bottle(ticked("stabilise", "2026-11-22T10:00+01:00", **records))
    assert (KNOWN in waiting(found)) is not known
    assert found.override == ("free" if known else "reason")


def test_no_sulfite_for_a_reason_is_known_and_so_is_what_was_measured_since() -> None:
    # Known too: none, and accepted with a typed reason, or free sulfite read after it.
    none = changed(ticked("stabilise", "2026-11-22T10:00+01:00"), override="we drink none")
    assert bottle(none).override == "free"
    free = changed(read("0.993", "2026-11-25T10:00+01:00"), free_so2_mg_per_l=32.0)
    assert bottle(ticked("stabilise", "2026-11-22T10:00+01:00"), free).override == "free"
    # Or noted with the bottles themselves.
    late = bottle(ticked("stabilise", "2026-11-22T10:00+01:00"))
    assert needs_reason(late, ())
    assert not needs_reason(late, (Record(name="mg-per-l", value="30"),))


@pytest.mark.parametrize(
    ("text", "enough"),
    [("", False), ("yes", False), ("0.1", False), ("0.5 g", False), ("4 g", True), ("4", True)],
)
def test_sorbate_is_in_from_seven_tenths_of_the_dose_asked_for(text, enough) -> None:
    # Bottled sweet only with sorbate. 0.1 g in 17 L is 4 mg/L of sorbic acid; Peynaud's table
    # (Knowing and Making Wine, p. 275, from memory) has 50 mg/L and more even at 14 %.
    found = sorbated(text)
    assert (found.override == "free") is enough
    if not enough:
        assert any("of the" in one and "asked for" in one for one in waiting(found))


def test_a_recipe_with_sorbate_is_no_sorbate_in_the_wine() -> None:
    # What is on the recipe is not in the wine before somebody notes it.
    line = AdditiveLine(id="sorbate", additive="potassium-sorbate", amount=Amount("4 g"))
    base = damson()
    recipe = changed(base.recipe, lines=(*base.recipe.lines, line))
    assert bottle(stabilised("2026-11-22T10:00+01:00"), *QUIET, recipe=recipe).override == "never"


def test_stabilising_asks_for_a_ph_and_takes_the_one_noted_with_the_tick() -> None:
    # Stabilised with a known pH below 3.8.
    found = planned(damson(*STABLE), "2026-11-22T20:00+01:00", "stabilise")
    assert (found.state, found.override) == ("due", "reason")
    assert "pH below 3.8 (not read yet)" in waiting(found)
    sulfite = Record(name="mg-per-l", value="40")
    assert needs_reason(found, (sulfite,))
    assert not needs_reason(found, (sulfite, Record(name="ph", value="3.5")))
    high = still_held(found, (sulfite, Record(name="ph", value="3.9")))
    assert [one.text for one in high] == ["pH below 3.8 (noted: 3.9)"]
    # Noted, it is the pH that the dose goes by: 0.5 mg/L molecular at 3.5 is 25 mg/L free.
    told = damson(*STABLE, stabilised("2026-11-22T10:00+01:00", ph="3.9"))
    again = planned(told, "2026-11-23T10:00+01:00", "bottle")
    assert again.override == "free"


def test_a_ph_of_the_tick_beats_a_better_one_read_before() -> None:
    # The newest pH counts.
    sour = changed(STABLE[-2], id="ph", at=at("2026-11-21T18:30+01:00"), ph=3.4)
    found = planned(damson(*STABLE, sour), "2026-11-22T20:00+01:00", "stabilise")
    noted = (Record(name="mg-per-l", value="40"), Record(name="ph", value="3.9"))
    assert not needs_reason(found, noted[:1])
    assert needs_reason(found, noted)


def test_a_high_ph_holds_and_the_reminder_asks_for_acid() -> None:
    # 3.8 and above is held; 0.5 x (1 + 10^(3.9 - 1.81)) = 62 mg/L free would be wanted.
    flat = changed(STABLE[-2], id="ph", at=at("2026-11-21T18:30+01:00"), ph=3.9)
    found = planned(damson(*STABLE, flat), "2026-11-22T20:00+01:00", "stabilise")
    assert found.state == "held"
    assert "62 mg/L free" in found.reminder
    assert "add acid first" in found.reminder
    assert "For 50 mg/L: weigh" in found.reminder


def sulfited(**records: str) -> StepOutlook:
    tick = ticked("sulfite-must", "2026-10-01T18:00", **records)
    log = (*PITCHED[:2], tick, PITCHED[3], read("1.091", "2026-10-02T17:00"))
    return planned(damson(*log), "2026-10-02T18:30", "pitch")


def test_a_strong_dose_in_the_log_makes_the_yeast_wait_longer() -> None:
    # Above 75 mg/L the yeast waits 12 to 24 h more.
    assert sulfited().earliest == at("2026-10-02T18:00")
    assert sulfited(**{"mg-per-l": "50 mg/L"}).override == "free"
    strong = sulfited(**{"mg-per-l": "150"})
    assert strong.earliest == at("2026-10-03T06:00")
    assert "36 h since the sulfite" in waiting(strong)
    assert "150 mg/L is a strong dose" in strong.reason
    # 4 g of potassium metabisulfite bring 57.6 % of SO2: 2.3 g in 19 L are over 100 mg/L.
    assert sulfited(grams="4 g").earliest == at("2026-10-03T06:00")


@settings(max_examples=40, deadline=None)
@given(st.one_of(st.text(max_size=12), st.integers(0, 400).map(lambda dose: f"{dose} mg/L")))
def test_nothing_noted_of_the_sulfite_ever_makes_the_yeast_earlier_than_its_gate(text) -> None:
    # 24 h after the sulfite at the earliest, 36 h where more than 75 mg/L went in.
    found = sulfited(**{"mg-per-l": text})
    strong = text.endswith(" mg/L") and int(text.removesuffix(" mg/L")) > 75
    assert found.earliest is not None
    assert found.earliest >= at("2026-10-03T06:00" if strong else "2026-10-02T18:00")


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(["ph", "mg-per-l", "sulfite", "sorbate"]),
                       st.text("0123456789.,/ gmL-tabletsnone", max_size=9)))  # fmt: skip
def test_no_noted_words_open_a_gate_that_they_do_not_meet(written) -> None:
    # Without a pH from 2.6 to 3.8 and an amount of sulfite it takes a typed reason.
    found = planned(damson(*STABLE), "2026-11-22T20:00+01:00", "stabilise")
    records = tuple(Record(name=name, value=value) for name, value in written.items())
    if not needs_reason(found, records):
        ph = number_written(written["ph"])
        assert ph is not None
        assert 2.6 <= ph < 3.8
        assert any(written.get(name, "").strip() for name in ("mg-per-l", "sulfite"))


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("3.4", 3.4),
        ("pH 3,4", 3.4),
        ("about 3.4", 3.4),
        ("1/4 tsp", 0.25),
        ("half a teaspoon", 0.5),
        ("68 °F", 20.0),
        ("about 68 F", 20.0),
        ("2 weeks", 14.0),
        ("1 %", 10.0),
        ("-1", None),
        ("−1 g", None),
        ("3.9 or 3.4", None),
        ("3.3-3.4", None),
        ("1.2.3", None),
        ("1/0", None),
        ("plenty", None),
    ],
)
def test_a_number_among_words_counts_only_where_it_is_the_one_and_not_below_nothing(text, number):
    assert number_written(text) == (None if number is None else pytest.approx(number))


def test_pitching_asks_how_warm_the_must_is() -> None:
    # Pitched at 18 to 27 °C.
    log = (*PITCHED[:4], read("1.091", "2026-10-02T17:00", None))
    found = planned(damson(*log), "2026-10-02T18:30", "pitch")
    assert (found.state, found.override) == ("due", "reason")
    assert waiting(found) == ["must at 18–27 °C (not read)"]
    assert not needs_reason(found, (Record(name="temperature", value="68 °F"),))
    assert needs_reason(found, (Record(name="temperature", value="31"),))


def test_fining_asks_for_a_trial_and_what_the_fining_is_made_of() -> None:
    # Fined after a bench trial, allergen known.
    log = (*STABLE[:-2], ticked("degas", "2026-12-01T10:00+01:00"))
    found = planned(damson(*log), "2026-12-20T10:00+01:00", "fine")
    assert found.override == "reason"
    assert "allergens" in found.reminder
    trial = Record(name="trial", value="2 mL in 100 mL, clear by morning")
    assert needs_reason(found, (trial,))
    assert not needs_reason(found, (trial, Record(name="what", value="casein (milk)")))


def test_sweetening_asks_for_the_trial_in_the_glass() -> None:
    # Sweetened after a bench trial that is noted.
    base = damson()
    sweet = changed(base.recipe, style="sweet")
    done = stabilised("2026-11-22T10:00+01:00", sorbate="4 g")
    found = planned(damson(*STABLE, done, recipe=sweet), "2026-11-25T10:00+01:00", "sweeten")
    assert waiting(found) == ["a trial in the glass noted"]
    assert needs_reason(found, (Record(name="trial", value="none"),))
    assert not needs_reason(found, (Record(name="trial", value="20 g/L, all four of us"),))


def changed_at_the_end(**records: str) -> tuple[Action, ...]:
    return (
        stabilised("2026-11-22T10:00+01:00"),
        ticked("sweeten", "2026-11-24T10:00+01:00", **records),
    )


@pytest.mark.parametrize(
    "records", [{"acid": "17 g"}, {"blend": "2 L"}, {"grams": "0", "trial": "1 g/L of tartaric"}]
)
def test_acid_or_another_wine_rests_a_week_and_wants_no_sorbate(records) -> None:
    # A week of rest after acid or a blend; no sorbate for a wine that stays dry.
    log = (*changed_at_the_end(**records), read("0.993", "2026-11-24T11:00+01:00"))
    early = planned(damson(*STABLE, *log), "2026-11-28T10:00+01:00", "bottle")
    assert early.override == "never"
    assert "seven days since the change" in waiting(early)
    assert early.earliest == at("2026-12-01T10:00+01:00")
    rested = bottle(*log, read("0.993", "2026-12-01T11:00+01:00"))
    assert (rested.override, waiting(rested)) == ("free", [])


def test_sugar_or_a_rise_makes_it_a_sweet_wine_whatever_stands_beside_it() -> None:
    # Sugar that could ferment wants sorbate, even where it raises the gravity by little.
    for records, after in (({"grams": "40 g"}, "0.993"), ({}, "0.993"), ({"acid": "9 g"}, "0.999")):
        log = (
            *changed_at_the_end(**records),
            read(after, "2026-11-24T11:00+01:00"),
            read(after, "2026-12-01T11:00+01:00"),
        )
        found = bottle(*log)
        assert found.override == "never", records
        assert any(text.startswith("sorbate in") for text in waiting(found))


def test_acid_before_the_wine_is_stable_starts_its_fourteen_days_anew() -> None:
    # The clock of a stable wine starts again with any sugar, acid or blend.
    acid = ticked("sweeten", "2026-11-16T10:00+01:00", acid="17 g")
    found = planned(damson(*STABLE[:-2], acid, STABLE[-2]), "2026-11-21T19:00+01:00",
                    "declare-stable")  # fmt: skip
    assert any("three readings equal" in text for text in waiting(found))
    assert found.override == "reason"
